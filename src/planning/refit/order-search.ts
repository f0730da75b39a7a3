/**
 * Exact search for a refit order where the greedy one gets stuck: which joint of a held part goes last, which part of a
 * guard, which state the aircraft stands in. Depth first over what is still off, how it stands, and which looks wait;
 * every combination is entered once. Ends with an order, with the proof that there is none, or with the budget used up.
 *
 * Making an operation of the refit never closes a door, so it is made as soon as it can be, and those that were not
 * needed are taken out of the order found.
 */
import type { Moment } from './moment.ts';
import { type Move, Walk } from './walk.ts';

export type Found =
  | { readonly kind: 'order'; readonly walk: Walk }
  | { readonly kind: 'none' }
  | { readonly kind: 'spent'; readonly tried: number };

/** Tried combinations times the number of actions, so that big rigs stop as soon as small ones. */
const BUDGET = 800_000;

export function searchOrder(moment: Moment): Found {
  const search = new Search(moment);
  const found = search.from();
  if (found === null) return { kind: 'spent', tried: search.tried };
  return found ? { kind: 'order', walk: withoutIdle(moment, search.walk.moves) } : { kind: 'none' };
}

class Search {
  readonly walk: Walk;
  tried = 0;
  private spent = 0;
  private readonly entered = new Set<string>();
  private readonly order: readonly number[];

  constructor(moment: Moment) {
    this.walk = new Walk(moment.copy());
    const { recorded } = moment;
    this.order = recorded.order.filter((a) => recorded.stays[a] === 0).reverse();
  }

  /** True: over; false: no way from here; null: the budget is used up. */
  from(): boolean | null {
    if (this.walk.isOver) return true;
    const key = this.key();
    if (this.entered.has(key)) return false;
    this.entered.add(key);
    this.tried++;
    this.spent += this.order.length + 10;
    if (this.spent > BUDGET) return null;
    for (const move of this.moves()) {
      const signed = this.walk.apply(move);
      const over = this.from();
      if (over !== false) return over;
      this.walk.undo(signed);
      if (move.kind === 'make') break;
    }
    return false;
  }

  private key(): string {
    const { world, model } = this.walk.moment;
    const off = this.order.filter((a) => world.done[a] === 1);
    const made = model.refitOnly.filter((a) => world.done[a] === 1);
    return `${off.join()}|${made.join()}|${world.states.join()}|${[...this.walk.unsigned].sort().join()}`;
  }

  private *moves(): Generator<Move> {
    const { walk } = this;
    const { world, model } = walk.moment;
    for (const r of model.refitOnly) {
      if (world.done[r] === 1 || !walk.fits(r)) continue;
      yield { kind: 'make', action: r };
      return;
    }
    for (const x of this.order) if (world.done[x] === 1 && walk.mayTake(x)) yield { kind: 'back', action: x };
    for (let setup = 0; setup < model.setups.length; setup++) {
      const now = world.states[setup]!;
      for (let state = 0; state < model.setups[setup]!.setup.states.length; state++) {
        const change = { setup, state };
        if (state !== now && walk.mayChange(change)) yield { kind: 'set', change, from: world.states.slice() };
      }
    }
  }
}

/** The same order without the makes and changes of state that nothing needed. */
function withoutIdle(moment: Moment, moves: readonly Move[]): Walk {
  let best = rewalk(moment, moves)!;
  for (let i = moves.length - 1; i >= 0; i--) {
    const kept = best.moves;
    if (kept[i] === undefined || kept[i]!.kind === 'back') continue;
    const shorter = rewalk(moment, [...kept.slice(0, i), ...kept.slice(i + 1)]);
    if (shorter) best = shorter;
  }
  return best;
}

/** Walks the moves again from the start; null where one of them may not be made. */
export function rewalk(moment: Moment, moves: readonly Move[]): Walk | null {
  const walk = new Walk(moment.copy());
  for (const move of moves) {
    if (move.kind === 'set') {
      if (!walk.mayChange(move.change)) return null;
      walk.apply({ ...move, from: walk.moment.world.states.slice() });
    } else {
      if (!(move.kind === 'make' ? walk.fits(move.action) : walk.mayTake(move.action))) return null;
      walk.apply(move);
    }
  }
  return walk.isOver ? walk : null;
}
