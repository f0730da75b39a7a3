/** A thickness grid over its photograph: each square with its figure, hatched the denser the thinner. No colours. */
import type { DataOf } from '../../journal/kinds/kinds.ts';
import type { Noted, State } from '../../journal/state.ts';
import { nameOf } from '../../journal/state.ts';
import { Photo } from '../photo/photo.tsx';
import { dayWords } from '../words/figures.ts';
import { type Corners, cellNumber, columnName, hatchOf, spreadOf, squareAt } from './figures.ts';

export type Thickness = Noted<DataOf<'thickness-noted'>>;

const PLAIN_SQUARE = 46;
/** Distance between hatch lines, from none to densest, in parts of a square's side. */
const HATCH = [0, 0.34, 0.22, 0.14, 0.09] as const;

export function cornersOf(width: number, height: number, given: readonly (readonly number[])[] | undefined): Corners {
  const at = (i: number, x: number, y: number): readonly [number, number] => [
    (given?.[i]?.[0] ?? x) * width,
    (given?.[i]?.[1] ?? y) * height,
  ];
  return [at(0, 0.1, 0.1), at(1, 0.9, 0.1), at(2, 0.9, 0.9), at(3, 0.1, 0.9)];
}

export function ThicknessView({ state, grid }: { readonly state: State; readonly grid: Thickness }) {
  const rows = grid.readings.length;
  const columns = grid.readings[0]?.length ?? 1;
  const photo = grid.photo === undefined ? undefined : state.photosByHash.get(grid.photo);
  const width = photo?.width ?? columns * PLAIN_SQUARE + 60;
  const height = photo?.height ?? rows * PLAIN_SQUARE + 50;
  const corners: Corners =
    photo === undefined
      ? [
          [40, 34],
          [width - 16, 34],
          [width - 16, height - 12],
          [40, height - 12],
        ]
      : cornersOf(width, height, grid.corners);
  const spread = spreadOf(grid.readings);
  const nominal = cellNumber(grid.nominal ?? null);
  const squares = grid.readings.flatMap((line, r) =>
    line.map((text, c) => {
      const value = cellNumber(text);
      return {
        name: `${columnName(c)}${r + 1}`,
        ...squareAt(corners, rows, columns, r, c),
        text,
        hatch: value === null || spread === null ? 0 : hatchOf(value, spread, nominal),
        isLeast: value !== null && value === spread?.least,
      };
    }),
  );
  return (
    <figure className="thickness">
      <div className="over-photo" style={{ aspectRatio: `${width} / ${height}` }}>
        {grid.photo !== undefined && <Photo hash={grid.photo} size="print" alt="" />}
        <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-label={gridWords(grid)}>
          <GridHeads corners={corners} rows={rows} columns={columns} />
          {squares.map(({ name, ...square }) => (
            <Square key={name} {...square} />
          ))}
        </svg>
      </div>
      <figcaption>
        <b>{gridWords(grid)}</b>
        <span>
          {[
            `${nameOf(state, grid.said.by)}, ${dayWords(grid.said.at)}`,
            grid.instrument,
            grid.note,
            'denser hatching: thinner; ringed: the thinnest; empty: not measured',
          ]
            .filter((w) => w !== undefined)
            .join(' · ')}
        </span>
      </figcaption>
    </figure>
  );
}

/** "12 squares of 20 mm, 1.48 to 2.02 mm, thinnest at e3, nominal 2.0". */
export function gridWords(grid: DataOf<'thickness-noted'>): string {
  const spread = spreadOf(grid.readings);
  if (spread === null) return `Squares of ${grid.step}, none measured yet`;
  const thinnest = grid.readings.flatMap((line, r) =>
    line.flatMap((t, c) => (cellNumber(t) === spread.least ? [`${columnName(c)}${r + 1}`] : [])),
  );
  const all = grid.readings.length * (grid.readings[0]?.length ?? 0);
  return [
    `${spread.count} of ${all} squares of ${grid.step}`,
    `${spread.least} to ${spread.most} ${grid.unit}`,
    `thinnest at ${thinnest.slice(0, 3).join(', ')}`,
    grid.nominal === undefined ? null : `nominal ${grid.nominal}`,
  ]
    .filter((w) => w !== null)
    .join(', ');
}

function GridHeads({
  corners,
  rows,
  columns,
}: {
  readonly corners: Corners;
  readonly rows: number;
  readonly columns: number;
}) {
  const side = sideOf(squareAt(corners, rows, columns, 0, 0).quad);
  const size = side * 0.26;
  const top = Array.from({ length: columns }, (_, c) => ({
    name: columnName(c),
    at: squareAt(corners, rows, columns, 0, c).quad,
  }));
  const left = Array.from({ length: rows }, (_, r) => ({
    name: String(r + 1),
    at: squareAt(corners, rows, columns, r, 0).quad,
  }));
  return (
    <g className="heads" fontSize={size} strokeWidth={size * 0.34}>
      {top.map(({ name, at: [a, b] }) => (
        <text
          key={name}
          x={((a?.[0] ?? 0) + (b?.[0] ?? 0)) / 2}
          y={((a?.[1] ?? 0) + (b?.[1] ?? 0)) / 2 - size * 0.5}
          textAnchor="middle"
        >
          {name}
        </text>
      ))}
      {left.map(({ name, at: [a, , , d] }) => (
        <text
          key={name}
          x={((a?.[0] ?? 0) + (d?.[0] ?? 0)) / 2 - size * 0.5}
          y={((a?.[1] ?? 0) + (d?.[1] ?? 0)) / 2 + size * 0.35}
          textAnchor="end"
        >
          {name}
        </text>
      ))}
    </g>
  );
}

type Pair = readonly [number, number];

function sideOf(quad: readonly Pair[]): number {
  const [a, b, , d] = quad;
  if (!a || !b || !d) return 1;
  return Math.min(Math.hypot(b[0] - a[0], b[1] - a[1]), Math.hypot(d[0] - a[0], d[1] - a[1]));
}

interface SquareProps {
  readonly quad: readonly Pair[];
  readonly middle: Pair;
  readonly text: string | null;
  readonly hatch: number;
  readonly isLeast: boolean;
}

function Square({ quad, middle, text, hatch, isLeast }: SquareProps) {
  const side = sideOf(quad);
  const size = side * Math.min(0.36, 1.5 / Math.max(4, text?.length ?? 4));
  return (
    <g className="square">
      <path d={`M${quad.map((q) => q.join(' ')).join('L')}Z`} className="ground" strokeWidth={side * 0.018} />
      {hatch > 0 && <path d={hatching(quad, HATCH[hatch] ?? 0.1)} className="hatch" strokeWidth={side * 0.016} />}
      {isLeast && <circle cx={middle[0]} cy={middle[1]} r={side * 0.44} className="least" strokeWidth={side * 0.05} />}
      {text !== null && (
        <text x={middle[0]} y={middle[1] + size * 0.36} fontSize={size} strokeWidth={size * 0.42} textAnchor="middle">
          {text}
        </text>
      )}
    </g>
  );
}

/** Lines across a square, from its upper side to its left and its right side to its lower, evenly in the square's own plane. */
function hatching(quad: readonly Pair[], apart: number): string {
  const [a, b, c, d] = quad;
  if (!a || !b || !c || !d) return '';
  const on = (p: Pair, q: Pair, t: number) =>
    `${(p[0] + (q[0] - p[0]) * t).toFixed(1)} ${(p[1] + (q[1] - p[1]) * t).toFixed(1)}`;
  const lines: string[] = [];
  for (let t = apart; t < 2; t += apart) {
    if (t <= 1) lines.push(`M${on(a, b, t)}L${on(a, d, t)}`);
    else lines.push(`M${on(b, c, t - 1)}L${on(d, c, t - 1)}`);
  }
  return lines.join('');
}
