/** For fault tests: how much to run, a chance that can be repeated, a fast temporary folder, a job as a crash leaves it. */
import * as fs from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { must } from '../../src/domain/result.ts';
import type { StoredEntry } from '../../src/journal/entry.ts';
import { countingClock, draftOf } from '../../src/journal/testing/recorder.ts';
import { createJob, JOURNAL_FILE, MARK_FILE, openJob } from '../../src/store/job-folder.ts';

/** `WITNESSMARK_FAULT=all`: everything; otherwise a sample of it. */
export const ALL = process.env.WITNESSMARK_FAULT === 'all';

/** Memory where the system offers it: these tests open a job thousands of times and ask nothing of a real disk. */
export function fastFolder(): string {
  const place = fs.existsSync('/dev/shm') ? '/dev/shm' : tmpdir();
  const folder = fs.mkdtempSync(join(place, 'witnessmark-fault-'));
  onTestFinished(() => fs.rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** Numbers from 0 up to `below`, the same for the same seed (Lehmer, 2^31 - 1, 48271). */
export function chance(seed: number): (below: number) => number {
  let x = (seed % 2147483646) + 1;
  return (below) => {
    x = (x * 48271) % 2147483647;
    return x % below;
  };
}

export const JOB_FILES = [JOURNAL_FILE, `${JOURNAL_FILE}-wal`, MARK_FILE] as const;
export type JobFile = (typeof JOB_FILES)[number];
export type Snapshot = ReadonlyMap<string, Buffer>;

export interface LeftJob {
  readonly files: Snapshot;
  readonly entries: readonly StoredEntry[];
}

/**
 * A job of many entries as its files lie there: `closed` (the log is folded into the database) or `crashed` (copied while
 * open: the last entries are in the log alone, all of them acknowledged).
 */
export async function leftJob(how: 'closed' | 'crashed', count: number): Promise<LeftJob> {
  const folder = join(fastFolder(), 'a.job');
  const early = must(createJob(folder, { clock: countingClock(), pollMs: 0 }));
  const note = (n: number): ReturnType<typeof draftOf> =>
    draftOf(n, 'note', { text: `entry ${n}: ${'x'.repeat(n % 90)}` });
  for (let n = 1; n <= count / 2; n += 1) must(await early.journal.append(null, [note(n)]));
  early.close();
  const job = must(openJob(folder, { clock: countingClock(), pollMs: 0 }));
  for (let n = Math.floor(count / 2) + 1; n <= count; n += 1) must(await job.journal.append(null, [note(n)]));
  const entries = must(await job.journal.read(1));
  if (how === 'closed') job.close();
  const files = new Map<string, Buffer>();
  for (const name of JOB_FILES)
    if (fs.existsSync(join(folder, name))) files.set(name, fs.readFileSync(join(folder, name)));
  if (how === 'crashed') job.close();
  return { files, entries };
}

/** Puts the files down, without the shared-memory file, as after a crash or a copy. */
export function layDown(folder: string, files: Snapshot): void {
  fs.mkdirSync(join(folder, 'photos'), { recursive: true });
  for (const name of [...JOB_FILES, `${JOURNAL_FILE}-shm`]) fs.rmSync(join(folder, name), { force: true });
  for (const [name, bytes] of files) fs.writeFileSync(join(folder, name), bytes);
}

/** What can be read, or null when the job does not open at all. `writable`: one could go on recording. */
export async function readBack(
  folder: string,
): Promise<{ readonly entries: readonly StoredEntry[]; readonly writable: boolean } | null> {
  const job = openJob(folder, { pollMs: 0 });
  if (!job.ok) return null;
  try {
    const read = await job.value.journal.read(1);
    return { entries: read.ok ? read.value : [], writable: !job.value.readOnly };
  } finally {
    job.value.close();
  }
}

export function same(a: readonly StoredEntry[], b: readonly StoredEntry[]): boolean {
  return a.length === b.length && a.every((s, i) => JSON.stringify(s) === JSON.stringify(b[i]));
}
