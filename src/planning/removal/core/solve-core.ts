/**
 * The exact solver: cheapest executable set that reaches the goal, with a proof. First the plain case (everything forced,
 * no choice), which needs no more than one walk; else the open graph is reduced, split and solved part by part.
 */
import { forcedPlan } from './forced-plan.ts';
import { openGraph } from './graph.ts';
import { Ledger } from './ledger.ts';
import {
  type Certificate,
  type CoreAnswer,
  type CoreOptions,
  type CoreProblem,
  GOAL,
  type ProofNode,
} from './problem-types.ts';
import { closure, orderOf } from './reach.ts';
import type { Trail } from './simplify.ts';
import { type Limits, solveGraph } from './solve-parts.ts';
import { provenCuts } from './witness.ts';

export function solveCore(p: CoreProblem, o: CoreOptions = {}): CoreAnswer {
  refuseOddCosts(p);
  const ledger = new Ledger();
  const plain = forcedPlan(p, ledger);
  if (plain !== null) {
    const set = plain;
    let cost = 0;
    for (const a of set) cost += p.cost[a]!;
    return withCertificate({ kind: 'optimal', cost, lowerBound: cost, set }, p, ledger, { rounds: [] });
  }
  const trail: Trail = { ledger, out: [], forced: [] };
  const done = new Uint8Array(p.clauses.length);
  for (const a of p.done ?? []) done[a] = 1;
  for (const t of new Set(p.targets)) {
    if (done[t] === 1) continue;
    trail.forced.push(t);
    ledger.note(GOAL, [t], []);
  }
  const fixed = trail.forced.slice();
  let base = 0;
  for (const a of fixed) base += p.cost[a]!;
  const limits: Limits = {
    nodesLeft: o.nodeBudget ?? Number.POSITIVE_INFINITY,
    nodes: 0,
    stop: o.shouldStop ?? (() => false),
    lower: base,
    report: ({ lower, nodes }) => o.onProgress?.({ lower, upper: null, nodes }),
  };
  const answer = solveGraph(openGraph(p), trail, limits, (a) => p.cost[a]!);
  if (answer === null) return { kind: 'impossible', unreachable: unreachable(p) };
  const lowerBound = base + answer.lower;
  if (answer.upper === null)
    return withCertificate({ kind: 'gap', cost: null, lowerBound, set: null }, p, ledger, answer.proof);
  const cost = base + answer.upper;
  const set = orderOf(p, [...fixed, ...answer.set]);
  if (set === null) throw new Error('internal: the set found has no executable order; report it');
  o.onProgress?.({ lower: lowerBound, upper: cost, nodes: limits.nodes });
  return lowerBound === cost
    ? withCertificate({ kind: 'optimal', cost, lowerBound, set }, p, ledger, answer.proof)
    : withCertificate({ kind: 'gap', cost, lowerBound, set }, p, ledger, answer.proof);
}

/** Adds the certificate as a property that is worked out when first read; afterwards it is plain data. */
function withCertificate<T extends object>(
  answer: T,
  p: CoreProblem,
  ledger: Ledger,
  proof: ProofNode,
): T & { readonly certificate: Certificate } {
  let made: Certificate | null = null;
  return Object.defineProperty(answer, 'certificate', {
    enumerable: true,
    get: (): Certificate => (made ??= { cuts: provenCuts(p, ledger), proof }),
  }) as T & { readonly certificate: Certificate };
}

function unreachable(p: CoreProblem): readonly number[] {
  const { done } = closure(p);
  const lost = new Set(p.targets.filter((t) => done[t] === 0));
  for (const c of p.targetClauses ?? []) if (!c.some((b) => done[b] === 1)) for (const b of c) lost.add(b);
  return [...lost];
}

/** Bounds are rounded up to whole numbers, so a cost that is none would make proofs wrong: our own mistake. */
function refuseOddCosts(p: CoreProblem): void {
  let total = 0;
  for (let a = 0; a < p.clauses.length; a++) {
    const c = p.cost[a]!;
    if (!(c >= 0) || Math.floor(c) !== c)
      throw new Error(`internal: cost ${c} of action ${a} is no whole number; report it`);
    total += c;
  }
  if (total > 2 ** 50) throw new Error('internal: costs add up to more than 2^50; report it');
}
