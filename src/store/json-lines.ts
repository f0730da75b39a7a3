/**
 * The journal as JSON Lines: a heading, then one line per entry with its exact body as a string, so that every byte that
 * was hashed is in it. For reading without SQLite, for moving between machines, and for merging two copies.
 *
 * Import: where the file continues the journal (same chain so far), entries are taken in as they are. Where both went on
 * separately, entries that are not there yet are accepted anew at the end, with their bodies and digests unchanged. Importing
 * twice adds nothing.
 */
import * as fs from 'node:fs';
import { failed, ok, type Result } from '../domain/result.ts';
import { EMPTY_HEAD, type Entry, isHash, readDraft, type StoredEntry } from '../journal/entry.ts';
import { readChain } from '../journal/sync.ts';
import { type Disk, REAL_DISK, writeWhole } from './disk.ts';
import { createJob, isJobFolder, type JobFolder, openJob } from './job-folder.ts';
import { nodeSha256Hex } from './machine.ts';
import { SqliteJournal } from './sqlite-journal.ts';
import { diskProblem, storeProblem } from './store-problems.ts';

const HEADING = '{"format":"witnessmark-journal/1"}';

export function toJsonLines(stored: readonly StoredEntry[]): string {
  return `${[HEADING, ...stored.map((s) => JSON.stringify(s))].join('\n')}\n`;
}

/** Reads and checks every line and every link; nothing is taken in from a file that does not hold. */
export function fromJsonLines(
  text: string,
): Result<{ readonly stored: readonly StoredEntry[]; readonly entries: readonly Entry[] }> {
  const lines = text.split('\n').filter((l) => l.trim() !== '');
  if (lines[0] !== HEADING) {
    return failed(
      storeProblem('EXPORT_UNREADABLE', 'the first line does not say witnessmark-journal/1', undefined, 'line 1'),
    );
  }
  const stored: StoredEntry[] = [];
  for (const [i, line] of lines.slice(1).entries()) {
    const read = readLine(line);
    if (read === null)
      return failed(storeProblem('EXPORT_UNREADABLE', 'the line is not an entry', undefined, `line ${i + 2}`));
    stored.push(read);
  }
  const entries = readChain(stored, EMPTY_HEAD, nodeSha256Hex);
  return entries.ok ? ok({ stored, entries: entries.value }) : entries;
}

function readLine(line: string): StoredEntry | null {
  try {
    const r = JSON.parse(line) as Record<string, unknown>;
    const { seq, recordedAt, body, digest, signature, prev, hash } = r;
    if (!Number.isSafeInteger(seq) || typeof recordedAt !== 'string' || typeof body !== 'string') return null;
    if (typeof digest !== 'string' || typeof prev !== 'string' || typeof hash !== 'string' || !isHash(hash))
      return null;
    if (signature !== null && typeof signature !== 'string') return null;
    return { seq: seq as number, recordedAt, body, digest, signature, prev, hash };
  } catch {
    return null;
  }
}

export async function exportJsonLines(
  folder: string,
  file: string,
  disk: Disk = REAL_DISK,
): Promise<Result<{ readonly entries: number }>> {
  const job = openJob(folder, { readOnly: true });
  if (!job.ok) return job;
  try {
    const read = await job.value.journal.read(1);
    if (!read.ok) return read;
    writeWhole(disk, file, Buffer.from(toJsonLines(read.value), 'utf8'));
    return ok({ entries: read.value.length });
  } catch (thrown) {
    return failed(diskProblem(thrown, 'writing the export'));
  } finally {
    job.value.close();
  }
}

export interface ImportReport {
  readonly added: number;
  readonly already: number;
  /** False: both had gone on separately, and the new ones were accepted anew at the end. */
  readonly sameChain: boolean;
}

export async function importJsonLines(file: string, folder: string): Promise<Result<ImportReport>> {
  let text: string;
  try {
    text = fs.readFileSync(file, 'utf8');
  } catch (thrown) {
    return failed(diskProblem(thrown, 'reading the export'));
  }
  const read = fromJsonLines(text);
  if (!read.ok) return read;
  const job = isJobFolder(folder) ? openJob(folder) : createJob(folder);
  if (!job.ok) return job;
  try {
    const fault = job.value.problems[0];
    if (job.value.readOnly && fault !== undefined) return failed(fault);
    return await takeIn(job.value, read.value.stored, read.value.entries);
  } finally {
    job.value.close();
  }
}

async function takeIn(
  job: JobFolder,
  stored: readonly StoredEntry[],
  entries: readonly Entry[],
): Promise<Result<ImportReport>> {
  const present = await job.journal.read(1);
  if (!present.ok) return present;
  const common = Math.min(present.value.length, stored.length);
  const sameChain = common === 0 || present.value[common - 1]?.hash === stored[common - 1]?.hash;
  if (sameChain && job.journal instanceof SqliteJournal) {
    const fresh = stored.slice(common);
    const taken = job.journal.adoptNow(
      fresh,
      entries.slice(common).map((e) => e.id),
    );
    return taken.ok ? ok({ added: taken.value, already: common, sameChain }) : taken;
  }
  const drafts = [];
  for (const s of stored) {
    const draft = readDraft(s.body, s.digest, nodeSha256Hex);
    if (!draft.ok) return draft;
    drafts.push(draft.value);
  }
  const appended = await job.journal.append(null, drafts);
  if (!appended.ok) return appended;
  const added = appended.value.filter((s) => s.seq > present.value.length).length;
  return ok({ added, already: stored.length - added, sameChain });
}
