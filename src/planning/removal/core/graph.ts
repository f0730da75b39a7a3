/**
 * The compact form of what is still open: only actions the goal can still depend on, numbered 0..n-1, clauses in flat
 * arrays. Node n is the goal; it owns the target clauses that are still open. Forced actions (in every solution) carry a
 * flag instead of a clause of the goal. Actions already settled (forced and executable from forced ones alone) and
 * clauses they meet are gone.
 *
 * Invariant: a set solves the graph (with its forced nodes) exactly when the set plus everything settled solves the
 * problem, as far as it concerns the actions of this graph.
 */
import type { CoreProblem } from './problem-types.ts';

export interface Graph {
  readonly n: number;
  /** original action of each node; -1 for the goal */
  readonly act: Int32Array;
  readonly cost: Float64Array;
  /** clauses of node a: clauseStart[a] .. clauseStart[a + 1] */
  readonly clauseStart: Int32Array;
  readonly altStart: Int32Array;
  readonly alt: Int32Array;
  readonly owner: Int32Array;
  /** per clause the original action it speaks of, -1 for the goal (an owner can have become the goal) */
  readonly of: Int32Array;
  readonly forced: Uint8Array;
}

export interface Users {
  readonly start: Int32Array;
  readonly clause: Int32Array;
}

/** For each node, the clauses it appears in. */
export function usersOf(g: Graph): Users {
  const start = new Int32Array(g.n + 1);
  for (const b of g.alt) start[b + 1]!++;
  for (let i = 0; i < g.n; i++) start[i + 1]! += start[i]!;
  const fill = start.slice();
  const clause = new Int32Array(g.alt.length);
  const m = g.owner.length;
  for (let c = 0; c < m; c++) for (let e = g.altStart[c]!; e < g.altStart[c + 1]!; e++) clause[fill[g.alt[e]!]!++] = c;
  return { start, clause };
}

/** Growable flat storage while a graph is being written. */
class Writer {
  readonly act: number[] = [];
  readonly clauseStart: number[] = [0];
  readonly altStart: number[] = [0];
  readonly alt: number[] = [];
  readonly owner: number[] = [];
  readonly of: number[] = [];
  finish(cost: (act: number) => number, forced: (act: number) => number): Graph {
    const n = this.act.length;
    const act = Int32Array.from([...this.act, -1]);
    const costs = new Float64Array(n);
    const flags = new Uint8Array(n);
    for (let i = 0; i < n; i++) {
      costs[i] = cost(act[i]!);
      flags[i] = forced(act[i]!);
    }
    return {
      n,
      act,
      cost: costs,
      clauseStart: Int32Array.from(this.clauseStart),
      altStart: Int32Array.from(this.altStart),
      alt: Int32Array.from(this.alt),
      owner: Int32Array.from(this.owner),
      of: Int32Array.from(this.of),
      forced: flags,
    };
  }
}

/** The part of the problem the goal can depend on, without banned alternatives and clauses met by what is done. */
export function openGraph(p: CoreProblem): Graph {
  const size = p.clauses.length;
  const node = new Int32Array(size).fill(-1);
  const state = new Uint8Array(size);
  for (const a of p.banned ?? []) state[a] = 2;
  for (const a of p.done ?? []) state[a] = 1;
  const w = new Writer();
  const wanted = new Uint8Array(size);
  const visit = (a: number): number => {
    if (node[a]! < 0) {
      node[a] = w.act.length;
      w.act.push(a);
    }
    return node[a]!;
  };
  const clauseFrom = (owner: number, clause: readonly number[]): void => {
    for (const b of clause) if (state[b] === 1) return;
    for (const b of clause) if (state[b] === 0) w.alt.push(visit(b));
    w.altStart.push(w.alt.length);
    w.owner.push(owner);
    w.of.push(w.act[owner] ?? -1);
  };
  for (const t of p.targets) if (state[t] === 0) wanted[visit(t)] = 1;
  const open: (readonly number[])[] = [];
  for (const t of p.targets) if (state[t] === 2) open.push([]);
  for (const c of p.targetClauses ?? []) {
    if (c.some((b) => state[b] === 1)) continue;
    open.push(c);
    for (const b of c) if (state[b] === 0) visit(b);
  }
  for (let i = 0; i < w.act.length; i++) {
    for (const clause of p.clauses[w.act[i]!] ?? []) clauseFrom(i, clause);
    w.clauseStart.push(w.owner.length);
  }
  for (const c of open) clauseFrom(w.act.length, c);
  w.clauseStart.push(w.owner.length);
  return w.finish(
    (a) => p.cost[a]!,
    (a) => wanted[node[a]!]!,
  );
}

export interface Keep {
  /** per clause and per entry of `alt`: 1 = stays */
  readonly clause: Uint8Array;
  readonly alt: Uint8Array;
  readonly forced: Uint8Array;
  /** forced nodes that need nothing any more */
  readonly settled: Uint8Array;
  /** clauses to add: unit, "a needs d" */
  readonly extra?: readonly (readonly [number, number])[];
}

/**
 * Writes the graph again with what stays, starting from `roots` (forced nodes and clauses of the goal), following
 * clauses. Roots of different components may be given one component at a time.
 */
export function rebuild(g: Graph, keep: Keep, roots: { nodes: Iterable<number>; goal: Iterable<number> }): Graph {
  const w = new Writer();
  const node = new Int32Array(g.n).fill(-1);
  const from: number[] = [];
  const visit = (a: number): number => {
    if (node[a]! < 0) {
      node[a] = w.act.length;
      w.act.push(g.act[a]!);
      from.push(a);
    }
    return node[a]!;
  };
  const extra = new Map<number, number[]>();
  for (const [a, d] of keep.extra ?? []) {
    const list = extra.get(a);
    if (list === undefined) extra.set(a, [d]);
    else list.push(d);
  }
  for (const a of roots.nodes) visit(a);
  const goal = [...roots.goal];
  for (const c of goal) for (let e = g.altStart[c]!; e < g.altStart[c + 1]!; e++) if (keep.alt[e] === 1) visit(g.alt[e]!);
  const copy = (owner: number, c: number): void => {
    for (let e = g.altStart[c]!; e < g.altStart[c + 1]!; e++) if (keep.alt[e] === 1) w.alt.push(visit(g.alt[e]!));
    w.altStart.push(w.alt.length);
    w.owner.push(owner);
    w.of.push(g.of[c]!);
  };
  for (let i = 0; i < from.length; i++) {
    const a = from[i]!;
    for (let c = g.clauseStart[a]!; c < g.clauseStart[a + 1]!; c++) if (keep.clause[c] === 1) copy(i, c);
    for (const d of extra.get(a) ?? []) {
      w.alt.push(visit(d));
      w.altStart.push(w.alt.length);
      w.owner.push(i);
      w.of.push(g.act[a]!);
    }
    w.clauseStart.push(w.owner.length);
  }
  for (const c of goal) copy(from.length, c);
  w.clauseStart.push(w.owner.length);
  let k = 0;
  let f = 0;
  return w.finish(
    () => g.cost[from[k++]!]!,
    () => keep.forced[from[f++]!]!,
  );
}

/**
 * What can be done at all, in which order. `allowed` limits the nodes. Linear in the size of the graph.
 * The order lists the reachable nodes; rank[a] = -1 for the others. met[c] = 1 for clauses with a reachable alternative.
 */
export function reach(g: Graph, users: Users, allowed: Uint8Array | null): { order: Int32Array; rank: Int32Array; met: Uint8Array } {
  const { n } = g;
  const met = new Uint8Array(g.owner.length);
  const missing = new Int32Array(n + 1);
  const rank = new Int32Array(n).fill(-1);
  const order = new Int32Array(n);
  let tail = 0;
  for (let a = 0; a < n; a++) {
    missing[a] = g.clauseStart[a + 1]! - g.clauseStart[a]!;
    if (missing[a] === 0 && (allowed === null || allowed[a] === 1)) {
      rank[a] = tail;
      order[tail++] = a;
    }
  }
  for (let head = 0; head < tail; head++) {
    const b = order[head]!;
    for (let e = users.start[b]!; e < users.start[b + 1]!; e++) {
      const c = users.clause[e]!;
      if (met[c] === 1) continue;
      met[c] = 1;
      const a = g.owner[c]!;
      if (--missing[a]! === 0 && a < n && (allowed === null || allowed[a] === 1) && rank[a]! < 0) {
        rank[a] = tail;
        order[tail++] = a;
      }
    }
  }
  return { order: order.subarray(0, tail), rank, met };
}
