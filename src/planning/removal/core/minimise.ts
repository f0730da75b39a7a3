/**
 * Takes what is not needed out of a set, dearest first, until every action left is needed (inclusion-minimal; not the
 * cheapest). A set that does not reach the goal comes back as it is.
 */
import { Planner } from './cheap-plan.ts';
import { openGraph, usersOf } from './graph.ts';
import type { CoreProblem } from './problem-types.ts';
import { orderOf } from './reach.ts';

/** In an executable order, without what is already done. */
export function minimise(p: CoreProblem, set: readonly number[]): readonly number[] {
  const inside = new Set(set);
  const banned = [...(p.banned ?? [])];
  for (let a = 0; a < p.clauses.length; a++) if (!inside.has(a)) banned.push(a);
  const g = openGraph({ ...p, banned });
  const planner = new Planner(g, usersOf(g));
  const executable = planner.executable(new Uint8Array(g.n).fill(1));
  if (executable === null) return set;
  const { chosen } = planner.trim(executable);
  const kept: number[] = [];
  for (let a = 0; a < g.n; a++) if (chosen[a] === 1) kept.push(g.act[a]!);
  return orderOf(p, kept) ?? set;
}
