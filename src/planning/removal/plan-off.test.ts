/**
 * The planner against brute force: every moment of a small rig, every step between them, under `RigMeaning`. No
 * difference is allowed in feasibility, irreversible, disturbed, minutes, what is unavoidable, and the next way.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ActionId, Need, Rig, Situation } from '../../domain/rig/rig-types.ts';
import {
  everyAction,
  makeRandomGoal,
  makeRandomRig,
  makeRandomSituation,
  type RigShape,
} from '../testing/random-rig.ts';
import { checkOff } from './check-off.ts';
import { planOff, planOffProven } from './plan-off.ts';
import { type Cost, compare, Everything } from './testing/enumerate.ts';

const MOST_MOMENTS = 3000;

interface Case {
  readonly rig: Rig;
  readonly situation: Situation;
  readonly goal: Need;
}

function makeCase(seed: number, shape: Partial<RigShape>, forced: number): Case {
  const rig = makeRandomRig(seed, shape);
  const situation = seed % 2 === 1 ? { done: [] } : makeRandomSituation(rig, seed, seed % 5, forced);
  return { rig, situation, goal: makeRandomGoal(rig, seed * 7 + 1) };
}

function nextCheapest(all: Everything, goal: Need, first: readonly ActionId[]): Cost | null {
  const costs = first.flatMap((a) => all.cheapestWithout(goal, new Set([a])) ?? []);
  return costs.sort(compare)[0] ?? null;
}

function judge({ rig, situation, goal }: Case): void {
  const all = Everything.of(rig, situation, MOST_MOMENTS);
  if (!all) return;
  const best = all.cheapest(goal);
  const proven = planOffProven(rig, situation, goal);
  if (!proven.ok) {
    expect(proven.problem.code).toBe('NO_WAY_OFF');
    expect(proven.problem.message).not.toBe('');
    expect(best).toBeNull();
    return;
  }
  const { answer } = proven.value;
  expect(answer.proven).toBe(true);
  expect({ irreversible: answer.irreversible, disturbed: answer.disturbed, minutes: answer.cost }).toEqual(best);
  expect(checkOff(rig, situation, goal, proven.value)).toBeNull();
  if (answer.steps.length === 0) return;
  const must = everyAction(rig).filter((a) => !all.canReach(goal, new Set([a])));
  expect(answer.unavoidable).toEqual(must.sort());
  const steps = answer.steps.map((s) => s.action);
  expect(answer.nextWays[0]?.cost).toBe(nextCheapest(all, goal, steps)?.minutes);
  const ways = [steps, ...answer.nextWays.map((w) => w.actions)];
  ways.forEach((way, k) => {
    for (const earlier of ways.slice(0, k)) expect(earlier.every((a) => way.includes(a))).toBe(false);
    let world = all.worlds[0]!;
    for (const a of way) {
      expect(all.meaning.allowed(a, world), `${a} of way ${k}`).toBe(true);
      world = all.meaning.after(world, a);
    }
    expect(all.holds(goal, world)).toBe(true);
  });
}

function judgeMany(runs: number, shape: Partial<RigShape>, forced: number): void {
  fc.assert(
    fc.property(fc.nat(10_000_000), (seed) => judge(makeCase(seed, shape, forced))),
    { numRuns: runs },
  );
}

describe('the cheapest way off, against full enumeration', () => {
  it('agrees on 300 rigs without setups', () => judgeMany(300, { parts: 4, extraJoints: 2 }, 1));
  it('agrees on 500 rigs with setups', () => judgeMany(500, { parts: 3, extraJoints: 1, setups: 1 }, 1));
  it('agrees on 200 rigs with guards and holds', () =>
    judgeMany(200, { parts: 4, extraJoints: 2, guards: 2, holds: 2 }, 1));
  it('agrees on 100 rigs with two setups, guards and holds', () =>
    judgeMany(100, { parts: 3, extraJoints: 1, setups: 2, guards: 2, holds: 2, needs: 0.6 }, 1));
});

const BENCH: Rig = {
  format: 'witnessmark-rig/1',
  root: 'hull',
  parts: [
    { id: 'cover', minutes: 2, needs: { fact: 'drained' } },
    { id: 'pump', minutes: 5, hold: { done: 'sling' } },
  ],
  attachments: [
    { id: 'j1', joins: ['cover', 'hull'], minutes: 3 },
    { id: 'j2', joins: ['pump', 'hull'], minutes: 4, loss: 'irreversible', needs: { off: 'cover' } },
    { id: 'j3', joins: ['pump', 'hull'], minutes: 4, disturbs: ['idle'] },
  ],
  operations: [{ id: 'sling', minutes: 6, needs: { any: [{ setup: 'stand', in: ['low'] }, { fact: 'strap' }] } }],
  blocks: [{ part: 'pump', by: 'cover', harm: 'scores the seal' }],
  guards: [],
  setups: [{ id: 'stand', states: ['high', 'low'], initial: 'high', minutes: 20 }],
  facts: [{ id: 'drained', name: 'Tank drained' }, { id: 'strap' }],
  looks: [],
};

describe('the answer', () => {
  it('costs nothing where the goal is so already', () => {
    const answer = planOff(BENCH, { done: [] }, { setup: 'stand', in: ['high'] });
    expect(answer).toMatchObject({
      ok: true,
      value: { cost: 0, steps: [], unavoidable: [], nextWays: [], proven: true },
    });
  });

  it('names the fact it waits for where no way leads there', () => {
    const answer = planOff(BENCH, { done: [] }, { apart: 'pump' });
    expect(answer).toMatchObject({
      ok: false,
      problem: { code: 'NO_WAY_OFF', message: expect.stringContaining('Tank drained') },
    });
  });

  it('brings in hold and state, and names a fact that would make it cheaper', () => {
    const answer = planOff(BENCH, { done: [], facts: ['drained'] }, { apart: 'pump' });
    expect(answer).toMatchObject({
      ok: true,
      value: { cost: 44, irreversible: 1, disturbed: 1, proven: true, lowerBound: 44, waitsFor: ['strap'] },
    });
    if (!answer.ok) return;
    const steps = answer.value.steps.map((s) => s.action);
    expect(steps.at(-1)).toBe('remove:pump');
    expect(steps.indexOf('set:stand=low')).toBe(steps.indexOf('sling') - 1);
    expect(answer.value.steps.every((s) => s.why.length > 0)).toBe(true);
    expect(answer.value.unavoidable).toEqual([...steps].sort());
  });

  it('counts a setting that is disturbed already as free', () => {
    const answer = planOff(BENCH, { done: ['j3'], facts: ['drained', 'strap'] }, { apart: 'pump' });
    expect(answer).toMatchObject({ ok: true, value: { cost: 20, disturbed: 0, irreversible: 1 } });
  });

  it('folds circles to their roots', () => {
    const rig: Rig = {
      ...BENCH,
      attachments: [
        { id: 'j1', joins: ['cover', 'hull'], needs: { released: 'j2' } },
        { id: 'j2', joins: ['pump', 'hull'], needs: { released: 'j1' } },
      ],
      parts: [{ id: 'cover' }, { id: 'pump' }],
    };
    const answer = planOff(rig, { done: [] }, { apart: 'pump' });
    expect(answer).toMatchObject({
      ok: false,
      problem: { message: expect.stringContaining('each waits for the other') },
    });
  });

  it('keeps both bounds when it may not look far', () => {
    const rig = makeRandomRig(12, { parts: 14, extraJoints: 10, needs: 0.8, setups: 2 });
    for (const p of rig.parts) {
      const answer = planOff(rig, { done: [] }, { apart: p.id }, { nodeBudget: 0 });
      if (answer.ok) expect(answer.value.lowerBound).toBeLessThanOrEqual(answer.value.cost);
      else expect(['NO_WAY_OFF', 'NO_WAY_YET']).toContain(answer.problem.code);
    }
  });
});
