/**
 * What a plan is allowed to use: some actions, and each change of state up to a number of times. More permission never
 * makes less reachable; the whole exact method stands on that (see search.ts).
 */
import type { Question } from './question.ts';

export const UNLIMITED = 1_000_000;

export interface Permit {
  readonly acts: Uint8Array;
  /** Per change of the question: how many times. */
  readonly changes: Int32Array;
}

export function copyPermit(p: Permit): Permit {
  return { acts: p.acts.slice(), changes: p.changes.slice() };
}

export function permitAll(q: Question): Permit {
  return { acts: new Uint8Array(q.size).fill(1), changes: new Int32Array(q.changes.length).fill(UNLIMITED) };
}

/** One step of a plan of a question: an action, or ~change. */
export type Move = number;

export function isChange(move: Move): boolean {
  return move < 0;
}
