/**
 * An order in which everything done could have been done so that its reverse is a refit that locks nothing out: each
 * action is placed when its strip and refit conditions both hold in what stands before it. Conditions are positive, so
 * taking whatever is open, earliest recorded first, never closes a door: when it gets stuck with nothing held back by a
 * hold or a guard, no order exists at all. Where the recorded order is itself such an order, it is the answer.
 *
 * Three things that are not conditions of the strip are waited for as well: a removal that was forced waits for the
 * released joints it parts (a joint is made only when its ends are back together); the joints of a look that is signed
 * with them made wait until the look can be seen; and what is "last of a group" (hold, guard) is held back until it may.
 * States count as met here; `walk.ts` lays the changes.
 */

import type { Wiring } from './closure.ts';
import { ACTION, AND, FACT, OR, STATE, WAIVED } from './gates.ts';
import type { Moment } from './moment.ts';
import { REFIT } from './refit-model.ts';
import { World } from './world.ts';

export interface StripOrder {
  readonly sequence: readonly number[];
  /** Not placed; held back by a hold or a guard where `held` says so. */
  readonly left: readonly number[];
  readonly held: readonly number[];
  /** Operations of the refit that are taken as made. */
  readonly makes: readonly number[];
}

/** `freely`: holds and guards are left out; what is then left over can be placed in no order. */
export function stripOrder(moment: Moment, wiring: Wiring, freely = false): StripOrder {
  return new Placing(moment, wiring, freely).run();
}

class Placing {
  private readonly world: World;
  private readonly truth: Uint8Array;
  private readonly count: Int32Array;
  private readonly wanted: Int32Array;
  private readonly waits = new Map<number, number[]>();
  private readonly ignored = new Map<number, Set<number>>();
  private readonly open = new Turns();
  private readonly todo: readonly number[];
  private readonly makes: readonly number[];
  private readonly placed: number[] = [];
  private readonly whole: readonly boolean[];

  constructor(
    private readonly moment: Moment,
    private readonly wiring: Wiring,
    private readonly freely: boolean,
  ) {
    const { model, recorded } = moment;
    const now = recorded.world;
    this.todo = recorded.order.filter((a) => now.done[a] === 1 && recorded.stays[a] === 0);
    this.whole = model.guards.map((_, g) => !now.isBroken(g));
    this.world = new World(model).copyOf(now);
    this.world.standAsAnyOf(model.setups.map(({ setup }) => new Uint8Array(setup.states.length).fill(1)));
    this.makes = makeable(this.world);
    for (const a of this.todo) this.world.done[a] = 0;
    this.truth = new Uint8Array(wiring.size);
    this.count = new Int32Array(wiring.size);
    this.wanted = new Int32Array(wiring.size);
    this.wire();
  }

  private wire(): void {
    const { wiring, wanted } = this;
    const { recorded, model } = this.moment;
    for (let v = 0; v < wiring.size; v++) {
      wanted[v] = wiring.kind[v] === OR ? 1 : wiring.childStart[v + 1]! - wiring.childStart[v]!;
    }
    for (const [a, list] of recorded.onFacts) {
      const nodes = list.filter((c) => (c.reading & REFIT) === 0).map((c) => c.node);
      const still = new Set(model.conditions[a]!.filter((c) => (c.reading & REFIT) !== 0).map((c) => c.node));
      const ignored = new Set(nodes.filter((n) => !still.has(n)));
      this.ignored.set(a, ignored);
      wanted[a]! -= ignored.size;
    }
    for (const a of this.todo) {
      if (recorded.forced[a] === 0) continue;
      wanted[a] = 0;
      this.ignored.set(a, new Set(wiring.child.subarray(wiring.childStart[a], wiring.childStart[a + 1])));
      const part = model.liftedBy(a);
      if (part >= 0) for (const j of model.index.crossing[part]!) if (recorded.world.done[j] === 1) this.wait(a, j);
    }
    for (const look of model.looks) {
      if (!this.moment.isOpen(look)) continue;
      for (const j of look.joints) if (recorded.world.done[j] === 1) this.wait(j, look.visible);
    }
  }

  private wait(action: number, node: number): void {
    const list = this.waits.get(node);
    if (list) list.push(action);
    else this.waits.set(node, [action]);
    this.wanted[action]!++;
  }

  run(): StripOrder {
    this.start();
    let held: number[] = [];
    for (let a = this.open.pop(); a !== undefined; a = this.open.pop()) {
      if (!this.mayPlace(a)) {
        held.push(a);
        continue;
      }
      this.place(a);
      for (const h of held) this.open.push(h, this.moment.recorded.turn[h]!);
      held = [];
    }
    const left = this.todo.filter((a) => this.world.done[a] === 0);
    return { sequence: this.placed, left, held, makes: this.makes };
  }

  private start(): void {
    const { wiring, world } = this;
    const { data } = wiring.model.gates;
    const queue: number[] = [];
    const open = new Set(this.todo);
    for (let v = 0; v < wiring.size; v++) {
      const kind = wiring.kind[v];
      const holds =
        (kind === ACTION && world.done[v] === 1) ||
        (kind === AND && this.wanted[v] === 0) ||
        (kind === FACT && world.facts[data[v]!] === 1) ||
        (kind === STATE && world.leaves[data[v]!] === 1) ||
        (kind === WAIVED && world.waived[data[v]!] === 1);
      if (holds) {
        this.truth[v] = 1;
        queue.push(v);
      } else if (kind === ACTION && this.wanted[v] === 0 && open.has(v)) this.open.push(v, this.turn(v));
    }
    this.spread(queue);
  }

  private turn(a: number): number {
    return this.moment.recorded.turn[a]!;
  }

  private place(a: number): void {
    this.world.done[a] = 1;
    this.truth[a] = 1;
    this.placed.push(a);
    this.spread([a]);
  }

  private spread(queue: number[]): void {
    const { wiring } = this;
    for (let head = 0; head < queue.length; head++) {
      const u = queue[head]!;
      for (let i = wiring.parentStart[u]!; i < wiring.parentStart[u + 1]!; i++) {
        const v = wiring.parent[i]!;
        if (this.ignored.size === 0 || !this.ignored.get(v)?.has(u)) this.meet(v, queue);
      }
      for (const v of this.waits.get(u) ?? []) this.meet(v, queue);
    }
  }

  private meet(v: number, queue: number[]): void {
    this.count[v]!++;
    if (this.truth[v] === 1 || this.count[v] !== this.wanted[v]) return;
    if (this.wiring.kind[v] === ACTION) {
      if (this.turn(v) >= 0 && this.world.done[v] === 0) this.open.push(v, this.turn(v));
      return;
    }
    this.truth[v] = 1;
    queue.push(v);
  }

  private mayPlace(a: number): boolean {
    const { world } = this;
    if (this.freely) return true;
    if (this.moment.recorded.forced[a] === 0 && world.brokenHolds(a).length > 0) return false;
    if (this.whole.length === 0) return true;
    if (world.guardsChanged(a, 'undone').length > 0) return false;
    return !world.guardsChanged(a, 'done').some((g) => this.whole[g]!);
  }
}

/** Operations of the refit that can be made from here, one after the other. */
function makeable(world: World): readonly number[] {
  const { model } = world;
  const found: number[] = [];
  for (let grew = true; grew; ) {
    grew = false;
    for (const a of model.refitOnly) {
      if (world.done[a] === 1 || !world.meets(a, REFIT)) continue;
      world.done[a] = 1;
      found.push(a);
      grew = true;
    }
  }
  return found;
}

/** A heap of actions by turn. */
class Turns {
  private readonly items: number[] = [];
  private readonly keys: number[] = [];

  push(item: number, key: number): void {
    const { items, keys } = this;
    let at = items.length;
    items.push(item);
    keys.push(key);
    while (at > 0) {
      const up = (at - 1) >> 1;
      if (keys[up]! <= key) break;
      items[at] = items[up]!;
      keys[at] = keys[up]!;
      at = up;
    }
    items[at] = item;
    keys[at] = key;
  }

  pop(): number | undefined {
    const { items, keys } = this;
    const first = items[0];
    const item = items.pop();
    const key = keys.pop();
    if (first === undefined || item === undefined || key === undefined || items.length === 0) return first;
    let at = 0;
    for (;;) {
      let down = 2 * at + 1;
      if (down >= items.length) break;
      if (down + 1 < items.length && keys[down + 1]! < keys[down]!) down++;
      if (keys[down]! >= key) break;
      items[at] = items[down]!;
      keys[at] = keys[down]!;
      at = down;
    }
    items[at] = item;
    keys[at] = key;
    return first;
  }
}
