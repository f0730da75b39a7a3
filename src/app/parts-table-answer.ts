/** A plan of a parts list as it is shown and sent: the same for the command line's JSON and over HTTP. */
import type { Problem } from '../domain/problem.ts';
import type { PartsPlan, PartsRow, RowWord } from './parts-table-plan.ts';

/** The plan as it is shown and sent: what the table is, which columns were taken for which, and every row. */
export function partsAnswer(plan: PartsPlan, table: PartsSource, recorded: number): PartsAnswer {
  const { headers, mapped, leftOut, problem } = plan.columns;
  return {
    kind: table.kind,
    sheet: table.sheet,
    sheets: table.sheets,
    notes: table.notes,
    headers,
    columns: mapped.map(({ ours, theirs, how }) => ({ ours, theirs, how })),
    leftOut,
    problem,
    counts: plan.counts,
    positions: plan.positions,
    entries: plan.entries.length,
    recorded,
    rows: plan.rows,
  };
}

export interface PartsSource {
  readonly kind: 'csv' | 'xlsx';
  readonly sheet: string | null;
  readonly sheets: readonly string[];
  readonly notes: readonly string[];
}

export interface PartsAnswer extends PartsSource {
  readonly headers: readonly string[];
  readonly columns: readonly { readonly ours: string; readonly theirs: string; readonly how: 'said' | 'guessed' }[];
  readonly leftOut: readonly string[];
  /** Why no row could be read: a column is not found. */
  readonly problem: Problem | null;
  readonly counts: Readonly<Record<RowWord, number>>;
  readonly positions: number;
  readonly entries: number;
  readonly recorded: number;
  readonly rows: readonly PartsRow[];
}
