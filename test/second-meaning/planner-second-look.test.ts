/**
 * The planner against full enumeration by the second meaning (`ways.ts`, `refit.ts`) on tiny rigs of another generator:
 * costs, losses, what every way contains, the next ways, why not, what fits and what that locks out.
 */
import { describe, expect, it } from 'vitest';
import { must } from '../../src/domain/result.ts';
import { planFits } from '../../src/planning/refit/plan-fits.ts';
import { planOff } from '../../src/planning/removal/plan-off.ts';
import { whyNot } from '../../src/planning/removal/why-not.ts';
import { candidates, fitsNow, locksOut, replay, roots } from './refit.ts';
import {
  type Act,
  allowed,
  allowedChange,
  type Change,
  type Here,
  type Meaning,
  moved,
  understand,
} from './second-meaning.ts';
import { rolls, type Tiny, tinyRig } from './tiny-rigs.ts';
import { cheapest, everyWay, nextBest } from './ways.ts';

function tinies(from: number, to: number): { readonly number: number; readonly tiny: Tiny }[] {
  const out: { number: number; tiny: Tiny }[] = [];
  for (let k = from; k < to; k++) {
    const tiny = tinyRig(k, k % 3 ? 'full' : 'plain');
    if (tiny) out.push({ number: k, tiny });
  }
  return out;
}

function startOf(m: Meaning, { rig, situation }: Tiny): Here {
  const states = m.start.map((b, i) => {
    const s = rig.setups[i]!;
    const said = situation.setups?.[s.id];
    return said === undefined ? b : 1 << s.states.indexOf(said);
  });
  return { mask: situation.done.reduce((b, d) => b | m.bit(d), 0), states };
}

/** The world after the steps, null where one of them is not allowed. */
function play(m: Meaning, start: Here, steps: readonly string[]): Here | null {
  let w = start;
  for (const id of steps) {
    const a = m.acts.find((x) => x.id === id);
    const c = m.changes.find((x) => x.id === id);
    if (a) {
      if (a.only === 'refit' || !allowed(m, a, w)) return null;
      w = { ...w, mask: w.mask | a.bit };
    } else {
      if (!c || allowedChange(m, c, w) === undefined) return null;
      w = moved(w, c);
    }
  }
  return w;
}

describe('taking apart, against full enumeration', () => {
  it('[O1] cost, losses, order, what every way contains and the next ways', () => {
    let plans = 0;
    for (const { number, tiny } of tinies(2000, 15000)) {
      const m = understand(tiny.rig);
      const start = startOf(m, tiny);
      const holds = m.need(tiny.goal, [0]);
      const best = cheapest(m, start, holds);
      const answer = planOff(tiny.rig, tiny.situation, tiny.goal);
      expect(answer.ok, `rig ${number}`).toBe(best !== undefined);
      if (!answer.ok || !best) continue;
      plans++;
      const v = answer.value;
      const steps = v.steps.map((s) => s.action);
      expect([v.irreversible, v.disturbed, v.cost], `rig ${number}`).toEqual(best.cost);
      expect(holds(play(m, start, steps)!), `rig ${number}`).toBe(true);
      expect([...v.unavoidable].sort(), `rig ${number}`).toEqual(everyWay(m, start, holds).sort());
      const earlier = [steps];
      for (let i = 0; i < 2; i++) {
        const way = v.nextWays[i];
        const next = nextBest(m, start, holds, earlier);
        expect(way?.cost, `rig ${number}, next way ${i}`).toBe(next?.cost[2]);
        if (!way) break;
        expect(holds(play(m, start, way.actions)!), `rig ${number}, next way ${i}`).toBe(true);
        earlier.push([...way.actions]);
      }
    }
    expect(plans).toBeGreaterThan(500);
  });

  it('[W1] why not: allowed, what is unmet, the cheapest way there', () => {
    for (const { number, tiny } of tinies(2000, 12000)) {
      const m = understand(tiny.rig);
      const start = startOf(m, tiny);
      for (const x of m.acts.filter((a) => a.only !== 'refit')) whyNotAgrees(m, tiny, start, x, number);
      for (const c of m.changes) whyNotAgrees(m, tiny, start, c, number);
    }
  });
});

const isNow = (m: Meaning, x: Act | Change, w: Here): boolean =>
  'bit' in x ? allowed(m, x, w) : allowedChange(m, x, w) !== undefined;

/** Done, or the present state: no action, so no way to it is asked for. */
const isSoAlready = (x: Act | Change, w: Here): boolean =>
  'bit' in x ? (w.mask & x.bit) !== 0 : w.states[x.setup] === 1 << x.state;

function whyNotAgrees(m: Meaning, tiny: Tiny, start: Here, x: Act | Change, number: number): void {
  const v = must(whyNot(tiny.rig, tiny.situation, x.id, { nextWays: 0 }));
  const where = `rig ${number}, ${x.id}`;
  expect(v.allowed, where).toBe(isNow(m, x, start));
  expect(v.unmet.length === 0, where).toBe(v.allowed);
  if (v.allowed || isSoAlready(x, start)) return;
  const goal = (w: Here) => isNow(m, x, w);
  const way = cheapest(m, start, goal, x.id);
  expect(v.cheapestWay?.cost, where).toBe(way?.cost[2]);
  if (!way || !v.cheapestWay) return;
  expect(goal(play(m, start, v.cheapestWay.actions)!), where).toBe(true);
  expect([...v.unavoidable].sort(), where).toEqual(everyWay(m, start, goal, x.id).sort());
}

describe('putting back, against closures by walking every order', () => {
  it('[F1] what fits, and what it locks out', () => {
    let scenes = 0;
    let locks = 0;
    for (const { number, tiny } of tinies(2000, 40000)) {
      const { rig } = tiny;
      const m = understand(rig);
      const done = legalSteps(m, number);
      if (done.length === 0) continue;
      scenes++;
      const now = replay(m, done, {}, [], []);
      const next = must(planFits(rig, { done })).next;
      // Holds and guards count otherwise in a closure (docs/adr/0008, 6), and so does `refit`.
      const closureDiffers = m.holds.length > 0 || rig.guards.length > 0 || rig.attachments.some((j) => j.refit);
      for (const x of candidates(m, now.mask)) {
        const entry = next.find((e) => e.action === x.id);
        const where = `rig ${number}, ${x.id} after ${done}`;
        expect(entry !== undefined, where).toBe(fitsNow(m, x, now.mask, now));
        if (!entry || closureDiffers) continue;
        const named = (bits: number) => m.acts.flatMap((a) => ((a.bit & bits) !== 0 ? [a.id] : [])).sort();
        locks += entry.locksOut.length;
        expect(entry.locksOut, where).toEqual(named(locksOut(m, x, now.mask, now)));
        expect(entry.roots, where).toEqual(named(roots(m, x, now.mask, now)));
      }
    }
    expect(scenes).toBeGreaterThan(1000);
    expect(locks).toBeGreaterThan(100);
  });
});

function legalSteps(m: Meaning, number: number): string[] {
  const roll = rolls(number + 77);
  let w: Here = { mask: 0, states: m.start };
  const done: string[] = [];
  for (let i = roll(9); i > 0; i--) {
    const open = m.acts.filter((a) => a.only !== 'refit' && allowed(m, a, w));
    if (open.length === 0) break;
    const a = open[roll(open.length)]!;
    done.push(a.id);
    w = { ...w, mask: w.mask | a.bit };
  }
  return done;
}
