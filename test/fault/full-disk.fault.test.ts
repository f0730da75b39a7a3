/** A full disk: the entry is refused with a Problem, all earlier ones are whole, and with room again one goes on. */
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { must } from '../../src/domain/result.ts';
import { countingClock, draftOf } from '../../src/journal/testing/recorder.ts';
import { HeadMark } from '../../src/store/head-mark.ts';
import { createJob, JOURNAL_FILE, MARK_FILE, openJob } from '../../src/store/job-folder.ts';
import { openJournalFile } from '../../src/store/sqlite-file.ts';
import { SqliteJournal } from '../../src/store/sqlite-journal.ts';
import { verify } from '../../src/store/verify.ts';
import { fastFolder } from './fault-kit.ts';

describe('[J7] a full disk', () => {
  it.each([8, 13, 21])('with room for %i pages', async (pages) => {
    const folder = join(fastFolder(), 'a.job');
    must(createJob(folder)).close();
    const db = openJournalFile(join(folder, JOURNAL_FILE), false);
    // SQLite's own limit gives the same SQLITE_FULL as a disk without room.
    db.pragma(`max_page_count = ${pages}`);
    const mark = HeadMark.open(join(folder, MARK_FILE));
    const journal = new SqliteJournal(db, { clock: countingClock(), readOnly: false, mark, pollMs: 0 });
    let acknowledged = 0;
    let problem = '';
    for (let n = 1; n < 2_000 && problem === ''; n += 1) {
      const answer = await journal.append(null, [draftOf(n, 'note', { text: `entry ${n} ${'x'.repeat(300)}` })]);
      if (answer.ok) acknowledged += 1;
      else problem = answer.problem.code;
    }
    expect(problem).toBe('DISK_FULL');
    expect(acknowledged).toBeGreaterThan(0);
    const batch = await journal.append(
      null,
      Array.from({ length: 40 }, (_, i) => draftOf(5_000 + i, 'note', { text: 'y'.repeat(900) })),
    );
    expect(batch).toMatchObject({ ok: false, problem: { code: 'DISK_FULL' } });
    expect(must(verify(folder))).toMatchObject({ whole: true, entries: acknowledged });
    db.pragma('max_page_count = 100000');
    must(await journal.append(null, [draftOf(9_000, 'note', { text: 'room again' })]));
    journal.close();
    db.close();
    mark.close();
    const again = must(openJob(folder));
    expect(again.problems).toEqual([]);
    expect(again.state.head.seq).toBe(acknowledged + 1);
    again.close();
  });
});
