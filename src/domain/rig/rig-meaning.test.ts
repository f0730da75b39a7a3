/** Each test is one sentence of the rules (docs/rules.md), on the smallest rig that shows it. */
import { describe, expect, it } from 'vitest';
import { must } from '../result.ts';
import { readRig } from './rig-check.ts';
import { RigMeaning } from './rig-meaning.ts';

function meaning(rig: Record<string, unknown>): RigMeaning {
  return new RigMeaning(must(readRig({ format: 'witnessmark-rig/1', root: 'frame', ...rig })));
}

function rules(m: RigMeaning, action: string, done: readonly string[], extra: Record<string, unknown> = {}): string[] {
  return m.hindrances(action, m.now({ done, ...extra })).map((h) => h.rule);
}

const P = (...ids: string[]) => ids.map((id) => ({ id }));
const J = (id: string, ...joins: string[]) => ({ id, joins });

describe('removing', () => {
  const leg = meaning({
    parts: [...P('gear', 'cover', 'spinner'), { id: 'leg', within: 'gear' }, { id: 'wheel', within: 'leg' }],
    attachments: [
      J('inner', 'wheel', 'leg'),
      J('outer', 'leg', 'frame'),
      J('lid', 'cover', 'frame'),
      J('hang', 'spinner', 'wheel'),
    ],
    blocks: [{ part: 'wheel', by: 'cover', harm: 'bends the cover' }],
  });

  it('[R1] wants every joint released that crosses the skin of what is lifted, and no other', () => {
    expect(rules(leg, 'remove:leg', ['lid', 'remove:cover', 'hang', 'remove:spinner'])).toEqual(['attachment']);
    expect(rules(leg, 'remove:leg', ['lid', 'remove:cover', 'hang', 'remove:spinner', 'outer'])).toEqual([]);
  });

  it('[R2] is hindered by a block of anything it carries, until the other is off as seen from the blocked part', () => {
    expect(rules(leg, 'remove:gear', ['outer', 'hang', 'remove:spinner'])).toEqual(['block']);
    expect(rules(leg, 'remove:gear', ['outer', 'hang', 'remove:spinner', 'lid', 'remove:cover'])).toEqual([]);
  });

  it('[R3] waits for what hangs on it alone', () => {
    const done = ['outer', 'lid', 'remove:cover', 'hang'];
    expect(rules(leg, 'remove:gear', done)).toEqual(['hanging']);
  });

  it('[R4] never lifts the root', () => {
    expect(rules(leg, 'remove:frame', [])).toEqual(['never']);
  });
});

describe('off, seen from a place', () => {
  const box = meaning({
    parts: [
      ...P('box', 'panel'),
      { id: 'lid', within: 'box' },
      { id: 'key', within: 'box', needs: { off: 'lid' } },
      { id: 'bolt', needs: { off: 'panel' }, within: 'box' },
    ],
    attachments: [
      J('a', 'box', 'frame'),
      J('b', 'lid', 'box'),
      J('c', 'key', 'box'),
      J('d', 'panel', 'frame'),
      J('e', 'bolt', 'box'),
    ],
  });

  it('[R5] the lid of a box on the bench is still on the box', () => {
    expect(rules(box, 'remove:key', ['a', 'remove:box', 'c'])).toEqual(['part']);
    expect(rules(box, 'remove:key', ['b', 'remove:lid', 'c'])).toEqual([]);
  });

  it('[R6] a panel of the aircraft is out of the way of what lies on the bench', () => {
    expect(rules(box, 'remove:bolt', ['e'])).toEqual(['part']);
    expect(rules(box, 'remove:bolt', ['a', 'remove:box', 'e'])).toEqual([]);
  });

  it('[R7] seen from inside, off means off the aircraft', () => {
    const m = meaning({
      parts: [{ id: 'unit' }, { id: 'core', within: 'unit', needs: { off: 'unit' } }],
      attachments: [J('a', 'unit', 'frame'), J('b', 'core', 'unit')],
    });
    expect(rules(m, 'remove:core', ['b'])).toEqual(['part']);
    expect(rules(m, 'remove:core', ['b', 'a', 'remove:unit'])).toEqual([]);
  });
});

describe('holds, guards, setups, hazards', () => {
  const held = meaning({
    parts: [{ id: 'engine', hold: { done: 'sling' } }, ...P('ring')],
    attachments: [J('j1', 'engine', 'frame'), J('j2', 'engine', 'frame'), J('j3', 'engine', 'ring')],
    operations: [{ id: 'sling' }],
  });

  it('[R8] only the last joint that carries the part asks for its hold', () => {
    expect(rules(held, 'j1', [])).toEqual([]);
    expect(rules(held, 'j1', ['j2'])).toEqual(['hold']);
    expect(rules(held, 'j1', ['j2', 'sling'])).toEqual([]);
    expect(rules(held, 'j3', ['j2'])).toEqual([]);
  });

  it('[R9] the hold of the assembly that really comes away replaces that of the part', () => {
    const m = meaning({
      parts: [
        { id: 'unit', hold: { done: 'hoist' } },
        { id: 'leg', within: 'unit', hold: { done: 'sling' } },
      ],
      attachments: [J('j1', 'leg', 'frame')],
      operations: [{ id: 'sling' }, { id: 'hoist' }],
    });
    expect(rules(m, 'j1', ['sling'])).toContain('hold');
    expect(rules(m, 'j1', ['hoist'])).toEqual([]);
  });

  it('[R10] a guard refuses what newly breaks it, and not what goes off in one lifted assembly', () => {
    const m = meaning({
      parts: [...P('unit'), { id: 'a', within: 'unit' }, { id: 'b', within: 'unit' }],
      attachments: [J('ja', 'a', 'unit'), J('jb', 'b', 'unit'), J('ju', 'unit', 'frame')],
      operations: [{ id: 'prop' }],
      guards: [{ notTogether: ['a', 'b'], unless: { done: 'prop' }, harm: 'sags' }],
    });
    expect(rules(m, 'remove:b', ['ja', 'jb', 'remove:a'])).toEqual(['guard']);
    expect(rules(m, 'remove:b', ['ja', 'jb', 'remove:a', 'prop'])).toEqual([]);
    expect(rules(m, 'remove:unit', ['ja', 'jb', 'remove:a', 'ju'])).toEqual([]);
    expect(rules(m, 'remove:b', ['ja', 'jb', 'remove:a', 'ju', 'remove:unit'])).toEqual([]);
  });

  const stood = meaning({
    parts: P('pad', 'wheel'),
    attachments: [J('jp', 'pad', 'frame'), J('jw', 'wheel', 'frame')],
    setups: [
      {
        id: 'support',
        states: ['wheels', 'jacks'],
        initial: 'wheels',
        minutes: { 'wheels>jacks': 40 },
        points: { wheels: [{ on: 'wheel', through: ['jw'] }], jacks: [{ on: 'pad', through: ['jp'] }] },
        changeNeeds: { jacks: { fact: 'floor' } },
      },
    ],
    facts: [{ id: 'floor' }],
  });

  it('[R11] what a state rests on stays while it is in force', () => {
    expect(rules(stood, 'jw', [])).toEqual(['setup']);
    expect(rules(stood, 'jw', ['set:support=jacks'])).toEqual([]);
    expect(rules(stood, 'jp', ['set:support=jacks'])).toEqual(['setup']);
  });

  it('[R12] a state is entered only on what is still there, by a pair that can be changed, with its needs met', () => {
    expect(rules(stood, 'set:support=jacks', [])).toEqual(['setup']);
    expect(rules(stood, 'set:support=jacks', [], { facts: ['floor'] })).toEqual([]);
    expect(rules(stood, 'set:support=jacks', ['jp'], { facts: ['floor'] })).toEqual(['never']);
    expect(rules(stood, 'set:support=wheels', ['set:support=jacks'])).toEqual(['never']);
    expect(rules(stood, 'set:support=wheels', [])).toEqual(['never']);
  });

  it('[R13] a hazard is a gate until what clears it holds; one that nothing clears asks a person and is no gate', () => {
    const m = meaning({
      parts: P('leg'),
      attachments: [
        {
          id: 'nut',
          joins: ['leg', 'frame'],
          hazards: [{ kind: 'stored-energy', clearedBy: { done: 'press' } }, { kind: 'sharp' }],
        },
      ],
      operations: [{ id: 'press' }],
    });
    expect(rules(m, 'nut', [])).toEqual(['hazard']);
    expect(rules(m, 'nut', ['press'])).toEqual([]);
  });

  it('[R14] an empty all holds, an empty any never does', () => {
    const m = meaning({
      parts: [
        { id: 'a', needs: { all: [] } },
        { id: 'b', needs: { any: [] } },
      ],
    });
    expect(rules(m, 'remove:a', [])).toEqual([]);
    expect(rules(m, 'remove:b', [])).toEqual(['part']);
  });
});
