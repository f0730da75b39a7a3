/**
 * Tables of figures: what is typed or pasted, what a cell reads as, how dense a square is hatched, and where a square of a
 * grid lies on a photograph. Pure. A cell keeps its text as written; the number beside it is only for drawing.
 */
export type Cells = readonly (readonly (string | null)[])[];

/** `1,48` and `1.48 mm` read as 1.48, `5 212 mm` as 5212; `?` and words as nothing. */
export function cellNumber(text: string | null): number | null {
  const hit = /^\s*([+\-−]?(?:\d{1,3}(?:[ \u2009\u202f]\d{3})+|\d+)(?:[.,]\d+)?)/.exec(text ?? '');
  return hit === null
    ? null
    : Number(
        (hit[1] ?? '')
          .replace(/[ \u2009\u202f]/g, '')
          .replace(',', '.')
          .replace('−', '-'),
      );
}

/** Rows and columns as a spreadsheet gives them: tabs, else semicolons, else runs of blanks. */
export function pastedCells(text: string): readonly (readonly string[])[] {
  const lines = text.replace(/\r\n?/g, '\n').replace(/\n+$/, '').split('\n');
  const by = text.includes('\t') ? '\t' : text.includes(';') ? ';' : / +/;
  return lines.map((line) => (by instanceof RegExp ? line.trim() : line).split(by).map((c) => c.trim()));
}

/** The table with a pasted block laid in at a cell; it grows where the block is larger. */
export function laidIn(
  table: readonly (readonly string[])[],
  block: readonly (readonly string[])[],
  row: number,
  column: number,
  most: number,
): readonly (readonly string[])[] {
  const high = Math.min(most, Math.max(table.length, row + block.length));
  const wide = Math.min(most, Math.max(table[0]?.length ?? 0, ...block.map((line) => column + line.length)));
  return Array.from({ length: high }, (_, r) =>
    Array.from({ length: wide }, (_, c) => block[r - row]?.[c - column] ?? table[r]?.[c] ?? ''),
  );
}

export interface Spread {
  readonly least: number;
  readonly most: number;
  readonly count: number;
}

export function spreadOf(cells: Cells): Spread | null {
  const all = cells.flat().flatMap((c) => cellNumber(c) ?? []);
  return all.length === 0 ? null : { least: Math.min(...all), most: Math.max(...all), count: all.length };
}

export const HATCH_STEPS = 5;

/**
 * How densely a square is hatched, 0 to 4: the thinner, the denser. Full thickness is what was stated as nominal, else the
 * largest reading; the scale ends at the smallest reading, so it shows where, not whether it is enough.
 */
export function hatchOf(value: number, spread: Spread, nominal: number | null): number {
  const full = Math.max(nominal ?? spread.most, spread.most);
  if (full <= spread.least) return 0;
  const gone = (full - value) / (full - spread.least);
  return Math.min(HATCH_STEPS - 1, Math.max(0, Math.round(gone * (HATCH_STEPS - 1))));
}

type Pair = readonly [number, number];
export type Corners = readonly [Pair, Pair, Pair, Pair];

/**
 * The projective map that takes the unit square to four corners (clockwise from the upper left). Source: P. Heckbert,
 * "Fundamentals of texture mapping and image warping", 1989, section 2.2.3, square to quadrilateral (formulae from memory).
 */
export function ontoCorners(corners: Corners): (u: number, v: number) => Pair {
  const [[x0, y0], [x1, y1], [x2, y2], [x3, y3]] = corners;
  const dx1 = x1 - x2;
  const dx2 = x3 - x2;
  const dy1 = y1 - y2;
  const dy2 = y3 - y2;
  const sx = x0 - x1 + x2 - x3;
  const sy = y0 - y1 + y2 - y3;
  const det = dx1 * dy2 - dx2 * dy1;
  const g = det === 0 ? 0 : (sx * dy2 - dx2 * sy) / det;
  const h = det === 0 ? 0 : (dx1 * sy - sx * dy1) / det;
  const a = x1 - x0 + g * x1;
  const b = x3 - x0 + h * x3;
  const d = y1 - y0 + g * y1;
  const e = y3 - y0 + h * y3;
  return (u, v) => {
    const w = g * u + h * v + 1;
    return [(a * u + b * v + x0) / w, (d * u + e * v + y0) / w];
  };
}

/** The four corners of one square, and its middle. */
export function squareAt(
  corners: Corners,
  rows: number,
  columns: number,
  row: number,
  column: number,
): { readonly quad: readonly Pair[]; readonly middle: Pair } {
  const at = ontoCorners(corners);
  const [u0, u1] = [column / columns, (column + 1) / columns];
  const [v0, v1] = [row / rows, (row + 1) / rows];
  return { quad: [at(u0, v0), at(u1, v0), at(u1, v1), at(u0, v1)], middle: at((u0 + u1) / 2, (v0 + v1) / 2) };
}

/** Columns are a, b, c … z, aa; rows 1, 2, 3: "e3" as people write it on the metal. */
export function columnName(column: number): string {
  const rest = String.fromCharCode(97 + (column % 26));
  return column < 26 ? rest : columnName(Math.floor(column / 26) - 1) + rest;
}

/** Largest less smallest of each row: what a dial shows in all, twice the offset of a round part. */
export function totalReadings(cells: Cells): readonly (number | null)[] {
  return cells.map((row) => {
    const spread = spreadOf([row]);
    return spread === null || spread.count < 2 ? null : round(spread.most - spread.least);
  });
}

/** Twelve figures: enough for any gauge, and no 0.30000000000000004. */
export function round(n: number): number {
  return Number(n.toPrecision(12));
}
