/**
 * The plain case: follow the clauses that leave no choice, from the targets, depth first; what is finished first can be
 * done first. When every clause with a choice is met by something forced that comes earlier, that is the answer, and the
 * walk is the proof. Looks only at forced actions, so it costs next to nothing when it does not apply. Not chosen:
 * counting unmet clauses (as in reach.ts), which reads every clause twice.
 */
import type { Ledger } from './ledger.ts';
import { type CoreProblem, GOAL } from './problem-types.ts';

/** Beyond these values a state is 4 + place in the order. */
const UNKNOWN = 0;
const DONE = 1;
const BANNED = 2;
const OPEN = 3;
const FIRST = 4;

/** The executable order, or null when there is a choice (or no way) and the solver has to look. */
export function forcedPlan(p: CoreProblem, ledger: Ledger): number[] | null {
  const walk = new ForcedWalk(p);
  if (!walk.run()) return null;
  ledger.later(() => {
    for (let i = 0; i < walk.seen.length; i++) ledger.note(walk.from[i]!, [walk.seen[i]!], []);
  });
  return walk.order;
}

class ForcedWalk {
  readonly order: number[] = [];
  /** forced actions as met, and the action (or goal) whose clause forced them */
  readonly seen: number[] = [];
  readonly from: number[] = [];
  private readonly state: Int32Array;
  private readonly choices: (readonly number[])[] = [];
  private readonly choiceOf: number[] = [];

  constructor(private readonly p: CoreProblem) {
    this.state = new Int32Array(p.clauses.length);
    for (const a of p.banned ?? []) this.state[a] = BANNED;
    for (const a of p.done ?? []) this.state[a] = DONE;
  }

  run(): boolean {
    for (const t of this.p.targets) if (!this.follow(t)) return false;
    for (const c of this.p.targetClauses ?? []) {
      const only = this.only(GOAL, c);
      if (only === -2 || (only >= 0 && !this.visit(only, GOAL))) return false;
    }
    return this.choices.every((c, k) => this.metBefore(c, this.choiceOf[k]!));
  }

  private follow(t: number): boolean {
    if (this.state[t] === BANNED) return false;
    return this.state[t] !== UNKNOWN || this.visit(t, GOAL);
  }

  /** The only alternative; -1 when there is nothing to follow, -2 when the clause can not be met. */
  private only(owner: number, clause: readonly number[]): number {
    const { state } = this;
    if (clause.length === 1) {
      const b = clause[0]!;
      return state[b] === BANNED ? -2 : state[b] === DONE ? -1 : b;
    }
    let open = 0;
    let only = -2;
    for (let e = 0; e < clause.length; e++) {
      const s = state[clause[e]!]!;
      if (s === DONE) return -1;
      if (s === BANNED) continue;
      open++;
      only = clause[e]!;
    }
    if (open < 2) return only;
    this.choices.push(clause);
    this.choiceOf.push(owner);
    return -1;
  }

  /** Depth first from a; false on a circle or a clause that can not be met. */
  private visit(root: number, cause: number): boolean {
    const { p, state, order, seen, from } = this;
    if (state[root]! >= FIRST) return true;
    const stack = [root];
    const next = [0];
    state[root] = OPEN;
    seen.push(root);
    from.push(cause);
    while (stack.length > 0) {
      const depth = stack.length - 1;
      const a = stack[depth]!;
      const clauses = p.clauses[a]!;
      let c = next[depth]!;
      let deeper = -1;
      while (c < clauses.length && deeper < 0) {
        const b = this.only(a, clauses[c++]!);
        if (b === -2 || (b >= 0 && state[b] === OPEN)) return false;
        if (b >= 0 && state[b] === UNKNOWN) deeper = b;
      }
      next[depth] = c;
      if (deeper >= 0) {
        state[deeper] = OPEN;
        seen.push(deeper);
        from.push(a);
        stack.push(deeper);
        next.push(0);
      } else {
        state[a] = FIRST + order.length;
        order.push(a);
        stack.pop();
        next.pop();
      }
    }
    return true;
  }

  private metBefore(clause: readonly number[], owner: number): boolean {
    const limit = owner === GOAL ? Number.POSITIVE_INFINITY : this.state[owner]!;
    for (let e = 0; e < clause.length; e++) {
      const s = this.state[clause[e]!]!;
      if (s >= FIRST && s < limit) return true;
    }
    return false;
  }
}
