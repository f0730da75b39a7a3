/**
 * The rival for the exact solver: npm `highs` on the usual model (a binary per action, a row per clause) with simple loop
 * cuts: while the answer leans on itself, each circular action may be chosen only with one of the outside alternatives.
 * Given a head start: only actions the targets can depend on. Counted: the solve calls (the solver reads its model and
 * runs), not the writing of the model nor the search for loops; the runs alone are counted apart.
 */
import loadHighs from 'highs';
import type { CoreProblem } from '../src/planning/removal/core/problem-types.ts';
import { closure } from '../src/planning/removal/core/reach.ts';

export interface RivalResult {
  readonly ms: number;
  /** of that, the runs alone */
  readonly runMs: number;
  /** null when not proved within the limit */
  readonly cost: number | null;
  readonly rounds: number;
}

export const RIVAL_LIMIT_MS = 20_000;
let loaded: Awaited<ReturnType<typeof loadHighs>> | null = null;

export async function rivalMilp(p: CoreProblem, limitMs = RIVAL_LIMIT_MS): Promise<RivalResult> {
  const relevant = relevantActions(p);
  const cuts: string[] = [];
  let ms = 0;
  let runMs = 0;
  for (let rounds = 1; ; rounds++) {
    loaded ??= await loadHighs();
    const text = lpText(p, relevant, cuts);
    let values: Float64Array | readonly number[];
    try {
      const called = performance.now();
      const run = loaded.withModel({ format: 'lp', data: text }, (model) => {
        model.options.set({
          output_flag: false,
          time_limit: Math.max(0.1, (limitMs - ms) / 1000),
          mip_rel_gap: 0,
          mip_abs_gap: 0.5,
        });
        const start = performance.now();
        model.run();
        const end = performance.now();
        return {
          called: end - called,
          ran: end - start,
          all: model.getSolution().colValue,
          at: columnOrder(model, relevant),
        };
      });
      ms += run.called;
      runMs += run.ran;
      values = run.at.map((k) => run.all[k]!);
    } catch {
      loaded = null; // a thrown WASM trap needs a fresh instance; the run counts as not proved
      return { ms: limitMs, runMs: limitMs, cost: null, rounds };
    }
    if (ms >= limitMs) return { ms: limitMs, runMs: limitMs, cost: null, rounds };
    const chosen = new Uint8Array(p.clauses.length);
    let cost = 0;
    relevant.forEach((a, i) => {
      if (values[i]! < 0.5) return;
      chosen[a] = 1;
      cost += p.cost[a]!;
    });
    const fresh = loopCuts(p, chosen);
    if (fresh.length === 0) return { ms, runMs, cost, rounds };
    cuts.push(...fresh);
  }
}

function columnOrder(model: { getColByName(name: string): number }, relevant: readonly number[]): number[] {
  return relevant.map((a) => model.getColByName(`x${a}`));
}

function relevantActions(p: CoreProblem): number[] {
  const seen = new Uint8Array(p.clauses.length);
  const list = [...p.targets];
  for (const t of list) seen[t] = 1;
  for (let i = 0; i < list.length; i++)
    for (const c of p.clauses[list[i]!]!)
      for (const b of c) {
        if (seen[b] === 1) continue;
        seen[b] = 1;
        list.push(b);
      }
  return list;
}

function lpText(p: CoreProblem, relevant: readonly number[], cuts: readonly string[]): string {
  const lines = ['Minimize', ` obj: ${relevant.map((a) => `${p.cost[a]} x${a}`).join(' + ')}`, 'Subject To'];
  let row = 0;
  for (const t of new Set(p.targets)) lines.push(` r${row++}: x${t} = 1`);
  for (const a of relevant)
    for (const c of p.clauses[a]!)
      if (!c.includes(a)) lines.push(` r${row++}: ${c.map((b) => `x${b}`).join(' + ')} - x${a} >= 0`);
  for (const cut of cuts) lines.push(` r${row++}: ${cut}`);
  lines.push('Binary', ...relevant.map((a) => ` x${a}`), 'End');
  return lines.join('\n');
}

/** For every action chosen but not executable: one of the outside alternatives of the circle it hangs on. */
function loopCuts(p: CoreProblem, chosen: Uint8Array): string[] {
  const { done } = closure(p, chosen);
  const stuck: number[] = [];
  for (let a = 0; a < chosen.length; a++) if (chosen[a] === 1 && done[a] === 0) stuck.push(a);
  const inside = new Set(stuck);
  const outside = new Set<number>();
  for (const u of stuck) {
    const unmet = p.clauses[u]!.filter((c) => !c.some((b) => done[b] === 1));
    const best = unmet.map((c) => c.filter((b) => !inside.has(b))).sort((x, y) => x.length - y.length)[0];
    for (const b of best ?? []) outside.add(b);
  }
  const sum = [...outside].map((b) => `x${b}`).join(' + ');
  return stuck.map((u) => (sum === '' ? `x${u} <= 0` : `${sum} - x${u} >= 0`));
}
