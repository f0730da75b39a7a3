/**
 * One row of somebody else's parts list, read without guessing: what is not understood is refused with its row, column
 * and reason, and everything else stays text: formulas, pages, dates are what they look like and nothing more. A CSV
 * becomes the same rows of text as a workbook.
 */
import Papa from 'papaparse';
import { type Problem, problem } from '../domain/problem.ts';
import { failed, ok, type Result } from '../domain/result.ts';
import type { Hand } from '../domain/rig/rig-types.ts';
import { APP_PROBLEMS } from './app-problems.ts';
import type { Columns, PartsColumn } from './parts-table-columns.ts';

export type Rows = readonly (readonly string[])[];

export interface ReadRow {
  readonly id: string;
  readonly name: string;
  /** Null: no column, or an empty cell. */
  readonly hand: Hand | null;
  readonly quantity: number | null;
  readonly material: string | null;
  readonly group: string | null;
  readonly number: string | null;
  readonly note: string | null;
}

export const MOST_QUANTITY = 10_000;
const LONGEST: Readonly<Record<PartsColumn, number>> = {
  id: 120,
  name: 2_000,
  hand: 40,
  quantity: 40,
  material: 2_000,
  group: 120,
  number: 400,
  note: 10_000,
};

/** `CSV_SHAPE`. A first line `sep=;` is heeded, as spreadsheet programs write it. */
export function csvRows(text: string): Result<Rows> {
  const plain = text.replace(/^\uFEFF/, '');
  const sep = /^sep=(.)\r?\n/i.exec(plain);
  const parsed = Papa.parse<string[]>(plain, { delimiter: sep?.[1] ?? separator(plain) });
  const fault = parsed.errors.find((e) => e.type !== 'Delimiter');
  if (fault !== undefined)
    return failed(
      problem('CSV_SHAPE', fault.message, APP_PROBLEMS.CSV_SHAPE.remedy, `row ${Math.max(1, (fault.row ?? 0) + 1)}`),
    );
  // The line that names the separator is no heading, but it is a row to the person who counts.
  return ok(sep === null ? parsed.data : [[], ...parsed.data.slice(1)]);
}

/** The mark that stands most often in the heading, quoted words apart. */
function separator(text: string): string {
  const heading = (/^.*\S.*$/m.exec(text)?.[0] ?? '').replace(/"[^"]*"/g, '');
  const counts = [';', '\t', ',', '|'].map((mark) => ({ mark, n: heading.split(mark).length }));
  return counts.reduce((a, b) => (b.n > a.n ? b : a)).mark;
}

export const isBlank = (row: readonly string[]): boolean => row.every((cell) => cell.trim() === '');

const HANDS: Readonly<Record<string, Hand>> = {
  l: 'L',
  port: 'L',
  left: 'L',
  links: 'L',
  r: 'R',
  starboard: 'R',
  right: 'R',
  rechts: 'R',
  c: 'C',
  centre: 'C',
  center: 'C',
  mitte: 'C',
};

/** `n` is the row as the person counts it, from 1, the heading included. */
export function readRow(row: readonly string[], columns: Columns, n: number): Result<ReadRow> {
  const places = new Map(columns.mapped.map((m) => [m.ours, m]));
  // A mark before = + - @ is how a spreadsheet (and our own export) says that the rest is no formula.
  const at = (c: PartsColumn): string => (row[places.get(c)?.at ?? -1] ?? '').trim().replace(/^'(?=[=+\-@])/, '');
  const bad = (message: string, c: PartsColumn | null) =>
    failed(rowProblem(n, c === null ? null : (places.get(c)?.theirs ?? c), message));
  const extra = row.slice(columns.headers.length).filter((cell) => cell.trim() !== '').length;
  if (extra > 0) return bad(`it has ${extra} cells more than the heading`, null);
  for (const { ours } of columns.mapped) {
    const text = at(ours);
    if (text.length > LONGEST[ours])
      return bad(`the text has ${text.length} letters; at most ${LONGEST[ours]} are taken`, ours);
    if (ours !== 'note' && ours !== 'name' && /[\p{Cc}\p{Cf}]/u.test(text))
      return bad('the text holds characters that are not shown (a line break, a mark of direction)', ours);
  }
  if (at('id') === '') return bad('the id is empty', 'id');
  if (at('name') === '') return bad(`"${at('id')}" has no name`, 'name');
  const quantity = readQuantity(at('quantity'));
  if (typeof quantity === 'string') return bad(quantity, 'quantity');
  const hand = at('hand') === '' ? null : HANDS[at('hand').toLowerCase()];
  if (hand === undefined) return bad(`"${at('hand')}" is no hand; L, R or C is wanted`, 'hand');
  const text = (c: PartsColumn): string | null => (at(c) === '' ? null : at(c));
  return ok({
    id: at('id'),
    name: at('name'),
    hand,
    quantity,
    material: text('material'),
    group: text('group'),
    number: text('number'),
    note: text('note'),
  });
}

/** A whole number, null for an empty cell, or why it is refused. `2,0` is two; `2,000` could be two or two thousand. */
export function readQuantity(text: string): number | null | string {
  if (text === '') return null;
  const [, whole = '', fraction] = /^(\d{1,9})(?:[.,](\d+))?$/.exec(text) ?? [];
  if (whole === '') return `"${text.slice(0, 40)}" is no number from 0 to ${MOST_QUANTITY}`;
  if (fraction?.length === 3)
    return `"${text}" can be read as ${whole} or as ${whole}${fraction}; write it without a mark`;
  if (fraction !== undefined && !/^0+$/.test(fraction)) return `"${text}" is not a whole number`;
  const n = Number(whole);
  return n <= MOST_QUANTITY ? n : `"${text}" is more than ${MOST_QUANTITY}`;
}

export function rowProblem(n: number, column: string | null, message: string): Problem {
  const where = column === null ? `row ${n}` : `row ${n}, ${column}`;
  return problem('CSV_ROW', message, APP_PROBLEMS.CSV_ROW.remedy, where);
}
