/**
 * The full refit order: everything done goes back, nothing is locked out, no unsigned look is hidden before it could be
 * signed. First the reverse of the recorded order, bent only where it must be (`strip-order.ts`, linear); where that
 * gets stuck on holds, guards or states, an exact search with a budget. Otherwise null, with the reason in words.
 */
import type { ActionId } from '../../domain/rig/rig-types.ts';
import type { FitsAnswer } from '../answers.ts';
import type { Wiring } from './closure.ts';
import type { Moment } from './moment.ts';
import { whyNoOrder } from './order-reason.ts';
import { searchOrder } from './order-search.ts';
import { stripOrder } from './strip-order.ts';
import { layOut, type Walk } from './walk.ts';

type OrderAnswer = Pick<FitsAnswer, 'order' | 'reason' | 'lastSeen'>;

export function planOrder(moment: Moment, wiring: Wiring): OrderAnswer {
  const strip = stripOrder(moment, wiring);
  if (strip.left.length > 0) {
    const most = strip.held.length === 0 ? strip : stripOrder(moment, wiring, true);
    if (most.left.length > 0) return without(whyNoOrder(moment, most));
  }
  if (strip.left.length === 0) {
    const walk = layOut(moment, [...strip.sequence].reverse(), strip.makes);
    if (walk) return answer(moment, walk);
  }
  const found = searchOrder(moment);
  switch (found.kind) {
    case 'order':
      return answer(moment, found.walk);
    case 'none':
      return without(whyNoOrder(moment, strip));
    case 'spent':
      return without(`No order was found in ${found.tried} tries. That does not prove that there is none.`);
    default:
      return found satisfies never;
  }
}

function without(reason: string): OrderAnswer {
  return { order: null, reason, lastSeen: {} };
}

function answer(moment: Moment, walk: Walk): OrderAnswer {
  return { order: walk.steps(), lastSeen: lastSeen(moment, walk) };
}

/** Per look that is seen now: the step after which it is seen no more. Looks that stay in view are absent. */
function lastSeen(moment: Moment, walk: Walk): Readonly<Record<string, ActionId>> {
  const { model } = moment;
  const open = model.looks.filter((l) => moment.isOpen(l));
  if (open.length === 0) return {};
  const { world } = moment.copy();
  const found = new Map<string, ActionId>();
  const seen = new Map(open.map((l) => [l, true]));
  for (const move of walk.moves) {
    if (move.kind === 'set') {
      const states = world.states.slice();
      states[move.change.setup] = move.change.state;
      world.standAs(states);
    } else world.done[move.action] = move.kind === 'make' ? 1 : 0;
    for (const l of move.kind === 'back' ? (model.looksOf.get(move.action) ?? []).map((i) => model.looks[i]!) : open) {
      if (!seen.has(l)) continue;
      const now = world.holds(l.visible);
      if (seen.get(l) && !now) found.set(l.look.id, walk.id(move));
      if (now) found.delete(l.look.id);
      seen.set(l, now);
    }
  }
  return Object.fromEntries([...found].sort(([a], [b]) => (a < b ? -1 : 1)));
}
