/** Bags as they stand on the shelves, found by sloppy codes, and boxes on the wall moved by keys. */
import { expect, it } from 'vitest';
import { recorded } from '../testing/recorded.ts';
import { type BagAsk, bagLines, noBagWords, shapeOf } from './bags-rows.ts';
import { boxOf, nudged } from './wall.tsx';

const ask: BagAsk = { text: '', place: null, who: null, loose: false };
const state = recorded(
  ['job-opened', { job: 'try', name: 'A try' }],
  ['person-noted', { person: 'nadia', name: 'Nadia' }],
  [
    'rig-taken-in',
    {
      standing: 'ours',
      rig: {
        root: 'frame',
        parts: [{ id: '10-03', name: 'Main spring', hand: 'C', minutes: 1 }],
        attachments: [{ id: 'j', joins: ['10-03', 'frame'], minutes: 1 }],
      },
    },
  ],
  ['place-noted', { place: 'r10', name: 'Rack 10', kind: 'shelf' }],
  ['place-noted', { place: 'r2', name: 'Rack 2', kind: 'shelf' }],
  ['place-noted', { place: 'plater', name: 'The plater', kind: 'outside' }],
  ['bagged', { bag: 'B105C', opens: true, of: ['10-03'], place: 'r10' }],
  ['bagged', { bag: 'B106K', opens: true, place: 'r2' }],
  ['bagged', { bag: 'B107T', opens: true, place: 'plater' }],
  ['bagged', { bag: 'B101X', opens: true }],
);
const said = (a: Partial<BagAsk>) =>
  bagLines(state, { ...ask, ...a }).map((l) => (l.is === 'head' ? `# ${l.name}` : l.code));

it('stand by shelf, what somebody carries about first, shelves in the order of their numbers', () => {
  expect(said({})).toEqual([
    '# With Nadia',
    'B101X',
    '# Rack 2',
    'B106K',
    '# Rack 10',
    'B105C',
    '# The plater',
    'B107T',
  ]);
});

it.each([
  ['b105c', ['# Rack 10', 'B105C']],
  ['105 c', ['# Rack 10', 'B105C']],
  ['main spr', ['# Rack 10', 'B105C']],
  ['10-03', ['# Rack 10', 'B105C']],
  ['zz', []],
])('"%s" finds %s', (text, found) => {
  expect(said({ text })).toEqual(found);
});

it('are narrowed to a shelf, a person, or what nobody put away', () => {
  expect(said({ place: 'r2' })).toEqual(['# Rack 2', 'B106K']);
  expect(said({ who: 'nadia' })).toEqual(['# With Nadia', 'B101X']);
  expect(said({ loose: true })).toEqual(['# With Nadia', 'B101X']);
});

it('says that the letter does not fit, rather than that nothing is there', () => {
  expect(noBagWords('B105D')).toContain('letter');
  expect(noBagWords('B108A')).toContain('No bag B108A');
  expect(noBagWords('zz')).toContain('No bag holds that');
});

it('tells what is outside from what is here', () => {
  expect(shapeOf(state, { is: 'held', place: 'plater' })).toBe('outside');
  expect(shapeOf(state, { is: 'held', place: 'r2' })).toBe('here');
  expect(shapeOf(state, { is: 'held', custodian: 'nadia' })).toBe('person');
  expect(shapeOf(state, { is: 'held' })).toBe('loose');
  expect(shapeOf(state, { is: 'job', job: 'donor', transfer: 't' })).toBe('job');
});

it('a box on the wall stays inside the photograph', () => {
  expect(boxOf([0.6, 0.9], [0.2, 0.5])).toEqual([0.2, 0.5, 0.39999999999999997, 0.4]);
  expect(nudged([0.99, 0, 0.01, 0.2], 'ArrowRight', false)).toEqual([0.99, 0, 0.01, 0.2]);
  expect(nudged([0.5, 0.5, 0.5, 0.2], 'ArrowRight', true)).toEqual([0.5, 0.5, 0.5, 0.2]);
  expect(nudged([0.5, 0.5, 0.1, 0.2], 'ArrowDown', true)).toEqual([0.5, 0.5, 0.1, 0.21]);
  expect(nudged([0.5, 0.5, 0.1, 0.2], 'x', true)).toBeNull();
});
