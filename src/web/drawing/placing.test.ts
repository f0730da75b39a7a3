import fc from 'fast-check';
import { expect, test } from 'vitest';
import { nearest, type Placing, placeAt, type SheetShown, toSheet, toWindow } from './placing.ts';

const shown: SheetShown = {
  whole: { x: 0, y: 0, width: 1600, height: 1000 },
  crop: { x: 100, y: 50, width: 1200, height: 800 },
  places: new Map([
    [
      '02-07',
      [
        { x: 0.1, y: 0.2 },
        { x: 0.3, y: 0.4 },
      ],
    ],
  ]),
};
const still: Placing = { shown, window: { width: 600, height: 600 }, view: { x: 0, y: 0, scale: 1 } };

test('a crop is centred in its window: worked by hand', () => {
  // 1200 × 800 into 600 × 600: by one half, 100 px above and below. The sheet's (100, 50) is the crop's corner.
  expect(toWindow({ x: 100 / 1600, y: 50 / 1000 }, still)).toEqual({ x: 0, y: 100 });
  expect(toWindow({ x: 1300 / 1600, y: 850 / 1000 }, still)).toEqual({ x: 600, y: 500 });
  const moved = { ...still, view: { x: 10, y: -20, scale: 2 } };
  expect(toWindow({ x: 100 / 1600, y: 50 / 1000 }, moved)).toEqual({ x: 10, y: 180 });
});

test('a pin set at a place of the window is shown there again, however it is moved and scaled', () => {
  const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  fc.assert(
    fc.property(
      fc.record({ x: number(0, 1), y: number(0, 1) }),
      fc.record({ x: number(-500, 500), y: number(-500, 500), scale: number(0.3, 5) }),
      fc.record({ width: number(200, 2000), height: number(200, 2000) }),
      (at, view, window) => {
        const p: Placing = { shown, view, window };
        const back = toSheet(toWindow(at, p), p);
        expect(back.x).toBeCloseTo(at.x, 3);
        expect(back.y).toBeCloseTo(at.y, 3);
      },
    ),
  );
});

test('a pin never leaves its sheet', () => {
  expect(toSheet({ x: -9000, y: 9000 }, still)).toEqual({ x: 0, y: 1 });
});

test('places and reach', () => {
  expect(placeAt(shown, '02-07', 0)).toEqual({ x: 0.1, y: 0.2 });
  expect(placeAt(shown, '02-07', 7)).toEqual({ x: 0.3, y: 0.4 });
  expect(placeAt(shown, '09-99', 0)).toBeUndefined();
  const two = [
    { id: 'a', at: { x: 0, y: 0 } },
    { id: 'b', at: { x: 30, y: 0 } },
  ];
  expect(nearest(two, { x: 20, y: 0 }, 24)?.id).toBe('b');
  expect(nearest(two, { x: 90, y: 0 }, 24)).toBeNull();
});
