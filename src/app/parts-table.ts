/**
 * Lists as CSV, for spreadsheets and for people: the parts with what has become of them, and what was done in order.
 * Cells that a spreadsheet would take for a formula are marked as text. Reading lists is in parts-table-plan.ts.
 */
import Papa from 'papaparse';
import type { State } from '../journal/state.ts';
import { PARTS_COLUMNS } from './parts-table-columns.ts';

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
