/**
 * `verify`: is the record whole? Answers with nothing but the folder: every digest, every link, the end against the head
 * mark, the database's own structure, every photograph. Changes nothing. Everything that does not hold is named; what a
 * reader should know though it holds (unsigned entries, kinds we do not know) is a note.
 */
import * as fs from 'node:fs';
import { join } from 'node:path';
import type { Problem } from '../domain/problem.ts';
import { failed, ok, type Result } from '../domain/result.ts';
import { canonicalText } from '../journal/digest.ts';
import type { Head } from '../journal/entry.ts';
import { fold } from '../journal/fold.ts';
import { journalProblem } from '../journal/journal-problems.ts';
import type { State } from '../journal/state.ts';
import { readMark } from './head-mark.ts';
import { JOURNAL_FILE, MARK_FILE, markProblem, PHOTOS_FOLDER, readJournal, SOUNDS_FOLDER } from './job-folder.ts';
import { hashBytes } from './machine.ts';
import { listOriginals } from './photo-folder.ts';
import { SOUND_NAME } from './sound-folder.ts';
import { type Db, formatOf, JOURNAL_FORMAT, openJournalFile, SCHEMA_OBJECTS } from './sqlite-file.ts';
import { diskProblem, storeProblem } from './store-problems.ts';

export interface VerifyReport {
  /** True: everything that was acknowledged is there and as it was recorded. */
  readonly whole: boolean;
  readonly entries: number;
  readonly head: Head;
  readonly problems: readonly Problem[];
  readonly notes: readonly string[];
  readonly photographs: PhotoReport;
  /** Voice notes, told in the same words. */
  readonly sounds: PhotoReport;
}

export interface PhotoReport {
  /** Named by entries that hold. */
  readonly named: number;
  readonly present: number;
  readonly missing: readonly string[];
  /** Their bytes are not those of their name. */
  readonly changed: readonly string[];
  /** In the folder and named by no entry. Kept. */
  readonly unnamed: number;
}

export function verify(folder: string): Result<VerifyReport> {
  const path = join(folder, JOURNAL_FILE);
  if (!fs.existsSync(path)) return failed(storeProblem('JOB_NOT_FOUND', `"${folder}" holds no job`));
  let db: Db | null = null;
  try {
    db = openJournalFile(path, true);
    return ok(report(db, folder));
  } catch (thrown) {
    // A file that is no database any more is a finding, not a refusal.
    const found = diskProblem(thrown, 'opening the journal');
    const photographs = verifyPhotographs(join(folder, PHOTOS_FOLDER), null);
    const sounds = verifySounds(join(folder, SOUNDS_FOLDER), null);
    return ok({
      whole: false,
      entries: 0,
      head: { seq: 0, hash: '' },
      problems: [found],
      notes: [],
      photographs,
      sounds,
    });
  } finally {
    db?.close();
  }
}

function report(db: Db, folder: string): VerifyReport {
  const read = readJournal(db);
  const state = fold(read.entries);
  const photographs = verifyPhotographs(join(folder, PHOTOS_FOLDER), state);
  const sounds = verifySounds(join(folder, SOUNDS_FOLDER), state);
  const mark = markProblem(join(folder, MARK_FILE), read);
  const problems = [
    ...(read.fault === null ? [] : [read.fault]),
    ...(mark === null ? [] : [mark]),
    ...structureProblems(db),
    ...photographs.missing.map((h) =>
      storeProblem('PHOTO_NOT_FOUND', `the photograph ${h} is named by an entry and is not in the folder`),
    ),
    ...photographs.changed.map((h) =>
      storeProblem('PHOTO_CUT', `the photograph ${h} was changed on disk`, 'Copy it back from a backup.'),
    ),
    ...sounds.missing.map((h) =>
      storeProblem('SOUND_NOT_FOUND', `the sound ${h} is named by an entry and is not in the folder`),
    ),
    ...sounds.changed.map((h) => storeProblem('SOUND_CHANGED', `the sound ${h} was changed on disk`)),
    ...newerProblems(db, state),
  ];
  return {
    whole: problems.length === 0,
    entries: read.entries.length,
    head: read.head,
    problems,
    notes: notesOf(db, folder, state),
    photographs,
    sounds,
  };
}

/** The database's own check, its triggers, and ids that are not those of their text. */
function structureProblems(db: Db): Problem[] {
  try {
    const problems: Problem[] = [];
    const own = db.pragma('integrity_check(3)') as { integrity_check: string }[];
    for (const row of own)
      if (row.integrity_check !== 'ok')
        problems.push(storeProblem('JOURNAL_DAMAGED', `the database says: ${row.integrity_check}`));
    const there = new Map(
      (db.prepare('SELECT name, sql FROM sqlite_master').all() as { name: string; sql: string | null }[]).map((r) => [
        r.name,
        r.sql,
      ]),
    );
    for (const [name, sql] of SCHEMA_OBJECTS) {
      if (there.get(name) !== sql)
        problems.push(storeProblem('JOURNAL_DAMAGED', `"${name}" in the journal file is not as it was made`));
    }
    const strange = db.prepare("SELECT seq FROM entry WHERE json_extract(body, '$.id') IS NOT id LIMIT 1").get() as
      | { seq: number }
      | undefined;
    if (strange !== undefined)
      problems.push(
        storeProblem('JOURNAL_DAMAGED', `entry ${strange.seq} is listed under an id that its text does not have`),
      );
    return problems;
  } catch (thrown) {
    return [diskProblem(thrown, 'checking the journal file')];
  }
}

function newerProblems(db: Db, state: State): Problem[] {
  const format = formatOf(db);
  const said =
    format > JOURNAL_FORMAT
      ? `its format is ${format}`
      : state.newer[0] === undefined
        ? null
        : `entry ${state.newer[0].seq} is ${state.newer[0].kind}`;
  return said === null ? [] : [journalProblem('JOURNAL_NEWER', `the journal was written by a newer version: ${said}`)];
}

function notesOf(db: Db, folder: string, state: State): readonly string[] {
  const notes: string[] = [];
  const count = (n: number, text: string): void => {
    if (n > 0) notes.push(`${n} ${text}`);
  };
  count(state.log.length, 'entries are unsigned: names were picked, not proved');
  count(state.unknown.length, 'entries are of kinds that this version does not know; they are kept');
  count(state.unreadable.length, 'entries do not fit their kind; they are kept');
  count(state.withdrawn.size, 'entries were taken back or corrected by later ones; they are kept');
  count(state.losses.length, 'times it was decided to carry on after a loss');
  count(notCanonical(db), 'entries are not in RFC 8785 form; their digests are those of their bytes');
  const { unreadable, head } = readMark(join(folder, MARK_FILE));
  if (head !== null && unreadable > 0)
    notes.push('one of the two slots of journal.head cannot be read; the other one was used');
  return notes;
}

function notCanonical(db: Db): number {
  let n = 0;
  try {
    for (const row of db.prepare('SELECT body FROM entry').iterate() as Iterable<{ body: string }>) {
      if (canonicalText(JSON.parse(row.body)) !== row.body) n += 1;
    }
  } catch {
    // What cannot be read is a Problem of its own already.
  }
  return n;
}

function verifyPhotographs(root: string, state: State | null): PhotoReport {
  return compare(new Set(state === null ? [] : state.photosByHash.keys()), listOriginals(root));
}

function verifySounds(root: string, state: State | null): PhotoReport {
  const named = state === null ? [] : [...state.sounds.values()].flatMap((kept) => kept.map((s) => s.hash));
  return compare(new Set(named), listOriginals(root, SOUND_NAME));
}

function compare(named: ReadonlySet<string>, originals: ReturnType<typeof listOriginals>): PhotoReport {
  const there = new Set(originals.map((o) => o.hash));
  return {
    named: named.size,
    present: originals.length,
    missing: [...named].filter((h) => !there.has(h)).sort(),
    changed: originals.filter((o) => hashBytes(fs.readFileSync(o.path)) !== o.hash).map((o) => o.hash),
    unnamed: originals.filter((o) => !named.has(o.hash)).length,
  };
}
