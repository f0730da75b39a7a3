/**
 * The plain case: follow the clauses that leave no choice, from the targets. When every other clause is met by what is
 * forced and all of it can be executed, that is the answer, its only minimal one, and the walk is the proof. Looks only
 * at forced actions, so it costs next to nothing when it does not apply.
 */
import type { Ledger } from './ledger.ts';
import { type CoreProblem, GOAL } from './problem-types.ts';

/** The executable order, or null when there is a choice (or no way) and the solver has to look. */
export function forcedPlan(p: CoreProblem, ledger: Ledger): number[] | null {
  const size = p.clauses.length;
  /** 0 unknown, 1 forced, 2 done, 3 banned */
  const state = new Uint8Array(size);
  for (const a of p.banned ?? []) state[a] = 3;
  for (const a of p.done ?? []) state[a] = 2;
  const forced: number[] = [];
  const from: number[] = [];
  const clauses: (readonly number[])[] = [];
  const owners: number[] = [];
  /** false when the clause can not be met */
  const look = (owner: number, clause: readonly number[]): boolean => {
    let open = 0;
    let only = -1;
    for (let e = 0; e < clause.length; e++) {
      const b = clause[e]!;
      const s = state[b]!;
      if (s === 2) return true;
      if (s === 3) continue;
      open++;
      only = b;
    }
    if (open === 0) return false;
    if (open === 1 && state[only] === 0) {
      state[only] = 1;
      forced.push(only);
      from.push(owner);
    }
    clauses.push(clause);
    owners.push(owner);
    return true;
  };
  for (const t of p.targets) if (!look(GOAL, [t])) return null;
  for (const c of p.targetClauses ?? []) if (!look(GOAL, c)) return null;
  for (let i = 0; i < forced.length; i++) {
    const a = forced[i]!;
    for (const c of p.clauses[a]!) if (!look(a, c)) return null;
  }
  const order = execute(size, forced, clauses, owners, state);
  if (order === null) return null;
  ledger.later(() => {
    for (let i = 0; i < forced.length; i++) ledger.note(from[i]!, [forced[i]!], []);
  });
  return order;
}

/** Order of the forced actions by counting unmet clauses; null when one of the clauses stays unmet. */
function execute(
  size: number,
  forced: readonly number[],
  clauses: readonly (readonly number[])[],
  owners: readonly number[],
  state: Uint8Array,
): number[] | null {
  const missing = new Int32Array(size);
  const start = new Int32Array(size + 1);
  for (let c = 0; c < clauses.length; c++) {
    if (owners[c]! >= 0) missing[owners[c]!]!++;
    const clause = clauses[c]!;
    let any = false;
    for (let e = 0; e < clause.length; e++) {
      const b = clause[e]!;
      if (state[b] !== 1) continue;
      start[b + 1]!++;
      any = true;
    }
    if (!any) return null;
  }
  for (let a = 0; a < size; a++) start[a + 1]! += start[a]!;
  const fill = start.slice();
  const user = new Int32Array(start[size]!);
  for (let c = 0; c < clauses.length; c++) for (const b of clauses[c]!) if (state[b] === 1) user[fill[b]!++] = c;
  const met = new Uint8Array(clauses.length);
  const order: number[] = [];
  for (const a of forced) if (missing[a] === 0) order.push(a);
  for (let head = 0; head < order.length; head++) {
    const b = order[head]!;
    for (let e = start[b]!; e < start[b + 1]!; e++) {
      const c = user[e]!;
      if (met[c] === 1) continue;
      met[c] = 1;
      const a = owners[c]!;
      if (a >= 0 && --missing[a]! === 0) order.push(a);
    }
  }
  return order.length === forced.length ? order : null;
}
