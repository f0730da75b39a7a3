/**
 * On which action to branch: where both sides raise the bound most. What a side brings is looked up by solving it a few
 * steps the first time an action comes up, later estimated from what it brought before (pseudo-costs). Not chosen: the
 * most undecided action alone; it needs several times the nodes where many values sit at one half.
 */
import type { Program } from './program.ts';

const CANDIDATES = 8;
const PROBE_STEPS = 20;
const UNDECIDED = 1e-6;

export class BranchChooser {
  /** bound gained per unit of value moved, summed, and how often; even = out (towards 0), odd = in (towards 1) */
  private readonly gain: Float64Array;
  private readonly times: Int32Array;

  constructor(columns: number) {
    this.gain = new Float64Array(columns * 2);
    this.times = new Int32Array(columns * 2);
  }

  /** A free column, -1 when none is left. Probing leaves the program at another basis, the bounds as they were. */
  choose(program: Program, value: Float64Array, base: number, upper: number, stop: () => boolean): number {
    let any = -1;
    const candidates: number[] = [];
    for (let j = 0; j < program.columns; j++) {
      if (program.mark[j] !== 0) continue;
      if (any < 0) any = j;
      if (value[j]! > UNDECIDED && value[j]! < 1 - UNDECIDED) candidates.push(j);
    }
    if (candidates.length === 0) return any;
    const guess = (j: number): number =>
      Math.min(value[j]!, 1 - value[j]!) * (1 + this.average(2 * j) + this.average(2 * j + 1));
    candidates.sort((a, b) => guess(b) - guess(a));
    let best = -1;
    let bestScore = -1;
    for (const j of candidates.slice(0, CANDIDATES)) {
      const out = this.side(program, j, value[j]!, base, upper, stop, 0);
      const inside = this.side(program, j, 1 - value[j]!, base, upper, stop, 1);
      const score = Math.max(out, 1e-6) * Math.max(inside, 1e-6);
      if (score > bestScore) {
        bestScore = score;
        best = j;
      }
    }
    return best;
  }

  private average(k: number): number {
    return this.times[k] === 0 ? 0 : this.gain[k]! / this.times[k]!;
  }

  /** What the bound gains on one side, at most up to the best plan. */
  private side(
    program: Program,
    j: number,
    distance: number,
    base: number,
    upper: number,
    stop: () => boolean,
    inside: 0 | 1,
  ): number {
    const k = 2 * j + inside;
    const most = Math.max(0, upper - base);
    if (this.times[k]! > 0) return Math.min(most, this.average(k) * distance);
    program.fix(j, inside === 1 ? 1 : 2);
    const end = program.lp.solve(stop, PROBE_STEPS);
    const gained = end === 'infeasible' ? most : Math.min(most, Math.max(0, program.lp.objective() - base));
    program.fix(j, 0);
    this.gain[k] = this.gain[k]! + gained / distance;
    this.times[k] = this.times[k]! + 1;
    return gained;
  }
}
