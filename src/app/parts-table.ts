/**
 * A parts list as a table: out as CSV, in from a CSV of somebody else's making with a map from our columns to theirs.
 * A row becomes one line and as many positions as its quantity says; nothing is guessed: a quantity that is no whole
 * number is a Problem with its row. Not chosen: finding the columns by their names, which is right until it is not.
 */
import Papa from 'papaparse';
import { type Problem, problem } from '../domain/problem.ts';
import { failed, ok, type Result } from '../domain/result.ts';
import type { State } from '../journal/state.ts';

export const PARTS_COLUMNS = ['id', 'name', 'hand', 'quantity', 'material', 'group', 'number', 'note'] as const;
export type PartsColumn = (typeof PARTS_COLUMNS)[number];
/** Our column to the name of theirs. `id` and `name` must be there. */
export type ColumnMap = Partial<Record<PartsColumn, string>>;

export interface NewEntry {
  readonly kind: string;
  readonly data: Readonly<Record<string, unknown>>;
}

export interface PartsImport {
  readonly entries: readonly NewEntry[];
  readonly lines: number;
  readonly positions: number;
}

const REMEDIES = {
  CSV_SHAPE: 'Check that it is a CSV file with a first line of column names.',
  CSV_COLUMN: 'Name columns as `--map id=Nr --map name=Benennung`; `id` and `name` must be there.',
  CSV_ROW: 'Mend the row and import again; nothing of the file has been recorded.',
};

export function readPartsTable(text: string, map: ColumnMap): Result<PartsImport> {
  const parsed = Papa.parse<Record<string, string>>(text.replace(/^\uFEFF/, ''), {
    header: true,
    skipEmptyLines: 'greedy',
  });
  const fault = parsed.errors.find((e) => e.type !== 'Delimiter');
  if (fault)
    return failed(
      problem(
        'CSV_SHAPE',
        fault.message,
        REMEDIES.CSV_SHAPE,
        rowPlace((fault.row ?? 0) - (fault.type === 'Quotes' ? 1 : 0)),
      ),
    );
  const columns = parsed.meta.fields ?? [];
  const full: ColumnMap = {
    ...Object.fromEntries(PARTS_COLUMNS.filter((c) => columns.includes(c)).map((c) => [c, c])),
    ...map,
  };
  const missing = missingColumn(full, columns);
  if (missing) return failed(missing);
  const entries: NewEntry[] = [];
  const seen = new Map<string, number>();
  let positions = 0;
  for (const [i, row] of parsed.data.entries()) {
    const read = readRow(row, full, i, seen);
    if (!read.ok) return read;
    entries.push(...read.value);
    positions += read.value.length - 1;
  }
  return ok({ entries, lines: parsed.data.length, positions });
}

function missingColumn(map: ColumnMap, columns: readonly string[]): Problem | null {
  for (const need of ['id', 'name'] as const) {
    if (map[need] === undefined)
      return problem(
        'CSV_COLUMN',
        `no column is named for "${need}"; the file has ${columns.join(', ')}`,
        REMEDIES.CSV_COLUMN,
        need,
      );
  }
  const unknown = Object.values(map).find((theirs) => !columns.includes(theirs));
  if (unknown === undefined) return null;
  return problem(
    'CSV_COLUMN',
    `the file has no column "${unknown}"; it has ${columns.join(', ')}`,
    REMEDIES.CSV_COLUMN,
    unknown,
  );
}

function rowPlace(i: number): string {
  return `row ${i + 2}`;
}

const HANDS: Readonly<Record<string, 'L' | 'R' | 'C'>> = {
  l: 'L',
  port: 'L',
  left: 'L',
  r: 'R',
  starboard: 'R',
  right: 'R',
  c: 'C',
  centre: 'C',
  center: 'C',
};

function readRow(
  row: Readonly<Record<string, string>>,
  map: ColumnMap,
  i: number,
  seen: Map<string, number>,
): Result<NewEntry[]> {
  const at = (c: PartsColumn): string => (map[c] === undefined ? '' : (row[map[c]] ?? '').trim());
  const bad = (message: string, c: PartsColumn) =>
    failed(problem('CSV_ROW', message, REMEDIES.CSV_ROW, `${rowPlace(i)}, ${map[c] ?? c}`));
  const line = at('id');
  if (line === '') return bad('the id is empty', 'id');
  const earlier = seen.get(line);
  if (earlier !== undefined) return bad(`"${line}" stands already in ${rowPlace(earlier)}`, 'id');
  seen.set(line, i);
  if (at('name') === '') return bad(`"${line}" has no name`, 'name');
  const quantity = at('quantity') === '' ? 1 : Number(at('quantity'));
  if (!Number.isSafeInteger(quantity) || quantity < 0 || quantity > 10_000)
    return bad(`"${at('quantity')}" is no whole number from 0 to 10,000`, 'quantity');
  const hand = HANDS[at('hand').toLowerCase()];
  if (at('hand') !== '' && hand === undefined) return bad(`"${at('hand')}" is no hand; L, R or C is wanted`, 'hand');
  const optional = (['material', 'group', 'number', 'note'] as const)
    .filter((c) => at(c) !== '')
    .map((c) => [c, at(c)]);
  const whole = { line, name: at('name'), quantity, source: 'imported table', ...Object.fromEntries(optional) };
  const sits = Array.from({ length: quantity }, (_, n) => ({
    position: quantity === 1 ? line : `${line}.${n + 1}`,
    line,
    ...(hand && { hand }),
  }));
  return ok([{ kind: 'part-line-noted', data: whole }, ...sits.map((data) => ({ kind: 'position-noted', data }))]);
}

/** Lines with what has become of their positions. */
export function partsTable(state: State): string {
  const positions = [...state.positions.values()];
  const byLine = groupByLine(positions);
  const rows = [...state.lines.values()].map((l) => {
    const sits = byLine.get(l.line) ?? [];
    const off = sits.filter((p) => isOff(state, p.rig ?? p.position)).length;
    return [
      l.line,
      l.name,
      sits[0]?.hand ?? '',
      String(l.quantity ?? sits.length),
      l.material ?? '',
      l.group ?? '',
      l.number ?? '',
      l.note ?? '',
      String(off),
    ];
  });
  return Papa.unparse({ fields: [...PARTS_COLUMNS, 'off'], data: rows }, { newline: '\n', escapeFormulae: true });
}

function groupByLine<T extends { readonly line?: string }>(items: readonly T[]): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const item of items)
    (groups.get(item.line ?? '') ?? groups.set(item.line ?? '', []).get(item.line ?? '')!).push(item);
  return groups;
}

/** A position is off the aircraft when it, or an assembly that holds it, has been lifted. */
function isOff(state: State, part: string): boolean {
  for (let at: string | undefined = part; at !== undefined; at = state.rigParts.get(at)?.within) {
    if (state.done.has(`remove:${at}`)) return true;
  }
  return false;
}

/** Every step in recorded order, as a table. */
export function stepsTable(state: State): string {
  const rows = state.steps.map((s) => [
    String(s.said.seq),
    s.said.at,
    state.people.get(s.said.by)?.name ?? s.said.by,
    s.what,
    s.action,
    s.stage ?? '',
    s.trial ? 'trial' : '',
    s.forced ? 'forced' : '',
    s.undone ? 'taken back' : '',
    s.note ?? '',
  ]);
  const fields = ['seq', 'at', 'by', 'what', 'action', 'stage', 'trial', 'forced', 'record', 'note'];
  return Papa.unparse({ fields, data: rows }, { newline: '\n', escapeFormulae: true });
}
