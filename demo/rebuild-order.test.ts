/**
 * The order of rebuilding in the scenario (left before right) against the planner's own order from 14 April 2026: found
 * by the rules of the rig, not written down anywhere as an order.
 */
import { describe, expect, it } from 'vitest';
import { must } from '../src/domain/result.ts';
import type { ActionId } from '../src/domain/rig/rig-types.ts';
import { planFits } from '../src/planning/refit/plan-fits.ts';
import { demoJob } from './history/index.ts';

const { state } = demoJob('2026-04-14');
const answer = must(planFits(state.rig, state.situation));
const order = answer.order ?? [];

const EDGES: readonly (readonly [before: ActionId, after: ActionId, why: string])[] = [
  ['line-up-lugs-r', 'repair-c9-r', 'lugs give the hole location'],
  ['repair-c9-r', '02-j09f', 'frame before side skin 9 R'],
  ['02-j09f', 'remove:02-12', 'rivets inside, then the diaphragm'],
  ['remove:09-09', 'remove:03-14', 'bearing port before the tank'],
  ['remove:09-10', 'remove:03-14', 'bearing starboard before the tank'],
  ['remove:09-07', 'remove:03-14', 'torque shaft port before the tank'],
  ['remove:09-08', 'remove:03-14', 'torque shaft starboard before the tank'],
  ['remove:03-14', 'remove:01-21', 'tank before the roof hatch'],
  ['remove:03-01', 'remove:centre-section', 'pylon before the spars'],
  ['remove:03-04', 'remove:centre-section', 'pylon before the spars'],
  ['remove:centre-section', 'remove:wing-l', 'centre section before the panels'],
  ['remove:centre-section', 'remove:wing-r', 'centre section before the panels'],
  ['remove:03-18.1', 'remove:wing-l', 'shims before the wing'],
  ['remove:01-11', 'remove:01-08', 'frame C4 before the planks'],
  ['remove:01-12', 'remove:01-09', 'frame C5 before the planks'],
  ['remove:01-08', 'remove:01-14', 'plank before the chine'],
  ['remove:10-03', '10-j07', 'spring before the retaining nut'],
  ['10-j07', '10-j08', 'nut before its lock wire'],
  ['remove:10-09', '10-j10', 'trunnion block before the pins'],
  ['07-j02', '09-j17', 'trunnion pin in at 35° before the jack is on the leg'],
  ['07-j02', 'swing-leg-l-35', 'pin in before the leg swings down'],
  ['remove:power-unit', 'remove:11-13', 'engine before the propeller'],
];

describe('order of rebuilding', () => {
  it('exists: every part goes back and nothing is shut out or hidden unsigned', () => {
    expect(answer.reason).toBeUndefined();
    const wanted = state.situation.done.filter((a) => !a.startsWith('set:')).length;
    expect(order.length).toBeGreaterThan(0.9 * wanted);
    expect(new Set(order.filter((a) => !a.startsWith('set:'))).size).toBe(
      order.filter((a) => !a.startsWith('set:')).length,
    );
  });

  it.each(EDGES)('%s before %s: %s', (before, after) => {
    const last = order.indexOf(after);
    expect(last).toBeGreaterThanOrEqual(0);
    const first = order.indexOf(before);
    // What is made already (the lugs lined up) is before everything that is still to come.
    expect(first < last && (first >= 0 || state.situation.made?.includes(before) === true)).toBe(true);
  });
});
