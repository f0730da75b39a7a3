/**
 * Turns the solver's notes into the certificate: for every cut "without one of `any`, `of` can never be done" the set of
 * actions that block each other. Most cuts are a clause of the problem and need no more than a look. For the others: what
 * is out of reach without `any` (and without what was ruled out by cost, which then joins `any` where it is leaned on),
 * traced back from `of` along clauses that stay unmet. Done on demand, not during the solve.
 */
import type { Ledger, NotedCut } from './ledger.ts';
import { type CoreProblem, type Cut, GOAL } from './problem-types.ts';
import { ProblemIndex } from './reach.ts';

export function provenCuts(p: CoreProblem, ledger: Ledger): Cut[] {
  const witness = new Witness(p);
  return ledger.all().map((cut) => witness.prove(cut));
}

class Witness {
  private readonly index: ProblemIndex;
  private readonly goal: readonly (readonly number[])[];
  private readonly free: Uint8Array;
  private lastOut: readonly number[] = [];
  private readonly isOut: Uint8Array;

  constructor(private readonly p: CoreProblem) {
    this.index = new ProblemIndex(p);
    this.goal = [...p.targets.map((t) => [t]), ...(p.targetClauses ?? [])];
    this.free = this.index.state;
    this.isOut = new Uint8Array(p.clauses.length);
  }

  private clausesOf(w: number): readonly (readonly number[])[] {
    return w === GOAL ? this.goal : (this.p.clauses[w] ?? []);
  }

  prove(cut: NotedCut): Cut {
    const { of, any } = cut;
    const given = new Set(any);
    for (const clause of this.clausesOf(of))
      if (clause.every((b) => given.has(b) || this.free[b] === 2)) return { of, any, within: [] };
    if (this.lastOut !== cut.out) {
      for (const a of this.lastOut) this.isOut[a] = 0;
      for (const a of cut.out) this.isOut[a] = 1;
      this.lastOut = cut.out;
    }
    const allowed = new Uint8Array(this.p.clauses.length);
    for (let a = 0; a < allowed.length; a++) allowed[a] = this.isOut[a] === 1 || given.has(a) ? 0 : 1;
    const { done } = this.index.closure(allowed);
    return this.trace(of, given, done);
  }

  private trace(of: number, given: ReadonlySet<number>, done: Uint8Array): Cut {
    const inside = new Set([of]);
    const leaned = new Set(given);
    const stack = [of];
    for (let w = stack.pop(); w !== undefined; w = stack.pop()) {
      let best: readonly number[] | null = null;
      let fewest = Number.POSITIVE_INFINITY;
      for (const clause of this.clausesOf(w)) {
        let fresh = 0;
        for (const b of clause)
          fresh += done[b] === 1 ? Number.POSITIVE_INFINITY : this.known(b, inside, given) ? 0 : 1;
        if (fresh < fewest) {
          fewest = fresh;
          best = clause;
        }
      }
      if (best === null) throw new Error('internal: a noted cut does not hold; report it');
      for (const b of best) {
        if (this.known(b, inside, given)) {
          if (this.isOut[b] === 1 && !inside.has(b)) leaned.add(b);
          continue;
        }
        inside.add(b);
        stack.push(b);
      }
    }
    inside.delete(of);
    return { of, any: [...leaned], within: [...inside] };
  }

  private known(b: number, inside: ReadonlySet<number>, given: ReadonlySet<number>): boolean {
    return given.has(b) || inside.has(b) || this.free[b] === 2 || this.isOut[b] === 1;
  }
}
