import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { must } from '../../domain/result.ts';
import { RigMeaning, type World } from '../../domain/rig/rig-meaning.ts';
import type { ActionId, Rig, Situation } from '../../domain/rig/rig-types.ts';
import { makeRandomRig, makeRandomSituation } from '../testing/random-rig.ts';
import { planFits } from './plan-fits.ts';
import { landmarks } from './testing/landmarks.ts';

const PLAIN = { operations: 2, facts: 0, looks: 0, losses: false, setups: 0, guards: 0, holds: 0 } as const;

function scene(parts: number, most: number): fc.Arbitrary<{ rig: Rig; situation: Situation }> {
  return fc.record({ seed: fc.nat(1_000_000), steps: fc.integer({ min: 2, max: most }) }).map(({ seed, steps }) => {
    const rig = makeRandomRig(seed, { ...PLAIN, parts, extraJoints: parts >> 1, blocks: parts >> 1 });
    return { rig, situation: { done: makeRandomSituation(rig, seed + 1, steps).done } };
  });
}

/** Everything that some legal order of these actions contains, by walking through all of them. */
function reachedByWalking(rig: Rig, from: ReadonlySet<ActionId>): ReadonlySet<ActionId> {
  const meaning = new RigMeaning(rig);
  const seen = new Set<string>();
  const found = new Set<ActionId>();
  const walk = (w: World): void => {
    const key = [...w.done].sort().join();
    if (seen.has(key)) return;
    seen.add(key);
    for (const a of from) {
      if (!meaning.allowed(a, w)) continue;
      found.add(a);
      walk(meaning.after(w, a));
    }
  };
  walk(meaning.start());
  return found;
}

describe('what is locked out, by other means', () => {
  it('[F4] x locks out y exactly when every way to y contains x', () => {
    fc.assert(
      fc.property(scene(10, 24), ({ rig, situation }) => {
        const known = landmarks(rig, situation);
        for (const e of must(planFits(rig, situation)).next) {
          const behind = situation.done.filter((y) => y !== e.action && known.get(y)!.has(e.action)).sort();
          expect({ x: e.action, behind: e.locksOut }).toEqual({ x: e.action, behind });
        }
      }),
      { numRuns: 200 },
    );
  });

  it('[F5] x locks out what no legal order without x contains', () => {
    fc.assert(
      fc.property(scene(4, 9), ({ rig, situation }) => {
        const before = reachedByWalking(rig, new Set(situation.done));
        for (const e of must(planFits(rig, situation)).next) {
          const left = situation.done.filter((a) => a !== e.action);
          const after = reachedByWalking(rig, new Set(left));
          expect(e.locksOut).toEqual(left.filter((a) => before.has(a) && !after.has(a)).sort());
        }
      }),
      { numRuns: 120 },
    );
  });
});
