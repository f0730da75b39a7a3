/** Codes of printing, for `docs/errors.md`. */
import { type Problem, type ProblemList, problem } from '../../domain/problem.ts';

export const PRINT_PROBLEMS = {
  PRINT_FAILED: {
    meaning: 'The typesetter could not make the PDF.',
    remedy: 'Print fewer labels, to find the one it stops at, and report it with the text that stands on it.',
  },
} as const satisfies ProblemList;

export function printProblem(code: keyof typeof PRINT_PROBLEMS, message: string): Problem {
  return problem(code, message, PRINT_PROBLEMS[code].remedy);
}
