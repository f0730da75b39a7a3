/**
 * A table that takes typing by keyboard: arrows and Enter move as in a spreadsheet, Tab goes on, a block copied from a
 * spreadsheet is laid in where the cursor stands and the table grows. Texts are kept as typed.
 */
import { type ClipboardEvent, type KeyboardEvent, useRef } from 'react';
import { laidIn, pastedCells } from './figures.ts';

export interface TableEntryProps {
  readonly label: string;
  readonly cells: readonly (readonly string[])[];
  readonly onCells: (cells: readonly (readonly string[])[]) => void;
  readonly rowName: (row: number) => string;
  readonly columnName: (column: number) => string;
  /** Heads that can be written over: stations and angles. */
  readonly onRowName?: (row: number, name: string) => void;
  readonly onColumnName?: (column: number, name: string) => void;
  readonly most?: number;
}

export function TableEntry(p: TableEntryProps) {
  const body = useRef<HTMLTableElement>(null);
  const { cells, onCells, most = 400 } = p;
  const focus = (row: number, column: number) =>
    body.current?.querySelector<HTMLInputElement>(`[data-cell="${row} ${column}"]`)?.focus();
  const put = (row: number, column: number, text: string) =>
    onCells(cells.map((line, r) => (r === row ? line.map((c, i) => (i === column ? text : c)) : line)));
  const keys = (e: KeyboardEvent<HTMLInputElement>, row: number, column: number) => {
    const field = e.currentTarget;
    const isAll = field.selectionStart === 0 && field.selectionEnd === field.value.length;
    const atStart = isAll || field.selectionEnd === 0;
    const atEnd = isAll || field.selectionStart === field.value.length;
    if (e.key === 'ArrowUp') focus(row - 1, column);
    else if (e.key === 'ArrowDown' || e.key === 'Enter') focus(row + 1, column);
    else if (e.key === 'ArrowLeft' && atStart) focus(row, column - 1);
    else if (e.key === 'ArrowRight' && atEnd) focus(row, column + 1);
    else return;
    e.preventDefault();
  };
  const paste = (e: ClipboardEvent<HTMLInputElement>, row: number, column: number) => {
    const text = e.clipboardData.getData('text/plain');
    if (!/[\t\n;]/.test(text.trim())) return;
    e.preventDefault();
    onCells(laidIn(cells, pastedCells(text), row, column, most));
  };
  const width = cells[0]?.length ?? 0;
  return (
    <div className="table-entry">
      <table ref={body} aria-label={p.label}>
        <thead>
          <tr>
            <td />
            {Array.from({ length: width }, (_, c) => c).map((c) => (
              <th key={c} scope="col">
                <Head
                  name={p.columnName(c)}
                  label={`Column ${c + 1}`}
                  on={p.onColumnName && ((n) => p.onColumnName?.(c, n))}
                />
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {cells.map((line, r) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a row is its number
            <tr key={r}>
              <th scope="row">
                <Head name={p.rowName(r)} label={`Row ${r + 1}`} on={p.onRowName && ((n) => p.onRowName?.(r, n))} />
              </th>
              {line.map((text, c) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: a column is its number
                <td key={c}>
                  <input
                    data-cell={`${r} ${c}`}
                    aria-label={`${p.columnName(c)} ${p.rowName(r)}`}
                    inputMode="decimal"
                    autoComplete="off"
                    value={text}
                    maxLength={80}
                    onChange={(e) => put(r, c, e.target.value)}
                    onFocus={(e) => e.target.select()}
                    onKeyDown={(e) => keys(e, r, c)}
                    onPaste={(e) => paste(e, r, c)}
                  />
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      <div className="table-size">
        <button
          type="button"
          className="link"
          onClick={() => onCells([...cells, Array.from({ length: width }, () => '')])}
        >
          One more row
        </button>
        <button type="button" className="link" onClick={() => onCells(cells.map((line) => [...line, '']))}>
          One more column
        </button>
      </div>
    </div>
  );
}

function Head({
  name,
  label,
  on,
}: {
  readonly name: string;
  readonly label: string;
  readonly on: ((name: string) => void) | undefined;
}) {
  if (on === undefined) return name;
  return <input aria-label={label} value={name} maxLength={40} onChange={(e) => on(e.target.value)} className="head" />;
}

/** Empty cells are squares nobody measured. */
export function cellsToKeep(cells: readonly (readonly string[])[]): (string | null)[][] {
  return cells.map((line) => line.map((c) => (c.trim() === '' ? null : c.trim())));
}
