/** For property tests: any sequence of entries, sensible and senseless mixed, withdrawals and corrections included. */
import fc from 'fast-check';
import { draftEntry, type Entry, type EntryDraft } from '../entry.ts';
import { entriesOf, idAt, SMALL_RIG, stampAt } from './recorder.ts';

const action = fc.constantFrom(
  'bolt-r-1',
  'bolt-r-2',
  'pin-r',
  'clip-r',
  'hinge',
  'remove:leg-r',
  'remove:cover-r',
  'remove:door',
  'drain-r',
);
const subject = fc.constantFrom('leg-r', 'bolt-r-1', 'door', 'job', 'elsewhere');
const word = fc.string({ minLength: 1, maxLength: 8 });
const found = fc.oneof(
  fc.record({ is: fc.constant('value'), text: word }),
  fc.constantFrom({ is: 'none' }, { is: 'not-looked' }, { is: 'not-noted' }, { is: 'unknown' }),
);

interface Plan {
  readonly kind: string;
  readonly data: unknown;
  readonly by: string;
  /** Corrects the entry this many before, where there is one. */
  readonly back?: number;
}

function of(kind: string, data: fc.Arbitrary<unknown>): fc.Arbitrary<Omit<Plan, 'by'>> {
  return data.map((d) => ({ kind, data: d }));
}

const plain = fc.oneof(
  { weight: 8, arbitrary: of('step-done.v2', fc.record({ action, planned: fc.constantFrom(true, false, null) })) },
  { weight: 2, arbitrary: of('step-done.v1', fc.record({ action, unplanned: fc.boolean(), forced: fc.boolean() })) },
  { weight: 2, arbitrary: of('step-undone.v1', fc.record({ action })) },
  {
    weight: 4,
    arbitrary: of(
      'step-refitted.v1',
      fc.record({ action, stage: fc.constantFrom('trial', 'loose', 'final', 'torqued', 'safetied', 'seen') }),
    ),
  },
  {
    weight: 2,
    arbitrary: of(
      'setup-changed.v1',
      fc.record({ setup: fc.constant('support'), state: fc.constantFrom('wheels', 'jacks') }),
    ),
  },
  of('made.v1', fc.constant({ operation: 'ream' })),
  of('fact-settled.v1', fc.record({ fact: fc.constantFrom('spring-measured-r', 'inspector-here') })),
  of('fact-withdrawn.v1', fc.record({ fact: fc.constantFrom('spring-measured-r', 'inspector-here') })),
  { weight: 2, arbitrary: of('look-signed.v1', fc.record({ look: fc.constant('look-r'), says: word })) },
  of('look-reopened.v1', fc.constant({ look: 'look-r' })),
  of('stuck.v1', fc.constantFrom({ part: 'leg-r', by: 'door', harm: 'bends' }, { action: 'pin-r' })),
  of('came-off-first.v1', fc.record({ action, before: action })),
  of(
    'joint-noted.v1',
    fc.record({ subject, aspects: fc.dictionary(fc.constantFrom('shims', 'thread', 'clocking'), found) }),
  ),
  of('reading-noted.v1', fc.record({ subject, aspect: fc.constantFrom('length', 'thread'), text: word })),
  of('note.v1', fc.record({ subject, text: word })),
  of('stopped-here.v1', fc.record({ subject, state: word })),
  of('our-damage.v1', fc.record({ subject, what: word })),
  of('nothing-here.v1', fc.record({ subject })),
  of(
    'person-noted.v1',
    fc.record({
      person: fc.constantFrom('ana', 'ben', 'cleo'),
      name: word,
      role: fc.constantFrom('lead', 'apprentice', 'inspector'),
    }),
  ),
  of(
    'rig-taken-in.v1',
    fc.record({ rig: fc.constant(SMALL_RIG), standing: fc.constantFrom('ours', 'told', 'expected') }),
  ),
  of(
    'rig-stated.v1',
    fc.constantFrom(
      { what: 'part', id: 'leg-r', aspect: 'minutes', value: 12 },
      { what: 'part', id: 'cover-r', value: null },
      { what: 'attachment', id: 'clip-r', value: { id: 'clip-r', joins: ['cover-r', 'airframe'], minutes: 3 } },
      { what: 'part', id: 'leg-r', aspect: 'minutes', value: 'many' },
      { what: 'block', id: 'block:leg-r<door', value: null },
    ),
  ),
  of('margin-set.v1', fc.record({ percent: fc.integer({ min: 0, max: 10 }) })),
  of('weather-noted.v1', fc.record({ text: word })),
  of('step-done.v9', fc.record({ action })),
  of('note.v1', fc.constant({ text: 7 })),
);

const plan: fc.Arbitrary<Plan> = fc
  .tuple(
    fc.oneof(
      { weight: 12, arbitrary: plain.map((p) => ({ ...p, back: 0, withdraws: false })) },
      {
        weight: 1,
        arbitrary: fc
          .tuple(plain, fc.integer({ min: 1, max: 12 }))
          .map(([p, back]) => ({ ...p, back, withdraws: false })),
      },
      {
        weight: 2,
        arbitrary: fc
          .integer({ min: 1, max: 12 })
          .map((back) => ({ kind: 'entry-withdrawn.v1', data: {}, back, withdraws: true })),
      },
    ),
    fc.constantFrom('ana', 'ben', 'cleo'),
  )
  .map(([p, by]) => ({ ...p, by }));

function draft(p: Plan & { withdraws?: boolean }, i: number): EntryDraft {
  const back = p.back === undefined || p.back === 0 || p.back > i ? undefined : idAt(i - p.back);
  if (p.withdraws === true) return draftEntry(stampAt(i, p.by), p.kind, { entry: back ?? idAt(9_999) });
  return draftEntry(stampAt(i, p.by), p.kind, p.data, back);
}

export function anyDrafts(maxLength = 60): fc.Arbitrary<EntryDraft[]> {
  return fc.array(plan, { maxLength }).map((plans) => plans.map(draft));
}

export function anyEntries(maxLength = 60): fc.Arbitrary<Entry[]> {
  return anyDrafts(maxLength).map((drafts) => entriesOf(drafts));
}
