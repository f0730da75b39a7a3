import { spawnSync } from 'node:child_process';
import * as fs from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { must } from '../domain/result.ts';
import { draftEntry, type StoredEntry } from '../journal/entry.ts';
import { journalAcceptance } from '../journal/testing/journal-acceptance.ts';
import { countingClock, draftOf, stampAt } from '../journal/testing/recorder.ts';
import { acceptLoss, createJob, JOURNAL_FILE, MARK_FILE, openJob } from './job-folder.ts';
import { clockOf, isoWithOffset, nodeSha256Hex, systemIds } from './machine.ts';
import { noteJob, tempFolder } from './testing/temp.ts';

journalAcceptance('SQLite in a folder', () => {
  const folder = join(tempFolder(), 'a.job');
  const job = must(createJob(folder, { clock: countingClock(), pollMs: 0 }));
  return { journal: job.journal, close: () => job.close() };
});

describe('job folder', () => {
  it('opens again with everything, folded', async () => {
    const folder = join(tempFolder(), 'a.job');
    const job = await noteJob(folder, 5);
    job.close();
    const again = must(openJob(folder));
    expect(again.problems).toEqual([]);
    expect(again.readOnly).toBe(false);
    expect(again.state.notes.get('job')?.map((n) => n.text)).toEqual([
      'note 1',
      'note 2',
      'note 3',
      'note 4',
      'note 5',
    ]);
    again.close();
    expect(fs.readdirSync(folder).sort()).toEqual(['READ-ME-FIRST.txt', 'journal.db', 'journal.head', 'photos']);
  });

  it('update and delete are refused inside the file itself', async () => {
    const folder = join(tempFolder(), 'a.job');
    (await noteJob(folder, 2)).close();
    const db = new Database(join(folder, JOURNAL_FILE));
    expect(() => db.exec("UPDATE entry SET body = '{}' WHERE seq = 1")).toThrow('never changed');
    expect(() => db.exec('DELETE FROM entry')).toThrow('never deleted');
    db.close();
  });

  it('synchronous is FULL and the log is on', async () => {
    const folder = join(tempFolder(), 'a.job');
    (await noteJob(folder, 1)).close();
    const db = new Database(join(folder, JOURNAL_FILE), { readonly: true });
    expect(db.pragma('journal_mode', { simple: true })).toBe('wal');
    db.close();
  });

  it('the reading instructions work: digest and hash by the formula given there', async () => {
    const folder = join(tempFolder(), 'a.job');
    (await noteJob(folder, 3)).close();
    const db = new Database(join(folder, JOURNAL_FILE), { readonly: true });
    const rows = db.prepare('SELECT * FROM entry ORDER BY seq').all() as Record<string, string | number>[];
    db.close();
    let prev = '0'.repeat(64);
    for (const r of rows) {
      expect(nodeSha256Hex(String(r.body))).toBe(r.digest);
      const text = `{"digest":"${r.digest}","prev":"${prev}","recordedAt":"${r.recorded_at}","seq":${r.seq},"signature":null}`;
      expect(nodeSha256Hex(text)).toBe(r.hash);
      prev = String(r.hash);
    }
    expect(fs.readFileSync(join(folder, 'READ-ME-FIRST.txt'), 'utf8')).toContain(
      '{"digest":"…","prev":"…","recordedAt":"…","seq":N,"signature":null}',
    );
  });

  it('a folder that is no job is one Problem', () => {
    expect(openJob(tempFolder())).toMatchObject({ ok: false, problem: { code: 'JOB_NOT_FOUND' } });
  });

  it('never makes a job over something that is there', () => {
    const folder = tempFolder();
    fs.writeFileSync(join(folder, 'mine.txt'), 'x');
    expect(createJob(folder)).toMatchObject({ ok: false, problem: { code: 'JOB_EXISTS' } });
  });

  it('a file that is no database is one Problem', () => {
    const folder = tempFolder();
    fs.writeFileSync(join(folder, JOURNAL_FILE), 'this is no database, it is a text of some length\n'.repeat(40));
    expect(openJob(folder)).toMatchObject({ ok: false, problem: { code: 'JOURNAL_DAMAGED' } });
  });

  it('two programs that record by turns keep one chain, and sending again through the other does not double', async () => {
    const folder = join(tempFolder(), 'a.job');
    const one = must(createJob(folder, { pollMs: 0 }));
    const two = must(openJob(folder, { pollMs: 0 }));
    const draft = (n: number): ReturnType<typeof draftOf> => draftOf(n, 'note', { text: `n${n}` });
    for (const [job, n] of [
      [one, 1],
      [one, 2],
      [two, 3],
      [two, 4],
      [one, 5],
      [two, 5],
      [two, 2],
      [one, 6],
    ] as const) {
      must(await job.journal.append(null, [draft(n)]));
    }
    expect(await two.journal.append(5, [draft(7)])).toMatchObject({ ok: false, problem: { code: 'JOURNAL_MOVED' } });
    expect(must(await two.journal.append(6, [draft(7)]))[0]?.seq).toBe(7);
    expect(await one.journal.append(null, [draftOf(7, 'note', { text: 'other' })])).toMatchObject({
      problem: { code: 'ENTRY_ID_TAKEN' },
    });
    one.close();
    two.close();
    const again = must(openJob(folder));
    expect(again.problems).toEqual([]);
    expect(again.state.notes.get('job')?.map((n) => n.text)).toEqual(['n1', 'n2', 'n3', 'n4', 'n5', 'n6', 'n7']);
    again.close();
  });

  it('two programs record into one job; each hears of the other', async () => {
    const folder = join(tempFolder(), 'a.job');
    const one = must(createJob(folder, { pollMs: 20 }));
    const two = must(openJob(folder, { pollMs: 20 }));
    const heard: StoredEntry[] = [];
    const arrived = new Promise<void>((resolve) => {
      one.journal.follow((entries) => {
        heard.push(...entries);
        if (heard.length === 4) resolve();
      });
    });
    for (let n = 1; n <= 4; n += 1)
      must(await (n % 2 === 0 ? one : two).journal.append(null, [draftOf(n, 'note', { text: `n${n}` })]));
    await arrived;
    expect(heard.map((s) => s.seq)).toEqual([1, 2, 3, 4]);
    one.close();
    two.close();
    const again = must(openJob(folder));
    expect(again.problems).toEqual([]);
    again.close();
  });
});

describe('what does not hold at opening', () => {
  async function closedJob(entries: number): Promise<string> {
    const folder = join(tempFolder(), 'a.job');
    (await noteJob(folder, entries)).close();
    return folder;
  }

  it('a file format of a newer version opens read-only and says so', async () => {
    const folder = await closedJob(2);
    const db = new Database(join(folder, JOURNAL_FILE));
    db.pragma('user_version = 9');
    db.close();
    const job = must(openJob(folder));
    expect(job.readOnly).toBe(true);
    expect(job.problems.map((p) => p.code)).toEqual(['JOURNAL_NEWER']);
    expect(job.state.log).toHaveLength(2);
    expect(await job.journal.append(null, [draftOf(9, 'note', { text: 'x' })])).toMatchObject({
      ok: false,
      problem: { code: 'JOURNAL_READ_ONLY' },
    });
    job.close();
  });

  it('a newer version of a kind opens read-only; an unknown kind does not', async () => {
    const folder = join(tempFolder(), 'a.job');
    const job = await noteJob(folder, 1);
    must(await job.journal.append(null, [draftEntry(stampAt(50), 'weather-noted.v1', {})]));
    job.close();
    const open = must(openJob(folder));
    expect(open.readOnly).toBe(false);
    must(await open.journal.append(null, [draftEntry(stampAt(51), 'note.v9', {})]));
    open.close();
    const newer = must(openJob(folder));
    expect(newer.readOnly).toBe(true);
    expect(newer.problems[0]?.message).toContain('note.v9');
    newer.close();
  });

  it('[J5] a changed entry opens read-only, with what comes before it', async () => {
    const folder = await closedJob(6);
    const db = new Database(join(folder, JOURNAL_FILE));
    db.exec('DROP TRIGGER entry_is_never_changed');
    db.exec("UPDATE entry SET body = replace(body, 'note 4', 'note 9') WHERE seq = 4");
    db.close();
    const job = must(openJob(folder));
    expect(job.problems[0]).toMatchObject({ code: 'CHAIN_BROKEN' });
    expect(job.problems[0]?.message).toContain('entry 4');
    expect(job.readOnly).toBe(true);
    expect(job.state.log).toHaveLength(3);
    job.close();
  });

  it('[J5] an entry taken out of the middle or off the end is seen', async () => {
    for (const [seq, code] of [
      [3, 'CHAIN_BROKEN'],
      [6, 'TAIL_LOST'],
    ] as const) {
      const folder = await closedJob(6);
      const db = new Database(join(folder, JOURNAL_FILE));
      db.exec('DROP TRIGGER entry_is_never_deleted');
      db.exec(`DELETE FROM entry WHERE seq = ${seq}`);
      db.close();
      const job = must(openJob(folder));
      expect(job.problems.map((p) => p.code)).toEqual([code]);
      expect(job.readOnly).toBe(true);
      job.close();
    }
  });

  it('the end of another copy is seen', async () => {
    const folder = await closedJob(4);
    const other = join(tempFolder(), 'b.job');
    (await noteJob(other, 4, 100)).close();
    fs.copyFileSync(join(other, MARK_FILE), join(folder, MARK_FILE));
    const job = must(openJob(folder));
    expect(job.problems.map((p) => p.code)).toEqual(['HEAD_MARK_DIFFERS']);
    job.close();
  });

  it('a missing head mark is said once and written anew', async () => {
    const folder = await closedJob(3);
    fs.rmSync(join(folder, MARK_FILE));
    const job = must(openJob(folder));
    expect(job.problems.map((p) => p.code)).toEqual(['HEAD_MARK_MISSING']);
    expect(job.readOnly).toBe(false);
    job.close();
    const again = must(openJob(folder));
    expect(again.problems).toEqual([]);
    again.close();
  });

  it('after a loss one may carry on, with the loss in the record and the damaged files kept', async () => {
    const folder = await closedJob(5);
    const db = new Database(join(folder, JOURNAL_FILE));
    db.exec('DROP TRIGGER entry_is_never_deleted');
    db.exec('DELETE FROM entry WHERE seq > 3');
    db.close();
    const job = must(await acceptLoss(folder, stampAt(70)));
    expect(job.problems).toEqual([]);
    expect(job.readOnly).toBe(false);
    expect(job.state.losses).toMatchObject([{ from: 4, to: 5 }]);
    expect(job.state.head.seq).toBe(4);
    job.close();
    expect(fs.existsSync(join(folder, 'damaged-after-3', JOURNAL_FILE))).toBe(true);
    expect(await acceptLoss(folder, stampAt(80))).toMatchObject({ ok: false });
  });
});

describe('this machine', () => {
  it('hashes as the shared hasher does', () => {
    const answer = spawnSync('sha256sum', { input: 'Zwölf' });
    if (answer.status === 0) expect(answer.stdout.toString().slice(0, 64)).toBe(nodeSha256Hex('Zwölf'));
    expect(nodeSha256Hex('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
  });

  it('writes the same moment with its offset', () => {
    const date = new Date('2026-03-29T12:34:56.789Z');
    expect(isoWithOffset(date)).toMatch(
      /^2026-03-\d\dT\d\d:34:56\.789[+-]\d\d:\d\d$|^2026-03-\d\dT\d\d:\d\d:56\.789[+-]\d\d:\d\d$/,
    );
    expect(Date.parse(isoWithOffset(date))).toBe(date.getTime());
  });

  it('tells the time as a Date would, however it runs: on, back, over the hour, the year and a change of offset', () => {
    let at = 0;
    const clock = clockOf(() => at);
    const step = fc.oneof(fc.integer({ min: -70_000, max: 70_000 }), fc.integer({ min: -4e9, max: 4e9 }));
    const start = fc.integer({ min: Date.UTC(1995, 0, 1), max: Date.UTC(2060, 0, 1) });
    fc.assert(
      fc.property(start, fc.array(step, { maxLength: 60 }), (from, steps) => {
        at = from;
        for (const by of [0, ...steps]) {
          at += by;
          expect(clock.now()).toBe(isoWithOffset(new Date(at)));
        }
      }),
    );
    // Beginning and end of summer time in Europe (Directive 2000/84/EC: last Sundays of March and October, 1:00 UTC).
    for (const change of [Date.UTC(2026, 2, 29, 1), Date.UTC(2026, 9, 25, 1), Date.UTC(2027, 0, 1)]) {
      for (at = change - 120_000; at < change + 120_000; at += 997)
        expect(clock.now()).toBe(isoWithOffset(new Date(at)));
    }
  });

  it('ids come in order, also within one millisecond', () => {
    const ids = systemIds();
    const many = Array.from({ length: 2_000 }, () => ids.next());
    expect([...many].sort()).toEqual(many);
    expect(new Set(many).size).toBe(many.length);
  });
});
