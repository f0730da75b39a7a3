/**
 * The search behind `orderWithoutTipping`: depth first over orders of given steps, on one weight walk that is wound
 * forward and back. Kept as a loop with a stack of its own, since a plan may have thousands of steps.
 *
 * Invariant: `taken`, `used`, `done` and the walk always tell of the same order.
 */
import type { ActionId, Situation } from '../../domain/rig/rig-types.ts';
import { marginOf } from './margin.ts';
import type { Before, SupportModel, WeightWalk } from './support-model.ts';

export type AllowedNow = (done: readonly ActionId[], action: ActionId) => boolean;

export interface SearchLimits {
  readonly percent: number;
  readonly nodes: number;
  readonly checks: number;
  /** The last state is under the margin whatever the order: only the longest way there is looked for. */
  readonly hopeless: boolean;
}

export interface SearchEnd {
  readonly found: readonly ActionId[] | null;
  /** The longest order without a step under the margin that was met. */
  readonly longest: readonly ActionId[];
  /** True when every state was looked at, false when a budget ran out. */
  readonly exhausted: boolean;
}

/** `quick`: steps that change no load are done as soon as they may be. `full`: every step is a choice. */
export type Manner = 'quick' | 'full';

const KEPT_LETTERS = 2e7;

interface Frame {
  readonly base: number;
  readonly choices: readonly number[];
  next: number;
}

export class OrderSearch {
  private readonly walk: WeightWalk;
  private readonly heavy: readonly boolean[];
  private readonly used: boolean[];
  private readonly taken: number[] = [];
  private readonly befores: Before[] = [];
  private readonly done: ActionId[];
  private checks = 0;

  constructor(
    model: SupportModel,
    situation: Situation,
    private readonly steps: readonly ActionId[],
    private readonly allowed: AllowedNow,
    private readonly limits: SearchLimits,
  ) {
    this.walk = model.walk(situation);
    this.heavy = steps.map((s) => model.changesLoads(s));
    this.used = steps.map(() => false);
    this.done = [...situation.done];
  }

  run(manner: Manner): SearchEnd {
    this.back(0);
    this.checks = 0;
    const failed = new Set<string>();
    let longest: readonly ActionId[] = [];
    let nodes = 0;
    // Failed states are kept as texts of one letter a step; long plans get fewer of them, so that they fit in memory.
    const mostNodes = Math.min(this.limits.nodes, Math.ceil(KEPT_LETTERS / Math.max(1, this.steps.length)));
    const frames: Frame[] = [];
    // Entered a state: a frame of choices, null where it failed before, 'end' where nothing is left to do.
    const enter = (): Frame | null | 'end' => {
      if (manner === 'quick') this.takeLight();
      if (this.taken.length > longest.length) longest = this.order();
      if (this.taken.length === this.steps.length) return 'end';
      const key = this.key(manner);
      if (failed.has(key)) return null;
      failed.add(key);
      return { base: this.taken.length, choices: this.choices(manner), next: 0 };
    };
    for (let at = enter(); ; at = enter()) {
      if (at === 'end') return { found: this.order(), longest, exhausted: true };
      if (at !== null) frames.push(at);
      if (this.limits.hopeless && longest.length >= this.steps.length - 1)
        return { found: null, longest, exhausted: false };
      const step = this.nextOf(frames);
      if (step === null) return { found: null, longest, exhausted: true };
      nodes += 1;
      if (nodes > mostNodes || this.checks > this.limits.checks) return { found: null, longest, exhausted: false };
      this.take(step);
    }
  }

  /** Completes an order, each time by the step that leaves the most to spare; null where it cannot go on. */
  finish(start: readonly ActionId[]): readonly ActionId[] | null {
    this.back(0);
    for (const action of start) {
      const i = this.steps.findIndex((s, k) => s === action && !this.used[k]);
      if (i < 0) return null;
      this.take(i);
    }
    while (this.taken.length < this.steps.length) {
      const best = this.openSteps('full').reduce<{ i: number; spare: number } | null>((b, i) => {
        const spare = this.heavy[i] ? this.spareAfter(i) : Number.POSITIVE_INFINITY;
        return b === null || spare > b.spare ? { i, spare } : b;
      }, null);
      if (best === null) return null;
      this.take(best.i);
    }
    return this.order();
  }

  private nextOf(frames: Frame[]): number | null {
    for (let top = frames.at(-1); top !== undefined; top = frames.at(-1)) {
      this.back(top.base);
      const step = top.choices[top.next];
      top.next += 1;
      if (step !== undefined) return step;
      frames.pop();
    }
    return null;
  }

  private order(): readonly ActionId[] {
    return this.taken.map((i) => this.steps[i] as ActionId);
  }

  private take(i: number): void {
    const action = this.steps[i] as ActionId;
    this.used[i] = true;
    this.taken.push(i);
    this.done.push(action);
    this.befores.push(this.walk.apply(action));
  }

  private back(length: number): void {
    while (this.taken.length > length) {
      this.used[this.taken.pop() as number] = false;
      this.done.pop();
      this.walk.undo(this.befores.pop() as Before);
    }
  }

  private may(i: number): boolean {
    this.checks += 1;
    return this.allowed(this.done, this.steps[i] as ActionId);
  }

  /** Everything that changes no load and may be done, until nothing more may. */
  private takeLight(): void {
    for (let more = true; more; ) {
      more = false;
      for (const i of this.steps.keys()) {
        if (this.used[i] || this.heavy[i] || !this.may(i)) continue;
        this.take(i);
        more = true;
      }
    }
  }

  /** Steps that may be done now; of equal ones only the first. */
  private openSteps(manner: Manner): readonly number[] {
    const seen = new Set<ActionId>();
    return [...this.steps.keys()].filter((i) => {
      const action = this.steps[i] as ActionId;
      if (this.used[i] || seen.has(action) || (manner === 'quick' && !this.heavy[i])) return false;
      seen.add(action);
      return this.may(i);
    });
  }

  private spareAfter(i: number): number {
    const before = this.walk.apply(this.steps[i] as ActionId);
    const { spareKg } = marginOf(this.walk, this.limits.percent);
    this.walk.undo(before);
    return spareKg;
  }

  /** What may follow without falling under the margin, the roomiest first. */
  private choices(manner: Manner): readonly number[] {
    return this.openSteps(manner)
      .map((i) => ({ i, spare: this.heavy[i] ? this.spareAfter(i) : Number.POSITIVE_INFINITY }))
      .filter((c) => c.spare >= -1e-9)
      .sort((a, b) => (a.spare === b.spare ? a.i - b.i : b.spare - a.spare))
      .map((c) => c.i);
  }

  /** Equal steps count as one, so the key goes by how many of each are done, and by how it stands. */
  private key(manner: Manner): string {
    const bits = this.steps.map((_, i) => (manner === 'quick' && !this.heavy[i] ? '' : this.used[i] ? '1' : '0'));
    return `${bits.join('')}|${JSON.stringify(this.walk.states)}`;
  }
}
