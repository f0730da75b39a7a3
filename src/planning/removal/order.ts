/**
 * The order for people. From the wanted thing backwards, each step stands right before what needs it: first what gives
 * access, then the joints, then the thing itself; so work on one place stays together and the target comes last. Changes
 * of state wait until nothing else can be done, and steps that would take away what a later state rests on wait for it.
 *
 * The order is walked under the full rules step by step. Where holds or guards leave the walk stuck, the order of the
 * search, which is legal, stands.
 */
import { PlanLinks } from './links.ts';
import { isChange, type Move } from './permit.ts';
import type { Question } from './question.ts';
import { doMove, mayMove, replay } from './replay.ts';

export function orderForPeople(q: Question, moves: readonly Move[], goal: number): readonly Move[] {
  const ranked = byDepth(new PlanLinks(q, moves, goal), moves);
  const order = walk(
    q,
    ranked.filter((m) => !isChange(m)),
    moves.filter(isChange),
  );
  return order && replay(q, order)?.holds(goal) ? order : moves;
}

/** Depth first from the goal, without recursion: plans may be thousands of steps deep. */
function byDepth(links: PlanLinks, moves: readonly Move[]): Move[] {
  const out: Move[] = [];
  const state = new Uint8Array(moves.length);
  const visit = (root: number): void => {
    const open = [root];
    while (open.length > 0) {
      const at = open.at(-1)!;
      if (state[at] === 0) {
        state[at] = 1;
        const needs = links.needs[at]!;
        for (let k = needs.length - 1; k >= 0; k--) if (state[needs[k]!] === 0) open.push(needs[k]!);
      } else {
        open.pop();
        if (state[at] === 1) out.push(moves[at]!);
        state[at] = 2;
      }
    }
  };
  for (const g of links.goalNeeds) visit(g);
  moves.forEach((_, i) => visit(i));
  return out;
}

function walk(q: Question, acts: readonly Move[], changes: readonly Move[]): Move[] | null {
  const at = q.now.copy();
  const order: Move[] = [];
  let rest = acts;
  let next = 0;
  const waitsForState = (act: Move): boolean =>
    changes.slice(next).some((m) => {
      const c = q.changes[~m]!;
      return q.setups[c.setup]!.goneBy[c.to]!.includes(act);
    });
  while (rest.length > 0 || next < changes.length) {
    const left: Move[] = [];
    let moved = false;
    for (const [i, act] of rest.entries()) {
      if (waitsForState(act) || !mayMove(q, at, act)) {
        left.push(act);
        continue;
      }
      doMove(q, at, act);
      order.push(act);
      moved = true;
      if (left.length === 0) continue;
      left.push(...rest.slice(i + 1));
      break;
    }
    rest = left;
    if (moved) continue;
    const change = changes[next++];
    if (change === undefined || !mayMove(q, at, change)) return null;
    doMove(q, at, change);
    order.push(change);
  }
  return order;
}
