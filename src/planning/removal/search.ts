/**
 * The cheapest plan of a question, exactly.
 *
 * 1. The core gives the cheapest set for the relaxed problem: a bound, and a permission (these actions, these changes).
 * 2. `reach` says whether the goal can really be reached with that permission, setups, holds and guards included.
 *    If so, the plan costs no more than the bound: optimal.
 * 3. If not, the permission is widened as long as the goal stays out of reach. What is left over is a cut: every plan
 *    does at least one of these actions, or one of these changes once more. It joins the relaxed problem; back to 1.
 * More permission never makes less reachable, so cuts hold for every plan, and each makes the last set impossible.
 *
 * Not chosen: best-first search over sequences of states with a copy of every action per phase, and a branch for each
 * choice of what goes last. That multiplies a rig of thousands of parts by its phases, and needs a rule of its own to
 * end on changes that cost nothing; here "no plan exists" is a finite walk with everything permitted, one mechanism
 * serves setups, holds and guards alike, and where they do not bite nothing is paid for them.
 */
import { relaxedReach, Wiring } from './closure.ts';
import type { CoreAnswer, CoreProblem } from './core/problem-types.ts';
import { solveCore } from './core/solve-core.ts';
import { copyPermit, type Move, type Permit, permitAll, UNLIMITED } from './permit.ts';
import { prune } from './prune.ts';
import type { Question } from './question.ts';
import { type Limits, reach } from './reach.ts';
import { type RuleCut, relax } from './relaxation.ts';
import { comparePrices, type Price, priceOf, unweigh, type Weights, weigh, weightsFor } from './weights.ts';

export interface SearchOptions {
  readonly nodeBudget?: number;
  readonly shouldStop?: () => boolean;
  readonly onProgress?: (p: { readonly lower: number; readonly upper: number | null; readonly nodes: number }) => void;
  /** Actions and changes that may not be used. */
  readonly without?: { readonly acts: Uint8Array; readonly changes: Uint8Array };
  /** Cuts already known to hold for this question. */
  readonly known?: readonly RuleCut[];
}

/** What a reader needs to check the answer again: the relaxed problem with its cuts, and the core's own proof. */
export interface OffProof {
  readonly cuts: readonly RuleCut[];
  readonly problem: CoreProblem | null;
  readonly core: CoreAnswer | null;
  readonly weights: Weights | null;
}

export type Found =
  | {
      readonly kind: 'plan';
      readonly moves: readonly Move[];
      readonly price: Price;
      readonly lower: Price;
      readonly proven: boolean;
      readonly proof: OffProof;
    }
  | { readonly kind: 'impossible'; readonly proof: OffProof }
  /** The budget ran out before a plan was found. */
  | { readonly kind: 'open'; readonly lower: Price; readonly proof: OffProof }
  | { readonly kind: 'too-large' };

const DEFAULT_CORE_NODES = 4000;
const DEFAULT_CONFIGURATIONS = 60_000;
const MOST_ROUNDS = 2000;

export function findPlan(q: Question, options: SearchOptions = {}): Found {
  return new Search(q, options).run();
}

class Search {
  readonly wiring: Wiring;
  private readonly all: Permit;
  private readonly cuts: RuleCut[];
  private readonly copies: number[];
  private readonly limits: Limits;
  private best: { readonly moves: readonly Move[]; readonly price: Price } | null = null;
  private proof: OffProof;

  constructor(
    private readonly q: Question,
    private readonly options: SearchOptions,
  ) {
    this.wiring = new Wiring(q);
    this.all = permitAll(q);
    options.without?.acts.forEach((out, a) => {
      if (out === 1) this.all.acts[a] = 0;
    });
    options.without?.changes.forEach((out, k) => {
      if (out === 1) this.all.changes[k] = 0;
    });
    this.cuts = [];
    this.copies = q.changes.map(() => 1);
    for (const cut of options.known ?? []) this.addCut(cut);
    this.limits = {
      left: options.nodeBudget ?? DEFAULT_CONFIGURATIONS,
      stop: options.shouldStop ?? (() => false),
    };
    this.proof = { cuts: this.cuts, problem: null, core: null, weights: null };
  }

  run(): Found {
    const { q } = this;
    const now = Int32Array.from(q.setups, (s) => s.now);
    const open = relaxedReach(this.wiring, this.all.acts, this.all.changes, null, now);
    if (!open.reached) return { kind: 'impossible', proof: this.proof };
    let lower: Price = { irreversible: 0, disturbed: 0, minutes: 0 };
    for (let round = 0; round < MOST_ROUNDS; round++) {
      const weights = weightsFor(q, this.copies);
      if (weights === null) return { kind: 'too-large' };
      const { problem, changeAt } = relax(q, this.cuts, this.copies, weights, this.options.without?.acts ?? null);
      const core = solveCore(this.withoutChanges(problem, changeAt), {
        nodeBudget: this.options.nodeBudget ?? DEFAULT_CORE_NODES,
        shouldStop: this.limits.stop,
        onProgress: (p) =>
          this.tell(unweigh(p.lower, weights), p.upper === null ? null : unweigh(p.upper, weights), p.nodes),
      });
      this.proof = { cuts: this.cuts, problem, core, weights };
      if (core.kind === 'impossible') return { kind: 'impossible', proof: this.proof };
      lower = unweigh(core.lowerBound, weights);
      this.tell(lower, this.best?.price ?? null, round);
      if (this.best && weigh(this.best.price, weights) <= core.lowerBound) return this.done(lower, true);
      if (core.set === null) return this.done(lower, false);
      const step = this.round(this.permitOf(core.set, changeAt));
      if (step === 'impossible') return { kind: 'impossible', proof: this.proof };
      if (this.best && weigh(this.best.price, weights) <= core.lowerBound) return this.done(lower, true);
      if (step === 'unknown' || core.kind === 'gap') return this.done(lower, false);
    }
    return this.done(lower, false);
  }

  private done(lower: Price, proven: boolean): Found {
    const { best, proof } = this;
    if (!best) return { kind: 'open', lower, proof };
    return { kind: 'plan', ...best, lower: proven ? best.price : lower, proven, proof };
  }

  private tell(lower: Price, upper: Price | null, nodes: number): void {
    this.options.onProgress?.({ lower: lower.minutes, upper: upper?.minutes ?? null, nodes });
  }

  private withoutChanges(problem: CoreProblem, changeAt: readonly (readonly number[])[]): CoreProblem {
    const out = this.options.without?.changes;
    if (!out) return problem;
    return {
      ...problem,
      banned: [...(problem.banned ?? []), ...changeAt.flatMap((list, k) => (out[k] === 1 ? list : []))],
    };
  }

  /** What the core's set permits, and whatever costs nothing. */
  private permitOf(set: readonly number[], changeAt: readonly (readonly number[])[]): Permit {
    const { q } = this;
    const chosen = new Set(set);
    const acts = new Uint8Array(q.size);
    for (let a = 0; a < q.size; a++) {
      const free = q.minutes[a] === 0 && q.irreversible[a] === 0 && q.disturbs[a]!.length === 0 && !q.isFact(a);
      if (this.all.acts[a] === 1 && (free || chosen.has(a))) acts[a] = 1;
    }
    const changes = Int32Array.from(q.changes, (c, k) => {
      if (this.all.changes[k] === 0) return 0;
      return c.minutes === 0 ? UNLIMITED : changeAt[k]!.filter((at) => chosen.has(at)).length;
    });
    return { acts, changes };
  }

  /** Adds cuts until the widened permission reaches the goal. */
  private round(first: Permit): 'more' | 'unknown' | 'impossible' {
    const permit = copyPermit(first);
    for (let k = 0; k < 12; k++) {
      const reached = reach(this.wiring, permit, this.limits);
      if (reached === 'unknown') return 'unknown';
      if (reached !== 'no') {
        this.consider(reached);
        return 'more';
      }
      const cut = this.widen(copyPermit(permit));
      if (cut === 'unknown') return 'unknown';
      if (cut.acts.length + cut.changes.length === 0) return 'impossible';
      this.addCut(cut);
      for (const a of cut.acts) permit.acts[a] = 1;
      for (const c of cut.changes) permit.changes[c.change]!++;
    }
    return 'more';
  }

  private consider(found: readonly Move[]): void {
    const moves = prune(this.q, found, this.q.wanted);
    const price = priceOf(this.q, moves);
    if (this.best === null || comparePrices(price, this.best.price) < 0) this.best = { moves, price };
  }

  private addCut(cut: RuleCut): void {
    this.cuts.push(cut);
    for (const c of cut.changes) this.copies[c.change] = Math.max(this.copies[c.change]!, c.time);
  }

  /**
   * Permits as much as keeps the goal out of reach: all actions at a stroke where that goes (then only changes are
   * missing, the strongest cut), else by halves, cheap ones first.
   */
  private widen(permit: Permit): RuleCut | 'unknown' {
    const { q } = this;
    const acts = Array.from({ length: q.size }, (_, a) => a)
      .filter((a) => permit.acts[a] === 0 && this.all.acts[a] === 1)
      .sort((a, b) => q.irreversible[a]! - q.irreversible[b]! || q.minutes[a]! - q.minutes[b]!);
    const changes = Array.from({ length: q.changes.length }, (_, k) => k)
      .filter((k) => permit.changes[k]! < this.all.changes[k]!)
      .sort((a, b) => q.changes[a]!.minutes - q.changes[b]!.minutes);
    const left: number[] = [];
    const allow = (item: number, on: boolean, was: number): void => {
      if (item >= 0) permit.acts[item] = on ? 1 : 0;
      else permit.changes[~item] = on ? UNLIMITED : was;
    };
    const grow = (items: readonly number[]): boolean => {
      if (items.length === 0) return true;
      const before = items.map((i) => (i >= 0 ? 0 : permit.changes[~i]!));
      items.forEach((i) => allow(i, true, 0));
      const reached = reach(this.wiring, permit, this.limits);
      if (reached === 'unknown') return false;
      if (reached === 'no') return true;
      this.consider(reached);
      items.forEach((i, k) => allow(i, false, before[k]!));
      if (items.length === 1) {
        left.push(items[0]!);
        return true;
      }
      const half = items.length >> 1;
      return grow(items.slice(0, half)) && grow(items.slice(half));
    };
    if (!grow(acts) || !grow(changes.map((k) => ~k))) return 'unknown';
    return {
      acts: left.filter((i) => i >= 0),
      changes: left.filter((i) => i < 0).map((i) => ({ change: ~i, time: permit.changes[~i]! + 1 })),
    };
  }
}
