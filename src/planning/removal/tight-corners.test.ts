/** Small rigs on which a planner is easily wrong; each was found by full enumeration (own, test/second-meaning). */
import { describe, expect, it } from 'vitest';
import { must } from '../../domain/result.ts';
import { checkRig } from '../../domain/rig/rig-check.ts';
import { RigMeaning } from '../../domain/rig/rig-meaning.ts';
import type { Rig } from '../../domain/rig/rig-types.ts';
import { planOff } from './plan-off.ts';
import { whyNot } from './why-not.ts';

const EMPTY: Rig = {
  format: 'witnessmark-rig/1',
  root: 'rt',
  parts: [],
  attachments: [],
  operations: [],
  blocks: [],
  guards: [],
  setups: [],
  facts: [],
  looks: [],
};
const rigOf = (rig: Partial<Rig>): Rig => must(checkRig({ ...EMPTY, ...rig }));

describe('a hold met only in a state that rests on another joint', () => {
  const rig = rigOf({
    parts: [{ id: 'pa', hold: { setup: 'sa', in: ['up'] } }, { id: 'pb' }],
    attachments: [
      { id: 'ja', joins: ['pb', 'pa'] },
      { id: 'jb', joins: ['rt', 'pa'] },
    ],
    setups: [
      {
        id: 'sa',
        states: ['up', 'down', 'side'],
        initial: 'down',
        points: { up: [{ on: 'rt', through: ['ja'] }], side: [{ on: 'pa' }] },
      },
    ],
  });

  it('is left again before the joint goes', () => {
    const answer = must(planOff(rig, { done: [] }, { off: 'pa' }));
    const meaning = new RigMeaning(rig);
    let world = meaning.start();
    for (const { action } of answer.steps) {
      expect(meaning.hindrances(action, world), action).toEqual([]);
      world = meaning.after(world, action);
    }
    expect(world.done).toContain('remove:pa');
    expect(answer).toMatchObject({
      proven: true,
      unavoidable: ['ja', 'jb', 'remove:pa', 'remove:pb', 'set:sa=down', 'set:sa=up'],
    });
    expect(must(whyNot(rig, { done: [] }, 'remove:pa')).cheapestWay?.cost).toBe(0);
  });
});
