/**
 * A small judge that trusts nothing the solver says. It shares no code with the solver: plain loops, exact integers.
 * 1. The set: walked in its order, every action finds its clauses met by what came before; at the end the goal holds.
 * 2. Every cut: the actions in {of} + within block each other unless one of `any` is done (see problem-types.ts).
 * 3. The bound: prices >= 0 on cuts "x_of <= sum of x_any" give sum of cost <= any solution by Lagrange; ruling in and
 *    out follows from the same sum; splits add up; both sides of a branch are checked.
 * Returns null when all holds, else a sentence that says what does not.
 */
import type { CoreAnswer, CoreProblem, Prices, ProofNode } from './problem-types.ts';

const FREE = 0;
const IN = 1;
const OUT = 2;

export function checkCertificate(p: CoreProblem, answer: Exclude<CoreAnswer, { kind: 'impossible' }>): string | null {
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

  const { cuts } = answer.certificate;
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
  const round = (prices: Prices, mark: Uint8Array, scope: ReadonlySet<number>, bound: number): boolean => {
    const scale = BigInt(prices.scale);
    const worth = new Map([...scope].map((a) => [a, BigInt(p.cost[a]!) * scale]));
    const add = (a: number, v: bigint): void => void worth.set(a, (worth.get(a) ?? 0n) + v);
    let total = 0n;
    for (const [i, k] of prices.cut.entries()) {
      const price = BigInt(prices.price[i]!);
      if (price < 0n || scale <= 0n) return false;
      if (cuts[k]!.of < 0) total += price;
      else add(cuts[k]!.of, price);
      for (const b of cuts[k]!.any) add(b, -price);
    }
    for (const [a, v] of worth) if (mark[a] === IN || (mark[a] === FREE && v < 0n)) total += v;
    const enough = BigInt(bound - 1) * scale; // costs are whole numbers: more than bound - 1 is at least bound
    if (total > enough) return true;
    for (const [a, v] of worth) if (mark[a] === FREE && total + (v < 0n ? -v : v) > enough) mark[a] = v < 0n ? IN : OUT;
    return false;
  };

  const proves = (node: ProofNode, before: Uint8Array, scope: ReadonlySet<number>, bound: number): boolean => {
    const mark = before.slice();
    if (!propagate(mark)) return true;
    for (const prices of node.rounds) if (round(prices, mark, scope, bound) || !propagate(mark)) return true;
    const rest = new Set(scope);
    let total = 0;
    for (const { actions, bound: least, proof } of node.split ?? []) {
      if (!actions.every((a) => rest.delete(a)) || !proves(proof, mark, new Set(actions), least)) return false;
      total += least;
    }
    for (const a of rest) if (mark[a] === IN) total += p.cost[a]!;
    if (total >= bound) return true;
    if (node.branch === undefined) return false;
    const side = (child: ProofNode, as: number): boolean => {
      const assumed = mark.slice();
      assumed[node.branch!.on] = as;
      return proves(child, assumed, scope, bound);
    };
    return side(node.branch.without, OUT) && side(node.branch.with, IN);
  };
  const start = new Uint8Array(p.clauses.length);
  for (const a of banned) start[a] = OUT;
  const open = new Set([...start.keys()].filter((a) => !done.has(a)));
  return proves(answer.certificate.proof, start, open, answer.lowerBound)
    ? null
    : `bound ${answer.lowerBound} not proved`;
}
