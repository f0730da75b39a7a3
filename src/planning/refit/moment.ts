/**
 * One situation, laid over the model: what fits, what fitting it locks out, which looks it hides. Holds the closure of
 * everything done, so that each action is asked by a trial on it (see `closure.ts`).
 *
 * What takes part in the closure without conditions: forced actions; work of the strip only and work of the refit only,
 * since nothing undoes them on the way back; and single conditions that rested on a fact given no longer. Guards are
 * left out (docs/adr/0008, 6).
 *
 * Where an action changes which states can be reached, a trial is not enough (a state need met before is met no longer,
 * or the other way round); then, and only then, the closure is made again for that action.
 */
import { Closure, type Given, Wiring } from './closure.ts';
import { lastChanceOf } from './last-chance.ts';
import { type Change, isWithin, mayEnter, type Reach, reachOf, sameReach } from './reach.ts';
import type { Recorded } from './recorded.ts';
import { CLOSURE, type LookRule, type RefitModel } from './refit-model.ts';
import { World } from './world.ts';

export interface LockedOut {
  readonly actions: readonly number[];
  /** Those of them that x alone would open again. */
  readonly roots: readonly number[];
}

const NOTHING: LockedOut = { actions: [], roots: [] };

export function closureWiring(model: RefitModel): Wiring {
  return new Wiring(model, (a) => model.conditions[a]!.filter((c) => (c.reading & CLOSURE) !== 0).map((c) => c.node));
}

/** Facts, waivers and reachable states as the closure takes them. */
export function closureInputs(world: World, reach: Reach): World {
  const inputs = new World(world.model).copyOf(world);
  inputs.standAsAnyOf(reach);
  return inputs;
}

export class Moment {
  readonly model: RefitModel;
  readonly world: World;
  reach: Reach;
  closure: Closure;
  private inputs: World;
  private readonly lastChance: ReturnType<typeof lastChanceOf>;

  constructor(
    readonly wiring: Wiring,
    readonly recorded: Recorded,
    closure?: Closure,
  ) {
    this.model = wiring.model;
    this.lastChance = lastChanceOf(wiring.model);
    this.world = recorded.world;
    this.reach = reachOf(this.world);
    this.inputs = closureInputs(this.world, this.reach);
    this.closure = closure ?? new Closure(wiring, this.given(), this.inputs);
  }

  /** The same, to be moved on without touching this one. */
  copy(): Moment {
    const { recorded } = this;
    const world = new World(this.model).copyOf(recorded.world);
    return new Moment(this.wiring, { ...recorded, world, stays: recorded.stays.slice() }, this.closure.copy());
  }

  /** x is back: one action less is done. */
  take(x: number): void {
    this.world.done[x] = 0;
    if (!this.reachMoved(x)) this.closure.remove(x);
  }

  /** Takes x if that locks nothing out; otherwise nothing has changed. */
  takeFreely(x: number): boolean {
    if (this.model.movesStates[x] === 1) {
      if (this.lockedOutBy(x).actions.length > 0) return false;
      this.take(x);
      return true;
    }
    if (this.lostBy(x).length > 0) return false;
    this.world.done[x] = 0;
    for (const a of this.closure.remove(x)) {
      if (a === x || !this.counts(a)) continue;
      this.give(x);
      return false;
    }
    return true;
  }

  /** Takes `take` back. */
  give(x: number): void {
    this.world.done[x] = 1;
    if (!this.reachMoved(x)) this.closure.add(x);
  }

  /** An operation of the refit is made (or, when a search turns back, not made). */
  make(x: number, made = true): void {
    this.world.done[x] = made ? 1 : 0;
    this.recorded.stays[x] = made ? 1 : 0;
    this.again();
  }

  standAs(states: Int32Array): void {
    this.world.standAs(states);
    this.again();
  }

  private reachMoved(x: number): boolean {
    if (this.model.movesStates[x] === 0 || sameReach(reachOf(this.world), this.reach)) return false;
    this.again();
    return true;
  }

  private again(): void {
    this.reach = reachOf(this.world);
    this.inputs = closureInputs(this.world, this.reach);
    this.closure = new Closure(this.wiring, this.given(), this.inputs);
  }

  /** What takes part in the closure: everything done; forced and lasting actions without conditions. */
  given(): Given {
    const { recorded } = this;
    const free = recorded.forced.slice();
    recorded.stays.forEach((stays, a) => {
      if (stays === 1) free[a] = 1;
    });
    return { active: this.world.done, free, settled: recorded.onFacts };
  }

  /** The actions that can be locked out: done, to be undone, with conditions, and reachable now. */
  private counts(a: number): boolean {
    return a < this.model.size && this.recorded.stays[a] === 0;
  }

  lockedOutBy(x: number): LockedOut {
    return this.withLost(this.fallenBy(x), this.lostBy(x));
  }

  /** Joints that x takes the last chance from, beyond what falls in the closure. */
  lostBy(x: number): readonly number[] {
    return this.lastChance.lostBy(x, this.recorded, this.reach, this.reachWithout(x) ?? this.reach);
  }

  /** Joints lost stand in the closure, so all of them are roots. */
  withLost(fallen: LockedOut, lost: readonly number[]): LockedOut {
    const more = lost.filter((j) => this.closure.truth[j] === 1 && !fallen.actions.includes(j));
    if (more.length === 0) return fallen;
    return { actions: [...fallen.actions, ...more], roots: [...fallen.roots, ...more] };
  }

  /** What the closure loses with x. */
  fallenBy(x: number): LockedOut {
    if (this.model.only[x] === 'refit') return NOTHING;
    const reach = this.reachWithout(x);
    if (reach !== null && !isWithin(this.reach, reach)) return this.afresh(reach, x);
    const fell = this.closure.trial(x);
    const actions = fell.filter((a) => a !== x && this.counts(a));
    if (reach !== null && actions.length > 0) {
      this.closure.settle(fell);
      return this.afresh(reach, x);
    }
    const roots = actions.length === 0 ? [] : this.openedBy(x, fell);
    this.closure.settle(fell);
    return actions.length === 0 ? NOTHING : { actions, roots };
  }

  /** The states in reach once x is back, or null where they are the same. */
  reachWithout(x: number): Reach | null {
    if (this.model.movesStates[x] === 0 || this.world.done[x] === 0) return null;
    this.world.done[x] = 0;
    const reach = reachOf(this.world);
    this.world.done[x] = 1;
    return sameReach(reach, this.reach) ? null : reach;
  }

  /** The closure without some actions, with these states in reach. */
  closureWithout(gone: readonly number[], reach: Reach): Closure {
    const active = this.world.done.slice();
    for (const a of gone) active[a] = 0;
    return new Closure(this.wiring, { ...this.given(), active }, closureInputs(this.world, reach));
  }

  /** Fallen actions that stand again once x is there, with nothing but gates in between. */
  private openedBy(x: number, fell: readonly number[]): readonly number[] {
    const { wiring, closure, model } = this;
    const open = new Set<number>([x]);
    const roots: number[] = [];
    const queue = [x];
    const there = (c: number): boolean => open.has(c) || closure.stands(c);
    for (let head = 0; head < queue.length; head++) {
      const u = queue[head]!;
      for (let i = wiring.parentStart[u]!; i < wiring.parentStart[u + 1]!; i++) {
        const v = wiring.parent[i]!;
        if (v === x || open.has(v) || closure.truth[v] === 0 || closure.stands(v)) continue;
        if (v < model.size) {
          if (!roots.includes(v) && this.conditionsOf(v).every(there)) roots.push(v);
        } else if (wiring.kind[v] === 2 || this.childrenOf(v).every(there)) {
          open.add(v);
          queue.push(v);
        }
      }
    }
    return roots.filter((a) => this.counts(a) && fell.includes(a));
  }

  private childrenOf(v: number): readonly number[] {
    const { childStart, child } = this.wiring;
    return Array.from(child.subarray(childStart[v]!, childStart[v + 1]!));
  }

  private conditionsOf(action: number): readonly number[] {
    const settled = this.recorded.onFacts.get(action);
    const list = this.childrenOf(action);
    return settled ? list.filter((c) => !settled.some((s) => s.node === c)) : list;
  }

  /** The closure made again: without x (unless -1), with these states in reach. */
  private afresh(reach: Reach, x: number): LockedOut {
    const { world, closure } = this;
    const then = this.closureWithout(x < 0 ? [] : [x], reach);
    const actions: number[] = [];
    for (let a = 0; a < this.model.size; a++) {
      if (a !== x && world.done[a] === 1 && closure.truth[a] === 1 && then.truth[a] === 0 && this.counts(a))
        actions.push(a);
    }
    const with_ = new World(this.model).copyOf(this.inputs);
    with_.done.set(then.truth.subarray(0, this.model.size));
    if (x >= 0) with_.done[x] = 1;
    return { actions, roots: actions.filter((a) => this.conditionsOf(a).every((c) => with_.holds(c))) };
  }

  mayEnter(change: Change): boolean {
    return mayEnter(this.world, change, true);
  }

  lockedOutByChange(change: Change): LockedOut {
    const was = this.world.states.slice();
    const states = was.slice();
    states[change.setup] = change.state;
    this.world.standAs(states);
    const reach = reachOf(this.world);
    this.world.standAs(was);
    if (sameReach(reach, this.reach)) return NOTHING;
    return this.withLost(this.afresh(reach, -1), this.lastChance.lostByChange(this.recorded, this.reach, reach));
  }

  /** Unsigned looks that are seen now and not in the other state. */
  hiddenByChange(change: Change): readonly string[] {
    const open = this.model.looks.filter((l) => this.isOpen(l));
    const was = this.world.states.slice();
    const states = was.slice();
    states[change.setup] = change.state;
    this.world.standAs(states);
    const hidden = open.filter((l) => !this.world.holds(l.visible)).map((l) => l.look.id);
    this.world.standAs(was);
    return hidden.sort();
  }

  isOpen(look: LookRule): boolean {
    return !this.recorded.signed.has(look.look.id) && this.world.holds(look.visible);
  }
}
