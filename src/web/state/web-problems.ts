/** Every Problem the page itself gives: what it means and what can be done. */
import { type Problem, type ProblemList, problem } from '../../domain/problem.ts';

export const WEB_PROBLEMS = {
  AWAY: {
    meaning: 'The shop’s machine does not answer.',
    remedy: 'Carry on; what you record is kept here and sent when it answers again.',
  },
  DEVICE_FULL: {
    meaning: 'This device has no room left for what was to be kept.',
    remedy:
      'Keep this page open until it is copied to the office, or make room on the device. What was kept before stays.',
  },
  DEVICE_KEEPS_NOTHING: {
    meaning: 'This browser does not let the page keep anything.',
    remedy: 'Leave private browsing, or open the page in another browser; until then keep this page open.',
  },
  PHOTO_UNREADABLE: {
    meaning: 'The picture is of a kind that is not taken in, or is cut.',
    remedy: 'Take it again, or set the camera to JPEG.',
  },
  PHOTO_GONE: {
    meaning: 'A photograph or sound that was not copied yet is not on this device any more.',
    remedy: 'Take it again where that can be done; the entry about it stays.',
  },
  PHOTO_CHANGED: {
    meaning: 'A photograph or sound arrived at the shop’s machine changed.',
    remedy: 'It is kept here; open the page again to send it once more.',
  },
  SOUND_UNREADABLE: {
    meaning: 'The sound is of a kind that is not taken in.',
    remedy: 'Record it again in this page.',
  },
  JOB_STILL_OPENING: {
    meaning: 'The job is not read yet, and this needs it.',
    remedy: 'Tap again in a moment.',
  },
} as const satisfies ProblemList;
export type WebProblemCode = keyof typeof WEB_PROBLEMS;

export function webProblem(code: WebProblemCode, message: string = WEB_PROBLEMS[code].meaning): Problem {
  return problem(code, message, WEB_PROBLEMS[code].remedy);
}

/** A failure whose words are for the person: `keepPhoto` and `keepSound` reject with it, and the heading shows it. */
export class KeepFault extends Error {
  constructor(readonly problem: Problem) {
    super(problem.message);
  }
}

/** Why the browser did not keep something, as a Problem. */
export function keepProblem(thrown: unknown, what: string): Problem {
  const name = thrown instanceof Error || thrown instanceof DOMException ? thrown.name : '';
  const inner = thrown instanceof DOMException && thrown.name === 'AbortError' ? thrown.message : '';
  if (name === 'QuotaExceededError' || /quota/i.test(inner))
    return webProblem('DEVICE_FULL', `There is no room on this device for ${what}.`);
  return webProblem('DEVICE_KEEPS_NOTHING', `This browser did not keep ${what}.`);
}
