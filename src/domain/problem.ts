/**
 * What went wrong in the reader's world, and what they can do next.
 *
 * A Problem is a value, never thrown: bad input gets one clear Problem and loses nothing. `code` is stable and is
 * listed with its meaning in one file per folder (`*-problems.ts`), from which `docs/errors.md` is made. Not chosen:
 * error classes, since they do not survive JSON and a worker boundary.
 */
export interface Problem {
  readonly code: string;
  /** What was found, with the value and the limit. */
  readonly message: string;
  /** What the person can do next. */
  readonly remedy: string;
  /** Where in the input: `attachments[3].joins[1]`, a file and line, an option. */
  readonly where?: string;
}

/** One line of a folder's list of codes: what it means and what can be done. */
export interface ProblemKind {
  readonly meaning: string;
  readonly remedy: string;
}

export type ProblemList = Readonly<Record<string, ProblemKind>>;

export function problem(code: string, message: string, remedy: string, where?: string): Problem {
  return where === undefined ? { code, message, remedy } : { code, message, remedy, where };
}
