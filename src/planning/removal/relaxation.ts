/**
 * The question as a problem for the exact core, with everything that is not monotone left out: a state counts for good
 * once it has been entered, holds are asked only where they follow for certain, guards not at all. What that misses
 * comes in as cuts (search.ts). Every plan satisfies this problem, so its optimum is a bound.
 *
 * Numbers of the core: actions of the question first, then one price per setting, one flag per state, changes of state
 * (first time, second time, …), and helpers for an `all` inside an `any`.
 */
import { FALSE, KIND, TRUE } from '../rig-model/need-table.ts';
import type { CoreProblem } from './core/problem-types.ts';
import type { Question } from './question.ts';
import type { Weights } from './weights.ts';

/** At least one of these is done: actions, or a change for the n-th time. */
export interface RuleCut {
  readonly acts: readonly number[];
  readonly changes: readonly { readonly change: number; readonly time: number }[];
}

export interface Relaxation {
  readonly problem: CoreProblem;
  /** Core number of the n-th time of a change. */
  readonly changeAt: readonly (readonly number[])[];
}

export function relax(
  q: Question,
  cuts: readonly RuleCut[],
  copies: readonly number[],
  weights: Weights,
  banned: Uint8Array | null,
): Relaxation {
  const cost: number[] = [];
  const clauses: (readonly (readonly number[])[])[] = [];
  const add = (price: number, needs: readonly (readonly number[])[]): number => {
    cost.push(price);
    clauses.push(needs);
    return cost.length - 1;
  };
  for (let a = 0; a < q.size; a++) {
    const own = q.isFact(a) ? weights.fact : q.minutes[a]! * weights.minute + q.irreversible[a]! * weights.irreversible;
    add(own, []);
  }
  const settings = q.settings.map(() => add(weights.setting, []));
  const flags = q.setups.map((s) => Array.from({ length: s.count }, () => add(0, [])));
  const changeAt = q.changes.map((c, k) =>
    Array.from({ length: Math.max(1, copies[k] ?? 1) }, () => add(c.minutes * weights.minute, [])),
  );

  const t = q.table;
  const helpers = new Map<number, number>();
  const helper = (node: number): number => {
    let at = helpers.get(node);
    if (at === undefined) {
      at = add(0, []);
      helpers.set(node, at);
      clauses[at] = clausesOf(node);
    }
    return at;
  };
  /** Alternatives of a node; null when it always holds. */
  const alternatives = (node: number): number[] | null => {
    if (node === TRUE) return null;
    if (node === FALSE) return [];
    const kind = t.kind[node]!;
    if (kind === KIND.action) return [t.subject[node]!];
    if (kind === KIND.all) return [helper(node)];
    const items = t.items[node]!;
    if (kind === KIND.state) {
      const setup = t.subject[node]!;
      return items.includes(q.setups[setup]!.now) ? null : items.map((s) => flags[setup]![s]!);
    }
    const out: number[] = [];
    for (const n of items) {
      const more = alternatives(n);
      if (more === null) return null;
      out.push(...more);
    }
    return [...new Set(out)];
  };
  const clausesOf = (node: number): number[][] => {
    const parts = t.kind[node] === KIND.all ? t.items[node]! : [node];
    return parts.flatMap((n) => {
      const list = alternatives(n);
      return list === null ? [] : [list];
    });
  };

  for (let a = 0; a < q.size; a++) {
    clauses[a] = [
      ...clausesOf(q.condition[a]!),
      ...q.before[a]!.flatMap(clausesOf),
      ...q.disturbs[a]!.map((s) => [settings[s]!]),
    ];
  }
  q.setups.forEach((s, i) => {
    for (let state = 0; state < s.count; state++)
      clauses[flags[i]![state]!] = [
        q.changes.flatMap((c, k) => (c.setup === i && c.to === state ? [changeAt[k]![0]!] : [])),
      ];
  });
  q.changes.forEach((c, k) => {
    const s = q.setups[c.setup]!;
    const from = c.from === s.now ? [] : [[flags[c.setup]![c.from]!]];
    const first = s.goneNow[c.to] ? [[]] : [...from, ...clausesOf(s.needs[c.to]!)];
    changeAt[k]!.forEach((at, time) => {
      clauses[at] = time === 0 ? first : [[changeAt[k]![time - 1]!]];
    });
  });
  const targetClauses = [
    ...clausesOf(q.goal),
    ...cuts.map((cut) => [...cut.acts, ...cut.changes.map((c) => changeAt[c.change]![c.time - 1]!)]),
  ];
  const out = banned ? Array.from(banned.keys()).filter((a) => banned[a] === 1) : [];
  return { problem: { cost, clauses, targets: [], targetClauses, banned: out }, changeAt };
}
