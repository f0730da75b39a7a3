import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import {
  type Corners,
  cellNumber,
  columnName,
  hatchOf,
  laidIn,
  ontoCorners,
  pastedCells,
  spreadOf,
  squareAt,
  totalReadings,
} from './figures.ts';

test('a cell reads with a comma, a unit, or not at all', () => {
  expect(['1.48', '1,48 mm', '-0.02', '−0.02', '5 212 mm', '?', '', null].map(cellNumber)).toEqual([
    1.48,
    1.48,
    -0.02,
    -0.02,
    5212,
    null,
    null,
    null,
  ]);
});

describe('pasting', () => {
  it('takes what a spreadsheet gives: tabs, a line end at the end, empty cells', () => {
    expect(pastedCells('1.9\t1.8\r\n1.7\t\r\n')).toEqual([
      ['1.9', '1.8'],
      ['1.7', ''],
    ]);
    expect(pastedCells('1,9;1,8')).toEqual([['1,9', '1,8']]);
    expect(pastedCells(' 1.9  1.8 ')).toEqual([['1.9', '1.8']]);
  });

  it('lays the block in at the cell and grows, never past the most', () => {
    expect(
      laidIn(
        [['a', 'b']],
        [
          ['1', '2'],
          ['3', '4'],
        ],
        0,
        1,
        400,
      ),
    ).toEqual([
      ['a', '1', '2'],
      ['', '3', '4'],
    ]);
    expect(laidIn([['']], [Array.from({ length: 50 }, () => 'x')], 0, 0, 10)[0]).toHaveLength(10);
  });

  it('loses no cell, and leaves those outside the block alone', () => {
    const block = fc.array(fc.array(fc.stringMatching(/^[0-9.]{1,4}$/), { minLength: 3, maxLength: 3 }), {
      minLength: 1,
      maxLength: 4,
    });
    fc.assert(
      fc.property(block, fc.nat(3), fc.nat(3), (b, r, c) => {
        const table = [
          ['p', 'q'],
          ['s', 't'],
        ];
        const got = laidIn(table, pastedCells(b.map((l) => l.join('\t')).join('\n')), r, c, 400);
        for (const [i, line] of b.entries())
          for (const [j, cell] of line.entries()) expect(got[r + i]?.[c + j]).toBe(cell);
        if (r > 0) expect(got[0]?.slice(0, 2)).toEqual(['p', 'q']);
        expect(new Set(got.map((l) => l.length)).size).toBe(1);
      }),
    );
  });
});

describe('the grid on a photograph', () => {
  it('maps the corners onto the corners, whatever quadrilateral', () => {
    const n = fc.double({ min: 0, max: 100, noNaN: true });
    fc.assert(
      fc.property(n, n, (dx, dy) => {
        const corners: Corners = [
          [dx, dy],
          [500 + dy, 10],
          [480, 400 + dx],
          [20 + dx, 380],
        ];
        const at = ontoCorners(corners);
        for (const [i, [u, v]] of (
          [
            [0, 0],
            [1, 0],
            [1, 1],
            [0, 1],
          ] as const
        ).entries()) {
          const [x, y] = at(u, v);
          expect(x).toBeCloseTo(corners[i]?.[0] ?? NaN, 6);
          expect(y).toBeCloseTo(corners[i]?.[1] ?? NaN, 6);
        }
      }),
    );
  });

  it('meets at the crossing of the diagonals, as perspective has it (common practice of drawing, no source)', () => {
    // Trapezium with parallel sides 400 and 200 and height 300: the diagonals cut each other as 2 to 1, 200 from the long side.
    const [x, y] = ontoCorners([
      [100, 0],
      [300, 0],
      [400, 300],
      [0, 300],
    ])(0.5, 0.5);
    expect(x).toBeCloseTo(200, 9);
    expect(y).toBeCloseTo(100, 9);
  });

  it('is even on an upright rectangle', () => {
    const square = squareAt(
      [
        [0, 0],
        [100, 0],
        [100, 50],
        [0, 50],
      ],
      5,
      10,
      2,
      3,
    );
    expect(square.middle).toEqual([35, 25]);
    expect(square.quad[0]).toEqual([30, 20]);
  });

  it('hatches the thinnest densest and full thickness not at all', () => {
    const cells = [
      ['2.0', '1.8'],
      ['1.5', null],
    ];
    const spread = spreadOf(cells);
    expect(spread).toEqual({ least: 1.5, most: 2, count: 3 });
    if (spread === null) throw new Error('three readings have a spread');
    expect([2, 1.8, 1.5].map((v) => hatchOf(v, spread, 2))).toEqual([0, 2, 4]);
    expect(hatchOf(1, { least: 1, most: 1, count: 1 }, null)).toBe(0);
  });

  it('names columns as they are chalked on', () => {
    expect([0, 4, 25, 26, 27].map(columnName)).toEqual(['a', 'e', 'z', 'aa', 'ab']);
  });
});

test('a dial shows in all the largest less the smallest', () => {
  expect(
    totalReadings([
      ['0', '0.1', '0.3'],
      ['0', null, null],
    ]),
  ).toEqual([0.3, null]);
});
