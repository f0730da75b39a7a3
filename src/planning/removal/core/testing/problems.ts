/** Test help: small random problems, full enumeration as an oracle that shares nothing with the solver, and clingo text. */
import { rng32 } from '../../../../../fixtures/planning/random-instances.mjs';
import type { CoreProblem } from '../problem-types.ts';

/** Circles are common here: alternatives are drawn from anywhere, sometimes the action itself. */
export function tinyProblem(seed: number, most = 11): CoreProblem {
  const random = rng32(seed * 7919 + 17);
  const below = (k: number): number => Math.floor(random() * k);
  const n = 4 + below(most - 3);
  const cost = Array.from({ length: n }, () => below(10));
  const orList = (self: number): number[] => {
    const size = 1 + below(3);
    const list = new Set<number>();
    while (list.size < size) {
      const b = below(n);
      if (b !== self || random() < 0.1) list.add(b);
    }
    return [...list];
  };
  const clauses = Array.from({ length: n }, (_, a) =>
    Array.from({ length: random() < 0.35 ? 0 : 1 + below(3) }, () => orList(a)),
  );
  const targets = [...new Set([below(n), below(n)])];
  return {
    cost,
    clauses,
    targets,
    ...(random() < 0.3 ? { targetClauses: [[below(n), below(n)]] } : {}),
    ...(random() < 0.2 ? { banned: [below(n)] } : {}),
    ...(random() < 0.2 ? { done: [below(n)] } : {}),
  };
}

/** Walks a set until nothing more can be done; the plain definition, no counting tricks. */
export function executable(p: CoreProblem, allowed: (a: number) => boolean): Set<number> {
  const has = new Set(p.done);
  const banned = new Set(p.banned);
  for (let grew = true; grew; ) {
    grew = false;
    for (let a = 0; a < p.clauses.length; a++) {
      if (has.has(a) || banned.has(a) || !allowed(a)) continue;
      if (!p.clauses[a]!.every((c) => c.some((b) => has.has(b)))) continue;
      has.add(a);
      grew = true;
    }
  }
  return has;
}

export function reached(p: CoreProblem, has: ReadonlySet<number>): boolean {
  return p.targets.every((t) => has.has(t)) && (p.targetClauses ?? []).every((c) => c.some((b) => has.has(b)));
}

/** The least cost over all sets, null when no set reaches the goal. */
export function enumerate(p: CoreProblem): number | null {
  const done = new Set(p.done);
  const free = p.clauses.map((_, a) => a).filter((a) => !done.has(a) && !(p.banned ?? []).includes(a));
  let best: number | null = null;
  for (let mask = 0; mask < 1 << free.length; mask++) {
    const set = new Set(free.filter((_, i) => (mask >> i) & 1));
    let cost = 0;
    for (const a of set) cost += p.cost[a]!;
    if (best !== null && cost >= best) continue;
    if (
      reached(
        p,
        executable(p, (a) => set.has(a)),
      )
    )
      best = cost;
  }
  return best;
}

/** Stable models may not lean on themselves, so clingo needs no word about circles. */
export function clingoText(p: CoreProblem): string {
  const lines: string[] = [];
  const done = new Set(p.done);
  const banned = new Set(p.banned);
  let k = 0;
  p.clauses.forEach((clauses, a) => {
    if (done.has(a)) lines.push(`d(${a}).`);
    else if (!banned.has(a)) {
      const body = clauses.map((c) => {
        const id = k++;
        for (const b of c) lines.push(`s(${id}) :- d(${b}).`);
        if (c.length === 0) lines.push(`s(${id}) :- 0 = 1.`);
        return `s(${id})`;
      });
      lines.push(`{d(${a})}${body.length === 0 ? '' : ` :- ${body.join(', ')}`}.`);
      if (p.cost[a]! > 0) lines.push(`:~ d(${a}). [${p.cost[a]},${a}]`);
    }
  });
  for (const t of p.targets) lines.push(`:- not d(${t}).`);
  for (const c of p.targetClauses ?? []) lines.push(`:- ${c.map((b) => `not d(${b})`).join(', ')}.`);
  lines.push('#show d/1.');
  return lines.join('\n');
}
