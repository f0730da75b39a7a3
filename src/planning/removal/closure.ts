/**
 * What holds in one configuration of a question (done actions, states, deferred choices), kept up to date on counters:
 * an `all` waits for the number of its items, an `any` for the first. Doing an action makes nodes true and never false;
 * only a change of state can, and then just the few nodes that speak of setups are worked out again.
 *
 * Shared by the exact search (one configuration after another) and by the relaxed walk (every state reached counts).
 */
import { KIND, TRUE } from '../rig-model/need-table.ts';
import type { Question } from './question.ts';

/** What never changes during a question: who listens to whom. */
export class Wiring {
  readonly parents: readonly (readonly number[])[];
  readonly actsOf: readonly (readonly number[])[];
  readonly leafOf: Int32Array;
  readonly fullCount: Int32Array;
  readonly mixed: readonly number[];
  /** Condition including what must have held before. */
  readonly relaxed: readonly number[];
  readonly relaxedActsOf: readonly (readonly number[])[];
  /** What must have held before a part is lifted, and the joints after whose release it no longer matters. */
  readonly beforeOf: readonly { readonly node: number; readonly joints: readonly number[] }[];
  readonly holdsOf: readonly (readonly number[])[];
  readonly guardsOf: readonly (readonly number[])[];
  /** Per action: (setup, state) that it makes impossible to enter. */
  readonly spoils: readonly (readonly (readonly [number, number])[])[];
  readonly changesInto: readonly (readonly (readonly number[])[])[];
  /** Rules that have turned out to matter: holds, then guards, then setups (a door that closes behind one). */
  readonly active: Uint8Array;

  constructor(readonly q: Question) {
    const t = q.table;
    this.active = new Uint8Array(q.holds.length + q.guards.length + q.setups.length);
    this.relaxed = q.acts.map((_, a) =>
      q.before[a]!.length === 0 ? q.condition[a]! : t.all([q.condition[a]!, ...q.before[a]!]),
    );
    this.beforeOf = q.holds.flatMap((h) =>
      h.joints.length === 0 ? [] : [{ node: t.any([h.node, h.off]), joints: h.joints }],
    );
    const leaves = q.acts.map((_, a) => t.action(a));
    const parents: number[][] = Array.from({ length: t.size }, () => []);
    this.fullCount = new Int32Array(t.size);
    const mixed: number[] = [];
    for (let n = 0; n < t.size; n++) {
      if (t.pure[n] === 0) mixed.push(n);
      if (t.kind[n] !== KIND.all && t.kind[n] !== KIND.any) continue;
      for (const item of t.items[n]!) parents[item]!.push(n);
      this.fullCount[n] = t.items[n]!.length;
    }
    this.parents = parents;
    this.mixed = mixed;
    this.leafOf = Int32Array.from(leaves);
    this.actsOf = listening(t.size, q.condition);
    this.relaxedActsOf = listening(t.size, this.relaxed);
    this.holdsOf = byAct(
      q.size,
      q.holds.map((h) => h.joints),
    );
    this.guardsOf = byAct(
      q.size,
      q.guards.map((g) => [...new Set(g.takers.flat())]),
    );
    const spoils: [number, number][][] = q.acts.map(() => []);
    q.setups.forEach((s, i) => s.goneBy.forEach((acts, state) => acts.forEach((a) => spoils[a]!.push([i, state]))));
    this.spoils = spoils;
    this.changesInto = q.setups.map((s, i) =>
      Array.from({ length: s.count }, (_, state) =>
        q.changes.flatMap((c, k) => (c.setup === i && c.to === state ? [k] : [])),
      ),
    );
  }
}

function listening(size: number, conditions: readonly number[]): number[][] {
  const lists: number[][] = Array.from({ length: size }, () => []);
  conditions.forEach((n, a) => lists[n]!.push(a));
  return lists;
}

function byAct(size: number, lists: readonly (readonly number[])[]): number[][] {
  const out: number[][] = Array.from({ length: size }, () => []);
  lists.forEach((acts, i) => acts.forEach((a) => out[a]!.push(i)));
  return out;
}

export class Truth {
  readonly value: Uint8Array;
  readonly waits: Int32Array;
  /** Actions whose condition has just become true. */
  readonly ready: number[] = [];

  private constructor(
    private readonly wiring: Wiring,
    private readonly actsOf: readonly (readonly number[])[],
    from: Truth | null,
  ) {
    this.value = from ? from.value.slice() : new Uint8Array(wiring.fullCount.length);
    this.waits = from ? from.waits.slice() : wiring.fullCount.slice();
  }

  /** Nothing done; `relaxed` listens to conditions with what must have held before. */
  static start(wiring: Wiring, relaxed: boolean): Truth {
    const t = new Truth(wiring, relaxed ? wiring.relaxedActsOf : wiring.actsOf, null);
    t.set(TRUE);
    return t;
  }

  copy(): Truth {
    return new Truth(this.wiring, this.actsOf, this);
  }

  set(first: number): void {
    if (this.value[first] === 1) return;
    const open = [first];
    this.value[first] = 1;
    const { kind } = this.wiring.q.table;
    for (let n = open.pop(); n !== undefined; n = open.pop()) {
      for (const a of this.actsOf[n]!) this.ready.push(a);
      for (const p of this.wiring.parents[n]!) {
        if (this.value[p] === 1) continue;
        if (kind[p] === KIND.all && --this.waits[p]! > 0) continue;
        this.value[p] = 1;
        open.push(p);
      }
    }
  }

  doAct(act: number): void {
    this.set(this.wiring.leafOf[act]!);
  }

  /** After a change of state: works out what speaks of setups, and offers its actions again. */
  standIn(states: Int32Array): void {
    const { table } = this.wiring.q;
    for (const n of this.wiring.mixed) {
      const items = table.items[n]!;
      let value: boolean;
      if (table.kind[n] === KIND.state) value = items.includes(states[table.subject[n]!]!);
      else {
        let open = 0;
        for (const i of items) if (this.value[i] === 0) open++;
        this.waits[n] = open;
        value = table.kind[n] === KIND.all ? open === 0 : open < items.length;
      }
      this.value[n] = value ? 1 : 0;
      if (value) for (const a of this.actsOf[n]!) this.ready.push(a);
    }
  }
}

export interface RelaxedEnd {
  readonly reached: boolean;
  readonly did: Uint8Array;
  /** Per setup, the states that could be entered. */
  readonly entered: readonly Uint8Array[];
}

/**
 * Everything that could be reached if setups never closed a door, holds and guards aside. When not even this reaches
 * the goal, nothing does. States that can no longer be entered stay out.
 */
export function relaxedReach(
  w: Wiring,
  acts: Uint8Array,
  changes: Int32Array,
  done: Uint8Array | null,
  states: Int32Array,
  /** Goes on after the goal. */
  everything = false,
): RelaxedEnd {
  const { q } = w;
  const truth = Truth.start(w, true);
  const shuts = q.holds.length + q.guards.length;
  const did = new Uint8Array(q.size);
  if (done) {
    for (let a = 0; a < q.size; a++) {
      if (done[a] === 0) continue;
      did[a] = 1;
      truth.doAct(a);
    }
    for (const h of w.beforeOf) if (h.joints.every((j) => done[j] === 1)) truth.set(h.node);
  }
  const entered = q.setups.map((s) => new Uint8Array(s.count));
  const enter = (setup: number, state: number): void => {
    entered[setup]![state] = 1;
    for (const n of w.mixed)
      if (q.table.kind[n] === KIND.state && q.table.subject[n] === setup && q.table.items[n]!.includes(state))
        truth.set(n);
  };
  q.setups.forEach((_, i) => enter(i, states[i]!));
  for (;;) {
    for (let a = truth.ready.pop(); a !== undefined; a = truth.ready.pop()) {
      if (did[a] === 1 || acts[a] === 0) continue;
      did[a] = 1;
      truth.doAct(a);
    }
    if (truth.value[q.goal] === 1 && !everything) return { reached: true, did, entered };
    let moved = false;
    q.changes.forEach((c, k) => {
      const s = q.setups[c.setup]!;
      if (changes[k] === 0 || entered[c.setup]![c.to] === 1 || entered[c.setup]![c.from] === 0) return;
      if (truth.value[s.needs[c.to]!] === 0 || s.goneNow[c.to]) return;
      if (done && w.active[shuts + c.setup] === 1 && s.goneBy[c.to]!.some((a) => done[a] === 1)) return;
      enter(c.setup, c.to);
      moved = true;
    });
    if (!moved) return { reached: truth.value[q.goal] === 1, did, entered };
  }
}
