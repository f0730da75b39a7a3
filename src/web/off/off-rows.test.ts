import { expect, test } from 'vitest';
import { must } from '../../domain/result.ts';
import type { Rig } from '../../domain/rig/rig-types.ts';
import { type Command, recording } from '../../journal/commands.ts';
import { answerAsk } from '../state/planner-answers.ts';
import type { OffReply } from '../state/planner-talk.ts';
import { jobOf } from '../testing/make-job.ts';
import { tailRig } from '../testing/tail-rig.ts';
import { nearParts } from './near-parts.ts';
import { type GateRow, type OffRow, offRows } from './off-rows.ts';
import { planChange } from './plan-change.ts';

function asked(then: readonly Command[] = [], rig: Rig = tailRig()) {
  const job = jobOf(rig, then);
  const ask = { kind: 'off', goal: { apart: '10-03' }, marginPercent: 2 } as const;
  const reply = must(answerAsk(job.rig, job.situation, ask, () => undefined)) as OffReply;
  const rows = offRows({ job, answer: reply.answer, wires: reply.wires, doneShown: reply.doneShown, before: null });
  return { job, reply, rows };
}

const did = (...actions: readonly string[]): readonly Command[] =>
  actions.map((action) => ({ kind: 'step', action, planned: true }));
const isGate = (r: OffRow): r is GateRow => r.kind === 'gate';
const ids = (rows: readonly OffRow[]) => rows.map((r) => r.id);

test('the gate stands before the press, which comes before the nut; its words name what nobody has settled', () => {
  const { rows } = asked();
  const order = ids(rows);
  const gate = rows.find(isGate)!;
  expect(gate.passed).toBe(false);
  expect(gate.facts).toEqual(['free-length']);
  expect(order.indexOf(gate.id)).toBe(order.indexOf('press') - 1);
  expect(order.indexOf('press')).toBeLessThan(order.indexOf('nut'));
  expect(gate.why).toContain('Nobody has settled: free length of the fitted spring measured.');
  expect(gate.why).toContain('So first fit the captive press');
});

test('once the press is fitted the gate is passed, and says by what', () => {
  const { rows } = asked(did('set:support=stand', 'shear-pin', 'press'));
  const gate = rows.find(isGate)!;
  expect(gate.passed).toBe(true);
  expect(gate.why).toContain('Done: fit the captive press.');
  expect(ids(rows).indexOf(gate.id)).toBe(ids(rows).indexOf('nut') - 1);
});

test('what was done stays above, with who and when; the steps left are numbered from one', () => {
  const { rows } = asked(did('shear-pin'));
  expect(rows[0]).toMatchObject({
    kind: 'done',
    id: 'shear-pin',
    mark: { by: 'Nadia Quist-Fairweather', at: '2025-11-18T09:14:00+00:00' },
  });
  const steps = rows.filter((r) => r.kind === 'step');
  expect(steps.map((r) => r.n)).toEqual(steps.map((_, i) => i + 1));
});

test('a step is open when nothing left to do comes before it', () => {
  const { rows } = asked();
  const open = rows.flatMap((r) => (r.kind === 'step' && r.open ? [r.id] : []));
  expect(open).toContain('shear-pin');
  expect(open).toContain('axle');
  expect(open).not.toContain('nut');
  expect(open).not.toContain('remove:10-03');
});

test('"stuck" on a part adds what is in the way, and the change is said', () => {
  const before = asked();
  const after = asked([recording('stuck', { action: 'remove:10-03', part: '10-03', by: '10-12' })]);
  expect(ids(after.rows)).toContain('remove:10-12');
  const change = planChange(before.reply.answer, after.reply.answer, new Set(), after.job.names.strip)!;
  expect(change.added).toContain('remove:10-12');
  expect(change.words).toContain('now also: lift out the fork');
  expect(change.words).toContain('more');
});

test('doing what the plan says is no change of plan', () => {
  const before = asked();
  const after = asked(did('shear-pin'));
  expect(
    planChange(before.reply.answer, after.reply.answer, new Set(after.job.done.keys()), after.job.names.strip),
  ).toBeNull();
});

test('what may touch a stuck step never waits for the step itself', () => {
  const { job } = asked();
  const near = nearParts(job, 'nut');
  expect(near).not.toContain('10-07');
  expect(near).not.toContain('10-01');
  expect(near.length).toBeGreaterThan(0);
});

test('where it would tip, a gate says so before the step, in the planner’s words', () => {
  const { job, reply } = asked();
  const tipsAt = {
    step: 'nut',
    point: 'rear',
    kg: 14,
    plusMinus: 9,
    marginKg: 20,
    text: 'margin 14 ± 9 kg at the rear stand; restrain the tail',
  };
  const rows = offRows({ job, answer: { ...reply.answer, tipsAt }, wires: reply.wires, doneShown: [], before: null });
  const at = rows.findIndex((r) => r.kind === 'tips');
  expect(rows[at]).toMatchObject({ text: 'margin 14 ± 9 kg at the rear stand; restrain the tail' });
  expect(rows[at + 1]?.id).toBe('nut');
});

test('the least loaded support is named with its doubt, and only where a step changed it', () => {
  const { job, reply } = asked();
  const loads = [
    { point: 'front', kg: 700, plusMinus: 9 },
    { point: 'rear', kg: 51, plusMinus: 9 },
  ];
  const steps = reply.answer.steps.map((s, i) => ({
    ...s,
    loads: i < 2 ? loads : [{ point: 'rear', kg: 6, plusMinus: 9 }],
  }));
  const rows = offRows({ job, answer: { ...reply.answer, steps }, wires: reply.wires, doneShown: [], before: null });
  const said = rows.flatMap((r) => (r.kind === 'step' ? [r.load?.short ?? null] : []));
  expect(said.slice(0, 4)).toEqual(['51 ± 9 kg', null, '6 ± 9 kg', null]);
});
