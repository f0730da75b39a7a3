/**
 * Reductions that need no numbers, repeated until nothing changes:
 * 1. an alternative that can never be done is no alternative;
 * 2. a forced action with one alternative left in a clause forces it;
 * 3. forced actions that can be done with the help of forced ones alone are settled: done first, they meet every clause
 *    they stand in;
 * 4. a clause met by a forced action outside the owner's circle is met; inside a circle it stays, else A could lean on
 *    B and B on A;
 * 5. only what the goal can still depend on stays.
 * Each keeps the set of solutions exactly (the settled ones added back).
 */
import { circles } from './components.ts';
import { type Graph, reach, rebuild, usersOf } from './graph.ts';
import type { Ledger } from './ledger.ts';

/** What reductions share on the way down: proof notes, what was ruled out by cost, what was forced. */
export interface Trail {
  readonly ledger: Ledger;
  readonly out: readonly number[];
  readonly forced: number[];
}

/** Null when the goal can not be reached at all. */
export function simplify(start: Graph, trail: Trail): Graph | null {
  let g = start;
  for (;;) {
    const users = usersOf(g);
    const all = reach(g, users, null);
    const lost = outOfReach(g, all);
    if (lost !== null) {
      trail.ledger.note(lost, [], trail.out);
      return null;
    }
    const alt = new Uint8Array(g.alt.length).fill(1);
    if (all.order.length < g.n) for (let e = 0; e < alt.length; e++) if (all.rank[g.alt[e]!]! < 0) alt[e] = 0;
    const forced = force(g, alt, trail);
    const settling = reach(g, users, forced);
    const clause = new Uint8Array(g.owner.length).fill(1);
    let changed = all.order.length < g.n;
    for (let c = 0; c < clause.length; c++)
      if (settling.met[c] === 1) {
        clause[c] = 0;
        changed = true;
      }
    const nodes: number[] = [];
    for (let a = 0; a < g.n; a++) {
      if (forced[a] === 1 && settling.rank[a]! < 0) nodes.push(a);
      if (forced[a] !== g.forced[a] || settling.rank[a]! >= 0) changed = true;
    }
    if (nodes.length > 0 && dropOutsideCircles(g, forced, clause)) changed = true;
    if (!changed) return g;
    const goal: number[] = [];
    for (let c = g.clauseStart[g.n]!; c < clause.length; c++) if (clause[c] === 1) goal.push(c);
    g = rebuild(g, { clause, alt, forced }, { nodes, goal });
    if (g.n === 0) return g;
  }
}

/** Follows clauses of forced nodes and of the goal that have one alternative left. */
function force(g: Graph, alt: Uint8Array, trail: Trail): Uint8Array {
  const forced = g.forced.slice();
  const queue: number[] = [];
  const look = (c: number): void => {
    let only = -1;
    for (let e = g.altStart[c]!; e < g.altStart[c + 1]!; e++) {
      if (alt[e] === 0) continue;
      if (only >= 0) return;
      only = g.alt[e]!;
    }
    if (only < 0 || forced[only] === 1) return;
    forced[only] = 1;
    queue.push(only);
    trail.forced.push(g.act[only]!);
    trail.ledger.note(g.of[c]!, [g.act[only]!], trail.out);
  };
  for (let a = 0; a < g.n; a++) if (forced[a] === 1) queue.push(a);
  for (let c = g.clauseStart[g.n]!; c < g.owner.length; c++) look(c);
  for (let a = queue.pop(); a !== undefined; a = queue.pop())
    for (let c = g.clauseStart[a]!; c < g.clauseStart[a + 1]!; c++) look(c);
  return forced;
}

function dropOutsideCircles(g: Graph, forced: Uint8Array, clause: Uint8Array): boolean {
  if (!meets(g, forced, clause)) return false;
  const circle = circles(g);
  let changed = false;
  for (let c = 0; c < clause.length; c++) {
    if (clause[c] === 0) continue;
    const a = g.owner[c]!;
    for (let e = g.altStart[c]!; e < g.altStart[c + 1]!; e++) {
      const b = g.alt[e]!;
      if (forced[b] === 1 && (a === g.n || circle[b] !== circle[a])) {
        clause[c] = 0;
        changed = true;
        break;
      }
    }
  }
  return changed;
}

/** Whether any clause that stays has a forced alternative. */
function meets(g: Graph, forced: Uint8Array, clause: Uint8Array): boolean {
  for (let c = 0; c < clause.length; c++)
    if (clause[c] === 1)
      for (let e = g.altStart[c]!; e < g.altStart[c + 1]!; e++) if (forced[g.alt[e]!] === 1) return true;
  return false;
}

/** A forced action, or the goal, that can not be reached any more. */
function outOfReach(g: Graph, all: { rank: Int32Array; met: Uint8Array }): number | null {
  for (let a = 0; a < g.n; a++) if (g.forced[a] === 1 && all.rank[a]! < 0) return g.act[a]!;
  for (let c = g.clauseStart[g.n]!; c < g.owner.length; c++) if (all.met[c] === 0) return g.of[c]!;
  return null;
}
