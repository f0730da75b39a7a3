/**
 * The exact removal core against a general solver, both proving the optimum, in the same run. Ours is everything from the
 * problem to the proved answer, on a warm engine; the rival is its solve calls only, 20 s limit. Best of three on both
 * sides, of up to eight for short ones (other work on the machine hits short calls all or nothing).
 */
import { generate } from '../fixtures/planning/random-instances.mjs';
import type { CoreProblem } from '../src/planning/removal/core/problem-types.ts';
import { solveCore } from '../src/planning/removal/core/solve-core.ts';
import type { BenchRow } from './bench-row.ts';
import { RIVAL_LIMIT_MS, rivalMilp } from './rival-milp.ts';

interface Group {
  readonly id: string;
  readonly what: string;
  readonly family: 'local' | 'hard';
  readonly parts: readonly number[];
  readonly or: readonly number[];
  readonly seeds: number;
  readonly quickSeeds: number;
  readonly carry?: number;
  readonly goalMean: number;
  /** the least ratio any single case may have */
  readonly goalWorst: number;
  readonly ownLimitMs: number;
}

const GROUPS: readonly Group[] = [
  {
    id: 'plain',
    what: 'musts only, 5,000 parts',
    family: 'local',
    parts: [5000],
    or: [0],
    seeds: 6,
    quickSeeds: 3,
    carry: 0,
    goalMean: 50,
    goalWorst: 1,
    ownLimitMs: 5000,
  },
  {
    id: 'local',
    what: 'close neighbours, 5-10 % choices, 500-5,000 parts',
    family: 'local',
    parts: [500, 2000, 5000],
    or: [0.05, 0.1],
    seeds: 4,
    quickSeeds: 1,
    goalMean: 10,
    goalWorst: 1,
    ownLimitMs: 5000,
  },
  {
    id: 'local-20',
    what: 'close neighbours, 20 % choices, 500-2,000 parts',
    family: 'local',
    parts: [500, 2000],
    or: [0.2],
    seeds: 4,
    quickSeeds: 1,
    goalMean: 2,
    goalWorst: 1 / 3,
    ownLimitMs: 5000,
  },
  {
    id: 'hard',
    what: 'far neighbours, 5-10 % choices, 500-2,000 parts',
    family: 'hard',
    parts: [500, 2000],
    or: [0.05, 0.1],
    seeds: 4,
    quickSeeds: 1,
    goalMean: 2,
    goalWorst: 1 / 3,
    ownLimitMs: 5000,
  },
  {
    id: 'hard-5000',
    what: 'far neighbours, 5-10 % choices, 5,000 parts',
    family: 'hard',
    parts: [5000],
    or: [0.05, 0.1],
    seeds: 3,
    quickSeeds: 1,
    goalMean: 1,
    goalWorst: 0,
    ownLimitMs: 10000,
  },
  {
    id: 'large',
    what: '20-40 % choices at 2,000-5,000 parts, 10 % at 20,000',
    family: 'hard',
    parts: [2000, 5000],
    or: [0.2, 0.4],
    seeds: 2,
    quickSeeds: 0,
    goalMean: 1,
    goalWorst: 0,
    ownLimitMs: 10000,
  },
];

interface Measured {
  readonly name: string;
  readonly ours: number;
  readonly rival: number;
  readonly rivalRun: number;
  readonly timedOut: boolean;
  readonly proved: boolean;
  readonly equal: boolean;
}

export async function benchPlanningCore(opts: { readonly quick: boolean }): Promise<BenchRow[]> {
  warmUp();
  const rows: BenchRow[] = [];
  for (const group of GROUPS) {
    const seeds = opts.quick ? group.quickSeeds : group.seeds;
    if (seeds === 0) continue;
    const all: Measured[] = [];
    for (const parts of group.parts)
      for (const or of group.or) for (let s = 0; s < seeds; s++) all.push(await measure(group, parts, or, 11 + s));
    rows.push(...summary(group, all));
  }
  return rows;
}

async function measure(group: Group, parts: number, or: number, seed: number): Promise<Measured> {
  const carry = group.carry === undefined ? {} : { carry: group.carry };
  const p: CoreProblem = generate({
    family: group.family,
    parts,
    or,
    seed,
    targets: Math.max(3, Math.floor(parts / 100)),
    ...carry,
  });
  let ours = Number.POSITIVE_INFINITY;
  let answer = solveCore(p, stopAfter(RIVAL_LIMIT_MS));
  for (let k = 0, spent = 0; k < 3 || (spent < 200 && k < 8); k++) {
    const start = performance.now();
    answer = solveCore(p, stopAfter(RIVAL_LIMIT_MS));
    const ms = performance.now() - start;
    ours = Math.min(ours, ms);
    spent += ms;
    if (ms > 5000) break;
  }
  let rival = await rivalMilp(p);
  for (let k = 1, spent = rival.ms; (k < 3 && spent < 3000) || (spent < 200 && k < 8); k++) {
    const again = await rivalMilp(p);
    spent += again.ms;
    if (again.ms < rival.ms) rival = again;
  }
  const cost = answer.kind === 'impossible' ? null : answer.cost;
  return {
    name: `${group.family} ${parts} parts, ${or * 100} %, no. ${seed}`,
    ours,
    rival: rival.ms,
    rivalRun: rival.runMs,
    timedOut: rival.cost === null,
    proved: answer.kind === 'optimal',
    equal: rival.cost === null || rival.cost === cost,
  };
}

/** The engine compiles what it has seen run: let it see the whole path before anything counts. */
function warmUp(): void {
  const end = performance.now() + 1500;
  for (let seed = 1; performance.now() < end; seed++)
    for (const family of ['local', 'hard'] as const) {
      const p = generate({ family, parts: 1000, or: 0.05 * (1 + (seed % 6)), seed, targets: 10 });
      for (let k = 0; k < 3; k++) solveCore(p, stopAfter(1000));
    }
}

function stopAfter(ms: number): { shouldStop: () => boolean } {
  const end = performance.now() + ms;
  return { shouldStop: () => performance.now() > end };
}

function summary(group: Group, all: readonly Measured[]): BenchRow[] {
  const mean = (f: (m: Measured) => number): number =>
    Math.exp(all.reduce((s, m) => s + Math.log(f(m)), 0) / all.length);
  const ratio = mean((m) => m.rival / m.ours);
  const worst = all.reduce((a, b) => (b.rival / b.ours < a.rival / a.ours ? b : a));
  const slowest = all.reduce((a, b) => (b.ours > a.ours ? b : a));
  const unproved = all.filter((m) => !m.proved).length;
  const timeouts = all.filter((m) => m.timedOut).length;
  const unequal = all.filter((m) => !m.equal).length;
  const runs = mean((m) => m.rivalRun / m.ours);
  const note = `${all.length} cases; without reading its model the rival's ratio is ${runs.toFixed(1)}; proved by us ${all.length - unproved}, rival out of time in ${timeouts} (counted as 20 s), different optimum in ${unequal}`;
  const base = { rivalName: 'highs + loop cuts', unit: 'ms' };
  return [
    {
      ...base,
      id: `core-${group.id}`,
      what: `${group.what}, geometric mean`,
      ours: mean((m) => m.ours),
      rival: mean((m) => m.rival),
      ratio,
      note,
      goal: `mean ratio >= ${group.goalMean}, all proved within ${group.ownLimitMs / 1000} s, equal optimum`,
      met: ratio >= group.goalMean && unequal === 0 && unproved === 0 && slowest.ours <= group.ownLimitMs,
    },
    {
      ...base,
      id: `core-${group.id}-worst`,
      what: `${group.what}, worst ratio`,
      ours: worst.ours,
      rival: worst.rival,
      ratio: worst.rival / worst.ours,
      note: `${worst.name}; our slowest ${slowest.ours.toFixed(1)} ms (${slowest.name})`,
      ...(group.goalWorst > 0
        ? { goal: `ratio >= ${group.goalWorst.toFixed(2)}`, met: worst.rival / worst.ours >= group.goalWorst }
        : {}),
    },
  ];
}
