import fc from 'fast-check';
import { expect, test } from 'vitest';
import { RigMeaning } from '../../domain/rig/rig-meaning.ts';
import type { Rig } from '../../domain/rig/rig-types.ts';
import { randomRig } from '../../planning/testing/random-rig.ts';
import { Conditions } from './conditions.ts';

const SHAPE = { parts: 9, extraJoints: 4, operations: 4, blocks: 4, setups: 2, holds: 3, facts: 2, needs: 0.7 };

/** Rules but the hold, which here counts from the first joint on, and the guard, which needs more than one action. */
function plainRules(rig: Rig, action: string): readonly string[] {
  const meaning = new RigMeaning(rig);
  return meaning
    .hindrances(action, meaning.start())
    .filter((h) => h.rule !== 'hold' && h.rule !== 'guard' && h.rule !== 'never')
    .map((h) => JSON.stringify(h))
    .sort();
}

function actionsOf(rig: Rig): readonly string[] {
  const removes = rig.parts.filter((p) => p.id !== rig.root).map((p) => `remove:${p.id}`);
  return [...rig.attachments.map((a) => a.id), ...rig.operations.map((o) => o.id), ...removes];
}

test('the conditions that wires are drawn from are those of the rig’s one meaning', () => {
  fc.assert(
    fc.property(randomRig(SHAPE), (rig) => {
      const conditions = new Conditions(rig);
      for (const action of actionsOf(rig)) {
        const drawn = conditions
          .of(action)
          .filter((h) => h.rule !== 'hold')
          .map((h) => JSON.stringify(h))
          .sort();
        expect(drawn).toEqual(plainRules(rig, action));
      }
    }),
    { numRuns: 60 },
  );
});

test('every hold that forbids a last joint is among the conditions of that joint', () => {
  fc.assert(
    fc.property(randomRig(SHAPE), (rig) => {
      const conditions = new Conditions(rig);
      const meaning = new RigMeaning(rig);
      for (const joint of rig.attachments) {
        const others = new Set(rig.attachments.filter((a) => a !== joint).map((a) => a.id));
        const last = { ...meaning.start(), done: others };
        const forbidding = meaning
          .hindrances(joint.id, last)
          .filter((h) => h.rule === 'hold')
          .map((h) => JSON.stringify(h.need));
        const drawn = conditions
          .of(joint.id)
          .filter((h) => h.rule === 'hold')
          .map((h) => JSON.stringify(h.need));
        for (const need of forbidding) expect(drawn).toContain(need);
      }
    }),
    { numRuns: 60 },
  );
});
