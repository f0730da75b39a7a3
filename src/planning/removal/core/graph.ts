/**
 * The compact form of what is still open: only actions the goal can still depend on, numbered 0..n-1, clauses in flat
 * arrays. Node n is the goal; it owns the target clauses that are still open. Forced actions (in every solution) carry a
 * flag instead of a clause of the goal. Actions already settled (forced and executable from forced ones alone) and
 * clauses they meet are gone.
 *
 * Invariant: a set solves the graph (with its forced nodes) exactly when the set plus everything settled solves the
 * problem, as far as it concerns the actions of this graph.
 */
import { type CoreProblem, GOAL } from './problem-types.ts';

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

/** A list of whole numbers that grows in typed storage. */
class IntList {
  size = 0;
  constructor(private data: Int32Array) {}
  push(v: number): void {
    if (this.size === this.data.length) {
      const bigger = new Int32Array(this.size * 2);
      bigger.set(this.data);
      this.data = bigger;
    }
    this.data[this.size++] = v;
  }
  at(i: number): number {
    return this.data[i]!;
  }
  done(): Int32Array {
    return this.data.slice(0, this.size);
  }
}

/** Growable flat storage while a graph is being written. */
class Writer {
  readonly act: IntList;
  readonly clauseStart: IntList;
  readonly altStart: IntList;
  readonly alt: IntList;
  readonly owner: IntList;
  readonly of: IntList;
  constructor(nodes: number, clauses: number, alts: number) {
    this.act = new IntList(new Int32Array(nodes + 2));
    this.clauseStart = new IntList(new Int32Array(nodes + 3));
    this.altStart = new IntList(new Int32Array(clauses + 2));
    this.alt = new IntList(new Int32Array(alts + 2));
    this.owner = new IntList(new Int32Array(clauses + 2));
    this.of = new IntList(new Int32Array(clauses + 2));
    this.clauseStart.push(0);
    this.altStart.push(0);
  }
  endClause(owner: number, of: number): void {
    this.altStart.push(this.alt.size);
    this.owner.push(owner);
    this.of.push(of);
  }
  endNode(): void {
    this.clauseStart.push(this.owner.size);
  }
  finish(cost: Float64Array, forced: Uint8Array): Graph {
    const n = this.act.size;
    this.act.push(-1);
    return {
      n,
      act: this.act.done(),
      cost,
      clauseStart: this.clauseStart.done(),
      altStart: this.altStart.done(),
      alt: this.alt.done(),
      owner: this.owner.done(),
      of: this.of.done(),
      forced,
    };
  }
}

/** The part of the problem the goal can depend on, without banned alternatives and clauses met by what is done. */
export function openGraph(p: CoreProblem): Graph {
  const size = p.clauses.length;
  /** number of the node + 1 */
  const node = new Int32Array(size);
  const state = new Uint8Array(size);
  for (const a of p.banned ?? []) state[a] = 2;
  for (const a of p.done ?? []) state[a] = 1;
  const w = new Writer(1024, 2048, 4096);
  const visit = (a: number): number => {
    let k = node[a]!;
    if (k === 0) {
      w.act.push(a);
      node[a] = k = w.act.size;
    }
    return k - 1;
  };
  const write = (owner: number, of: number, clause: readonly number[]): void => {
    for (let e = 0; e < clause.length; e++) if (state[clause[e]!] === 1) return;
    for (let e = 0; e < clause.length; e++) if (state[clause[e]!] === 0) w.alt.push(visit(clause[e]!));
    w.endClause(owner, of);
  };
  const wanted = p.targets.filter((t) => state[t] === 0);
  for (const t of wanted) visit(t);
  const open: (readonly number[])[] = p.targets.filter((t) => state[t] === 2).map(() => []);
  for (const c of p.targetClauses ?? []) {
    if (c.some((b) => state[b] === 1)) continue;
    open.push(c);
    for (const b of c) if (state[b] === 0) visit(b);
  }
  for (let i = 0; i < w.act.size; i++) {
    const a = w.act.at(i);
    const clauses = p.clauses[a]!;
    for (let c = 0; c < clauses.length; c++) write(i, a, clauses[c]!);
    w.endNode();
  }
  const n = w.act.size;
  for (const c of open) write(n, GOAL, c);
  w.endNode();
  const cost = new Float64Array(n);
  for (let i = 0; i < n; i++) cost[i] = p.cost[w.act.at(i)]!;
  const forced = new Uint8Array(n);
  for (const t of wanted) forced[node[t]! - 1] = 1;
  return w.finish(cost, forced);
}

export interface Keep {
  /** per clause and per entry of `alt`: 1 = stays */
  readonly clause: Uint8Array;
  readonly alt: Uint8Array;
  readonly forced: Uint8Array;
  /** clauses to add: unit, "a needs d" */
  readonly extra?: readonly (readonly [number, number])[];
}

/**
 * Writes the graph again with what stays, starting from `roots` (forced nodes and clauses of the goal), following
 * clauses. Roots of different components may be given one component at a time; `number` is scratch of size g.n, all 0.
 */
export function rebuild(
  g: Graph,
  keep: Keep,
  roots: { nodes: readonly number[]; goal: readonly number[] },
  number = new Int32Array(g.n),
): Graph {
  const w = new Writer(64, 128, 256);
  const from = new IntList(new Int32Array(64));
  const visit = (a: number): number => {
    let k = number[a]!;
    if (k === 0) {
      w.act.push(g.act[a]!);
      from.push(a);
      number[a] = k = from.size;
    }
    return k - 1;
  };
  const extra = new Map<number, number[]>();
  for (const [a, d] of keep.extra ?? []) {
    const list = extra.get(a);
    if (list === undefined) extra.set(a, [d]);
    else list.push(d);
  }
  for (const a of roots.nodes) visit(a);
  for (const c of roots.goal)
    for (let e = g.altStart[c]!; e < g.altStart[c + 1]!; e++) if (keep.alt[e] === 1) visit(g.alt[e]!);
  const copy = (owner: number, c: number): void => {
    for (let e = g.altStart[c]!; e < g.altStart[c + 1]!; e++) if (keep.alt[e] === 1) w.alt.push(visit(g.alt[e]!));
    w.endClause(owner, g.of[c]!);
  };
  for (let i = 0; i < from.size; i++) {
    const a = from.at(i);
    for (let c = g.clauseStart[a]!; c < g.clauseStart[a + 1]!; c++) if (keep.clause[c] === 1) copy(i, c);
    if (extra.size > 0)
      for (const d of extra.get(a) ?? []) {
        w.alt.push(visit(d));
        w.endClause(i, g.act[a]!);
      }
    w.endNode();
  }
  const n = from.size;
  for (const c of roots.goal) copy(n, c);
  w.endNode();
  const cost = new Float64Array(n);
  const forced = new Uint8Array(n);
  for (let i = 0; i < n; i++) {
    const a = from.at(i);
    cost[i] = g.cost[a]!;
    forced[i] = keep.forced[a]!;
    number[a] = 0;
  }
  return w.finish(cost, forced);
}

/**
 * What can be done at all, in which order. `allowed` limits the nodes. Linear in the size of the graph.
 * The order lists the reachable nodes; rank[a] = -1 for the others. met[c] = 1 for clauses with a reachable alternative.
 */
export function reach(
  g: Graph,
  users: Users,
  allowed: Uint8Array | null,
): { order: Int32Array; rank: Int32Array; met: Uint8Array } {
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

/**
 * rep[a] = the node that alone needs a, as a must (a then costs what it costs there); a itself when there is none such.
 * Forced nodes are never folded.
 */
export function foldInto(g: Graph, users: Users): Int32Array {
  const rep = Int32Array.from({ length: g.n }, (_, a) => a);
  for (let a = 0; a < g.n; a++) {
    if (g.forced[a] === 1 || users.start[a + 1]! - users.start[a]! !== 1) continue;
    const c = users.clause[users.start[a]!]!;
    const u = g.owner[c]!;
    if (u === g.n || g.forced[u] === 1 || g.altStart[c + 1]! - g.altStart[c]! !== 1) continue;
    rep[a] = u;
  }
  return rep;
}

/** Forced nodes and clauses of the goal: where a rebuild starts when nothing is dropped. */
export function rootsOf(g: Graph, forced: Uint8Array): { nodes: number[]; goal: number[] } {
  const nodes: number[] = [];
  const goal: number[] = [];
  for (let a = 0; a < g.n; a++) if (forced[a] === 1) nodes.push(a);
  for (let c = g.clauseStart[g.n]!; c < g.owner.length; c++) goal.push(c);
  return { nodes, goal };
}
