/** What heads the next shift: half done first, each thing once, gone when it is finished. */
import { expect, it } from 'vitest';
import { viewOf } from '../state/view-of.ts';
import { recorded, type Said } from '../testing/recorded.ts';
import { floorGroups } from './floor-rows.ts';

const rig = {
  root: 'frame',
  parts: [
    { id: '10-03', name: 'Main spring', minutes: 1 },
    { id: '10-07', name: 'Retaining nut', minutes: 1 },
  ],
  attachments: [
    {
      id: 'j1',
      name: 'Undo the nut',
      joins: ['10-07', '10-03'],
      minutes: 1,
      hazards: [{ kind: 'stored-energy', clearedBy: { fact: 'measured' }, note: 'the spring still pushes' }],
    },
    { id: 'j2', name: 'Lift the spring', joins: ['10-03', 'frame'], minutes: 1 },
  ],
  facts: [{ id: 'measured', name: 'free length measured' }],
};
const opening: readonly Said[] = [
  ['job-opened', { job: 'try', name: 'A try (invented)', invented: true }],
  ['person-noted', { person: 'nadia', name: 'Nadia', role: 'apprentice' }],
  ['rig-taken-in', { standing: 'ours', rig }],
];

function rowsOf(...said: readonly Said[]) {
  const state = recorded(...opening, ...said);
  const groups = floorGroups(state, viewOf('try', state, 'nadia', 'test'), 'nadia', { photos: 0, sounds: 0 });
  return new Map(groups.map((g) => [g.id, g.rows]));
}
const words = (rows: ReturnType<typeof rowsOf>, id: 'open' | 'hurt' | 'astray' | 'next') =>
  rows.get(id)?.map((r) => `${r.word}: ${r.title}`);

it('a joint left finger-tight, a rag inside and a stuck pin head the list', () => {
  const rows = rowsOf(
    ['stopped-here', { subject: 'j1', state: 'nut finger-tight' }],
    ['counted-inside', { zone: '10-03', way: 'in', items: [{ what: 'rag', count: 2 }] }],
    ['stuck', { action: 'j2' }],
  );
  expect(words(rows, 'open')).toEqual(['OPEN: nut finger-tight', 'STILL INSIDE: 2 × rag', 'STUCK: Lift the spring']);
  expect(rows.get('open')?.[0]?.part).toBe('10-07');
});

it('a gate stays until the fact is settled, and a tag until it is off', () => {
  const tag: Said = ['tagged', { subject: '10-03', tag: 'quarantine' }];
  expect(words(rowsOf(tag), 'hurt')).toEqual(['QUARANTINE: Main spring', 'GATE SHUT: Undo the nut']);
  expect(words(rowsOf(['fact-settled', { fact: 'measured' }]), 'hurt')).toEqual([]);
});

it('bags that nobody put away and counts that differ are named', () => {
  const rows = rowsOf(
    ['bagged', { bag: 'B105C', opens: true, of: ['10-03'] }],
    ['lot-noted', { lot: 'w', what: 'Washers', count: 4, place: 'r1' }],
    ['counted', { lot: 'w', count: 3 }],
  );
  expect(words(rows, 'astray')).toEqual(['SHORT: Washers', 'NOT PUT AWAY: Bag B105C']);
});

it('what is free where work went on comes next', () => {
  const rows = rowsOf(['fact-settled', { fact: 'measured' }], ['step-done', { action: 'j1', planned: true }]);
  expect(words(rows, 'next')?.[0]).toMatch(/^FREE: /);
  expect(rowsOf().get('next')).toEqual([]);
});

it('photographs that are only on this device are said', () => {
  const state = recorded(...opening);
  const said = (photos: number, sounds: number) =>
    floorGroups(state, viewOf('try', state, 'nadia', 'test'), 'nadia', { photos, sounds })
      .find((g) => g.id === 'astray')
      ?.rows.map((r) => r.title);
  expect(said(0, 0)).toEqual([]);
  expect(said(3, 1)).toEqual(['3 photographs and 1 voice note not yet copied']);
});
