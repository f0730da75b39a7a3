import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { must } from '../../domain/result.ts';
import { makeRandomRig, makeRandomSituation } from '../testing/random-rig.ts';
import { planFits } from './plan-fits.ts';
import { RefitPlanner } from './refit-planner.ts';

const SHAPE = { parts: 9, extraJoints: 4, operations: 3, blocks: 4, facts: 1, looks: 4, losses: false } as const;

describe('one planner for many situations', () => {
  it.each([
    ['plain', SHAPE, 0],
    ['with forced actions', SHAPE, 3],
    ['setups, guards, holds, refit conditions', { ...SHAPE, parts: 5, setups: 1, guards: 1, holds: 1, refit: true }, 1],
  ] as const)('[F3] moved on change by change it answers as from scratch: %s', (_, shape, forced) => {
    fc.assert(
      fc.property(
        fc.record({
          seed: fc.nat(1_000_000),
          steps: fc.integer({ min: 3, max: 20 }),
          picks: fc.array(fc.nat(1000), { maxLength: 12 }),
        }),
        ({ seed, steps, picks }) => {
          const rig = makeRandomRig(seed, shape);
          const whole = makeRandomSituation(rig, seed + 1, steps, forced);
          const planner = new RefitPlanner(rig);
          let done = whole.done;
          expect(planner.fits(whole)).toEqual(planFits(rig, whole));
          for (const pick of picks) {
            const x = whole.done[pick % whole.done.length];
            if (x === undefined) return;
            done = done.includes(x)
              ? done.filter((a) => a !== x)
              : whole.done.filter((a) => done.includes(a) || a === x);
            const situation = { ...whole, done };
            expect(must(planner.fits(situation))).toEqual(must(planFits(rig, situation)));
          }
        },
      ),
      { numRuns: 150 },
    );
  });
});
