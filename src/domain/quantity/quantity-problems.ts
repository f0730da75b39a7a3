/**
 * Every code that reading, converting and printing quantities can give, with what it means and what can be done.
 * `docs/errors.md` is made from this list; `quantity-problems.test.ts` shows each of them once.
 */
import type { ProblemList } from '../problem.ts';

export const QUANTITY_PROBLEMS = {
  QUANTITY_EMPTY: {
    meaning: 'Nothing was written where a quantity was wanted.',
    remedy: 'Write a figure and its unit, such as 12.5 mm or 3/8 in.',
  },
  QUANTITY_UNREADABLE: {
    meaning: 'The text is no figure with a unit and a doubt.',
    remedy: 'Write it as 12.5 mm, 3/8 in, 1 1/4 in, or 0.4375 in +/- 0.0005 in.',
  },
  QUANTITY_UNKNOWN_KEY: {
    meaning: 'A quantity given as an object has a key that is not read, or lacks its value.',
    remedy: 'Use value, unit and plusMinus only.',
  },
  QUANTITY_WRONG_KIND: {
    meaning: 'The unit belongs to another kind of quantity than the one wanted (a torque is not an energy).',
    remedy: 'Give the quantity that is asked for, in one of its units.',
  },
  QUANTITY_TOO_LARGE: {
    meaning: 'The figure cannot be held once it is turned into SI units.',
    remedy: 'Check the exponent and the unit.',
  },
  NUMBER_AMBIGUOUS: {
    meaning: 'A comma or a point may be a decimal mark or may part thousands, and both readings make sense.',
    remedy: 'Write it without the mark, or with the other mark, so that only one reading is left.',
  },
  NUMBER_NOT_FINITE: {
    meaning: 'The figure is no finite number, or too large or too small to be held.',
    remedy: 'Give a finite figure.',
  },
  FRACTION_BY_ZERO: {
    meaning: 'A fraction is written over nought.',
    remedy: 'Correct the lower figure of the fraction.',
  },
  UNIT_MISSING: {
    meaning: 'A bare figure was given and no unit is agreed for it.',
    remedy: 'Write the unit after the figure.',
  },
  UNIT_UNKNOWN: {
    meaning: 'The unit is not in the list of units.',
    remedy: 'Use one of the units named in the message, or write it as a product of listed units (N/mm^2).',
  },
  UNIT_AMBIGUOUS: {
    meaning: 'The unit is used for two different things (a gallon, a ton, a mil).',
    remedy: 'Use one of the exact names that the message gives.',
  },
  DOUBT_NEGATIVE: {
    meaning: 'The half-width of the doubt is below nought.',
    remedy: 'Give the doubt as a half-width that is nought or more.',
  },
  BELOW_ABSOLUTE_ZERO: {
    meaning: 'A temperature lies below absolute zero.',
    remedy: 'Check the sign and the scale.',
  },
} as const satisfies ProblemList;

export type QuantityProblemCode = keyof typeof QUANTITY_PROBLEMS;
