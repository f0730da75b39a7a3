/**
 * Actions that every solution contains: exactly those without which the goal is out of reach. Reductions give most of
 * them; the table of needs gives the rest of each independent part. A part too large for the table is answered by
 * leaving out, one at a time, the actions of some plan (others can not be landmarks).
 */
import { Planner } from './cheap-plan.ts';
import { islands } from './components.ts';
import { type Graph, openGraph, reach, rebuild, usersOf } from './graph.ts';
import { neededForced } from './implied.ts';
import { Ledger } from './ledger.ts';
import type { CoreProblem } from './problem-types.ts';
import { simplify, type Trail } from './simplify.ts';

/** Without what is already done. Empty when the goal can not be reached at all. */
export function landmarks(p: CoreProblem): readonly number[] {
  const done = new Set(p.done);
  const trail: Trail = { ledger: new Ledger(), out: [], forced: [...new Set(p.targets)].filter((t) => !done.has(t)) };
  const open = simplify(openGraph(p), trail);
  if (open === null) return [];
  const keep = {
    clause: new Uint8Array(open.owner.length).fill(1),
    alt: new Uint8Array(open.alt.length).fill(1),
    forced: open.forced,
  };
  for (const island of open.n === 0 ? [] : islands(open, usersOf(open))) {
    const g = rebuild(open, keep, island);
    if (!neededForced(g, trail)) leaveOut(g, trail);
  }
  return trail.forced.sort((a, b) => a - b);
}

function leaveOut(g: Graph, trail: Trail): void {
  const users = usersOf(g);
  const planner = new Planner(g, users);
  const plan = planner.plan(g.cost, null);
  if (plan === null) return;
  const allowed = new Uint8Array(g.n).fill(1);
  for (let a = 0; a < g.n; a++) {
    if (plan.chosen[a] === 0 || g.forced[a] === 1) continue;
    allowed[a] = 0;
    const { rank, met } = reach(g, users, allowed);
    let lost = false;
    for (let b = 0; b < g.n && !lost; b++) lost = g.forced[b] === 1 && rank[b]! < 0;
    for (let c = g.clauseStart[g.n]!; c < g.owner.length && !lost; c++) lost = met[c] === 0;
    if (lost) trail.forced.push(g.act[a]!);
    allowed[a] = 1;
  }
}
