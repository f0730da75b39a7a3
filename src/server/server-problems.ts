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
  NOT_PAIRED: {
    meaning: 'A device on the shop’s network asked for something before it was paired.',
    remedy: 'Open /pair on this device and type a code from the shop’s machine; what is kept here stays here.',
  },
  DEVICE_REVOKED: {
    meaning: 'The device was shut out.',
    remedy: 'Ask at the shop’s machine; with a new code it can be paired again, and what is kept on it is sent then.',
  },
  PAIRING_TOO_OFTEN: {
    meaning: 'Too many wrong codes, or too many requests before pairing, came in a short time.',
    remedy: 'Wait ten minutes, then type a new code from the shop’s machine.',
  },
  LAN_CLOSED: {
    meaning: 'The shop is served to this machine only, so no device can be paired.',
    remedy: 'Start it again with `witnessmark serve SHOP --lan`.',
  },
} as const satisfies ProblemList;
export type ServerProblemCode = keyof typeof SERVER_PROBLEMS;

export function serverProblem(code: ServerProblemCode, message: string, where?: string): Problem {
  return problem(code, message, SERVER_PROBLEMS[code].remedy, where);
}
