import { spawnSync } from 'node:child_process';
import * as fs from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { must } from '../domain/result.ts';
import { draftOf } from '../journal/testing/recorder.ts';
import { backup, checkBackup, restore } from './backup.ts';
import { openJob } from './job-folder.ts';
import { noteJob, picture, tempFolder } from './testing/temp.ts';
import { verify } from './verify.ts';

async function jobWithPhoto(): Promise<{ top: string; folder: string }> {
  const top = tempFolder();
  const folder = join(top, 'a.job');
  const job = await noteJob(folder, 6);
  const info = must(await job.photographs.put(await picture(300, 200)));
  must(await job.journal.append(null, [draftOf(40, 'photo-taken', { ...info, of: ['leg-r'] })]));
  job.close();
  return { top, folder };
}

describe('backup and restore', () => {
  it('gives back the same job, verified', async () => {
    const { top, folder } = await jobWithPhoto();
    const made = must(await backup(folder, join(top, 'a.tar')));
    expect(made).toMatchObject({ entries: 7, photographs: 1 });
    const report = must(await restore(join(top, 'a.tar'), join(top, 'b.job')));
    expect(report).toMatchObject({ whole: true, entries: 7 });
    const [a, b] = [must(openJob(folder)), must(openJob(join(top, 'b.job')))];
    expect(must(await b.journal.read(1))).toEqual(must(await a.journal.read(1)));
    expect(b.problems).toEqual([]);
    a.close();
    b.close();
    expect(fs.readdirSync(top).sort()).toEqual(['a.job', 'a.tar', 'b.job']);
  });

  it('is one consistent moment while the job is open', async () => {
    const top = tempFolder();
    const job = await noteJob(join(top, 'a.job'), 20);
    const made = must(await backup(join(top, 'a.job'), join(top, 'a.tar')));
    must(await job.journal.append(null, [draftOf(60, 'note', { text: 'after' })]));
    job.close();
    expect(made.entries).toBe(20);
    expect(must(await restore(join(top, 'a.tar'), join(top, 'b.job')))).toMatchObject({ whole: true, entries: 20 });
  });

  // The tar of this machine (GNU tar here; POSIX pax/ustar interchange format) reads what we write.
  it('is opened by the tar of the machine', async () => {
    const { top, folder } = await jobWithPhoto();
    must(await backup(folder, join(top, 'a.tar')));
    const listed = spawnSync('tar', ['-tf', join(top, 'a.tar')]);
    expect(listed.stderr.toString()).toBe('');
    const names = listed.stdout.toString().trim().split('\n');
    expect(names.slice(0, 3)).toEqual(['READ-ME-FIRST.txt', 'journal.db', 'journal.head']);
    expect(names.at(-1)).toBe('LIST.json');
    fs.mkdirSync(join(top, 'by-hand'));
    expect(spawnSync('tar', ['-xf', join(top, 'a.tar'), '-C', join(top, 'by-hand')]).status).toBe(0);
    expect(must(verify(join(top, 'by-hand'))).whole).toBe(true);
  });

  it('never writes over a file or a job that is there', async () => {
    const { top, folder } = await jobWithPhoto();
    must(await backup(folder, join(top, 'a.tar')));
    expect(await backup(folder, join(top, 'a.tar'))).toMatchObject({ ok: false, problem: { code: 'BACKUP_EXISTS' } });
    expect(await restore(join(top, 'a.tar'), folder)).toMatchObject({ ok: false, problem: { code: 'JOB_EXISTS' } });
  });

  it('a backup that was cut anywhere or changed anywhere is seen', async () => {
    const { top, folder } = await jobWithPhoto();
    must(await backup(folder, join(top, 'a.tar')));
    const whole = fs.readFileSync(join(top, 'a.tar'));
    const bad = join(top, 'bad.tar');
    for (let cut = 0; cut < whole.length - 1_024; cut += 3_001) {
      fs.writeFileSync(bad, whole.subarray(0, cut));
      expect(checkBackup(bad), `cut at ${cut}`).toMatchObject({ ok: false });
    }
    const padding = (at: number): boolean => at >= whole.length - 1_024;
    for (let at = 7; at < whole.length; at += 2_503) {
      const changed = Buffer.from(whole);
      changed[at] = (changed[at] ?? 0) ^ 0x5a;
      fs.writeFileSync(bad, changed);
      const seen: Buffer[] = [];
      const checked = checkBackup(bad, (_name, bytes) => seen.push(bytes));
      if (checked.ok && !padding(at)) {
        const originals: Buffer[] = [];
        must(checkBackup(join(top, 'a.tar'), (_name, bytes) => originals.push(bytes)));
        expect(seen, `changed at ${at}`).toEqual(originals);
      }
    }
  });

  it('a job that is not whole is not backed up over a good backup', async () => {
    const { top, folder } = await jobWithPhoto();
    fs.rmSync(join(folder, 'journal.head'));
    expect(await backup(folder, join(top, 'a.tar'))).toMatchObject({
      ok: false,
      problem: { code: 'BACKUP_NOT_WHOLE' },
    });
    expect(fs.existsSync(join(top, 'a.tar'))).toBe(false);
  });
});
