/**
 * The journal against the database it is built on: appends one by one with the same pragmas (WAL, synchronous=FULL), and
 * opening a job of 100,000 entries with every digest, every link and the fold. Rival of the append: the same table in bare
 * better-sqlite3, the same bytes, without hashing, clock or head mark; both in turns of a hundred. Drafts come made and
 * checked, as the journal gets them from whoever makes or receives them; the note says what it is with copies of them, which
 * the journal does not take at their word: then digest and text are checked within the append too.
 */
import * as fs from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { makeUlid } from '../src/domain/ids.ts';
import { must } from '../src/domain/result.ts';
import { accept, draftEntry, EMPTY_HEAD, type EntryDraft, readStored, type StoredEntry } from '../src/journal/entry.ts';
import { fold } from '../src/journal/fold.ts';
import { createJob, openJob } from '../src/store/job-folder.ts';
import { nodeSha256Hex } from '../src/store/machine.ts';
import { SCHEMA_OBJECTS, setPragmas } from '../src/store/sqlite-file.ts';
import { SqliteJournal } from '../src/store/sqlite-journal.ts';
import type { BenchRow } from './bench-row.ts';

const AT = '2026-01-05T08:00:00+01:00';

/** What a strip day records: mostly steps and as-found details, some pictures, notes and readings, few withdrawals. */
export function strippingDrafts(count: number): EntryDraft[] {
  const drafts: EntryDraft[] = [];
  const parts = Array.from({ length: 800 }, (_, i) => ({ id: `p${i}` }));
  const attachments = Array.from({ length: 1_600 }, (_, i) => ({
    id: `j${i}`,
    joins: [`p${i % 800}`, 'airframe'],
    minutes: 5,
  }));
  const add = (kind: string, data: unknown): void => {
    const n = drafts.length;
    const chance = new Uint8Array(10);
    new DataView(chance.buffer).setUint32(6, n);
    drafts.push(
      draftEntry({ id: makeUlid(1_700_000_000_000 + n, chance), at: AT, by: 'ana', device: 'tablet' }, kind, data),
    );
  };
  add('job-opened.v1', { job: 'bench', name: 'Bench' });
  add('person-noted.v1', { person: 'ana', name: 'Ana', role: 'lead' });
  add('rig-taken-in.v1', { rig: { root: 'airframe', parts, attachments }, standing: 'ours' });
  for (let i = 0; drafts.length < count; i += 1) {
    const joint = `j${i % 1_600}`;
    add('step-done.v2', { action: joint, planned: true, minutes: 5 });
    add('joint-noted.v1', {
      subject: joint,
      aspects: { 'head-direction': { is: 'value', text: 'up' }, shims: { is: 'none' }, thread: { is: 'not-looked' } },
    });
    add('photo-taken.v1', {
      hash: nodeSha256Hex(`photo ${i}`),
      mime: 'image/jpeg',
      bytes: 3_200_000,
      width: 4_032,
      height: 3_024,
      of: [joint],
    });
    add('reading-noted.v1', { subject: joint, aspect: 'length', text: '3/8 in', si: { value: 0.009525, unit: 'm' } });
    add('note.v1', { subject: joint, text: `found a smear of green paint under the washer of ${joint}` });
    add('step-refitted.v1', { action: joint, stage: 'final' });
  }
  return drafts.slice(0, count);
}

function inTemp<T>(run: (folder: string) => T): T {
  const folder = fs.mkdtempSync(join(tmpdir(), 'witnessmark-bench-'));
  try {
    return run(folder);
  } finally {
    fs.rmSync(folder, { recursive: true, force: true });
  }
}

/** Appends to a fresh job of ours, one transaction each; each call takes the next `count`. */
function ourAppends(
  folder: string,
  drafts: readonly EntryDraft[],
  as: 'made' | 'copied',
): { next: (count: number) => void; close: () => void } {
  const job = must(createJob(join(folder, `${as}.job`), { pollMs: 0 }));
  const journal = job.journal;
  if (!(journal instanceof SqliteJournal)) throw new Error('internal: the bench wants the journal on disk; report it');
  let at = 0;
  const next = (count: number): void => {
    for (const end = at + count; at < end; at += 1) {
      const draft = drafts[at] as EntryDraft;
      must(journal.appendNow(null, [as === 'made' ? draft : { ...draft }]));
    }
  };
  return { next, close: () => job.close() };
}

function bareAppends(
  folder: string,
  stored: readonly StoredEntry[],
  ids: readonly string[],
): { next: (count: number) => void; close: () => void } {
  const db = new Database(join(folder, 'bare.db'));
  setPragmas(db);
  for (const sql of SCHEMA_OBJECTS.values()) db.exec(sql);
  const insert = db.prepare(
    'INSERT INTO entry (id, seq, recorded_at, body, digest, signature, prev, hash) VALUES (?, ?, ?, ?, ?, ?, ?, ?)',
  );
  let at = 0;
  const next = (count: number): void => {
    for (const end = at + count; at < end; at += 1) {
      const s = stored[at] as StoredEntry;
      insert.run(ids[at], s.seq, s.recordedAt, s.body, s.digest, s.signature, s.prev, s.hash);
    }
  };
  return { next, close: () => db.close() };
}

function msOf(run: () => void): number {
  const start = performance.now();
  run();
  return performance.now() - start;
}

function acceptAll(drafts: readonly EntryDraft[]): StoredEntry[] {
  let head = EMPTY_HEAD;
  return drafts.map((d) => {
    const stored = accept(d, head, AT, nodeSha256Hex);
    head = { seq: stored.seq, hash: stored.hash };
    return stored;
  });
}

const BLOCK = 100;

/** Both grow side by side, a hundred appends each in turn, so that whatever the disk does it does to both. */
function besideBare(blocks: number, as: 'made' | 'copied'): { readonly ourMs: number; readonly bareMs: number } {
  const drafts = strippingDrafts((blocks + 5) * BLOCK);
  const stored = acceptAll(drafts);
  return inTemp((folder) => {
    const our = ourAppends(folder, drafts, as);
    const bare = bareAppends(
      folder,
      stored,
      drafts.map((d) => d.id),
    );
    for (let i = 0; i < 5; i += 1) {
      bare.next(BLOCK);
      our.next(BLOCK);
    }
    let [ourMs, bareMs] = [0, 0];
    for (let i = 0; i < blocks; i += 1) {
      if (i % 2 === 0) bareMs += msOf(() => bare.next(BLOCK));
      ourMs += msOf(() => our.next(BLOCK));
      if (i % 2 === 1) bareMs += msOf(() => bare.next(BLOCK));
    }
    our.close();
    bare.close();
    return { ourMs, bareMs };
  });
}

function appendRow(blocks: number): BenchRow {
  const { ourMs, bareMs } = besideBare(blocks, 'made');
  const strict = besideBare(blocks, 'copied');
  const rate = (ms: number): number => (blocks * BLOCK * 1_000) / ms;
  const ratio = bareMs / ourMs;
  return {
    id: 'journal-append',
    what: `${blocks * BLOCK} appends, one transaction each, synchronous=FULL`,
    ours: rate(ourMs),
    rival: rate(bareMs),
    rivalName: 'bare better-sqlite3',
    unit: '1/s',
    ratio,
    goal: 'at least 80 % of the bare database',
    met: ratio >= 0.8,
    note: `ours also reads the clock, chains the hash and writes the head mark; the digest was checked when the draft was made, before this; with the digest and the text checked in the append as well: ${(strict.bareMs / strict.ourMs).toFixed(2)}x; a disk that falls asleep between two syncs makes more of that pause than it is`,
  };
}

function openRows(count: number, rounds: number): BenchRow[] {
  const drafts = strippingDrafts(count);
  return inTemp((top) => {
    const folder = join(top, 'a.job');
    const job = must(createJob(folder, { pollMs: 0 }));
    if (!(job.journal instanceof SqliteJournal))
      throw new Error('internal: the bench wants the journal on disk; report it');
    const stored = must(job.journal.appendNow(null, drafts));
    job.close();
    const entries = stored.map((s) => must(readStored(s)));
    let [open, folding, one] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
    for (let round = 0; round < rounds; round += 1) {
      let start = performance.now();
      const opened = must(openJob(folder, { pollMs: 0 }));
      open = Math.min(open, performance.now() - start);
      if (opened.problems.length > 0 || opened.state.log.length !== count)
        throw new Error('internal: the bench job is not whole; report it');
      opened.close();
      start = performance.now();
      const before = fold(entries.slice(0, -1));
      folding = Math.min(folding, performance.now() - start);
      start = performance.now();
      fold(entries.slice(-1), before);
      one = Math.min(one, performance.now() - start);
    }
    const row = (id: string, what: string, ours: number, more: Partial<BenchRow>): BenchRow => ({
      id,
      what,
      ours,
      rival: null,
      rivalName: null,
      unit: 'ms',
      ratio: null,
      ...more,
    });
    return [
      row('journal-open', `open ${count} entries: every digest, every link, fold`, open, {
        goal: 'at most 1,500 ms for 100,000',
        met: open <= (1_500 * count) / 100_000,
      }),
      row('journal-fold', `fold ${count} entries already parsed`, folding, {}),
      row('journal-fold-one', `fold one more entry onto ${count}`, one, {}),
    ];
  });
}

export async function benchJournal(opts: { readonly quick: boolean }): Promise<BenchRow[]> {
  return [appendRow(opts.quick ? 10 : 80), ...openRows(opts.quick ? 20_000 : 100_000, 3)];
}
