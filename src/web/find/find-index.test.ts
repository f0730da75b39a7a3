/** Everything that was recorded is found: by code, number, name, a word begun, a letter wrong, an accent left out. */
import { expect, it } from 'vitest';
import { fold } from '../../journal/fold.ts';
import { EMPTY_STATE } from '../../journal/make-state.ts';
import { recorded } from '../testing/recorded.ts';
import { makeFindIndex } from './find-index.ts';
import { findDocs } from './index-of.ts';

const state = recorded(
  ['job-opened', { job: 'try', name: 'A try (invented)', invented: true }],
  ['person-noted', { person: 'nadia', name: 'Nadia', role: 'apprentice' }],
  [
    'rig-taken-in',
    {
      standing: 'ours',
      rig: {
        root: 'frame',
        parts: [
          { id: '10-03', name: 'Main spring', minutes: 1 },
          { id: '02-07.3', name: 'Lug bolt, port', minutes: 1 },
        ],
        attachments: [{ id: 'j1', joins: ['10-03', 'frame'], minutes: 1 }],
      },
    },
  ],
  ['place-noted', { place: 'r4', name: 'Rack 4, shelf 2', kind: 'shelf' }],
  ['bagged', { bag: 'B105C', opens: true, of: ['10-03'], place: 'r4' }],
  ['lot-noted', { lot: 'L-1', what: 'Shim 0.5 brass', count: 3 }],
  ['part-line-noted', { line: '99-1', name: 'Federbein, äußere Strebe', number: '99-1' }],
  ['stopped-here', { subject: '10-03', state: 'hinge pins drawn 5 mm' }],
  [
    'sound-kept',
    {
      hash: 'b'.repeat(64),
      mime: 'audio/webm',
      bytes: 9,
      of: ['10-03'],
      transcript: { text: 'It whistled as it came out', machine: false },
    },
  ],
  ['note', { subject: '10-03', text: 'Muelle de la rueda de cola: señal de óxido' }],
  ['joint-noted', { subject: '10-03', aspects: { safetying: { is: 'value', text: 'locking wire, twisted' } } }],
  [
    'photo-taken',
    { hash: 'a'.repeat(64), mime: 'image/jpeg', bytes: 9, width: 4, height: 3, of: ['B105C'], caption: 'Seat face' },
  ],
);

it.each([
  ['b105c', 'bag B105C'],
  ['105c', 'bag B105C'],
  ['B105C', 'bag B105C'],
  ['10-03', 'part 10-03'],
  ['spri', 'part 10-03'],
  ['sprnig', 'part 10-03'],
  ['main spring', 'part 10-03'],
  ['02-07.3', 'part 02-07.3'],
  ['shim bra', 'lot L-1'],
  ['rack 4', 'place r4'],
  ['oxido', 'note'],
  ['señal', 'note'],
  ['locking wire', 'found'],
  ['seat face', `photo ${'a'.repeat(64)}`],
  ['nadia', 'person nadia'],
  ['federbein strebe', 'line 99-1'],
  ['hinge pins drawn', 'note'],
  ['whistled', `sound ${'b'.repeat(64)}`],
])('"%s" finds %s first or among the first three', async (text, id) => {
  const index = await makeFindIndex(findDocs(state));
  const ids = index.find(text).map((d) => d.id);
  expect(ids.slice(0, 3).some((x) => x === id || x.startsWith(`${id} `))).toBe(true);
});

it('finds nothing for nothing, and nothing in an empty job', async () => {
  const index = await makeFindIndex(findDocs(state));
  expect([index.find(''), index.find('  '), index.find('zeppelin')]).toEqual([[], [], []]);
  expect((await makeFindIndex(findDocs(fold([], EMPTY_STATE)))).size).toBe(0);
});

it('says where a part is', () => {
  expect(findDocs(state).find((d) => d.id === 'part 10-03')).toMatchObject({
    more: '10-03 · B105C · Rack 4, shelf 2',
    href: '/part?part=10-03',
  });
});
