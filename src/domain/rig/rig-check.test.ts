import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { must } from '../result.ts';
import { readGoal, readRig } from './rig-check.ts';
import { RigMeaning } from './rig-meaning.ts';
import type { Rig } from './rig-types.ts';

const good = {
  format: 'witnessmark-rig/1',
  root: 'frame',
  parts: [
    { id: 'frame' },
    { id: 'gear', name: 'Gear' },
    { id: 'leg', within: 'gear', minutes: 10, massKg: 31, at: { x: 7.6 } },
    { id: 'cover' },
  ],
  attachments: [
    { id: 'j1', joins: ['leg', 'frame'], minutes: 5 },
    { id: 'j2', joins: ['cover', 'frame'], minutes: 3 },
  ],
  operations: [{ id: 'drain', on: 'leg', minutes: 20 }],
  blocks: [{ part: 'leg', by: 'cover', harm: 'bends the cover' }],
  guards: [{ notTogether: ['leg', 'cover'] }],
  setups: [
    {
      id: 'support',
      states: ['wheels', 'jacks'],
      initial: 'jacks',
      minutes: 40,
      points: { jacks: [{ on: 'frame', through: ['j2'], limitKg: 900 }] },
    },
  ],
  facts: [{ id: 'known' }],
  looks: [{ id: 'look', on: 'leg', visible: { off: 'cover' }, whenFitted: ['j1'], people: 2 }],
};

type Change = (rig: typeof good & Record<string, unknown>) => unknown;

/** Each fault of the format's list, the code it must give and where. */
const faults: readonly (readonly [string, Change, string, string])[] = [
  ['another format', (r) => ({ ...r, format: 'witnessmark-rig/2' }), 'RIG_FORMAT', 'format'],
  ['no root', ({ root: _, ...r }) => r, 'RIG_SHAPE', 'root'],
  ['an unknown key', (r) => ({ ...r, colour: 1 }), 'RIG_UNKNOWN_KEY', 'colour'],
  [
    'an unknown key of a part',
    (r) => ({ ...r, parts: [{ id: 'frame', colour: 1 }] }),
    'RIG_UNKNOWN_KEY',
    'parts[0].colour',
  ],
  ['a repeated id', (r) => ({ ...r, facts: [{ id: 'leg' }] }), 'RIG_ID', 'facts[0].id'],
  ['an id with a colon', (r) => ({ ...r, facts: [{ id: 'a:b' }] }), 'RIG_ID', 'facts[0].id'],
  [
    'an unknown end',
    (r) => ({
      ...r,
      attachments: [
        { id: 'j1', joins: ['leg', 'nowhere'] },
        { id: 'j2', joins: ['cover', 'frame'] },
      ],
    }),
    'RIG_UNKNOWN_ID',
    'attachments[0].joins[1]',
  ],
  [
    'within that loops',
    (r) => ({
      ...r,
      parts: [
        { id: 'a', within: 'b' },
        { id: 'b', within: 'a' },
      ],
    }),
    'RIG_WITHIN',
    'parts[0].within',
  ],
  [
    'within on the root',
    (r) => ({ ...r, parts: [{ id: 'frame', within: 'gear' }, { id: 'gear' }] }),
    'RIG_WITHIN',
    'parts[0].within',
  ],
  ['within the root', (r) => ({ ...r, parts: [{ id: 'gear', within: 'frame' }] }), 'RIG_WITHIN', 'parts[0].within'],
  [
    'one end twice',
    (r) => ({ ...r, attachments: [{ id: 'j1', joins: ['leg', 'leg'] }] }),
    'RIG_JOINT_ENDS',
    'attachments[0].joins',
  ],
  ['a block by the root', (r) => ({ ...r, blocks: [{ part: 'leg', by: 'frame' }] }), 'RIG_BLOCK', 'blocks[0]'],
  [
    'a block inside',
    (r) => ({ ...r, blocks: [{ part: 'leg', by: 'gear', unless: { fact: 'known' } }] }),
    'RIG_BLOCK',
    'blocks[0]',
  ],
  [
    'a need of its own doing',
    (r) => ({ ...r, operations: [{ id: 'drain', needs: { done: 'drain' } }] }),
    'RIG_OWN_DOING',
    'operations[0].needs',
  ],
  [
    'a joint that waits for its own end',
    (r) => ({
      ...r,
      attachments: [
        { id: 'j1', joins: ['leg', 'frame'], needs: { off: 'leg' } },
        { id: 'j2', joins: ['cover', 'frame'] },
      ],
    }),
    'RIG_OWN_DOING',
    'attachments[0].needs',
  ],
  [
    'an undeclared fact',
    (r) => ({ ...r, operations: [{ id: 'drain', needs: { fact: 'x' } }] }),
    'RIG_UNKNOWN_ID',
    'operations[0].needs.fact',
  ],
  [
    'an unknown state',
    (r) => ({ ...r, operations: [{ id: 'drain', needs: { setup: 'support', in: ['x'] } }] }),
    'RIG_UNKNOWN_ID',
    'operations[0].needs.in[0]',
  ],
  [
    'an unknown initial',
    (r) => ({ ...r, setups: [{ id: 's', states: ['a'], initial: 'b' }] }),
    'RIG_UNKNOWN_ID',
    'setups[0].initial',
  ],
  ['an unknown on', (r) => ({ ...r, looks: [{ id: 'look', on: 'x' }] }), 'RIG_UNKNOWN_ID', 'looks[0].on'],
  ['negative minutes', (r) => ({ ...r, parts: [{ id: 'leg', minutes: -1 }] }), 'RIG_SHAPE', 'parts[0].minutes'],
  ['half minutes', (r) => ({ ...r, parts: [{ id: 'leg', minutes: 1.5 }] }), 'RIG_SHAPE', 'parts[0].minutes'],
  [
    'endless minutes',
    (r) => ({ ...r, parts: [{ id: 'leg', minutes: Number.POSITIVE_INFINITY }] }),
    'RIG_SHAPE',
    'parts[0].minutes',
  ],
  [
    'stored energy uncleared',
    (r) => ({ ...r, operations: [{ id: 'drain', hazards: [{ kind: 'stored-energy' }] }] }),
    'RIG_HAZARD',
    'operations[0].hazards[0]',
  ],
  [
    'a need with two words',
    (r) => ({ ...r, looks: [{ id: 'look', visible: { off: 'leg', done: 'drain' } }] }),
    'RIG_SHAPE',
    'looks[0].visible',
  ],
  [
    'a need of no kind',
    (r) => ({ ...r, looks: [{ id: 'look', visible: { gone: 'leg' } }] }),
    'RIG_UNKNOWN_KEY',
    'looks[0].visible.gone',
  ],
  ['no object', () => 7, 'RIG_SHAPE', ''],
];

describe('reading a rig', () => {
  it('takes the good one', () => {
    expect(must(readRig(good)).parts).toHaveLength(4);
  });

  it.each(faults)('refuses %s with one Problem and its place', (_, change, code, where) => {
    const base = { ...good, blocks: [], guards: [], looks: [], setups: good.setups, attachments: good.attachments };
    const read = readRig(change(structuredClone(base) as never));
    expect(read.ok).toBe(false);
    if (!read.ok) {
      expect([read.problem.code, read.problem.where]).toEqual([code, where]);
      expect(read.problem.remedy.length).toBeGreaterThan(10);
    }
  });

  it('does not refuse two things that wait for each other', () => {
    const parts = [
      { id: 'a', needs: { off: 'b' } },
      { id: 'b', needs: { off: 'a' } },
    ];
    expect(readRig({ ...good, parts: [...good.parts, ...parts] }).ok).toBe(true);
  });

  it('reads a goal against the rig', () => {
    const rig = must(readRig(good));
    expect(readGoal(rig, { apart: 'leg' }).ok).toBe(true);
    expect(readGoal(rig, { apart: 'lug' })).toMatchObject({
      ok: false,
      problem: { code: 'RIG_UNKNOWN_ID', where: 'goal.apart' },
    });
  });

  it('answers 2,000 mangled rigs with a rig or one Problem, and never falls', () => {
    const junk = fc.oneof(
      fc.constantFrom(null, -1, 1e308, '', '__proto__', 'a:b', [], {}, { any: [] }, { all: [{ off: 'leg' }] }),
      fc.jsonValue(),
    );
    fc.assert(
      fc.property(fc.nat(), fc.nat(), junk, fc.boolean(), (at, key, value, drop) => {
        const rig = structuredClone(good) as unknown;
        mangle(rig, at, key, value, drop);
        const read = readRig(rig);
        if (read.ok) new RigMeaning(read.value as Rig).hindrances('remove:leg', new RigMeaning(read.value).start());
        else expect(read.problem.message.length).toBeGreaterThan(0);
      }),
      { numRuns: 2000 },
    );
  });
});

/** Puts junk somewhere, or takes something out: walks `at` steps into the tree. */
function mangle(tree: unknown, at: number, key: number, value: unknown, drop: boolean): void {
  const nodes: (Record<string, unknown> | unknown[])[] = [];
  const visit = (n: unknown): void => {
    if (typeof n !== 'object' || n === null) return;
    nodes.push(n as Record<string, unknown>);
    Object.values(n).forEach(visit);
  };
  visit(tree);
  const node = nodes[at % nodes.length]!;
  const keys = Object.keys(node);
  const chosen = keys[key % Math.max(1, keys.length)] ?? 'x';
  if (drop) Reflect.deleteProperty(node, chosen);
  else Object.defineProperty(node, chosen, { value, enumerable: true, configurable: true, writable: true });
}
