/** Codes of the server, for `docs/errors.md`. */
import { type Problem, type ProblemList, problem } from '../domain/problem.ts';

export const SERVER_PROBLEMS = {
  NO_SUCH_JOB: {
    meaning: 'The shop has no job of that name.',
    remedy: 'Choose one of the jobs listed on the first page.',
  },
  NO_SUCH_PLACE: { meaning: 'There is nothing at that address.', remedy: 'Go back to the first page.' },
  BODY_UNREADABLE: { meaning: 'What was sent cannot be read.', remedy: 'Send it again; nothing of it was recorded.' },
  TOO_MUCH: {
    meaning: 'What was sent is larger than is taken, or comes too often.',
    remedy: 'Send less at once, or wait a minute.',
  },
  OTHER_ORIGIN: {
    meaning: 'Another page than ours tried to record something.',
    remedy: 'Open Witnessmark itself and record it there.',
  },
  PHOTO_NOT_HERE: { meaning: 'The photograph is not in this job.', remedy: 'Copy it from the device that took it.' },
  PLAN_STOPPED: {
    meaning: 'The plan was stopped before it was done.',
    remedy: 'Ask the question again; nothing was recorded.',
  },
} as const satisfies ProblemList;
export type ServerProblemCode = keyof typeof SERVER_PROBLEMS;

export function serverProblem(code: ServerProblemCode, message: string, where?: string): Problem {
  return problem(code, message, SERVER_PROBLEMS[code].remedy, where);
}
