import { expect, test } from 'vitest';
import { changeWords, type DatumRead, meanOf } from './datums.ts';

const read = (...texts: readonly string[]): DatumRead => ({
  datum: 'level C4',
  sort: 'level',
  when: 'before',
  readings: texts.map((text) => ({ text })),
  said: { entry: '01' as DatumRead['said']['entry'], seq: 1, at: '2025-09-01T09:00:00+01:00', by: 'm', device: 'd' },
});

test('repeats are meaned, and the change has the sign of what it did', () => {
  expect(meanOf(read('412 mm', '414 mm'))).toEqual({ value: 413, unit: 'mm' });
  expect(changeWords(read('412 mm', '414 mm'), read('410 mm'))).toBe('−3 mm');
  expect(changeWords(read('1,2 mm'), read('1,5 mm'))).toBe('+0.3 mm');
  expect(changeWords(read('4 mm'), read('4 mm'))).toBe('±0 mm');
  expect(changeWords(read('5 212 mm', '5 213 mm'), read('5 209 mm'))).toBe('−3.5 mm');
});

test('what has not one unit is not compared, and what is missing is not guessed', () => {
  expect(changeWords(read('3 1/8 in'), read('80 mm'))).toBe('not to be compared');
  expect(changeWords(read('about level'), read('80 mm'))).toBe('not to be compared');
  expect(changeWords(read('80 mm'), null)).toBeNull();
});
