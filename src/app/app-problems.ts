/** Codes of this folder, for `docs/errors.md`. */
import type { ProblemList } from '../domain/problem.ts';

export const APP_PROBLEMS = {
  OTHER_ROOT: {
    meaning: 'A rig taken in hangs on another root than the job.',
    remedy: 'Rename the root in the file, so that both speak of the same thing.',
  },
  CSV_SHAPE: {
    meaning: 'The text is no CSV.',
    remedy: 'Check that it is a CSV file with a first line of column names.',
  },
  CSV_COLUMN: {
    meaning: 'A column that is wanted is not in the file.',
    remedy: 'Name columns as `--map id=Nr --map name=Benennung`; `id` and `name` must be there.',
  },
  CSV_ROW: {
    meaning: 'A row of the file cannot be read.',
    remedy: 'Mend the row and import again; nothing of the file has been recorded.',
  },
  QUESTION_UNREADABLE: {
    meaning: 'A question to the planner lacks its goal or action, or is of no known kind.',
    remedy: 'Ask off with a goal, why-not with an action, fits, or tips.',
  },
} as const satisfies ProblemList;
