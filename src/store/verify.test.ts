import * as fs from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { must } from '../domain/result.ts';
import { draftEntry } from '../journal/entry.ts';
import { draftOf, stampAt } from '../journal/testing/recorder.ts';
import { JOURNAL_FILE, MARK_FILE } from './job-folder.ts';
import { listOriginals } from './photo-folder.ts';
import { noteJob, picture, tempFolder } from './testing/temp.ts';
import { verify } from './verify.ts';

/** A job with five notes, an unknown kind and one photograph, closed. */
async function photoJob(): Promise<string> {
  const folder = join(tempFolder(), 'a.job');
  const job = await noteJob(folder, 5);
  const info = must(await job.photographs.put(await picture(80, 60)));
  must(await job.journal.append(null, [draftOf(30, 'photo-taken', { ...info, of: ['leg-r'] })]));
  must(await job.journal.append(null, [draftEntry(stampAt(31), 'weather-noted.v1', { text: 'frost' })]));
  job.close();
  return folder;
}

describe('verify', () => {
  it('a whole job is whole, and what a reader should know is noted', async () => {
    const folder = await photoJob();
    const before = fs.readFileSync(join(folder, JOURNAL_FILE));
    const report = must(verify(folder));
    expect(report).toMatchObject({
      whole: true,
      entries: 7,
      problems: [],
      photographs: { named: 1, present: 1, missing: [], changed: [], unnamed: 0 },
    });
    expect(report.notes.join('\n')).toMatch(
      /7 entries are unsigned[\s\S]*1 entries are of kinds that this version does not know/,
    );
    expect(fs.readFileSync(join(folder, JOURNAL_FILE))).toEqual(before);
  });

  it('works while the job is open and being written', async () => {
    const folder = join(tempFolder(), 'a.job');
    const job = await noteJob(folder, 3);
    expect(must(verify(folder))).toMatchObject({ whole: true, entries: 3 });
    must(await job.journal.append(null, [draftOf(40, 'note', { text: 'later' })]));
    expect(must(verify(folder))).toMatchObject({ whole: true, entries: 4 });
    job.close();
  });

  it('names a photograph that is missing, changed, or named by nobody', async () => {
    const folder = await photoJob();
    const [photo] = listOriginals(join(folder, 'photos'));
    if (photo === undefined) throw new Error('a photograph');
    fs.appendFileSync(photo.path, 'x');
    expect(must(verify(folder))).toMatchObject({ whole: false, photographs: { changed: [photo.hash] } });
    fs.renameSync(photo.path, photo.path.replace(photo.hash, `${photo.hash.slice(0, 60)}0000`));
    const report = must(verify(folder));
    expect(report.photographs).toMatchObject({ missing: [photo.hash], unnamed: 1 });
    expect(report.problems.map((p) => p.code)).toContain('PHOTO_NOT_FOUND');
  });

  it('sees a trigger that was taken out, and an id column that was changed', async () => {
    const folder = await photoJob();
    const db = new Database(join(folder, JOURNAL_FILE));
    db.exec('DROP TRIGGER entry_is_never_changed');
    db.exec("UPDATE entry SET id = 'elsewhere' WHERE seq = 2");
    db.close();
    const messages = must(verify(folder)).problems.map((p) => p.message);
    expect(messages).toEqual([expect.stringContaining('entry_is_never_changed'), expect.stringContaining('entry 2')]);
  });

  it('a body that is not in RFC 8785 form is noted, and its digest is still that of its bytes', async () => {
    const folder = join(tempFolder(), 'a.job');
    const job = await noteJob(folder, 1);
    const { body } = draftOf(20, 'note', { text: 'spaced' });
    const spaced = body.replace('{', '{ ');
    const { nodeSha256Hex } = await import('./machine.ts');
    must(
      await job.journal.append(null, [
        { ...draftOf(20, 'note', { text: 'spaced' }), body: spaced, digest: nodeSha256Hex(spaced) },
      ]),
    );
    job.close();
    const report = must(verify(folder));
    expect(report.whole).toBe(true);
    expect(report.notes).toContain('1 entries are not in RFC 8785 form; their digests are those of their bytes');
  });

  it('says when one slot of the head mark cannot be read, and when both cannot', async () => {
    const folder = await photoJob();
    const mark = fs.readFileSync(join(folder, MARK_FILE));
    mark[3] = 0x78;
    fs.writeFileSync(join(folder, MARK_FILE), mark);
    expect(must(verify(folder))).toMatchObject({
      whole: true,
      notes: expect.arrayContaining([expect.stringContaining('two slots')]),
    });
    fs.writeFileSync(join(folder, MARK_FILE), 'gone');
    expect(must(verify(folder)).problems.map((p) => p.code)).toEqual(['HEAD_MARK_MISSING']);
  });

  it('no job is one Problem; a file that is no database is a finding', () => {
    const folder = tempFolder();
    expect(verify(folder)).toMatchObject({ ok: false, problem: { code: 'JOB_NOT_FOUND' } });
    fs.writeFileSync(join(folder, JOURNAL_FILE), 'x'.repeat(5000));
    expect(must(verify(folder))).toMatchObject({ whole: false, problems: [{ code: 'JOURNAL_DAMAGED' }] });
  });
});
