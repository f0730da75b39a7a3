/**
 * Reduces an open graph as far as it goes, splits it into independent parts and solves each: the cheapest completion of
 * a part with its proof.
 * 1. Linear program with circular cuts: a bound, usually tight; a plan from its values: usually optimal.
 * 2. Ruling in and out by reduced cost against the best plan; when that takes away a good share, reduce again (the part
 *    may fall apart) and solve what is left.
 * 3. Else branch, depth first, on the same warm program (branch.ts).
 * Every bound that cuts something off is computed in whole numbers from rounded multipliers and noted for the proof.
 */
import { Branching } from './branch.ts';
import { islands } from './components.ts';
import { type Graph, rebuild, usersOf } from './graph.ts';
import { improveByNeeds } from './implied.ts';
import type { Prices, ProofNode, ProofPart } from './problem-types.ts';
import { simplify, type Trail } from './simplify.ts';

export interface Limits {
  nodesLeft: number;
  nodes: number;
  readonly stop: () => boolean;
  /** proved so far for the whole problem, and who wants to hear of it */
  lower: number;
  readonly report: (limits: Limits) => void;
}

export interface PartAnswer {
  /** cost of the best completion found; null when there is none (or none was found in time) */
  readonly upper: number | null;
  /** original actions of that completion */
  readonly set: readonly number[];
  readonly lower: number;
  readonly proof: ProofNode;
}

/** Null when the goal is out of reach. */
export function solveGraph(
  start: Graph,
  trail: Trail,
  limits: Limits,
  costOf: (act: number) => number,
  deep = false,
): PartAnswer | null {
  const before = trail.forced.length;
  const parts = reduceAndSplit(start, trail, deep);
  if (parts === null) return null;
  let upper: number | null = 0;
  let lower = 0;
  const set: number[] = trail.forced.slice(before);
  for (const a of set) lower += costOf(a);
  upper = lower;
  if (!deep) limits.lower += lower;
  const split: ProofPart[] = [];
  for (const g of parts) {
    const actions: number[] = [];
    for (let a = 0; a < g.n; a++) if (g.forced[a] === 0) actions.push(g.act[a]!);
    const answer = solvePart(g, trail, limits, costOf, deep);
    if (answer === null) return null;
    lower += answer.lower;
    if (!deep) limits.lower += answer.lower;
    limits.report(limits);
    upper = upper === null || answer.upper === null ? null : upper + answer.upper;
    for (const a of answer.set) set.push(a);
    split.push({ actions, bound: answer.lower, proof: answer.proof });
  }
  return { upper, set, lower, proof: { rounds: [], split } };
}

/** Reductions to a fixpoint; parts that have no choice left vanish. */
function reduceAndSplit(start: Graph, trail: Trail, deep: boolean): Graph[] | null {
  const done: Graph[] = [];
  const first = simplify(start, trail);
  if (first === null) return null;
  const open = splitUp(first);
  for (let g = open.pop(); g !== undefined; g = open.pop()) {
    const better = deep ? improveByNeeds(g, trail) : null;
    if (better === null) {
      done.push(g);
      continue;
    }
    const next = simplify(better, trail);
    if (next === null) return null;
    if (next.n > 0) open.push(...splitUp(next));
  }
  return done;
}

function splitUp(g: Graph): Graph[] {
  if (g.n === 0) return [];
  const clause = new Uint8Array(g.owner.length).fill(1);
  const alt = new Uint8Array(g.alt.length).fill(1);
  const keep = { clause, alt, forced: g.forced };
  const scratch = new Int32Array(g.n);
  const all = islands(g, usersOf(g));
  return all.length === 1 ? [g] : all.map((island) => rebuild(g, keep, island, scratch));
}

function solvePart(
  g: Graph,
  trail: Trail,
  limits: Limits,
  costOf: (act: number) => number,
  deep: boolean,
): PartAnswer | null {
  const search = new Branching(g, trail, limits);
  const root = search.root();
  if (root.kind === 'closed') return search.answer({ rounds: root.rounds });
  const out = search.ruledOut();
  const shrunk = out.length + search.ruledIn() > 0.15 * search.columns;
  if ((shrunk || !deep) && search.upper !== null) return again(search, root.rounds, trail, limits, costOf);
  return search.answer(search.branch(root.rounds));
}

/** Solves what is left after ruling out, against the best plan so far. */
function again(
  search: Branching,
  rounds: readonly Prices[],
  trail: Trail,
  limits: Limits,
  costOf: (act: number) => number,
): PartAnswer {
  const inner: Trail = { ledger: trail.ledger, out: [...trail.out, ...search.ruledOut()], forced: [] };
  const smaller = search.withoutRuledOut(inner);
  const fixed = inner.forced.reduce((sum, a) => sum + costOf(a), 0);
  const seed = inner.forced.slice();
  const rest = solveGraph(smaller, inner, limits, costOf, true);
  const plan = search.answer({ rounds });
  if (rest === null) return { ...plan, lower: plan.upper!, proof: { rounds } };
  const lower = Math.min(plan.upper!, fixed + rest.lower);
  const proof: ProofNode = { rounds, split: rest.proof.split ?? [] };
  if (rest.upper !== null && fixed + rest.upper < plan.upper!)
    return { upper: fixed + rest.upper, set: [...seed, ...rest.set], lower, proof };
  return { ...plan, lower, proof };
}
