import { expect, test } from 'vitest';
import { tailRig } from '../testing/tail-rig.ts';
import { clock, clockWords, dayWords, fewWords, hourOf, kilograms, listWords } from './figures.ts';
import { lineOfPart, lowerFirst, namesOf, refitName, shortName, stripName } from './names.ts';
import { plain, searchParts } from './search.ts';

test('minutes are read as hours and minutes, and aloud as words', () => {
  expect([clock(72), clock(5), clock(0), clock(600)]).toEqual(['1:12', '0:05', '0:00', '10:00']);
  expect([clockWords(72), clockWords(60), clockWords(1), clockWords(0)]).toEqual([
    '1 hour 12 minutes',
    '1 hour',
    '1 minute',
    '0 minutes',
  ]);
});

test('a load keeps its doubt; a day is the day as written', () => {
  expect([kilograms(51.2, 8.9), kilograms(51.2, 0)]).toEqual(['51 ± 9 kg', '51 kg']);
  expect(dayWords('2025-11-18T23:40:00-05:00')).toBe('Tue 18 November 2025');
  expect(hourOf('2025-11-18T09:14:00+01:00')).toBe('09:14');
});

test('lists are read like a sentence', () => {
  expect([listWords(['a']), listWords(['a', 'b', 'c']), fewWords(['a', 'b', 'c', 'd', 'e'], 2)]).toEqual([
    'a',
    'a, b and c',
    'a, b and 3 more',
  ]);
});

test('a joint is named by what undoes it, and going back by what makes it again', () => {
  const named = { id: 'j', joins: ['a', 'b'], kind: 'pinned', name: 'Draw the steering shear pin' } as const;
  const noun = { id: 'j', joins: ['a', 'b'], kind: 'riveted', name: 'Row along C9' } as const;
  expect([stripName(named), refitName(named)]).toEqual(['Draw the steering shear pin', 'Pin the steering shear pin']);
  expect([stripName(noun), refitName(noun)]).toEqual(['Row along C9', 'Row along C9']);
  const cable = {
    id: 'j',
    joins: ['a', 'b'],
    kind: 'cable',
    name: 'Cut the wire and screw the right-hand end out, turnbuckle 9',
  } as const;
  expect(refitName(cable)).toBe('Connect the wire, turnbuckle 9');
  const pin = { id: 'j', joins: ['a', 'b'], kind: 'pinned', name: 'Drift the port trunnion pin out' } as const;
  expect(refitName(pin)).toBe('Pin the port trunnion pin');
  const bolt = {
    id: 'j',
    joins: ['a', 'b'],
    kind: 'bolted',
    name: 'Undo the port lug bolt, split pin out, 3 of 6',
  } as const;
  expect(refitName(bolt)).toBe('Bolt up the port lug bolt, 3 of 6');
});

test('names: hands, lines of the drawing, and what an action is about', () => {
  const names = namesOf(tailRig());
  expect(names.strip('remove:10-03')).toBe('Lift out the main spring');
  expect(names.partsOf('nut')).toEqual(['10-07']); // three ends: the fastener comes first
  expect(names.partsOf('axle')).toEqual(['10-14', '10-12']);
  expect([
    lineOfPart('02-07.3'),
    shortName('Back off the nut, M42 × 1.5'),
    shortName('Bearing, port'),
    lowerFirst('C9 inside'),
  ]).toEqual(['02-07', 'Back off the nut', 'Bearing', 'C9 inside']);
});

test('search: number, bag and name find it; what the thing is comes before what it only mentions', () => {
  const item = (id: string, name: string, bag: string | null = null) => ({ id, name, bag, more: '' });
  const items = [
    item('10-04', 'Spring seat upper'),
    item('10-03', 'Main spring', 'B289C'),
    item('10-07', 'Retaining nut'),
    item('08-17', 'Brake return spring, starboard'),
  ];
  expect(searchParts(items, 'spring').map((i) => i.id)).toEqual(['10-03', '08-17', '10-04']);
  expect(searchParts(items, '10-03')[0]?.id).toBe('10-03');
  expect(searchParts(items, 'b289c')[0]?.id).toBe('10-03');
  expect(searchParts(items, 'main spr')[0]?.id).toBe('10-03');
  expect(searchParts(items, 'propeller')).toEqual([]);
  expect(plain('Tomás  Nº 7-441!')).toBe('tomas no 7-441');
});
