import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RigMeaning } from '../../domain/rig/rig-meaning.ts';
import type { Rig } from '../../domain/rig/rig-types.ts';
import { Dice, everyAction, makeRandomRig, randomRig } from '../testing/random-rig.ts';
import { compile } from './compile.ts';
import { Moment } from './moment.ts';

/** Walks at random, now and then against the rules, and compares what may be done at every step. */
function compareAlongAWalk(rig: Rig, seed: number): void {
  const dice = new Dice(seed);
  const meaning = new RigMeaning(rig);
  const model = compile(rig);
  const facts = rig.facts.filter(() => dice.chance(0.5)).map((f) => f.id);
  let world = meaning.start({ done: [], facts });
  const moment = Moment.of(model, { done: [], facts });
  const actions = everyAction(rig);
  for (let step = 0; step < 12; step++) {
    const allowed = actions.filter((a) => meaning.allowed(a, world));
    expect(actions.filter((a) => moment.allowed(a))).toEqual(allowed);
    const open = dice.chance(0.25) ? actions.filter((a) => !world.done.has(a)) : allowed;
    if (open.length === 0) return;
    const next = dice.pick(open);
    world = meaning.after(world, next);
    moment.doAction(next);
  }
}

describe('the compiled rig', () => {
  it('allows exactly what the meaning allows, along random walks', () => {
    const shape = {
      parts: 7,
      extraJoints: 4,
      operations: 2,
      blocks: 3,
      setups: 2,
      guards: 2,
      holds: 2,
      facts: 2,
      needs: 0.4,
    };
    fc.assert(
      fc.property(randomRig(shape), fc.nat(), (rig, seed) => compareAlongAWalk(rig, seed)),
      { numRuns: 300 },
    );
  });

  it('finds what hangs on what, and what carries a part, as a walk for each part does', () => {
    fc.assert(
      fc.property(randomRig({ parts: 12, extraJoints: 6, needs: 0 }), (rig) => {
        const { structure } = new RigMeaning(rig);
        const model = compile(rig);
        rig.parts.forEach((part, p) => {
          const names = (list: readonly number[]): string[] => list.map((q) => model.places.ids[q]!).sort();
          expect(names(model.hanging.on(p))).toEqual([...structure.hanging(part.id)].sort());
          expect(model.carrying(p).map((j) => model.id(j))).toEqual(structure.carrying(part.id).map((a) => a.id));
        });
      }),
      { numRuns: 300 },
    );
  });

  it('names actions and finds them again', () => {
    const model = compile(makeRandomRig(3, { parts: 5, operations: 2 }));
    for (let a = 0; a < model.actionCount; a++) expect(model.find(model.id(a))).toBe(a);
    expect(model.find('no-such-thing')).toBeNull();
  });
});
