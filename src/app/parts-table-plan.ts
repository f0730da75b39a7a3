/**
 * What a parts list would do to a job: per row new, changed (before and after), unchanged or refused (why). The plan is
 * the preview and is what gets recorded, so both cannot differ, and a second import of the same list finds nothing to do.
 *
 *   an empty cell says nothing: what is recorded stays         fewer than recorded: no position is taken away, it is said
 *   a new line of n becomes n positions, named `line.1` …      refused rows: nothing of the file is recorded, unless the
 *                                                              person chose to leave those out
 */
import type { Problem } from '../domain/problem.ts';
import { failed, ok, type Result } from '../domain/result.ts';
import { decide } from '../journal/decide.ts';
import type { EntryDraft, Stamp } from '../journal/entry.ts';
import type { KindName } from '../journal/kinds/kinds.ts';
import type { State } from '../journal/state.ts';
import { overlay } from '../journal/sync.ts';
import { type ColumnMap, type Columns, findColumns } from './parts-table-columns.ts';
import { isBlank, type ReadRow, type Rows, readRow, rowProblem } from './parts-table-rows.ts';

export interface NewEntry {
  readonly kind: KindName;
  readonly data: Readonly<Record<string, unknown>>;
}

export const ROW_WORDS = ['new', 'changed', 'unchanged', 'refused'] as const;
export type RowWord = (typeof ROW_WORDS)[number];

export interface RowChange {
  readonly what: string;
  readonly before: string;
  readonly after: string;
}

export interface PartsRow {
  /** As the person counts it, the heading included. */
  readonly row: number;
  readonly what: RowWord;
  readonly id: string;
  readonly name: string;
  readonly changes: readonly RowChange[];
  readonly positionsAdded: readonly string[];
  /** What is worth knowing and stops nothing. */
  readonly notes: readonly string[];
  readonly problem: Problem | null;
}

export interface PartsPlan {
  readonly columns: Columns;
  readonly rows: readonly PartsRow[];
  readonly counts: Readonly<Record<RowWord, number>>;
  readonly positions: number;
  readonly entries: readonly NewEntry[];
}

type Line = NonNullable<ReturnType<State['lines']['get']>>;
type Position = NonNullable<ReturnType<State['positions']['get']>>;

const TEXTS = ['material', 'group', 'number', 'note'] as const;

/** The first row that is not blank is the heading. */
export function planParts(state: State, rows: Rows, map: ColumnMap = {}): PartsPlan {
  const head = rows.findIndex((row) => !isBlank(row));
  const columns = findColumns(
    (rows[head] ?? []).map((h) => h.trim().slice(0, 200)),
    map,
  );
  const planner = new Planner(state, columns);
  if (columns.problem === null) {
    for (let i = head + 1; i < rows.length; i += 1) {
      const row = rows[i] ?? [];
      if (!isBlank(row)) planner.take(row, i + 1);
    }
  }
  return planner.plan();
}

class Planner {
  private readonly rows: PartsRow[] = [];
  private readonly entries: NewEntry[] = [];
  private readonly seen = new Map<string, number>();
  /** Positions that earlier rows of the file take. */
  private readonly given = new Map<string, number>();
  private readonly byLine = new Map<string, Position[]>();
  private positions = 0;

  constructor(
    private readonly state: State,
    private readonly columns: Columns,
  ) {
    for (const p of state.positions.values()) {
      if (p.line === undefined) continue;
      const list = this.byLine.get(p.line);
      if (list === undefined) this.byLine.set(p.line, [p]);
      else list.push(p);
    }
  }

  take(cells: readonly string[], n: number): void {
    const read = readRow(cells, this.columns, n);
    const fault = read.ok ? this.rowFault(read.value, n) : read.problem;
    if (fault !== null || !read.ok) this.refuse(n, cells, fault);
    else this.note(read.value, n);
  }

  /** What is wrong between this row and earlier ones or what is recorded. */
  private rowFault(row: ReadRow, n: number): Problem | null {
    const idColumn = this.columns.mapped.find((m) => m.ours === 'id')?.theirs ?? 'id';
    const earlier = this.seen.get(row.id);
    if (earlier !== undefined) return rowProblem(n, idColumn, `"${row.id}" stands already in row ${earlier}`);
    this.seen.set(row.id, n);
    const added = this.newPositions(row);
    const clash = added.find((p) => this.state.positions.has(p) || this.given.has(p));
    if (clash === undefined) {
      for (const p of added) this.given.set(p, n);
      return null;
    }
    const by = this.state.positions.get(clash)?.line ?? `row ${this.given.get(clash) ?? '?'}`;
    return rowProblem(n, idColumn, `its position "${clash}" is there already (${by})`);
  }

  private refuse(n: number, cells: readonly string[], fault: Problem | null): void {
    const cell = (ours: 'id' | 'name'): string =>
      (cells[this.columns.mapped.find((m) => m.ours === ours)?.at ?? -1] ?? '').trim().slice(0, 120);
    this.rows.push({
      row: n,
      what: 'refused',
      id: cell('id'),
      name: cell('name'),
      changes: [],
      positionsAdded: [],
      notes: [],
      problem: fault,
    });
  }

  /** Names of the positions that are missing. Those that are there keep theirs. */
  private newPositions(row: ReadRow): readonly string[] {
    const there = this.byLine.get(row.id) ?? [];
    if (this.state.lines.has(row.id) && row.quantity === null) return [];
    const wanted = row.quantity ?? 1;
    if (there.length === 0 && wanted === 1) return [row.id];
    const names = new Set(there.map((p) => p.position as string));
    const added: string[] = [];
    for (let k = 1; there.length + added.length < wanted; k += 1)
      if (!names.has(`${row.id}.${k}`)) added.push(`${row.id}.${k}`);
    return added;
  }

  private note(row: ReadRow, n: number): void {
    const line = this.state.lines.get(row.id);
    const added = this.newPositions(row);
    const there = this.byLine.get(row.id) ?? [];
    const changes = line === undefined ? [] : lineChanges(row, line);
    if (line === undefined || changes.length > 0)
      this.entries.push({ kind: 'part-line-noted', data: lineData(row, line) });
    const turned = row.hand === null ? [] : there.filter((p) => p.hand !== row.hand);
    for (const p of turned) {
      const { said: _said, ...rest } = p;
      this.entries.push({ kind: 'position-noted', data: { ...rest, hand: row.hand } });
      changes.push({ what: `hand of ${p.position}`, before: p.hand ?? '', after: row.hand ?? '' });
    }
    const hand = row.hand ?? handOfAll(there);
    for (const position of added)
      this.entries.push({ kind: 'position-noted', data: { position, line: row.id, ...(hand !== null && { hand }) } });
    this.positions += added.length;
    const over = row.quantity === null ? 0 : there.length - row.quantity;
    const isSame = line !== undefined && changes.length === 0 && added.length === 0;
    this.rows.push({
      row: n,
      what: line === undefined ? 'new' : isSame ? 'unchanged' : 'changed',
      id: row.id,
      name: row.name,
      changes,
      positionsAdded: added,
      notes:
        over > 0
          ? [
              `${over} more ${over === 1 ? 'position is' : 'positions are'} recorded than the list says; none is taken away`,
            ]
          : [],
      problem: null,
    });
  }

  plan(): PartsPlan {
    const count = (what: RowWord): number => this.rows.filter((r) => r.what === what).length;
    return {
      columns: this.columns,
      rows: this.rows,
      counts: {
        new: count('new'),
        changed: count('changed'),
        unchanged: count('unchanged'),
        refused: count('refused'),
      },
      positions: this.positions,
      entries: this.entries,
    };
  }
}

function handOfAll(there: readonly Position[]): string | null {
  const hand = there[0]?.hand;
  return hand !== undefined && there.every((p) => p.hand === hand) ? hand : null;
}

function lineChanges(row: ReadRow, line: Line): RowChange[] {
  const changes: RowChange[] = [];
  const compare = (what: string, before: string | undefined, after: string | null) => {
    if (after !== null && after !== (before ?? '')) changes.push({ what, before: before ?? '', after });
  };
  compare('name', line.name, row.name);
  compare('quantity', line.quantity?.toString(), row.quantity === null ? null : String(row.quantity));
  for (const c of TEXTS) compare(c, line[c], row[c]);
  return changes;
}

function lineData(row: ReadRow, line: Line | undefined): Readonly<Record<string, unknown>> {
  const { said: _said, ...before } = line ?? { said: null };
  const texts = Object.fromEntries(TEXTS.flatMap((c) => (row[c] === null ? [] : [[c, row[c]]])));
  const quantity = row.quantity ?? line?.quantity ?? (line === undefined ? 1 : null);
  return {
    source: 'imported table',
    ...before,
    line: row.id,
    name: row.name,
    ...texts,
    ...(quantity !== null && { quantity }),
  };
}

/** What is recorded, or the Problem of the first refused row when the person did not choose to leave those out. */
export function partsDrafts(
  state: State,
  plan: PartsPlan,
  o: { readonly skipRefused: boolean; readonly stamp: () => Stamp },
): Result<readonly EntryDraft[]> {
  if (plan.columns.problem !== null) return failed(plan.columns.problem);
  const refused = plan.rows.filter((r) => r.problem !== null);
  const first = refused[0]?.problem ?? null;
  if (first !== null && !o.skipRefused) {
    const more =
      refused.length === 1
        ? ''
        : ` (and ${refused.length - 1} more ${refused.length === 2 ? 'row is' : 'rows are'} refused)`;
    return failed({ ...first, message: `${first.message}${more}` });
  }
  // Lines first, then their positions, so that the state is laid over once and not for every row.
  const drafts: EntryDraft[] = [];
  let now = state;
  for (const kind of ['part-line-noted', 'position-noted'] as const) {
    const made: EntryDraft[] = [];
    for (const entry of plan.entries.filter((e) => e.kind === kind)) {
      const one = decide(now, { kind: 'record', entry: entry.kind, data: entry.data }, o.stamp());
      if (!one.ok) return one;
      made.push(...one.value);
    }
    drafts.push(...made);
    now = overlay(now, made);
  }
  return ok(drafts);
}
