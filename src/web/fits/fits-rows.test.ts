import { expect, test } from 'vitest';
import { must } from '../../domain/result.ts';
import type { Rig } from '../../domain/rig/rig-types.ts';
import type { Command } from '../../journal/commands.ts';
import { answerAsk } from '../state/planner-answers.ts';
import type { FitsReply } from '../state/planner-talk.ts';
import { jobOf } from '../testing/make-job.ts';
import { fitsRows, fitsWires } from './fits-rows.ts';

/** A side panel whose rivets lie behind a diaphragm, and a lug an inspector must see; invented. */
const BAY: Rig = {
  format: 'witnessmark-rig/1',
  root: 'hull',
  parts: [
    { id: 'hull', name: 'Hull' },
    { id: '02-09', name: 'Side skin, panel 9', hand: 'R', minutes: 5 },
    { id: '02-12', name: 'Gear bay diaphragm', hand: 'R', minutes: 5 },
  ],
  attachments: [
    {
      id: 'panel',
      name: 'Drill out the rivets of panel 9',
      joins: ['02-09', 'hull'],
      kind: 'riveted',
      minutes: 60,
      needs: { off: '02-12' },
    },
    { id: 'screws', name: 'Undo the screws of the diaphragm', joins: ['02-12', 'hull'], kind: 'bolted', minutes: 15 },
  ],
  operations: [],
  blocks: [],
  guards: [],
  setups: [],
  facts: [],
  looks: [{ id: 'lug', name: 'Inner lug', on: 'hull', visible: { off: '02-12' } }],
};

function asked(then: readonly Command[]) {
  const job = jobOf(BAY, then);
  const reply = must(answerAsk(job.rig, job.situation, { kind: 'fits' }, () => undefined)) as FitsReply;
  return { job, rows: fitsRows(job, reply.answer) };
}
const all: readonly Command[] = ['screws', 'remove:02-12', 'panel', 'remove:02-09'].map((action) => ({
  kind: 'step',
  action,
  planned: true,
}));
const text = (says: readonly { readonly text: string }[]) => says.map((s) => s.text).join('');

test('harm is a sentence: what can no longer be done, and what is hidden unseen', () => {
  const { rows } = asked(all);
  const bad = rows.find((r) => r.id === 'remove:02-12')!;
  expect(bad.harmful).toBe(true);
  expect(text(bad.says)).toBe(
    'It would fit. Then the rivets of panel 9 cannot be reached (and 1 more behind), and inner lug, not yet seen, is hidden.',
  );
  expect(bad.state[0]).toBe('not yet');
});

test('what fits and harms nothing says where it stands in the order', () => {
  const { rows } = asked(all);
  const good = rows.find((r) => r.id === 'remove:02-09')!;
  expect(good.harmful).toBe(false);
  expect(good.state).toEqual(['fits', 'first in the order']);
});

test('once the look is signed it is no longer hidden', () => {
  const { rows } = asked([
    ...all,
    { kind: 'record', entry: 'person-noted', data: { person: 'nadia', name: 'Nadia', role: 'inspector' } },
    { kind: 'sign-look', look: 'lug' },
  ]);
  expect(rows.find((r) => r.id === 'remove:02-12')!.entry.hides).toEqual([]);
});

test('a trial fit is shown as in place and to come out again', () => {
  const { rows } = asked([...all, { kind: 'trial-fit', action: 'remove:02-09' }]);
  expect(rows.find((r) => r.id === 'remove:02-09')?.state).toEqual(['trial', 'in place; comes out again']);
});

test('wires lead from what must go in first to what has to wait', () => {
  const { rows } = asked(all);
  const { shown, wires } = fitsWires(rows);
  expect(wires).toContainEqual({ from: 'look:lug', to: 'remove:02-12', way: 'gate' });
  expect(shown).toContain('remove:02-09');
});
