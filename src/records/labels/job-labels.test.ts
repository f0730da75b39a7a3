/** Labels from the state of a job: what is known stands on them, what is not known gets none. */
import { describe, expect, it } from 'vitest';
import { bagCode } from '../../domain/bag-code.ts';
import { must, type Result } from '../../domain/result.ts';
import type { Entry } from '../../journal/entry.ts';
import { fold } from '../../journal/fold.ts';
import { type DataOf, fullKind, type KindName } from '../../journal/kinds/kinds.ts';
import type { State } from '../../journal/state.ts';
import { idAt, stampAt } from '../../journal/testing/recorder.ts';
import { labelDocument, labelsAsked } from './ask-labels.ts';
import { hazardLabels } from './hazard-labels.ts';
import { bagLabel, jarLabel, partLabel, placeLabel } from './job-labels.ts';

type Said = { [K in KindName]: readonly [K, DataOf<K>] }[KindName];

function told(...said: readonly Said[]): State {
  return fold(
    said.map(([kind, data], i) => {
      const stamp = stampAt(i);
      return {
        ...stamp,
        kind: fullKind(kind),
        data,
        seq: i + 1,
        recordedAt: stamp.at,
        digest: '',
        hash: String(i),
      } as Entry;
    }),
  );
}

const rig = {
  format: 'witnessmark-rig/1',
  root: 'frame',
  parts: [
    { id: 'leg', name: 'Main leg', hand: 'R', minutes: 5 },
    { id: 'hinge', name: 'Mooring hatch hinge', hand: 'R', minutes: 5 },
    { id: 'latch', name: 'Hatch latch', hand: 'L', minutes: 5 },
  ],
  attachments: [
    { id: 'gland', name: 'Unscrew the gland nut', joins: ['leg', 'frame'], minutes: 5, hazards: [gas()] },
    { id: 'rod', name: 'Draw the rod', joins: ['leg', 'frame'], minutes: 5, hazards: [gas()] },
    { id: 'lug', name: 'Undo the lug bolt', joins: ['hinge', 'frame'], minutes: 5, hazards: [{ kind: 'cadmium' }] },
  ],
  operations: [{ id: 'gas-out', name: 'Let the gas out', on: 'leg', minutes: 5, only: 'strip' }],
};
function gas() {
  return { kind: 'pressure', clearedBy: { done: 'gas-out' }, note: 'A gauge at zero is no proof.' };
}

const base: readonly Said[] = [
  ['job-opened', { job: 'try', name: 'A try', registration: 'QX-OLA', invented: true }],
  ['person-noted', { person: 'ana', name: 'Ana Example' }],
  ['rig-taken-in', { rig, standing: 'ours' } as DataOf<'rig-taken-in'>],
  ['position-noted', { position: '01-05', name: 'Mooring hatch hinge', rig: 'hinge', station: 'C4' }],
  ['bagged', { bag: 'B105C', opens: true, of: ['hinge'] }],
  ['bagged', { bag: 'B106K', opens: true, of: ['hinge', 'latch'] }],
];
const code = (r: Result<unknown>) => (r.ok ? 'made' : r.problem.code);

describe('bags and jars', () => {
  it('take name, hand and station from what came off', () => {
    expect(must(bagLabel(told(...base), 'b 105 c'))).toEqual({
      kind: 'bag',
      id: 'B105C',
      registration: 'QX-OLA',
      invented: true,
      name: 'Mooring hatch hinge',
      hand: 'R',
      station: 'C4',
    });
  });

  it('with pieces of both sides have no hand, rather than one of the two', () => {
    const label = must(bagLabel(told(...base), 'B106K'));
    expect([label.hand, label.name]).toEqual([undefined, 'Mooring hatch hinge; Hatch latch']);
  });

  it('a jar says that it is a sample, and of which day', () => {
    expect(must(jarLabel(told(...base), 'B105C'))).toMatchObject({ kind: 'jar', says: 'Sample', when: '5 Jan 2026' });
  });

  it.each([
    ['B107T', 'LABEL_SUBJECT_UNKNOWN'],
    ['B105D', 'BAG_CODE_LETTER'],
    ['shelf', 'BAG_CODE_SHAPE'],
  ])('%s gets no label but %s', (bag, expected) => {
    expect(code(bagLabel(told(...base), bag))).toBe(expected);
  });
});

describe('parts and places', () => {
  it('a part tag has the id as people say it', () => {
    expect(must(partLabel(told(...base), '01-05'))).toMatchObject({
      kind: 'part',
      id: '01-05',
      hand: 'R',
      station: 'C4',
    });
    expect(code(partLabel(told(...base), '01-06'))).toBe('LABEL_SUBJECT_UNKNOWN');
  });

  it('a shelf belongs to the shop: no aircraft stands on it', () => {
    const s = told(...base, ['place-noted', { place: 'rack-b-3', name: 'Rack B, shelf 3', kind: 'shelf' }]);
    const label = must(placeLabel(s, 'rack-b-3'));
    expect(label).toEqual({ kind: 'place', id: 'rack-b-3', name: 'Rack B, shelf 3', says: 'Shelf', invented: true });
    expect(code(placeLabel(s, 'rack-c'))).toBe('LABEL_SUBJECT_UNKNOWN');
  });
});

describe('tags', () => {
  const hung: readonly Said[] = [
    ...base,
    ['stopped-here', { subject: 'gland', state: 'Finger-tight.', note: 'Lock wire is off' }],
    ['tagged', { subject: 'hinge', tag: 'do-not-clean', says: 'Old paint' }],
    ['tagged', { subject: 'latch', tag: 'quarantine' }],
  ];
  const ids = (s: State, what: string, some: readonly string[] = []) =>
    must(labelsAsked(s, { what, ids: some, madeAt: '2026-01-05T08:00:00+00:00' })).map((l) => `${l.kind} ${l.id}`);

  it('what is open says what, who and when', () => {
    const [open] = must(labelsAsked(told(...hung), { what: 'open', madeAt: '2026-01-05T08:00:00+00:00' }));
    expect(open).toMatchObject({
      id: 'gland',
      name: 'Unscrew the gland nut',
      hand: 'R',
      says: 'Finger-tight. Lock wire is off',
      who: 'Ana Example',
      when: '5 Jan 2026, 07:00',
    });
  });

  it('all that hang now, or those of some things; what was taken off is gone', () => {
    expect(ids(told(...hung), 'tags')).toEqual(['open gland', 'do-not-clean hinge', 'quarantine latch']);
    expect(ids(told(...hung), 'tags', ['latch'])).toEqual(['quarantine latch']);
    const off: Said = ['tag-taken-off', { tag: idAt(hung.length - 1) }];
    expect(ids(told(...hung, off), 'tags')).toEqual(['open gland', 'do-not-clean hinge']);
    const missing = labelsAsked(told(...hung), { what: 'quarantine', ids: ['leg'], madeAt: '' });
    expect(code(missing)).toBe('LABEL_SUBJECT_UNKNOWN');
  });

  it('dangers of the rig: one tag for each danger, hung at what clears it, until that is done', () => {
    const labels = hazardLabels(told(...base));
    expect(labels.map((l) => [l.id, l.word, l.name, l.hand, l.says])).toEqual([
      [
        'gas-out',
        'pressure',
        'Unscrew the gland nut and 1 more',
        'R',
        'A gauge at zero is no proof. First: Let the gas out.',
      ],
      ['lug', 'cadmium', 'Undo the lug bolt', 'R', undefined],
    ]);
    const cleared = told(...base, ['step-done', { action: 'gas-out', planned: null }]);
    expect(hazardLabels(cleared).map((l) => l.id)).toEqual(['lug']);
    const released = told(...base, ['step-done', { action: 'lug', planned: null }]);
    expect(hazardLabels(released).map((l) => l.id)).toEqual(['gas-out']);
  });
});

describe('rolls', () => {
  const s = told(...base, ['bags-set-aside', { from: 201, to: 300, for: 'roll', roll: true }]);
  const ask = (from: string, to?: string) =>
    labelsAsked(s, { what: 'roll', from, ...(to !== undefined && { to }), madeAt: '2026-01-05T08:00:00+00:00' });

  it('print what was set aside, by number or code', () => {
    const labels = must(ask('201', bagCode(300)));
    expect(labels.map((l) => l.id)).toEqual(Array.from({ length: 100 }, (_, i) => bagCode(201 + i)));
    expect(labels.every((l) => l.kind === 'blank' && l.registration === undefined)).toBe(true);
  });

  it.each([
    ['200', '210', 'BAGS_NOT_SET_ASIDE'],
    ['299', '301', 'BAGS_NOT_SET_ASIDE'],
    ['210', '201', 'LABELS_NONE'],
    ['201', '9999', 'LABELS_TOO_MANY'],
    ['0', '5', 'BAG_CODE_SHAPE'],
    ['many', '5', 'BAG_CODE_SHAPE'],
    ['B201X', '300', 'BAG_CODE_LETTER'],
  ])('%s to %s is refused as %s', (from, to, expected) => {
    expect(code(ask(from, to))).toBe(expected);
  });
});

it('asks in one go: kind, form, start', () => {
  const asked = { what: 'bag', ids: ['B105C'], start: 7, madeAt: '2026-01-05T08:00:00+00:00' };
  const document = must(labelDocument(told(...base), asked, { form: 'a4-24' }));
  expect(document).toMatchObject({ title: 'Witnessmark labels QX-OLA', page: { w: 210, h: 297 } });
  expect(code(labelDocument(told(...base), { ...asked, what: 'sticker' }, { form: 'a4-24' }))).toBe(
    'LABEL_KIND_UNKNOWN',
  );
  expect(code(labelDocument(told(...base), { ...asked, ids: [] }, { form: 'a4-24' }))).toBe('LABELS_NONE');
});
