/** Small rigs on which a planner is easily wrong; each was found by full enumeration (own, test/second-meaning). */
import { describe, expect, it } from 'vitest';
import { must } from '../../domain/result.ts';
import { checkRig } from '../../domain/rig/rig-check.ts';
import { RigMeaning } from '../../domain/rig/rig-meaning.ts';
import type { ActionId, Need, Rig } from '../../domain/rig/rig-types.ts';
import { planFits } from '../refit/plan-fits.ts';
import { compile } from '../rig-model/compile.ts';
import { Moment } from '../rig-model/moment.ts';
import { everyAction } from '../testing/random-rig.ts';
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

describe('the way to an action', () => {
  it('does not weigh the minutes of the change itself', () => {
    const rig = rigOf({
      operations: [{ id: 'o', minutes: 5 }],
      setups: [
        {
          id: 's',
          states: ['a', 'b', 'c'],
          initial: 'c',
          minutes: { 'c>b': 2, 'c>a': 2, 'a>b': 0 },
          changeNeeds: { b: { done: 'o' } },
        },
      ],
    });
    const answer = must(whyNot(rig, { done: [] }, 'set:s=b'));
    expect(answer.cheapestWay).toEqual({ cost: 5, actions: ['o'] });
    expect(answer.nextWays).toEqual([]);
  });

  it('does not weigh what the action itself disturbs or loses', () => {
    const rig = rigOf({
      attachments: [
        {
          id: 'own',
          joins: ['rt', 'p'],
          loss: 'irreversible',
          disturbs: ['x'],
          needs: { any: [{ released: 'quick' }, { released: 'slow' }] },
        },
        { id: 'quick', joins: ['rt', 'p'], minutes: 1, disturbs: ['x'] },
        { id: 'slow', joins: ['rt', 'p'], minutes: 9 },
      ],
      parts: [{ id: 'p' }],
    });
    expect(must(whyNot(rig, { done: [] }, 'own')).cheapestWay).toEqual({ cost: 9, actions: ['slow'] });
  });
});

describe('a chain of parts, each hanging on the one before', () => {
  const rig = rigOf({
    parts: ['a', 'b', 'c', 'd'].map((id) => ({ id, minutes: 1 })),
    attachments: ['a', 'b', 'c', 'd'].map((id, i) => ({ id: `j${id}`, joins: [['rt', 'a', 'b', 'c'][i]!, id] })),
  });
  const meaning = new RigMeaning(rig);

  it('knows what still hangs after every forced order', () => {
    const actions = everyAction(rig);
    for (let bits = 0; bits < 2 ** actions.length; bits++) {
      const done = actions.filter((_, i) => (bits >> i) & 1);
      const world = meaning.now({ done });
      const now = Moment.of(compile(rig), { done });
      for (const a of actions) expect(now.allowed(a), `${a} after ${done}`).toBe(meaning.allowed(a, world));
    }
  });

  it('lifts what was left hanging by force', () => {
    const answer = must(planOff(rig, { done: ['jb', 'remove:b'] }, { apart: 'a' }));
    expect(answer.steps.map((s) => s.action)).toEqual(['jd', 'remove:d', 'jc', 'remove:c', 'ja', 'remove:a']);
    const why = must(whyNot(rig, { done: ['ja', 'jb', 'remove:b'] }, 'remove:a'));
    expect(why.unmet.map((u) => u.need)).toEqual([{ off: 'd' }]);
  });
});

describe('names that every object inherits', () => {
  /** Every id ends in "~"; without it, it is a name that each object has anyway. */
  const marked: Partial<Rig> = {
    parts: [
      { id: 'constructor~', massKg: 40, at: { x: 1, y: 0, z: 0 }, hold: { setup: 'valueOf~', in: ['toString~'] } },
      { id: 'toString~', within: 'constructor~', needs: { done: 'isPrototypeOf~' }, minutes: 3 },
    ],
    attachments: [
      { id: 'hasOwnProperty~', joins: ['rt', 'constructor~'], minutes: 5, hazards: [{ kind: 'constructor~' }] },
      { id: '__defineGetter__~', joins: ['constructor~', 'toString~'], needs: { fact: 'toLocaleString~' } },
    ],
    operations: [{ id: 'isPrototypeOf~', on: 'constructor~', minutes: 7 }],
    setups: [
      {
        id: 'valueOf~',
        states: ['constructor~', 'toString~', 'valueOf~', 'isPrototypeOf~'],
        initial: 'constructor~',
        minutes: 4,
        points: { 'toString~': [{ on: 'rt', through: ['__defineGetter__~'], at: { x: 0, y: 0, z: 0 } }] },
      },
    ],
    facts: [{ id: 'toLocaleString~', given: true }],
    looks: [{ id: '__lookupGetter__~', on: 'rt', visible: { off: 'toString~' } }],
  };
  const plain = (text: string): string => text.replaceAll('~', '');

  it('give the same answers as names of their own', () => {
    const rig = rigOf(marked);
    const odd = rigOf(JSON.parse(plain(JSON.stringify(marked))) as Partial<Rig>);
    const goal: Need = { all: [{ off: 'constructor~' }, { apart: 'toString~' }] };
    const plan = must(planOff(rig, { done: [] }, goal));
    expect(plan).toMatchObject({ cost: 23, proven: true });
    const same = (a: unknown, b: unknown): void => expect(b).toEqual(JSON.parse(plain(JSON.stringify(a))));
    same(plan, must(planOff(odd, { done: [] }, JSON.parse(plain(JSON.stringify(goal))) as Need)));
    const meaning = new RigMeaning(rig);
    const oddMeaning = new RigMeaning(odd);
    const done: ActionId[] = [];
    for (const { action } of plan.steps) {
      for (const a of everyAction(rig)) {
        const oddDone = done.map(plain);
        same(must(whyNot(rig, { done }, a)), must(whyNot(odd, { done: oddDone }, plain(a))));
        same(
          meaning.hindrances(a, meaning.now({ done })),
          oddMeaning.hindrances(plain(a), oddMeaning.now({ done: oddDone })),
        );
      }
      same(must(planFits(rig, { done })), must(planFits(odd, { done: done.map(plain) })));
      done.push(action);
    }
  });
});
