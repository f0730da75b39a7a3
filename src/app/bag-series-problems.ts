/** Codes of the bag series, for `docs/errors.md`. */
import { type Problem, type ProblemList, problem } from '../domain/problem.ts';

export const BAG_SERIES_PROBLEMS = {
  BAGS_COUNT: {
    meaning: 'The number of bags to be set aside is no whole number, or more than one block holds.',
    remedy: 'Ask for 1 to 500 at a time; another block can follow at once.',
  },
  BAG_SERIES_FULL: {
    meaning: 'The shop’s series has no numbers left for this block.',
    remedy: 'Ask for fewer; when the series is at its end, tell who looks after the program.',
  },
} as const satisfies ProblemList;

export function bagSeriesProblem(code: keyof typeof BAG_SERIES_PROBLEMS, message: string, where?: string): Problem {
  return problem(code, message, BAG_SERIES_PROBLEMS[code].remedy, where);
}
