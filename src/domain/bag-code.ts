/**
 * Bag codes: `B` + number (three digits or more, one series for the whole shop) + check letter, e.g. `B105C`.
 *
 * The letter is position (7 n + 3) mod 23, counted from 0, in an alphabet without I, O and Q. 23 is prime and 7 x 10^k
 * is never a multiple of it, so every single wrong digit is caught, and so is every swap of two neighbouring digits
 * (they differ by 9 d x 10^k). Rule of the shop, no source outside.
 * Reading is kind to people: small letters, blanks and hyphens pass, and so does a number whose zeros were left out;
 * the letter must be there and must fit. Not chosen: the number alone, which a tired hand copies wrongly in silence.
 */
import { type Problem, type ProblemList, problem } from './problem.ts';
import { failed, ok, type Result } from './result.ts';

declare const brand: unique symbol;
export type BagCode = string & { readonly [brand]: 'BagCode' };

export const CHECK_LETTERS = 'ABCDEFGHJKLMNPRSTUVWXYZ';
export const LAST_BAG = 9_999_999;

export const BAG_PROBLEMS = {
  BAG_CODE_SHAPE: {
    meaning: 'The text is not a bag code.',
    remedy: 'Give B, the number and the letter as they stand on the bag, for example B105C.',
  },
  BAG_CODE_LETTER: {
    meaning: 'Number and check letter of a bag code do not belong together.',
    remedy: 'Look at the bag again: a digit or the letter was read or written wrongly.',
  },
} as const satisfies ProblemList;

export function checkLetter(n: number): string {
  return CHECK_LETTERS[(7 * n + 3) % CHECK_LETTERS.length] as string;
}

/** `105 -> B105C`. Throws for what is no whole number from 1 to `LAST_BAG`, since that is our own mistake. */
export function bagCode(n: number): BagCode {
  if (!Number.isInteger(n) || n < 1 || n > LAST_BAG)
    throw new Error(`internal: ${n} cannot be the number of a bag; report it`);
  return `B${String(n).padStart(3, '0')}${checkLetter(n)}` as BagCode;
}

/** The number of a code that is known to be one. */
export function bagNumber(code: BagCode): number {
  return Number(code.slice(1, -1));
}

export function isBagCode(text: string): text is BagCode {
  const read = readBagCode(text);
  return read.ok && read.value === text;
}

/** A code as typed, spoken or scanned. `BAG_CODE_SHAPE`, `BAG_CODE_LETTER`. */
export function readBagCode(text: string): Result<BagCode> {
  const plain = text.toUpperCase().replace(/[\s\-–_.]/g, '');
  const hit = /^B?0*(\d{1,7})([A-Z])$/.exec(plain);
  const n = Number(hit?.[1] ?? 0);
  if (hit === null || n === 0) return failed(bagProblem('BAG_CODE_SHAPE', `"${text.slice(0, 40)}" is not a bag code`));
  if (hit[2] !== checkLetter(n))
    return failed(
      bagProblem('BAG_CODE_LETTER', `"${text.slice(0, 40)}": the letter ${hit[2]} does not belong to ${n}`),
    );
  return ok(bagCode(n));
}

function bagProblem(code: keyof typeof BAG_PROBLEMS, message: string): Problem {
  return problem(code, message, BAG_PROBLEMS[code].remedy, 'bag');
}
