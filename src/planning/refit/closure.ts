/**
 * What can be reached from the complete aircraft with some actions alone, kept up to date as actions come and go, and
 * asked "what would fall if x were not there?" without computing it again for each x.
 *
 * Every true node has a rank, the order in which it was derived; the support of a node has a lower rank. Taking x away
 * first deletes too much (everything whose supports of lower rank are all gone), then derives again what still stands
 * on other supports. Work is proportional to what hangs on x, not to the rig. (Delete and rederive; Gupta, Mumick &
 * Subrahmanian, SIGMOD 1993; the use of ranks is from memory.) Not chosen: one closure for each x.
 *
 * Invariant: `truth` is the least fixpoint over `active` actions; `count` is the number of true children of a node.
 */
import { ACTION, AND, FACT, OR, STATE, WAIVED } from './gates.ts';
import type { Condition, RefitModel } from './refit-model.ts';
import type { World } from './world.ts';

/** Who waits for whom, for the conditions of one reading. Made once for a rig. */
export class Wiring {
  readonly kind: Uint8Array;
  readonly childStart: Int32Array;
  readonly child: Int32Array;
  readonly parentStart: Int32Array;
  readonly parent: Int32Array;

  constructor(
    readonly model: RefitModel,
    conditionsOf: (action: number) => readonly number[],
  ) {
    const { gates } = model;
    const total = gates.size;
    this.kind = Uint8Array.from(gates.kind);
    this.childStart = new Int32Array(total + 1);
    this.parentStart = new Int32Array(total + 1);
    const lists: (readonly number[])[] = [];
    for (let v = 0; v < total; v++) lists.push(v < model.size ? [...new Set(conditionsOf(v))] : gates.children[v]!);
    for (let v = 0; v < total; v++) {
      this.childStart[v + 1] = this.childStart[v]! + lists[v]!.length;
      for (const c of lists[v]!) this.parentStart[c + 1]!++;
    }
    for (let v = 0; v < total; v++) this.parentStart[v + 1]! += this.parentStart[v]!;
    this.child = new Int32Array(this.childStart[total]!);
    this.parent = new Int32Array(this.childStart[total]!);
    const fill = this.parentStart.slice();
    for (let v = 0; v < total; v++) {
      this.child.set(lists[v]!, this.childStart[v]);
      for (const c of lists[v]!) this.parent[fill[c]!++] = v;
    }
  }

  get size(): number {
    return this.kind.length;
  }
}

/** Actions that take part, those among them without conditions, and conditions that do not count. */
export interface Given {
  readonly active: Uint8Array;
  readonly free: Uint8Array;
  readonly settled: ReadonlyMap<number, readonly Condition[]>;
}

export class Closure {
  readonly truth: Uint8Array;
  readonly rank: Int32Array;
  private readonly count: Int32Array;
  private readonly wanted: Int32Array;
  private readonly active: Uint8Array;
  private readonly free: Uint8Array;
  private readonly ignored = new Map<number, Set<number>>();
  private nextRank = 0;
  /** Trial: nodes that fall, in order; how many of its children have fallen, per node. */
  private readonly fallen: Uint8Array;
  private readonly lost: Int32Array;
  private readonly touched: number[] = [];
  private readonly stack: number[] = [];

  constructor(
    readonly wiring: Wiring,
    given: Given,
    inputs: World | null,
  ) {
    const total = wiring.size;
    this.truth = new Uint8Array(total);
    this.rank = new Int32Array(total);
    this.count = new Int32Array(total);
    this.wanted = new Int32Array(total);
    this.fallen = new Uint8Array(total);
    this.lost = new Int32Array(total);
    this.active = given.active.slice();
    this.free = given.free.slice();
    for (const [action, list] of given.settled) this.ignored.set(action, new Set(list.map((c) => c.node)));
    if (inputs !== null) this.derive(inputs);
  }

  /** The same closure, to be moved on without touching this one. */
  copy(): Closure {
    const other = new Closure(this.wiring, { active: this.active, free: this.free, settled: new Map() }, null);
    for (const [action, nodes] of this.ignored) other.ignored.set(action, nodes);
    other.truth.set(this.truth);
    other.rank.set(this.rank);
    other.count.set(this.count);
    other.wanted.set(this.wanted);
    other.nextRank = this.nextRank;
    return other;
  }

  private derive(inputs: World): void {
    const { wiring } = this;
    const { data } = wiring.model.gates;
    const queue: number[] = [];
    for (let v = 0; v < wiring.size; v++) {
      const kids = wiring.childStart[v + 1]! - wiring.childStart[v]!;
      const kind = wiring.kind[v];
      this.wanted[v] = kind === OR ? 1 : kids - (this.ignored.get(v)?.size ?? 0);
      const holds =
        (kind === ACTION && this.active[v] === 1 && (this.free[v] === 1 || this.wanted[v] === 0)) ||
        (kind === AND && kids === 0) ||
        (kind === FACT && inputs.facts[data[v]!] === 1) ||
        (kind === STATE && inputs.leaves[data[v]!] === 1) ||
        (kind === WAIVED && inputs.waived[data[v]!] === 1);
      if (holds) this.makeTrue(v, queue);
    }
    this.spread(queue);
  }

  private makeTrue(v: number, queue: number[]): void {
    this.truth[v] = 1;
    this.rank[v] = this.nextRank++;
    queue.push(v);
  }

  private spread(queue: number[]): void {
    const { wiring, count, truth } = this;
    for (let head = 0; head < queue.length; head++) {
      const u = queue[head]!;
      for (let i = wiring.parentStart[u]!; i < wiring.parentStart[u + 1]!; i++) {
        const v = wiring.parent[i]!;
        if (this.ignored.size > 0 && this.ignored.get(v)?.has(u)) continue;
        count[v]!++;
        if (truth[v] === 0 && this.mayStand(v) && count[v]! >= this.wanted[v]!) this.makeTrue(v, queue);
      }
    }
  }

  private mayStand(v: number): boolean {
    return this.wiring.kind[v] !== ACTION || this.active[v] === 1;
  }

  /** One more action takes part; gives every node that came to hold. */
  add(action: number, free = this.free[action]!): readonly number[] {
    this.active[action] = 1;
    this.free[action] = free;
    if (this.truth[action] === 1) return [];
    if (free === 0 && this.count[action]! < this.wanted[action]!) return [];
    const queue: number[] = [];
    this.makeTrue(action, queue);
    this.spread(queue);
    return queue;
  }

  /** One action takes part no longer; gives every node that fell. */
  remove(action: number): readonly number[] {
    this.active[action] = 0;
    const fell = this.trial(action, true);
    this.drop(fell);
    return fell;
  }

  private drop(fell: readonly number[]): void {
    for (const u of fell) {
      this.truth[u] = 0;
      for (let i = this.wiring.parentStart[u]!; i < this.wiring.parentStart[u + 1]!; i++) {
        const v = this.wiring.parent[i]!;
        if (!this.ignored.get(v)?.has(u)) this.count[v]!--;
      }
    }
    this.settle(fell);
  }

  /** Nodes that would fall without the action, itself first; call `settle` with them afterwards. */
  trial(action: number, keepRanks = false): number[] {
    if (this.truth[action] === 0) return [];
    const deleted = [action];
    this.fall(action);
    for (let head = 0; head < deleted.length; head++) this.dropParents(deleted[head]!, deleted);
    this.rederive(deleted, action, keepRanks);
    return deleted.filter((u) => this.fallen[u] === 1);
  }

  /** Takes the marks of a trial back. */
  settle(fell: readonly number[]): void {
    for (const u of fell) this.fallen[u] = 0;
    for (const v of this.touched) this.lost[v] = 0;
    this.touched.length = 0;
  }

  /** After a trial: does the node still stand? */
  stands(node: number): boolean {
    return this.truth[node] === 1 && this.fallen[node] === 0;
  }

  private fall(u: number): void {
    const { wiring } = this;
    this.fallen[u] = 1;
    for (let i = wiring.parentStart[u]!; i < wiring.parentStart[u + 1]!; i++) {
      const v = wiring.parent[i]!;
      if (this.ignored.size > 0 && this.ignored.get(v)?.has(u)) continue;
      if (this.lost[v]!++ === 0) this.touched.push(v);
    }
  }

  private dropParents(u: number, deleted: number[]): void {
    const { wiring } = this;
    for (let i = wiring.parentStart[u]!; i < wiring.parentStart[u + 1]!; i++) {
      const v = wiring.parent[i]!;
      if (this.truth[v] === 0 || this.fallen[v] === 1 || this.lost[v] === 0) continue;
      if (wiring.kind[v] === OR ? this.hasOlderSupport(v) : wiring.kind[v] === ACTION && this.free[v] === 1) continue;
      if (wiring.kind[v] === ACTION && this.ignored.get(v)?.has(u)) continue;
      this.fall(v);
      deleted.push(v);
    }
  }

  private hasOlderSupport(v: number): boolean {
    const { wiring } = this;
    for (let i = wiring.childStart[v]!; i < wiring.childStart[v + 1]!; i++) {
      const c = wiring.child[i]!;
      if (this.truth[c] === 1 && this.fallen[c] === 0 && this.rank[c]! < this.rank[v]!) return true;
    }
    return false;
  }

  private canRise(v: number): boolean {
    const { wiring } = this;
    if (wiring.kind[v] !== OR) return this.lost[v] === 0;
    for (let i = wiring.childStart[v]!; i < wiring.childStart[v + 1]!; i++) {
      const c = wiring.child[i]!;
      if (this.truth[c] === 1 && this.fallen[c] === 0) return true;
    }
    return false;
  }

  private rederive(deleted: readonly number[], gone: number, keepRanks: boolean): void {
    const { wiring, stack } = this;
    stack.length = 0;
    for (const v of deleted) if (wiring.kind[v] === OR && this.canRise(v)) stack.push(v);
    for (let u = stack.pop(); u !== undefined; u = stack.pop()) {
      if (this.fallen[u] === 0) continue;
      this.fallen[u] = 0;
      if (keepRanks) this.rank[u] = this.nextRank++;
      for (let i = wiring.parentStart[u]!; i < wiring.parentStart[u + 1]!; i++) {
        const v = wiring.parent[i]!;
        if (this.ignored.size > 0 && this.ignored.get(v)?.has(u)) continue;
        this.lost[v]!--;
        if (v !== gone && this.fallen[v] === 1 && this.canRise(v)) stack.push(v);
      }
    }
  }
}
