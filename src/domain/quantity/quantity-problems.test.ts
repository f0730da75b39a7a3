/** Each code in the list is given by some input, and the list explains each. */
import { describe, expect, it } from 'vitest';
import { QUANTITY_PROBLEMS } from './quantity-problems.ts';
import { parseQuantity } from './quantity-read.ts';

const SHOWN: Readonly<Record<keyof typeof QUANTITY_PROBLEMS, readonly [unknown, 'length'?]>> = {
  QUANTITY_EMPTY: [''],
  QUANTITY_UNREADABLE: ['two spans'],
  QUANTITY_UNKNOWN_KEY: [{ value: 1, unti: 'mm' }],
  QUANTITY_WRONG_KIND: ['1 N', 'length'],
  QUANTITY_TOO_LARGE: ['1e308 km'],
  NUMBER_AMBIGUOUS: ['1,080 kg'],
  NUMBER_NOT_FINITE: ['1e400 mm'],
  FRACTION_BY_ZERO: ['3/0 in'],
  UNIT_MISSING: ['3', 'length'],
  UNIT_UNKNOWN: ['3 cubits'],
  UNIT_AMBIGUOUS: ['3 tons'],
  DOUBT_NEGATIVE: ['3 ± -1 mm'],
  BELOW_ABSOLUTE_ZERO: ['-1 K'],
};

describe('the list of Problems of a quantity', () => {
  it.each(Object.entries(SHOWN))('%s is given and has a remedy', (code, [given, kind]) => {
    const r = parseQuantity(given, kind ? { kind } : {});
    expect(r.ok ? 'read' : r.problem.code).toBe(code);
    const listed = QUANTITY_PROBLEMS[code as keyof typeof QUANTITY_PROBLEMS];
    expect(listed.meaning).not.toBe('');
    expect(listed.remedy).not.toBe('');
  });
});
