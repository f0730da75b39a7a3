/**
 * Every way of taking a small rig apart, by brute force under `RigMeaning`: all moments that can be reached, all steps
 * between them. The judge of the exact planner in its tests; shares nothing with it.
 */
import { changeMinutes, parseSet, RigMeaning, type World } from '../../../domain/rig/rig-meaning.ts';
import type { ActionId, Need, Rig, Situation } from '../../../domain/rig/rig-types.ts';
import { everyAction } from '../../testing/random-rig.ts';

export interface Cost {
  readonly irreversible: number;
  readonly disturbed: number;
  readonly minutes: number;
}

interface Edge {
  readonly action: ActionId;
  readonly to: number;
  readonly minutes: number;
}

export class Everything {
  readonly meaning: RigMeaning;
  readonly worlds: World[] = [];
  readonly edges: Edge[][] = [];

  /** Null when there are more moments than `most`. */
  static of(rig: Rig, situation: Situation, most: number): Everything | null {
    const all = new Everything(rig, situation);
    return all.explore(most) ? all : null;
  }

  private constructor(
    readonly rig: Rig,
    private readonly situation: Situation,
  ) {
    this.meaning = new RigMeaning(rig);
  }

  private explore(most: number): boolean {
    const actions = everyAction(this.rig);
    const keyOf = (w: World): string =>
      `${actions.filter((a) => w.done.has(a)).join()}|${Object.values(w.states).join()}`;
    const start = this.meaning.now(this.situation);
    const index = new Map([[keyOf(start), 0]]);
    this.worlds.push(start);
    for (let i = 0; i < this.worlds.length; i++) {
      if (this.worlds.length > most) return false;
      const w = this.worlds[i]!;
      const out: Edge[] = [];
      for (const action of actions) {
        if (!this.meaning.allowed(action, w)) continue;
        const next = this.meaning.after(w, action);
        const key = keyOf(next);
        let to = index.get(key);
        if (to === undefined) {
          to = this.worlds.length;
          index.set(key, to);
          this.worlds.push(next);
        }
        out.push({ action, to, minutes: this.minutesOf(action, w) });
      }
      this.edges.push(out);
    }
    return true;
  }

  minutesOf(action: ActionId, w: World): number {
    const set = parseSet(action);
    if (set) {
      const setup = this.rig.setups.find((s) => s.id === set.setup)!;
      return changeMinutes(setup, w.states[setup.id]!, set.state) ?? 0;
    }
    if (action.startsWith('remove:')) return this.rig.parts.find((p) => p.id === action.slice(7))?.minutes ?? 0;
    return [...this.rig.attachments, ...this.rig.operations].find((x) => x.id === action)?.minutes ?? 0;
  }

  /** What has been lost and disturbed beyond what was so at the start. */
  private losses(w: World): { readonly irreversible: number; readonly disturbed: number } {
    const before = this.worlds[0]!;
    const was = new Set<string>();
    const is = new Set<string>();
    let irreversible = 0;
    for (const a of this.rig.attachments) {
      if (before.done.has(a.id)) for (const s of a.disturbs ?? []) was.add(s);
      else if (w.done.has(a.id)) {
        for (const s of a.disturbs ?? []) is.add(s);
        if (a.loss === 'irreversible') irreversible++;
      }
    }
    return { irreversible, disturbed: [...is].filter((s) => !was.has(s)).length };
  }

  /** Cheapest cost after which the goal holds; null when it never does. */
  cheapest(goal: Need): Cost | null {
    const minutes = this.leastMinutes(new Set());
    let best: Cost | null = null;
    this.worlds.forEach((w, i) => {
      if (minutes[i] === Number.POSITIVE_INFINITY || !this.holds(goal, w)) return;
      const cost = { ...this.losses(w), minutes: minutes[i]! };
      if (best === null || compare(cost, best) < 0) best = cost;
    });
    return best;
  }

  holds(goal: Need, w: World): boolean {
    return this.meaning.holds(goal, [this.rig.root], w);
  }

  /** Whether the goal can be reached without some actions. */
  canReach(goal: Need, without: ReadonlySet<ActionId>): boolean {
    const minutes = this.leastMinutes(without);
    return this.worlds.some((w, i) => minutes[i] !== Number.POSITIVE_INFINITY && this.holds(goal, w));
  }

  /** Cheapest of the ways that use none of some actions. */
  cheapestWithout(goal: Need, without: ReadonlySet<ActionId>): Cost | null {
    const minutes = this.leastMinutes(without);
    let best: Cost | null = null;
    this.worlds.forEach((w, i) => {
      if (minutes[i] === Number.POSITIVE_INFINITY || !this.holds(goal, w)) return;
      const cost = { ...this.losses(w), minutes: minutes[i]! };
      if (best === null || compare(cost, best) < 0) best = cost;
    });
    return best;
  }

  /** Bellman-Ford in rounds: small graphs, no queue to get wrong. */
  private leastMinutes(without: ReadonlySet<ActionId>): number[] {
    const best = this.worlds.map(() => Number.POSITIVE_INFINITY);
    best[0] = 0;
    const open = [0];
    for (let k = 0; k < open.length; k++) {
      const at = open[k]!;
      for (const e of this.edges[at]!) {
        if (without.has(e.action) || best[at]! + e.minutes >= best[e.to]!) continue;
        best[e.to] = best[at]! + e.minutes;
        open.push(e.to);
      }
    }
    return best;
  }
}

export function compare(a: Cost, b: Cost): number {
  return a.irreversible - b.irreversible || a.disturbed - b.disturbed || a.minutes - b.minutes;
}
