import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { must } from '../../domain/result.ts';
import { makeRandomRig, makeRandomSituation, type RigShape } from '../testing/random-rig.ts';
import { planFits } from './plan-fits.ts';
import { mixedScene, type Scene } from './testing/mixed-scene.ts';
import { SlowFits } from './testing/slow-fits.ts';

const PLAIN: Partial<RigShape> = {
  parts: 5,
  extraJoints: 2,
  operations: 2,
  blocks: 2,
  facts: 0,
  looks: 3,
  losses: false,
};
const FULL: Partial<RigShape> = {
  ...PLAIN,
  parts: 4,
  setups: 1,
  guards: 1,
  holds: 1,
  facts: 1,
  refit: true,
};

function scene(shape: Partial<RigShape>, forced: number): fc.Arbitrary<Scene> {
  return fc
    .record({ seed: fc.nat(1_000_000), steps: fc.integer({ min: 1, max: 10 }), forced: fc.nat(forced) })
    .map((s) => {
      const rig = makeRandomRig(s.seed, shape);
      return { rig, situation: makeRandomSituation(rig, s.seed + 1, s.steps, s.forced) };
    });
}

describe('fits against the slow reading', () => {
  const cases: readonly [string, fc.Arbitrary<Scene>][] = [
    ['plain rigs', scene(PLAIN, 0)],
    ['plain rigs with forced actions', scene(PLAIN, 2)],
    ['setups, guards, holds, facts, refit conditions', scene(FULL, 0)],
    ['the same with forced actions', scene(FULL, 2)],
    ['everything mixed', fc.nat(10_000_000).map(mixedScene)],
  ];
  it.each(cases)('[F1] the same entries: %s', (_, scenes) => {
    fc.assert(
      fc.property(scenes, ({ rig, situation }) => {
        expect(must(planFits(rig, situation)).next).toEqual(new SlowFits(rig, situation).next());
      }),
      { numRuns: 250 },
    );
  });

  it.each(cases)('[F2] an order is given exactly when there is one, and it can be walked: %s', (_, scenes) => {
    fc.assert(
      fc.property(scenes, ({ rig, situation }) => {
        const slow = new SlowFits(rig, situation);
        const answer = must(planFits(rig, situation));
        if (answer.order) expect(slow.faultOf(answer.order)).toBeNull();
        else {
          expect(answer.reason).toBeTruthy();
          expect(slow.hasOrder()).toBe(false);
        }
      }),
      { numRuns: 250 },
    );
  });

  // Found by 96,000 mixed scenes: a joint that a look waits for and that also decides which states can be reached.
  it('[F1] scene 785718', () => {
    const { rig, situation } = mixedScene(785718);
    expect(must(planFits(rig, situation)).next).toEqual(new SlowFits(rig, situation).next());
  });
});
