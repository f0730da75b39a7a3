import fc from 'fast-check';
import { expect, test } from 'vitest';
import { columnsIn, placeTags, stringsOf, TAG } from './graph-layout.ts';
import type { Wire } from './graph-model.ts';

const tagsOf = (n: number) =>
  Array.from({ length: n }, (_, i) => ({ id: `t${i}`, height: i % 3 === 0 ? 77 : 58, below: i % 5 === 0 ? 32 : 0 }));

/** Any wires that lead forwards, as a plan has them. */
const someWires = (n: number) =>
  fc
    .array(fc.tuple(fc.nat(n - 1), fc.nat(n - 1)), { maxLength: 3 * n })
    .map((pairs) =>
      pairs
        .filter(([a, b]) => a !== b)
        .map(([a, b]): Wire => ({ from: `t${Math.min(a, b)}`, to: `t${Math.max(a, b)}`, way: 'first' })),
    );

test('3 to 40 tags: none covers another, all lie on the sheet, causes hang above what they lead to', () => {
  fc.assert(
    fc.property(
      fc
        .integer({ min: 3, max: 40 })
        .chain((n) => fc.tuple(fc.constant(n), someWires(n), fc.integer({ min: 1, max: 4 }))),
      ([n, wires, columns]) => {
        const tags = tagsOf(n);
        const sheet = placeTags(tags, wires, columns);
        expect(sheet.tags.map((t) => t.id).sort()).toEqual(tags.map((t) => t.id).sort());
        const at = new Map(sheet.tags.map((t) => [t.id, t]));
        for (const t of sheet.tags) {
          expect(t.x).toBeGreaterThanOrEqual(0);
          expect(t.x + TAG.width).toBeLessThanOrEqual(sheet.width);
          expect(t.y + t.height).toBeLessThanOrEqual(sheet.height);
          for (const u of sheet.tags) {
            if (t === u) continue;
            const apart =
              t.x + TAG.width <= u.x || u.x + TAG.width <= t.x || t.y + t.height <= u.y || u.y + u.height <= t.y;
            expect(apart).toBe(true);
          }
        }
        for (const w of wires) expect(at.get(w.from)!.y + at.get(w.from)!.height).toBeLessThanOrEqual(at.get(w.to)!.y);
      },
    ),
    { numRuns: 150 },
  );
});

test('bolts of one lug are strung on one wire', () => {
  const bolts = ['b1', 'b2', 'b3', 'b4', 'b5', 'b6'];
  const wires = bolts.map((from): Wire => ({ from, to: 'plate', way: 'first' }));
  expect(stringsOf([...bolts, 'plate'], wires)).toEqual([bolts, ['plate']]);
  const sheet = placeTags(
    [...bolts, 'plate'].map((id) => ({ id, height: 58, below: 0 })),
    wires,
    2,
  );
  expect(new Set(sheet.tags.filter((t) => t.id !== 'plate').map((t) => t.x)).size).toBe(1);
  expect(sheet.wires).toHaveLength(1);
});

test('as many columns as keep a tag at its size, and at least one', () => {
  expect(columnsIn(320)).toBe(1);
  expect(columnsIn(500)).toBe(2);
  expect(columnsIn(590)).toBe(2);
  expect(columnsIn(1100)).toBe(3);
});
