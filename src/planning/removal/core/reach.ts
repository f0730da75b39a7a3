/**
 * What can be done at all, in which order: the greatest reachable set, by counting unmet clauses (linear time). Sets that
 * can be done are closed under union, so there is exactly one greatest.
 */
import type { CoreProblem } from './problem-types.ts';

/** Flat arrays of a whole problem, for repeated closures. */
export class ProblemIndex {
  readonly n: number;
  /** 0 open, 1 done, 2 banned */
  readonly state: Uint8Array;
  readonly clauseCount: Int32Array;
  /** per clause its owner; per action the clauses it stands in: user[userStart[a]] .. user[userStart[a + 1]] */
  readonly owner: Int32Array;
  readonly userStart: Int32Array;
  readonly user: Int32Array;

  constructor(p: CoreProblem) {
    const n = (this.n = p.clauses.length);
    this.state = new Uint8Array(n);
    for (const a of p.banned ?? []) this.state[a] = 2;
    for (const a of p.done ?? []) this.state[a] = 1;
    this.clauseCount = new Int32Array(n);
    const userStart = (this.userStart = new Int32Array(n + 1));
    let m = 0;
    for (let a = 0; a < n; a++) {
      const clauses = p.clauses[a]!;
      this.clauseCount[a] = clauses.length;
      m += clauses.length;
      for (const c of clauses) for (const b of c) userStart[b + 1]!++;
    }
    for (let a = 0; a < n; a++) userStart[a + 1]! += userStart[a]!;
    this.owner = new Int32Array(m);
    this.user = new Int32Array(userStart[n]!);
    const fill = userStart.slice();
    let k = 0;
    for (let a = 0; a < n; a++)
      for (const c of p.clauses[a]!) {
        this.owner[k] = a;
        for (const b of c) this.user[fill[b]!++] = k;
        k++;
      }
  }

  /** `done` includes what was done before; `order` ranks the newly done, -1 for all others. */
  closure(among?: Uint8Array): { done: Uint8Array; order: Int32Array } {
    const { n, state, owner, userStart, user } = this;
    const done = new Uint8Array(n);
    const order = new Int32Array(n).fill(-1);
    const missing = this.clauseCount.slice();
    const met = new Uint8Array(owner.length);
    const queue = new Int32Array(n);
    let tail = 0;
    let rank = 0;
    const open = (a: number): boolean => state[a] === 0 && (among === undefined || among[a] === 1);
    for (let a = 0; a < n; a++) if (state[a] === 1 || (missing[a] === 0 && open(a))) queue[tail++] = a;
    for (let head = 0; head < tail; head++) {
      const b = queue[head]!;
      done[b] = 1;
      if (state[b] !== 1) order[b] = rank++;
      for (let e = userStart[b]!; e < userStart[b + 1]!; e++) {
        const c = user[e]!;
        if (met[c] === 1) continue;
        met[c] = 1;
        const a = owner[c]!;
        if (--missing[a]! === 0 && open(a)) queue[tail++] = a;
      }
    }
    return { done, order };
  }
}

/**
 * The greatest set that can be done (among the allowed actions, if given): `done` includes what was done before, `order`
 * is the rank in one executable order, -1 for what was done before or can not be done.
 */
export function closure(p: CoreProblem, among?: Uint8Array): { done: Uint8Array; order: Int32Array } {
  return new ProblemIndex(p).closure(among);
}

export function reachesGoal(p: CoreProblem, done: Uint8Array): boolean {
  return p.targets.every((t) => done[t] === 1) && (p.targetClauses ?? []).every((c) => c.some((b) => done[b] === 1));
}

/**
 * An executable order of exactly this set (what was done before left out); null when the set is not executable as a
 * whole. Of several possible next actions the one with the lowest number goes first among those ready at the same time.
 */
export function orderOf(p: CoreProblem, set: readonly number[]): readonly number[] | null {
  const size = p.clauses.length;
  /** 0 not in the set, 1 in it, 2 done, 3 banned */
  const state = new Uint8Array(size);
  for (const a of p.banned ?? []) state[a] = 3;
  for (const a of p.done ?? []) state[a] = 2;
  for (const a of set) {
    if (state[a] === 3) return null;
    if (state[a] === 0) state[a] = 1;
  }
  const inside: number[] = [];
  for (let a = 0; a < size; a++) if (state[a] === 1) inside.push(a);
  const uses = new Int32Array(size + 1);
  const missing = new Int32Array(size);
  const clauses: (readonly number[])[] = [];
  const owner: number[] = [];
  for (const a of inside)
    for (const clause of p.clauses[a]!) {
      let met = false;
      for (let e = 0; e < clause.length && !met; e++) met = state[clause[e]!] === 2;
      if (met) continue;
      missing[a]!++;
      clauses.push(clause);
      owner.push(a);
      for (let e = 0; e < clause.length; e++) if (state[clause[e]!] === 1) uses[clause[e]! + 1]!++;
    }
  for (let a = 0; a < size; a++) uses[a + 1]! += uses[a]!;
  const fill = uses.slice();
  const user = new Int32Array(uses[size]!);
  for (let c = 0; c < clauses.length; c++) {
    const clause = clauses[c]!;
    for (let e = 0; e < clause.length; e++) if (state[clause[e]!] === 1) user[fill[clause[e]!]!++] = c;
  }
  const met = new Uint8Array(clauses.length);
  const ready = inside.filter((a) => missing[a] === 0);
  for (let head = 0; head < ready.length; head++) {
    const b = ready[head]!;
    for (let e = uses[b]!; e < uses[b + 1]!; e++) {
      const c = user[e]!;
      if (met[c] === 1) continue;
      met[c] = 1;
      if (--missing[owner[c]!]! === 0) ready.push(owner[c]!);
    }
  }
  return ready.length === inside.length ? ready : null;
}
