/**
 * Against general-purpose solvers outside the project, on instances nobody had an optimum for: clingo (npm clingo-wasm,
 * stable models forbid circular support by definition) and, for the linear programs alone, highs (npm).
 */
import { spawnSync } from 'node:child_process';
import loadHighs from 'highs';
import { expect, test } from 'vitest';
import { generate, rng32 } from '../../../../fixtures/planning/random-instances.mjs';
import { DualSimplex } from './dual-simplex.ts';
import type { CoreProblem } from './problem-types.ts';
import { solveCore } from './solve-core.ts';
import { clingoText, tinyProblem } from './testing/problems.ts';

/** In a process of its own: the WASM build keeps its worker alive, which would hang the test run. */
function clingoOptima(problems: readonly CoreProblem[]): (number | null)[] {
  const script = `
    const { init } = require('clingo-wasm');
    let text = ''; process.stdin.on('data', (d) => (text += d)).on('end', async () => {
      const run = await init({ singleThreaded: true });
      const out = JSON.parse(text).map((p) => {
        const r = run(p, 0, ['--opt-strategy=usc']);
        if (r.Result === 'UNSATISFIABLE') return null;
        if (r.Result === 'SATISFIABLE') return 0; // nothing to minimise
        if (r.Result !== 'OPTIMUM FOUND') throw new Error(JSON.stringify(r));
        return r.Call.at(-1).Witnesses.at(-1).Costs[0];
      });
      process.stdout.write('\\n' + JSON.stringify(out), () => process.exit(0));
    });`;
  const run = spawnSync(process.execPath, ['-e', script], {
    input: JSON.stringify(problems.map(clingoText)),
    encoding: 'utf8',
    timeout: 60_000,
    maxBuffer: 1 << 28,
  });
  if (run.status !== 0) throw new Error(`clingo did not finish: ${run.stderr}`);
  // the WASM build talks on its way up: only the last line is ours
  return JSON.parse(run.stdout.trim().split('\n').at(-1)!) as (number | null)[];
}

test('clingo finds the same optimum', () => {
  const problems: CoreProblem[] = [];
  for (let seed = 0; seed < 60; seed++) problems.push(tinyProblem(900_000 + seed, 40));
  for (const seed of [31, 32, 33]) {
    problems.push(generate({ family: 'local', parts: 120, or: 0.4, seed, targets: 4, cyc: 0.6 }));
    problems.push(generate({ family: 'hard', parts: 200, or: 0.2, seed, targets: 4, cyc: 0.6 }));
  }
  problems.push(generate({ family: 'local', parts: 500, or: 0.2, seed: 34, targets: 5 }));
  const ours = problems.map((p) => {
    const answer = solveCore(p);
    return answer.kind === 'impossible' ? null : answer.cost;
  });
  expect(ours).toEqual(clingoOptima(problems));
});

test('highs finds the same value for 150 random covering programs, after added rows and fixed columns too', async () => {
  const highs = await loadHighs();
  for (let seed = 0; seed < 150; seed++) {
    const random = rng32(seed + 77);
    const below = (k: number): number => Math.floor(random() * k);
    const n = 5 + below(30);
    const cost = Float64Array.from({ length: n }, () => below(20));
    const lp = new DualSimplex(cost);
    const rows: string[] = [];
    const add = (count: number): void => {
      for (let r = 0; r < count; r++) {
        const of = random() < 0.3 ? -1 : below(n);
        const any = [...new Set(Array.from({ length: 1 + below(4) }, () => below(n)))].filter((j) => j !== of);
        if (any.length === 0) continue;
        lp.addRow(of, any);
        rows.push(`${any.map((j) => `x${j}`).join(' + ')}${of < 0 ? ' >= 1' : ` - x${of} >= 0`}`);
      }
    };
    const bounds = Array.from({ length: n }, () => '0 <= x# <= 1');
    const compare = (): void => {
      const text = `Minimize\n obj: ${[...cost].map((c, j) => `${c} x${j}`).join(' + ')}\nSubject To\n${rows
        .map((r, i) => ` r${i}: ${r}`)
        .join('\n')}\nBounds\n${bounds.map((b, j) => ` ${b.replace('#', String(j))}`).join('\n')}\nEnd`;
      const other = highs.solve(text, { output_flag: false });
      const end = lp.solve(() => false);
      expect(end).toBe(other.Status === 'Infeasible' ? 'infeasible' : 'optimal');
      if (end === 'infeasible') return;
      let value = 0;
      for (let j = 0; j < n; j++) value += cost[j]! * lp.value(j);
      expect(value).toBeCloseTo(other.ObjectiveValue, 6);
    };
    add(4 + below(25));
    compare();
    add(1 + below(6));
    compare();
    const j = below(n);
    lp.fix(j, 1, 1);
    bounds[j] = 'x# = 1';
    compare();
    lp.fix(j, 0, 0);
    bounds[j] = 'x# = 0';
    compare();
    lp.fix(j, 0, 1);
    bounds[j] = '0 <= x# <= 1';
    compare();
  }
});
