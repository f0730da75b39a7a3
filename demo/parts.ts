/**
 * The parts list of the invented aircraft QX-OLA as data: lines, and the positions they stand for. INVENTED.
 *
 * A line is what the parts list says; a position is a place where such a part sits. `10-03` is its own only position;
 * `02-07` with six positions gives `02-07.1` ... `02-07.6`; `03-19` with none gives no position but a "nothing here"
 * mark. Pieces (the things in the hand) are the journal's business and are not made here.
 */
import type { Hand } from '../src/domain/rig/rig-types.ts';
import { PARTS_TABLE } from './parts-table.ts';

export const DECISIONS = [
  'repair',
  'clean-plate',
  'make',
  'use',
  'replace',
  'open',
  'grind-chrome',
  'pattern-only',
] as const;
export type DemoDecision = (typeof DECISIONS)[number];

export interface DemoAssembly {
  /** Two digits, as the part numbers begin. */
  readonly id: string;
  readonly name: string;
}

export interface DemoLine {
  readonly id: string;
  readonly name: string;
  readonly hand: Hand;
  readonly qty: number;
  readonly material: string;
  readonly asFound: string;
  readonly decision: DemoDecision;
  readonly bag: string;
  readonly note: string;
  readonly assembly: string;
}

const HAND_WORD: Readonly<Record<Hand, string>> = { L: ', port', R: ', starboard', C: '' };

function readLine(row: string, assembly: string): DemoLine {
  const [id = '', name = '', hand = '', qty = '', material = '', asFound = '', decision = '', bag = '', note = ''] = row
    .split('|')
    .map((cell) => cell.trim());
  const known = DECISIONS.find((d) => d === decision);
  if (!(hand === 'L' || hand === 'R' || hand === 'C') || known === undefined || !/^\d+$/.test(qty)) {
    throw new Error(`internal: the demo parts table has a row that cannot be read (${row}); report it`);
  }
  return { id, name, hand, qty: Number(qty), material, asFound, decision: known, bag, note, assembly };
}

function readTable(text: string): {
  readonly lines: readonly DemoLine[];
  readonly assemblies: readonly DemoAssembly[];
} {
  const lines: DemoLine[] = [];
  const assemblies: DemoAssembly[] = [];
  for (const row of text.split('\n')) {
    if (row.startsWith('# ')) assemblies.push({ id: row.slice(2, 4), name: row.slice(5) });
    else if (row !== '') lines.push(readLine(row, assemblies.at(-1)?.id ?? ''));
  }
  return { lines, assemblies };
}

const table = readTable(PARTS_TABLE);
export const LINES: readonly DemoLine[] = table.lines;
export const ASSEMBLIES: readonly DemoAssembly[] = table.assemblies;

const byId = new Map(LINES.map((line) => [line.id, line]));

export function line(id: string): DemoLine {
  const found = byId.get(id);
  if (found === undefined) throw new Error(`internal: no part line ${id} in the demo; report it`);
  return found;
}

/** The ids of a line's positions: none, the line's own id, or `id.1` ... `id.n`. */
export function positionsOf(l: DemoLine): readonly string[] {
  if (l.qty === 1) return [l.id];
  return Array.from({ length: l.qty }, (_, i) => `${l.id}.${i + 1}`);
}

export const POSITIONS: readonly string[] = LINES.flatMap(positionsOf);

/** The line of a position id (`02-07.3` belongs to `02-07`). */
export function lineOf(position: string): DemoLine {
  return line(position.split('.')[0] ?? position);
}

/** "Lug bolt M10 special, starboard, 3 of 6". */
export function positionName(position: string): string {
  const l = lineOf(position);
  const number = position.split('.')[1];
  return `${l.name}${HAND_WORD[l.hand]}${number === undefined ? '' : `, ${number} of ${l.qty}`}`;
}

/** Lines that stand for "looked, and nothing is fitted here". */
export const NOTHING_HERE: readonly string[] = LINES.filter((l) => l.qty === 0).map((l) => l.id);
