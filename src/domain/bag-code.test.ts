/** Bag codes: the letter of the rule, and what it catches. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { bagCode, bagNumber, CHECK_LETTERS, checkLetter, isBagCode, LAST_BAG, readBagCode } from './bag-code.ts';
import { must } from './result.ts';

it('gives the letters of the shop rule', () => {
  expect([105, 101, 200, 351, 7].map(bagCode)).toEqual(['B105C', 'B101X', 'B200A', 'B351Z', 'B007G']);
  expect(new Set(Array.from({ length: 23 }, (_, n) => checkLetter(n))).size).toBe(CHECK_LETTERS.length);
});

it.each(['b105c', ' B 105 C ', 'B-105-C', '105c', 'B0105C'])('reads "%s" as B105C', (text) => {
  expect(must(readBagCode(text))).toBe('B105C');
});

it.each([
  ['', 'BAG_CODE_SHAPE'],
  ['B105', 'BAG_CODE_SHAPE'],
  ['B000A', 'BAG_CODE_SHAPE'],
  ['C105B', 'BAG_CODE_SHAPE'],
  ['B12345678C', 'BAG_CODE_SHAPE'],
  ['B105D', 'BAG_CODE_LETTER'],
  ['B105I', 'BAG_CODE_LETTER'],
])('refuses "%s": %s', (text, code) => {
  const read = readBagCode(text);
  expect(read.ok ? null : [read.problem.code, read.problem.where]).toEqual([code, 'bag']);
});

const aNumber = fc.integer({ min: 100, max: LAST_BAG });

it('reads what it writes', () => {
  fc.assert(fc.property(aNumber, (n) => isBagCode(bagCode(n)) && bagNumber(must(readBagCode(bagCode(n)))) === n));
});

it('catches every single wrong digit and every swap of two neighbours', () => {
  fc.assert(
    fc.property(aNumber, fc.nat(), fc.integer({ min: 1, max: 9 }), (n, seed, step) => {
      const code = bagCode(n);
      const at = 1 + (seed % (code.length - 2));
      const digit = (Number(code[at]) + step) % 10;
      const wrong = code.slice(0, at) + digit + code.slice(at + 1);
      expect(readBagCode(wrong).ok).toBe(false);
      const [a, b] = [code[at] as string, code[at + 1] as string];
      if (at + 2 < code.length && a !== b)
        expect(readBagCode(code.slice(0, at) + b + a + code.slice(at + 2)).ok).toBe(false);
    }),
  );
});
