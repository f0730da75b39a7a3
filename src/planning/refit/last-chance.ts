/**
 * What x takes the last chance from, beyond what the closure tells (docs/adr/0008, 9 and 10). Refitting only ever takes
 * actions away, and conditions are positive: a condition that holds with everything that is still done, and not any more
 * once x is back, never holds again without taking x off. Two sorts of joint wait on such a condition:
 *
 *   hold    the joints that carry a part which hangs by none of them: the first one made is the last one released
 *   refit   a joint whose own `refit` condition the closure, which reads the strip, does not see
 *
 * State needs count as met by any state in reach, and work of the refit only as made, since it still can be.
 */
import type { Reach } from './reach.ts';
import type { Recorded } from './recorded.ts';
import { REFIT, type RefitModel } from './refit-model.ts';
import { World } from './world.ts';

interface Waiting {
  /** Released, and wanting the condition when they are made. */
  readonly joints: readonly number[];
  readonly nodes: readonly number[];
  /** The part is off, so that nothing is asked; -1: it is always asked. */
  readonly away: number;
  /** Of the hold rule, which may be waived; -1: none. */
  readonly rule: number;
}

const KEPT = new WeakMap<RefitModel, LastChance>();

export function lastChanceOf(model: RefitModel): LastChance {
  const kept = KEPT.get(model) ?? new LastChance(model);
  KEPT.set(model, kept);
  return kept;
}

class LastChance {
  private readonly all: readonly Waiting[];
  private readonly by = new Map<number, Waiting[]>();

  constructor(private readonly model: RefitModel) {
    const holds = model.holds.map((h, rule): Waiting => ({ joints: h.joints, nodes: [h.node], away: h.away, rule }));
    this.all = [...holds, ...this.refits()];
    for (const w of this.all) {
      const actions = new Set<number>();
      for (const node of w.nodes) model.eachAction(node, (a) => actions.add(a));
      for (const a of actions) (this.by.get(a) ?? this.by.set(a, []).get(a)!).push(w);
    }
  }

  private refits(): Waiting[] {
    const found: Waiting[] = [];
    for (let j = 0; j < this.model.joints; j++) {
      const nodes = this.model.conditions[j]!.filter((c) => c.reading === REFIT).map((c) => c.node);
      if (nodes.length > 0) found.push({ joints: [j], nodes, away: -1, rule: -1 });
    }
    return found;
  }

  /** Joints that could be made while x is out, and never once it is back. */
  lostBy(x: number, recorded: Recorded, reach: Reach, then: Reach): readonly number[] {
    const waiting = this.model.movesStates[x] === 1 ? this.all : this.by.get(x);
    if (waiting === undefined || recorded.world.done[x] === 0) return [];
    return this.lost(waiting, recorded, reach, then, x);
  }

  /** The same for a change of state. */
  lostByChange(recorded: Recorded, reach: Reach, then: Reach): readonly number[] {
    return this.lost(this.all, recorded, reach, then, -1);
  }

  private lost(list: readonly Waiting[], recorded: Recorded, reach: Reach, then: Reach, x: number): readonly number[] {
    const { world } = recorded;
    const open = list.filter((w) => w.joints.every((j) => j !== x && world.done[j] === 1 && recorded.forced[j] === 0));
    if (open.length === 0) return [];
    const before = this.hopes(world, reach);
    const after = this.hopes(world, then);
    if (x >= 0) after.done[x] = 0;
    const found = open.filter((w) => {
      if (w.rule >= 0 && world.waived[w.rule] === 1) return false;
      if (w.away >= 0 && after.holds(w.away)) return false;
      return w.nodes.every((n) => before.holds(n)) && !w.nodes.every((n) => after.holds(n));
    });
    return [...new Set(found.flatMap((w) => w.joints))];
  }

  /** The world as well as it can still become by changes of state and work of the refit. */
  private hopes(world: World, reach: Reach): World {
    const hopes = new World(this.model).copyOf(world);
    hopes.standAsAnyOf(reach);
    for (const a of this.model.refitOnly) hopes.done[a] = 1;
    return hopes;
  }
}
