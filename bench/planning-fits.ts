/**
 * `fits` after one change: everything that fits, what each locks out and hides, and the full order, on rigs of our own
 * format taken apart to several depths. The rival is the same question from scratch, rig made ready included.
 */
import { must } from '../src/domain/result.ts';
import type { Rig, Situation } from '../src/domain/rig/rig-types.ts';
import { planFits } from '../src/planning/refit/plan-fits.ts';
import { RefitPlanner } from '../src/planning/refit/refit-planner.ts';
import type { BenchRow } from './bench-row.ts';
import { makeBenchRig, takenApart } from './rig-instances.ts';

const GOAL_MS = 50;

export async function benchPlanningFits({ quick }: { readonly quick: boolean }): Promise<BenchRow[]> {
  const parts = quick ? 500 : 5000;
  const rig = makeBenchRig({ parts });
  return [0.3, 0.6, 1].map((share) => row(rig, parts, share, quick ? 5 : 15));
}

function row(rig: Rig, parts: number, share: number, rounds: number): BenchRow {
  const whole = takenApart(rig, share);
  const planner = new RefitPlanner(rig);
  const times: number[] = [];
  let locked = 0;
  let next = 0;
  must(planner.fits(whole));
  must(planner.fits(whole));
  for (let k = 1; k <= rounds; k++) {
    const situation = backBy(whole, k);
    const from = performance.now();
    const answer = must(planner.fits(situation));
    times.push(performance.now() - from);
    next = answer.next.length;
    locked = answer.next.reduce((sum, e) => sum + e.locksOut.length, 0);
    if (answer.order === null) throw new Error(`internal: no order for the benchmark rig: ${answer.reason}; report it`);
  }
  const scratch: number[] = [];
  for (let k = 1; k <= 3; k++) {
    const from = performance.now();
    must(planFits(rig, backBy(whole, k)));
    scratch.push(performance.now() - from);
  }
  const ours = median(times);
  const rival = median(scratch);
  const actions = rig.attachments.length + rig.parts.length - 1;
  return {
    id: `fits-${parts}-${share * 100}`,
    what: `fits, ${parts} parts (${actions} actions), ${share * 100} % taken apart, one change`,
    ours,
    rival,
    rivalName: 'from scratch',
    unit: 'ms',
    ratio: rival / ours,
    note: `${whole.done.length} done, ${next} fit, ${locked} lock-outs named, full order included; median of ${rounds}`,
    goal: `<= ${GOAL_MS} ms`,
    met: ours <= GOAL_MS,
  };
}

/** The last k recorded actions put back. */
function backBy(whole: Situation, k: number): Situation {
  return { ...whole, done: whole.done.slice(0, whole.done.length - k) };
}

function median(times: readonly number[]): number {
  const sorted = [...times].sort((a, b) => a - b);
  return sorted[sorted.length >> 1]!;
}
