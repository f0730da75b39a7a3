/**
 * Turns the solver's notes into the certificate: for every cut "without one of `any`, `of` can never be done" the set of
 * actions that block each other. Most cuts are a clause of the problem and need no more than a look. For the others: what
 * is out of reach without `any` (and without what was ruled out by cost, which then joins `any` where it is leaned on),
 * traced back from `of` along clauses that stay unmet. Done on demand, not during the solve.
 */
import type { Ledger, NotedCut } from './ledger.ts';
import { type CoreProblem, type Cut, GOAL } from './problem-types.ts';
import { Without } from './without.ts';

export function provenCuts(p: CoreProblem, ledger: Ledger): Cut[] {
  const witness = new Witness(p);
  return ledger.all().map((cut) => witness.prove(cut));
}

class Witness {
  private readonly without: Without;
  private readonly goal: readonly (readonly number[])[];
  private readonly banned: Uint8Array;
  private readonly isOut: Uint8Array;
  private lastOut: readonly number[] = [];

  constructor(private readonly p: CoreProblem) {
    this.without = new Without(p);
    this.goal = [...p.targets.map((t) => [t]), ...(p.targetClauses ?? [])];
    this.banned = new Uint8Array(p.clauses.length);
    for (const a of p.banned ?? []) this.banned[a] = 1;
    for (const a of p.done ?? []) this.banned[a] = 0;
    this.isOut = new Uint8Array(p.clauses.length);
  }

  private clausesOf(w: number): readonly (readonly number[])[] {
    return w === GOAL ? this.goal : (this.p.clauses[w] ?? []);
  }

  prove(cut: NotedCut): Cut {
    const { of, any } = cut;
    const given = new Set(any);
    for (const clause of this.clausesOf(of))
      if (clause.every((b) => given.has(b) || this.banned[b] === 1)) return { of, any, within: [] };
    if (this.lastOut !== cut.out) {
      for (const a of this.lastOut) this.isOut[a] = 0;
      for (const a of cut.out) this.isOut[a] = 1;
      this.lastOut = cut.out;
      this.without.base(cut.out);
    }
    this.without.leaveOut(any);
    return this.trace(of, given, this.without.alive);
  }

  private trace(of: number, given: ReadonlySet<number>, alive: Uint8Array): Cut {
    const inside = new Set([of]);
    const leaned = new Set(given);
    const stack = [of];
    for (let w = stack.pop(); w !== undefined; w = stack.pop()) {
      let best: readonly number[] | null = null;
      let fewest = Number.POSITIVE_INFINITY;
      for (const clause of this.clausesOf(w)) {
        let fresh = 0;
        for (const b of clause)
          fresh += alive[b] === 1 ? Number.POSITIVE_INFINITY : this.known(b, inside, given) ? 0 : 1;
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
    return given.has(b) || inside.has(b) || this.banned[b] === 1 || this.isOut[b] === 1;
  }
}
