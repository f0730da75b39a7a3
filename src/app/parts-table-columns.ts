/**
 * Which of their columns is which of ours. Guessed from the heading by words that parts lists use, and always stated, so
 * that a wrong guess is seen before anything is recorded; a map from the person goes before every guess. A guess takes
 * whole headings only: "Nr" is an id, "Nr of bolts" is nothing.
 */
import { type Problem, problem } from '../domain/problem.ts';
import { APP_PROBLEMS } from './app-problems.ts';

export const PARTS_COLUMNS = ['id', 'name', 'hand', 'quantity', 'material', 'group', 'number', 'note'] as const;
export type PartsColumn = (typeof PARTS_COLUMNS)[number];
/** Our column to the name of theirs. `id` and `name` must be there; an empty text means: none, do not guess. */
export type ColumnMap = Partial<Record<PartsColumn, string>>;

export interface MappedColumn {
  readonly ours: PartsColumn;
  readonly theirs: string;
  /** From 0. */
  readonly at: number;
  readonly how: 'said' | 'guessed';
}

export interface Columns {
  readonly headers: readonly string[];
  readonly mapped: readonly MappedColumn[];
  /** Their columns that are not taken in. */
  readonly leftOut: readonly string[];
  /** Why the rows cannot be read with these columns. */
  readonly problem: Problem | null;
}

/** Small letters and digits only; the likeliest first. From our own experience of lists in four languages, no source. */
const WORDS: Readonly<Record<PartsColumn, readonly string[]>> = {
  id: ['id', 'line', 'nr', 'no', 'item', 'itemno', 'pos', 'position', 'posnr', 'lfdnr', 'ref', 'index'],
  name: ['name', 'benennung', 'bezeichnung', 'description', 'designation', 'partname', 'denominazione', 'part', 'teil'],
  hand: ['hand', 'side', 'seite', 'lr', 'cote', 'lato'],
  quantity: ['quantity', 'qty', 'stk', 'stuck', 'stuckzahl', 'anzahl', 'menge', 'pcs', 'pieces', 'quantite', 'qte'],
  material: ['material', 'werkstoff', 'matiere', 'materiale', 'mat'],
  group: ['group', 'gruppe', 'baugruppe', 'assembly', 'section', 'ensemble'],
  number: ['number', 'partnumber', 'partno', 'pn', 'teilenummer', 'teilenr', 'sachnummer', 'drawingno', 'zeichnungsnr'],
  note: ['note', 'notes', 'remark', 'remarks', 'bemerkung', 'bemerkungen', 'comment', 'comments', 'remarque'],
};

function plain(header: string): string {
  return header
    .normalize('NFD')
    .toLowerCase()
    .replace(/[^a-z0-9]/g, '');
}

export function findColumns(headers: readonly string[], said: ColumnMap): Columns {
  const mapped: MappedColumn[] = [];
  const faults: Problem[] = [];
  for (const ours of PARTS_COLUMNS) {
    const theirs = said[ours];
    if (theirs === undefined || theirs === '') continue;
    const at = headers.indexOf(theirs);
    if (at < 0) faults.push(columnProblem(`the file has no column "${theirs}"; it has ${list(headers)}`, theirs));
    else if (headers.includes(theirs, at + 1))
      faults.push(columnProblem(`the column "${theirs}" stands twice`, theirs));
    else mapped.push({ ours, theirs, at, how: 'said' });
  }
  const taken = new Set(mapped.map((m) => m.at));
  for (const ours of PARTS_COLUMNS) {
    if (said[ours] !== undefined) continue;
    const at = guess(ours, headers, taken);
    if (at === null) continue;
    taken.add(at);
    mapped.push({ ours, theirs: headers[at] ?? '', at, how: 'guessed' });
  }
  for (const need of ['id', 'name'] as const) {
    if (mapped.some((m) => m.ours === need) || faults.length > 0) continue;
    faults.push(columnProblem(`no column is named for "${need}"; the file has ${list(headers)}`, need));
  }
  const leftOut = headers.filter((h, i) => !taken.has(i) && h !== '');
  return { headers, mapped, leftOut, problem: faults[0] ?? null };
}

function guess(ours: PartsColumn, headers: readonly string[], taken: ReadonlySet<number>): number | null {
  for (const word of WORDS[ours]) {
    const hits = headers.flatMap((h, i) => (plain(h) === word && !taken.has(i) ? [i] : []));
    if (hits.length === 1) return hits[0] ?? null;
  }
  return null;
}

const list = (headers: readonly string[]): string => headers.filter((h) => h !== '').join(', ') || 'no heading at all';

function columnProblem(message: string, where: string): Problem {
  return problem('CSV_COLUMN', message, APP_PROBLEMS.CSV_COLUMN.remedy, where);
}
