/**
 * Taking in a pile of photographs, in two passes: look through all (content, time, what is there already, what each may
 * be of), then keep and record them one after another in order of the time as written, then of the name. The first pass
 * alone is the preview; it changes nothing. A picture that is refused does not stop the others, and a second import of
 * the same pile records nothing, since pictures are known by their content.
 *
 * Entries are appended in small batches, after their pictures are kept: a cut loses nothing that was said to be there.
 */
import type { Problem } from '../../domain/problem.ts';
import { failed, ok, type Result } from '../../domain/result.ts';
import { knowsSubject } from '../../journal/check-ids.ts';
import { decide } from '../../journal/decide.ts';
import type { EntryDraft, Stamp } from '../../journal/entry.ts';
import type { Photographs, PhotoInfo } from '../../journal/ports.ts';
import type { State } from '../../journal/state.ts';
import { subjectGuesser } from './guess-subject.ts';
import type { Pile, PileFile, PilePlan, PileRow, PileWord } from './pile-types.ts';
import { compareNames, takenTime, timeKey } from './taken-time.ts';

export type Progress = (done: number, of: number) => void;
export type Look = (bytes: Uint8Array) => Promise<Result<PhotoInfo>>;

export interface PileOptions {
  /** What all of them are of. Nothing is guessed then. */
  readonly of?: readonly string[];
  /** `none`: do not guess from names. */
  readonly guess?: 'names' | 'none';
  readonly onProgress?: Progress;
}

const ORDER = 'by the time as written, then by name; no time written comes last';
const BATCH = 40;

export async function lookThrough(
  pile: Pile,
  look: Look,
  state: State,
  options: PileOptions = {},
): Promise<{ readonly plan: PilePlan; readonly files: readonly PileFile[] }> {
  const guess = subjectGuesser(state);
  const subjectOf = (shown: string): { of: readonly string[]; because: string } => {
    if (options.of !== undefined) return { of: options.of, because: said(state, options.of) };
    return options.guess === 'none' ? { of: [], because: 'nothing was to be guessed' } : guess(shown);
  };
  const seen: { readonly file: PileFile; readonly row: PileRow }[] = [];
  for (const [n, file] of pile.files.entries()) {
    seen.push({ file, row: await lookAt(pile, file, look, subjectOf(file.shown)) });
    options.onProgress?.(n + 1, pile.files.length);
  }
  seen.sort((a, b) => compareRows(a.row, b.row));
  const rows = markRepeats(
    seen.map((s) => s.row),
    state,
  );
  return { plan: planOf(pile, rows), files: seen.map((s) => s.file) };
}

function said(state: State, of: readonly string[]): string {
  const unknown = of.filter((subject) => !knowsSubject(state, subject));
  return unknown.length === 0 ? 'you said so' : `you said so; ${unknown.join(', ')} is not recorded yet`;
}

async function lookAt(
  pile: Pile,
  file: PileFile,
  look: Look,
  subject: { of: readonly string[]; because: string },
): Promise<PileRow> {
  const got = file.refused === null ? await pile.read(file) : failed(file.refused);
  const photo = got.ok ? await look(got.value) : got;
  const base = { file: file.shown, notices: file.notices };
  if (!photo.ok) {
    const problem = { ...photo.problem, where: file.shown };
    return { ...base, what: 'refused', photo: null, taken: takenTime(undefined), of: [], ofBecause: '', problem };
  }
  const taken = takenTime(photo.value.takenAsWritten);
  return { ...base, what: 'new', photo: photo.value, taken, of: subject.of, ofBecause: subject.because, problem: null };
}

function compareRows(a: PileRow, b: PileRow): number {
  const [x, y] = [timeKey(a.taken), timeKey(b.taken)];
  if (x !== y) return x < y ? -1 : 1;
  return compareNames(a.file, b.file);
}

/** A picture that stands twice is recorded once, as of everything that either name speaks of. */
function markRepeats(rows: readonly PileRow[], state: State): PileRow[] {
  const marked = [...rows];
  const first = new Map<string, number>();
  for (const [i, row] of rows.entries()) {
    if (row.photo === null) continue;
    const { hash } = row.photo;
    const here = state.photosByHash.get(hash);
    const at = first.get(hash);
    const original = at === undefined ? undefined : marked[at];
    if (here !== undefined) {
      marked[i] = { ...row, what: 'here-already', of: here.of, ofBecause: 'as it is recorded; nothing is added' };
    } else if (at === undefined || original === undefined) {
      first.set(hash, i);
    } else {
      marked[i] = { ...row, what: 'same-as', of: [], ofBecause: '', sameAs: original.file };
      const more = row.of.filter((s) => !original.of.includes(s));
      if (more.length === 0) continue;
      const because = original.of.length === 0 ? row.ofBecause : `${original.ofBecause}; ${row.ofBecause}`;
      marked[at] = { ...original, of: [...original.of, ...more], ofBecause: because };
    }
  }
  return marked;
}

function planOf(pile: Pile, rows: readonly PileRow[]): PilePlan {
  const count = (what: PileWord): number => rows.filter((r) => r.what === what).length;
  return {
    pile: pile.name,
    rows,
    counts: {
      new: count('new'),
      'here-already': count('here-already'),
      'same-as': count('same-as'),
      refused: count('refused'),
    },
    zoneNotWritten: rows.filter((r) => r.what === 'new' && r.taken.zone === 'not-written').length,
    passedOver: pile.passedOver,
    order: ORDER,
  };
}

export interface PilePorts {
  readonly photographs: Photographs;
  readonly append: (drafts: readonly EntryDraft[]) => Promise<Result<unknown>>;
  readonly stamp: () => Stamp;
  readonly state: () => State;
}

/** The plan as it came out: what was refused on decoding is refused in it. A failing journal or disk ends the work. */
export async function takeInPile(
  pile: Pile,
  looked: { readonly plan: PilePlan; readonly files: readonly PileFile[] },
  ports: PilePorts,
  onProgress?: Progress,
): Promise<Result<PilePlan & { readonly recorded: number }>> {
  const rows: PileRow[] = [];
  let waiting: EntryDraft[] = [];
  let recorded = 0;
  const record = async (): Promise<Problem | null> => {
    if (waiting.length === 0) return null;
    const accepted = await ports.append(waiting);
    if (!accepted.ok) return accepted.problem;
    recorded += waiting.length;
    waiting = [];
    return null;
  };
  for (const [n, row] of looked.plan.rows.entries()) {
    const file = looked.files[n];
    const done = row.what === 'new' && file !== undefined ? await keepOne(pile, file, row, ports) : { row };
    if ('stop' in done) {
      await record();
      return failed(done.stop);
    }
    rows.push(done.row);
    if ('draft' in done) waiting.push(done.draft);
    const fault = waiting.length >= BATCH ? await record() : null;
    if (fault !== null) return failed(fault);
    onProgress?.(n + 1, looked.plan.rows.length);
  }
  const fault = await record();
  return fault === null ? ok({ ...planOf(pile, rows), recorded }) : failed(fault);
}

/** What is wrong with the disk or the journal, not with one picture. */
const STOPS: ReadonlySet<string> = new Set([
  'DISK_FULL',
  'DISK_TROUBLE',
  'JOURNAL_READ_ONLY',
  'JOURNAL_BUSY',
  'JOURNAL_NEWER',
]);

type Kept =
  | { readonly row: PileRow }
  | { readonly row: PileRow; readonly draft: EntryDraft }
  | { readonly stop: Problem };

async function keepOne(pile: Pile, file: PileFile, row: PileRow, ports: PilePorts): Promise<Kept> {
  const got = await pile.read(file);
  const kept = got.ok ? await ports.photographs.put(got.value) : got;
  if (!kept.ok) {
    if (STOPS.has(kept.problem.code)) return { stop: kept.problem };
    return { row: { ...row, what: 'refused', of: [], problem: { ...kept.problem, where: row.file } } };
  }
  const data = { ...kept.value, of: row.of };
  const drafts = decide(ports.state(), { kind: 'record', entry: 'photo-taken', data }, ports.stamp());
  if (!drafts.ok) return { stop: drafts.problem };
  const [draft] = drafts.value;
  return draft === undefined ? { row } : { row, draft };
}
