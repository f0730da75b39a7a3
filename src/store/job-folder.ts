/**
 * A job as a folder (docs/adr/0003). Opening reads every entry, checks its digest and its place in the chain, compares
 * the end with the head mark, and folds. Whatever does not hold is a Problem in `problems`, and the job is then open for
 * reading only: nothing on disk is touched, and what can be read is shown. Only a folder that is no job at all does not open.
 *
 * Looked at first through a read-only connection: a writing one would tidy a damaged log away when it closes.
 */
import * as fs from 'node:fs';
import { dirname, join } from 'node:path';
import type { Problem } from '../domain/problem.ts';
import { failed, ok, type Result } from '../domain/result.ts';
import type { Hasher } from '../journal/digest.ts';
import { draftEntry, EMPTY_HEAD, type Entry, type Head, linkFault, readStored, type Stamp } from '../journal/entry.ts';
import { fold } from '../journal/fold.ts';
import { journalProblem } from '../journal/journal-problems.ts';
import type { Clock, Journal, Photographs, Sounds } from '../journal/ports.ts';
import type { State } from '../journal/state.ts';
import { REAL_DISK, syncFolder, writeWhole } from './disk.ts';
import { HeadMark, readMark } from './head-mark.ts';
import { nodeSha256Hex, SYSTEM_CLOCK } from './machine.ts';
import { PhotoFolder } from './photo-folder.ts';
import { READ_ME } from './read-me.ts';
import { SoundFolder } from './sound-folder.ts';
import { createJournalFile, type Db, formatOf, JOURNAL_FORMAT, openJournalFile } from './sqlite-file.ts';
import { isRow, ROW_COLUMNS, SqliteJournal, storedOf } from './sqlite-journal.ts';
import { diskProblem, storeProblem } from './store-problems.ts';

export const JOURNAL_FILE = 'journal.db';
export const MARK_FILE = 'journal.head';
export const PHOTOS_FOLDER = 'photos';
export const SOUNDS_FOLDER = 'sounds';
export const READ_ME_FILE = 'READ-ME-FIRST.txt';

export interface JobFolder {
  readonly folder: string;
  readonly journal: Journal;
  readonly photographs: Photographs;
  readonly sounds: Sounds;
  /** Folded at opening. Keep it current by `journal.follow` and `fold`. */
  readonly state: State;
  readonly readOnly: boolean;
  /** What did not hold at opening, worst first. Empty: everything held. */
  readonly problems: readonly Problem[];
  close(): void;
}

export interface OpenOptions {
  readonly clock?: Clock;
  readonly readOnly?: boolean;
  readonly pollMs?: number;
}

export function isJobFolder(folder: string): boolean {
  return fs.existsSync(join(folder, JOURNAL_FILE));
}

/** Makes an empty job. Its first entry (`job-opened`) is recorded by the caller. */
export function createJob(folder: string, options: OpenOptions = {}): Result<JobFolder> {
  if (fs.existsSync(folder) && fs.readdirSync(folder).length > 0) {
    return failed(storeProblem('JOB_EXISTS', `"${folder}" is not empty`));
  }
  try {
    fs.mkdirSync(join(folder, PHOTOS_FOLDER), { recursive: true });
    createJournalFile(join(folder, JOURNAL_FILE)).close();
    HeadMark.create(join(folder, MARK_FILE)).close();
    writeWhole(REAL_DISK, join(folder, READ_ME_FILE), Buffer.from(READ_ME, 'utf8'));
    syncFolder(REAL_DISK, dirname(folder));
  } catch (thrown) {
    return failed(diskProblem(thrown, 'making the job'));
  }
  return openJob(folder, options);
}

export interface ReadJournal {
  readonly entries: readonly Entry[];
  readonly head: Head;
  /** Null: every link holds. Otherwise the first that does not; `entries` end before it. */
  readonly fault: Problem | null;
}

/** Reads and checks every entry. Rows are taken in order of `seq`, so a missing one is seen. */
export function readJournal(db: Db, hasher: Hasher = nodeSha256Hex): ReadJournal {
  const entries: Entry[] = [];
  let head: Head = EMPTY_HEAD;
  try {
    for (const row of db.prepare(`SELECT ${ROW_COLUMNS} FROM entry ORDER BY seq`).raw().iterate() as Iterable<
      unknown[]
    >) {
      if (!isRow(row))
        return { entries, head, fault: journalProblem('CHAIN_BROKEN', `entry ${head.seq + 1} cannot be read`) };
      const stored = storedOf(row);
      const fault = linkFault(stored, head, hasher);
      if (fault !== null) return { entries, head, fault: journalProblem('CHAIN_BROKEN', fault) };
      const entry = readStored(stored);
      if (!entry.ok)
        return { entries, head, fault: { ...entry.problem, message: `entry ${stored.seq}: ${entry.problem.message}` } };
      entries.push(entry.value);
      head = { seq: stored.seq, hash: stored.hash };
    }
  } catch (thrown) {
    return { entries, head, fault: diskProblem(thrown, `reading after entry ${head.seq}`) };
  }
  return { entries, head, fault: null };
}

/** What the head mark says against what was read. */
export function markProblem(markPath: string, read: ReadJournal): Problem | null {
  const mark = readMark(markPath);
  if (mark.head === null) {
    return journalProblem(
      'HEAD_MARK_MISSING',
      `journal.head is missing or unreadable; the journal ends with entry ${read.head.seq}, and nothing says whether more was acknowledged`,
    );
  }
  if (mark.head.seq > read.head.seq && read.fault === null) {
    return journalProblem(
      'TAIL_LOST',
      `entries ${read.head.seq + 1} to ${mark.head.seq} were acknowledged and are not in the journal`,
    );
  }
  const there = mark.head.seq === 0 ? EMPTY_HEAD.hash : read.entries[mark.head.seq - 1]?.hash;
  if (there !== undefined && there !== mark.head.hash) {
    return storeProblem(
      'HEAD_MARK_DIFFERS',
      `entry ${mark.head.seq} in the journal is not the one that was acknowledged`,
    );
  }
  return null;
}

export function openJob(folder: string, options: OpenOptions = {}): Result<JobFolder> {
  const path = join(folder, JOURNAL_FILE);
  if (!fs.existsSync(path)) return failed(storeProblem('JOB_NOT_FOUND', `"${folder}" holds no job`));
  let db: Db;
  try {
    db = openJournalFile(path, true);
  } catch (thrown) {
    return failed(diskProblem(thrown, 'opening the journal'));
  }
  try {
    return openOn(db, folder, options);
  } catch (thrown) {
    db.close();
    return failed(diskProblem(thrown, 'opening the journal'));
  }
}

function openOn(peek: Db, folder: string, options: OpenOptions): Result<JobFolder> {
  const format = formatOf(peek);
  const read = readJournal(peek);
  const state = fold(read.entries);
  const newer =
    format > JOURNAL_FORMAT ? `its format is ${format}, this version knows ${JOURNAL_FORMAT}` : newerKind(state);
  const mark = markProblem(join(folder, MARK_FILE), read);
  const problems = [
    ...(read.fault === null ? [] : [read.fault]),
    ...(mark === null ? [] : [mark]),
    ...(newer === null
      ? []
      : [journalProblem('JOURNAL_NEWER', `the journal was written by a newer version: ${newer}`)]),
  ];
  // A missing mark is reported, and written anew; everything else keeps the folder as it is.
  const stops = problems.some((p) => p.code !== 'HEAD_MARK_MISSING');
  const readOnly = options.readOnly === true || stops;
  return ok(
    readOnly
      ? forReading(peek, folder, state, problems, read, options)
      : forWriting(peek, folder, state, problems, read, options),
  );
}

function newerKind(state: State): string | null {
  const first = state.newer[0];
  return first === undefined ? null : `entry ${first.seq} is of the kind ${first.kind}`;
}

function forReading(
  db: Db,
  folder: string,
  state: State,
  problems: readonly Problem[],
  read: ReadJournal,
  options: OpenOptions,
): JobFolder {
  const journal = new SqliteJournal(db, {
    clock: options.clock ?? SYSTEM_CLOCK,
    readOnly: true,
    mark: null,
    ...(read.fault !== null && { head: read.head }),
    ...pollOf(options),
  });
  const close = (): void => {
    journal.close();
    db.close();
  };
  return {
    folder,
    journal,
    photographs: photosOf(folder, true),
    sounds: soundsOf(folder, true),
    state,
    readOnly: true,
    problems,
    close,
  };
}

function forWriting(
  peek: Db,
  folder: string,
  state: State,
  problems: readonly Problem[],
  read: ReadJournal,
  options: OpenOptions,
): JobFolder {
  const db = openJournalFile(join(folder, JOURNAL_FILE), false);
  peek.close();
  const markPath = join(folder, MARK_FILE);
  const mark = problems.length > 0 ? HeadMark.create(markPath, read.head) : HeadMark.open(markPath);
  const journal = new SqliteJournal(db, {
    clock: options.clock ?? SYSTEM_CLOCK,
    readOnly: false,
    mark,
    ...pollOf(options),
  });
  const close = (): void => {
    journal.close();
    db.close();
    mark.close();
  };
  return {
    folder,
    journal,
    photographs: photosOf(folder, false),
    sounds: soundsOf(folder, false),
    state,
    readOnly: false,
    problems,
    close,
  };
}

function pollOf(options: OpenOptions): { pollMs?: number } {
  return options.pollMs === undefined ? {} : { pollMs: options.pollMs };
}

function soundsOf(folder: string, readOnly: boolean): SoundFolder {
  return new SoundFolder(join(folder, SOUNDS_FOLDER), { readOnly });
}

function photosOf(folder: string, readOnly: boolean): PhotoFolder {
  return new PhotoFolder(join(folder, PHOTOS_FOLDER), { readOnly });
}

/**
 * Carries on after acknowledged entries were lost: the damaged files are copied aside, the journal goes on from where it
 * ends, and an entry says what is gone. Only for a lost tail; a broken chain wants the backup.
 */
export async function acceptLoss(folder: string, stamp: Stamp, options: OpenOptions = {}): Promise<Result<JobFolder>> {
  const found = openJob(folder, { ...options, readOnly: true });
  if (!found.ok) return found;
  const lost = found.value.problems;
  const head = found.value.state.head;
  found.value.close();
  if (lost.length !== 1 || lost[0]?.code !== 'TAIL_LOST') {
    return failed(
      lost[0] ??
        journalProblem(
          'NOTHING_TO_UNDO',
          'nothing was lost; the journal ends where it should',
          'Open the job as usual.',
        ),
    );
  }
  const mark = readMark(join(folder, MARK_FILE)).head ?? EMPTY_HEAD;
  try {
    copyAside(folder, head.seq);
    HeadMark.create(join(folder, MARK_FILE), head).close();
  } catch (thrown) {
    return failed(diskProblem(thrown, 'copying the damaged files aside'));
  }
  const job = openJob(folder, options);
  if (!job.ok) return job;
  const draft = draftEntry(stamp, 'loss-accepted.v1', { from: head.seq + 1, to: mark.seq, hash: mark.hash });
  const told = await job.value.journal.append(null, [draft]);
  job.value.close();
  return told.ok ? openJob(folder, options) : told;
}

function copyAside(folder: string, seq: number): void {
  let aside = join(folder, `damaged-after-${seq}`);
  for (let n = 2; fs.existsSync(aside); n += 1) aside = join(folder, `damaged-after-${seq}-${n}`);
  fs.mkdirSync(aside);
  for (const name of [JOURNAL_FILE, `${JOURNAL_FILE}-wal`, MARK_FILE]) {
    if (fs.existsSync(join(folder, name))) fs.copyFileSync(join(folder, name), join(aside, name));
  }
  syncFolder(REAL_DISK, folder);
}
