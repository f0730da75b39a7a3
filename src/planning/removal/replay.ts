/**
 * Walks a list of moves under the full rules, from the moment of the question. Shares nothing with the search but the
 * compiled rig, which is tested against `RigMeaning`: no plan is shown that does not pass here.
 */
import type { Moment } from '../rig-model/moment.ts';
import { isChange, type Move } from './permit.ts';
import type { Question } from './question.ts';

/** The moment after all moves; null when one of them is not allowed at its turn. */
export function replay(q: Question, moves: readonly Move[]): Moment | null {
  const at = q.now.copy();
  for (const move of moves) {
    if (!mayMove(q, at, move)) return null;
    doMove(q, at, move);
  }
  return at;
}

export function mayMove(q: Question, at: Moment, move: Move): boolean {
  if (isChange(move)) {
    const c = q.changes[~move]!;
    const setup = q.setups[c.setup]!.global;
    return at.states[setup] === c.from && at.maySet(setup, c.to);
  }
  const action = q.acts[move]!;
  if (action < 0) return at.facts[~action] === 0;
  return !isRefitOnly(q, action) && at.may(action);
}

export function doMove(q: Question, at: Moment, move: Move): void {
  if (isChange(move)) {
    const c = q.changes[~move]!;
    at.states[q.setups[c.setup]!.global] = c.to;
    return;
  }
  const action = q.acts[move]!;
  if (action < 0) at.facts[~action] = 1;
  else at.done[action] = 1;
}

export function isRefitOnly(q: Question, action: number): boolean {
  const operation = q.model.operationOf(action);
  return operation >= 0 && q.model.rig.operations[operation]!.only === 'refit';
}
