/**
 * A small judge that trusts nothing the solver says. It shares no code with the solver: plain loops, exact integers.
 * 1. The set: walked in its order, every action finds its clauses met by what came before; at the end the goal holds.
 * 2. Every cut: the actions in {of} + within block each other unless one of `any` is done (see problem-types.ts).
 * 3. The bound: prices >= 0 on cuts "x_of <= sum of x_any" give sum of cost <= any solution by Lagrange; ruling in and
 *    out follows from the same sum; splits add up; both sides of a branch are checked.
 * Returns null when all holds, else a sentence that says what does not.
 */
import type { CoreAnswer, CoreProblem, Prices, ProofNode, ProofPart } from './problem-types.ts';

const FREE = 0;
const IN = 1;
const OUT = 2;

export function checkCertificate(p: CoreProblem, answer: Exclude<CoreAnswer, { kind: 'impossible' }>): string | null {
  const n = p.clauses.length;
  const done = new Set(p.done);
  const banned = new Set((p.banned ?? []).filter((a) => !done.has(a)));
  const goal = [...p.targets.map((t) => [t]), ...(p.targetClauses ?? [])];
  const holds = (clause: readonly number[], has: ReadonlySet<number>): boolean => clause.some((b) => has.has(b));

  if (answer.set !== null) {
    const has = new Set(done);
    let cost = 0;
    for (const a of answer.set) {
      if (banned.has(a) || has.has(a)) return `action ${a} is banned or done twice`;
      if (!(p.clauses[a] ?? [[]]).every((c) => holds(c, has))) return `action ${a} comes too early`;
      has.add(a);
      cost += p.cost[a]!;
    }
    if (!goal.every((c) => holds(c, has))) return 'the set does not reach the goal';
    if (cost !== answer.cost) return `the set costs ${cost}, not ${answer.cost}`;
    if (answer.kind === 'optimal' && answer.lowerBound !== cost) return 'the bound differs from the cost';
  }

  const { cuts, proof } = answer.certificate;
  for (const [k, cut] of cuts.entries()) {
    const inside = new Set([cut.of, ...cut.within]);
    if (cut.any.some((b) => inside.has(b) || done.has(b))) return `cut ${k} stands on its own members`;
    const allowed = new Set([...inside, ...cut.any, ...banned]);
    for (const w of inside) {
      const clauses = w < 0 ? goal : (p.clauses[w] ?? []);
      if (done.has(w) || !clauses.some((c) => c.every((b) => allowed.has(b)))) return `cut ${k} leaks at ${w}`;
    }
  }

  /** Marks what follows from the cuts; false when they contradict the marks. */
  const propagate = (mark: Uint8Array): boolean => {
    for (let changed = true; changed; ) {
      changed = false;
      const set = (a: number, to: number): void => {
        if (mark[a] !== FREE) return;
        mark[a] = to;
        changed = true;
      };
      for (const { of, any } of cuts) {
        const open = any.filter((b) => mark[b] !== OUT);
        const needed = of < 0 || mark[of] === IN;
        if (open.length === 0 && needed) return false;
        if (open.length === 0) set(of, OUT);
        if (open.length === 1 && needed) set(open[0]!, IN);
      }
    }
    return true;
  };

  /** True when the prices prove `bound` for the actions of `scope`; otherwise rules in and out what they can. */
  const round = (prices: Prices, mark: Uint8Array, scope: readonly number[], bound: number): boolean => {
    const worth = new Map<number, bigint>(scope.map((a) => [a, BigInt(p.cost[a]!) * BigInt(prices.scale)]));
    const add = (a: number, v: bigint): void => void worth.set(a, (worth.get(a) ?? 0n) + v);
    let total = 0n;
    for (const [i, k] of prices.cut.entries()) {
      const price = BigInt(prices.price[i]!);
      if (price < 0n || prices.scale <= 0) throw new Error('a price is negative');
      if (cuts[k]!.of < 0) total += price;
      else add(cuts[k]!.of, price);
      for (const b of cuts[k]!.any) add(b, -price);
    }
    for (const [a, v] of worth) if (mark[a] === IN || (mark[a] === FREE && v < 0n)) total += v;
    const enough = BigInt(bound - 1) * BigInt(prices.scale); // costs are integers: above bound - 1 means at least bound
    if (total > enough) return true;
    for (const [a, v] of worth) if (mark[a] === FREE && total + (v < 0n ? -v : v) > enough) mark[a] = v < 0n ? IN : OUT;
    return false;
  };

  const proves = (node: ProofNode, before: Uint8Array, scope: readonly number[], bound: number): boolean => {
    const mark = before.slice();
    if (!propagate(mark)) return true;
    for (const prices of node.rounds) if (round(prices, mark, scope, bound) || !propagate(mark)) return true;
    const parts: readonly ProofPart[] = node.split ?? [];
    const seen = new Set<number>(parts.flatMap((part) => part.actions));
    if (seen.size !== parts.reduce((sum, part) => sum + part.actions.length, 0)) return false;
    let total = 0;
    for (const a of scope) if (mark[a] === IN && !seen.has(a)) total += p.cost[a]!;
    for (const part of parts) {
      if (!part.actions.every((a) => inScope(scope, a)) || !proves(part.proof, mark, part.actions, part.bound))
        return false;
      total += part.bound;
    }
    if (total >= bound) return true;
    if (node.branch === undefined) return false;
    const [without, within] = [mark.slice(), mark.slice()];
    without[node.branch.on] = OUT;
    within[node.branch.on] = IN;
    return proves(node.branch.without, without, scope, bound) && proves(node.branch.with, within, scope, bound);
  };
  const everything = Array.from({ length: n }, (_, a) => a).filter((a) => !done.has(a));
  const start = new Uint8Array(n);
  for (const a of banned) start[a] = OUT;
  return proves(proof, start, everything, answer.lowerBound) ? null : `the bound ${answer.lowerBound} is not proved`;
}

const scopes = new WeakMap<readonly number[], ReadonlySet<number>>();
function inScope(scope: readonly number[], a: number): boolean {
  let set = scopes.get(scope);
  if (set === undefined) scopes.set(scope, (set = new Set(scope)));
  return set.has(a);
}
