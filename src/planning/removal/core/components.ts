/**
 * Two groupings of a graph. Strongly connected: nodes that can depend on each other in a circle (Tarjan, iterative).
 * Independent: nodes whose choice can influence each other at all (union-find); a forced node that nobody needs any more
 * does not tie its clauses together.
 */
import type { Graph, Users } from './graph.ts';

/** Component number of each node in the graph "owner needs alternative". */
export function circles(g: Graph): Int32Array {
  const { n } = g;
  const comp = new Int32Array(n).fill(-1);
  const index = new Int32Array(n).fill(-1);
  const low = new Int32Array(n);
  const stack: number[] = [];
  const path: number[] = [];
  const edge = new Int32Array(n);
  const endOf = (a: number): number => g.altStart[g.clauseStart[a + 1]!]!;
  let next = 0;
  let count = 0;
  for (let root = 0; root < n; root++) {
    if (index[root]! >= 0) continue;
    path.push(root);
    while (path.length > 0) {
      const a = path[path.length - 1]!;
      if (index[a]! < 0) {
        index[a] = low[a] = next++;
        edge[a] = g.altStart[g.clauseStart[a]!]!;
        stack.push(a);
      }
      let deeper = false;
      const end = endOf(a);
      while (edge[a]! < end) {
        const b = g.alt[edge[a]!++]!;
        if (index[b]! < 0) {
          path.push(b);
          deeper = true;
          break;
        }
        if (comp[b]! < 0 && low[b]! < low[a]!) low[a] = low[b]!;
      }
      if (deeper) continue;
      path.pop();
      if (low[a] === index[a]) {
        for (;;) {
          const b = stack.pop()!;
          comp[b] = count;
          if (b === a) break;
        }
        count++;
      }
      const parent = path[path.length - 1];
      if (parent !== undefined && low[a]! < low[parent]!) low[parent] = low[a]!;
    }
  }
  return comp;
}

export interface Island {
  readonly nodes: number[];
  readonly goal: number[];
}

/** Independent groups, each with the roots from which it is rebuilt. */
export function islands(g: Graph, users: Users): Island[] {
  const parent = Int32Array.from({ length: g.n + g.owner.length }, (_, i) => i);
  const find = (i: number): number => {
    while (parent[i] !== i) i = parent[i] = parent[parent[i]!]!;
    return i;
  };
  const needed = (a: number): boolean => users.start[a + 1]! > users.start[a]!;
  for (let c = 0; c < g.owner.length; c++) {
    const a = g.owner[c]!;
    if (a < g.n && (g.forced[a] === 0 || needed(a))) parent[find(g.n + c)] = find(a);
    for (let e = g.altStart[c]!; e < g.altStart[c + 1]!; e++) parent[find(g.alt[e]!)] = find(g.n + c);
  }
  const byRoot = new Map<number, Island>();
  const islandOf = (i: number): Island => {
    const r = find(i);
    let island = byRoot.get(r);
    if (island === undefined) byRoot.set(r, (island = { nodes: [], goal: [] }));
    return island;
  };
  for (let a = 0; a < g.n; a++) {
    if (g.forced[a] === 0) continue;
    if (needed(a)) islandOf(a).nodes.push(a);
    else for (let c = g.clauseStart[a]!; c < g.clauseStart[a + 1]!; c++) islandOf(g.n + c).goal.push(c);
  }
  for (let c = g.clauseStart[g.n]!; c < g.owner.length; c++) islandOf(g.n + c).goal.push(c);
  return [...byRoot.values()];
}
