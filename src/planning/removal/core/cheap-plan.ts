/**
 * A good solution of an open graph, fast: label every node with the summed weight of its cheapest support (Dijkstra over
 * AND/OR, sums count shared support twice), take supports back from what is forced, then drop what is not needed.
 * The weights steer it: costs at first, later costs scaled down by what the linear program likes. Labels are set in an
 * executable order, so the plan never leans on itself.
 */
import type { Graph, Users } from './graph.ts';

export interface Plan {
  readonly cost: number;
  /** nodes chosen, forced ones included */
  readonly chosen: Uint8Array;
}

export class Planner {
  private readonly label: Float64Array;
  private readonly missing: Int32Array;
  private readonly sum: Float64Array;
  private readonly best: Int32Array;
  private readonly heapNode: number[] = [];
  private readonly heapKey: number[] = [];

  constructor(
    private readonly g: Graph,
    private readonly users: Users,
  ) {
    this.label = new Float64Array(g.n);
    this.missing = new Int32Array(g.n + 1);
    this.sum = new Float64Array(g.n + 1);
    this.best = new Int32Array(g.owner.length);
  }

  /** Null when the goal is out of reach without the nodes marked out. */
  plan(weight: Float64Array, out: Uint8Array | null): Plan | null {
    const { g, users, label, missing, sum, best } = this;
    label.fill(-1);
    best.fill(-1);
    this.heapNode.length = 0;
    this.heapKey.length = 0;
    for (let a = 0; a < g.n; a++) {
      missing[a] = g.clauseStart[a + 1]! - g.clauseStart[a]!;
      sum[a] = g.forced[a] === 1 ? 0 : weight[a]!;
      if (missing[a] === 0 && (out === null || out[a] === 0)) this.push(a, sum[a]!);
    }
    while (this.heapNode.length > 0) {
      const key = this.heapKey[0]!;
      const b = this.pop();
      if (label[b]! >= 0) continue;
      label[b] = key;
      for (let e = users.start[b]!; e < users.start[b + 1]!; e++) {
        const c = users.clause[e]!;
        if (best[c]! >= 0) continue;
        best[c] = b;
        const a = g.owner[c]!;
        if (a === g.n) continue;
        sum[a]! += key;
        if (--missing[a]! === 0 && (out === null || out[a] === 0)) this.push(a, sum[a]!);
      }
    }
    const chosen = new Uint8Array(g.n);
    const stack: number[] = [];
    const want = (a: number): void => {
      if (chosen[a] === 1) return;
      chosen[a] = 1;
      stack.push(a);
    };
    for (let a = 0; a < g.n; a++) {
      if (g.forced[a] === 0) continue;
      if (label[a]! < 0) return null;
      want(a);
    }
    const need = (c: number): void => {
      // another alternative that is in the plan already and was labelled before is as good
      want(best[c]!);
    };
    for (let c = g.clauseStart[g.n]!; c < g.owner.length; c++) {
      if (best[c]! < 0) return null;
      need(c);
    }
    for (let a = stack.pop(); a !== undefined; a = stack.pop())
      for (let c = g.clauseStart[a]!; c < g.clauseStart[a + 1]!; c++) need(c);
    return this.trim(chosen);
  }

  /** Drops nodes that are not needed, dearest first, until every node is. */
  trim(chosen: Uint8Array): Plan {
    const { g, users } = this;
    const inside: number[] = [];
    for (let a = 0; a < g.n; a++) if (chosen[a] === 1) inside.push(a);
    const free = inside.filter((a) => g.forced[a] === 0).sort((a, b) => g.cost[b]! - g.cost[a]!);
    const support = new Int32Array(g.owner.length);
    const active = (c: number): boolean => g.owner[c] === g.n || chosen[g.owner[c]!] === 1;
    for (const b of inside) for (let e = users.start[b]!; e < users.start[b + 1]!; e++) support[users.clause[e]!]!++;
    const lone = (b: number): boolean => {
      for (let e = users.start[b]!; e < users.start[b + 1]!; e++) {
        const c = users.clause[e]!;
        if (active(c) && support[c] === 1) return true;
      }
      return false;
    };
    const drop = (b: number): void => {
      chosen[b] = 0;
      for (let e = users.start[b]!; e < users.start[b + 1]!; e++) support[users.clause[e]!]!--;
    };
    const unused = (b: number): boolean => {
      for (let e = users.start[b]!; e < users.start[b + 1]!; e++) if (active(users.clause[e]!)) return false;
      return true;
    };
    // what a set needs, every smaller set needs: one refusal is enough
    const needed = new Uint8Array(g.n);
    for (let again = true; again; ) {
      again = false;
      for (const b of free) {
        if (chosen[b] === 0 || needed[b] === 1 || lone(b)) continue;
        if (unused(b)) drop(b);
        else {
          chosen[b] = 0;
          const left = this.executable(chosen);
          chosen[b] = 1;
          if (left === null) {
            needed[b] = 1;
            continue;
          }
          for (const a of inside) if (chosen[a] === 1 && left[a] === 0) drop(a);
        }
        again = true;
      }
    }
    let cost = 0;
    for (const a of inside) if (chosen[a] === 1 && g.forced[a] === 0) cost += g.cost[a]!;
    return { cost, chosen };
  }

  /** The executable part of a set, or null when it does not reach the goal. */
  executable(chosen: Uint8Array): Uint8Array | null {
    const { g, users, missing } = this;
    const met = new Uint8Array(g.owner.length);
    const has = new Uint8Array(g.n);
    const queue: number[] = [];
    for (let a = 0; a <= g.n; a++) {
      missing[a] = g.clauseStart[a + 1]! - g.clauseStart[a]!;
      if (a < g.n && chosen[a] === 1 && missing[a] === 0) {
        has[a] = 1;
        queue.push(a);
      }
    }
    for (let q = 0; q < queue.length; q++) {
      const b = queue[q]!;
      for (let e = users.start[b]!; e < users.start[b + 1]!; e++) {
        const c = users.clause[e]!;
        if (met[c] === 1) continue;
        met[c] = 1;
        const a = g.owner[c]!;
        if (--missing[a]! === 0 && a < g.n && chosen[a] === 1) {
          has[a] = 1;
          queue.push(a);
        }
      }
    }
    if (missing[g.n]! > 0) return null;
    for (let a = 0; a < g.n; a++) if (g.forced[a] === 1 && has[a] === 0) return null;
    return has;
  }

  private push(a: number, key: number): void {
    const { heapNode, heapKey } = this;
    let i = heapNode.length;
    heapNode.push(a);
    heapKey.push(key);
    while (i > 0) {
      const up = (i - 1) >> 1;
      if (heapKey[up]! <= key) break;
      heapKey[i] = heapKey[up]!;
      heapNode[i] = heapNode[up]!;
      i = up;
    }
    heapKey[i] = key;
    heapNode[i] = a;
  }

  private pop(): number {
    const { heapNode, heapKey } = this;
    const top = heapNode[0]!;
    const node = heapNode.pop()!;
    const key = heapKey.pop()!;
    const size = heapNode.length;
    if (size === 0) return top;
    let i = 0;
    for (;;) {
      let child = 2 * i + 1;
      if (child >= size) break;
      if (child + 1 < size && heapKey[child + 1]! < heapKey[child]!) child++;
      if (heapKey[child]! >= key) break;
      heapKey[i] = heapKey[child]!;
      heapNode[i] = heapNode[child]!;
      i = child;
    }
    heapKey[i] = key;
    heapNode[i] = node;
    return top;
  }
}
