/**
 * Cases from outside: `fixtures/planning/planning-cases.json`, each with its source in the file; translated to rigs.
 * andor-*: optimum and unavoidable actions by full enumeration; support-1: Dijkstra over (removed, support), own.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkRig } from '../../domain/rig/rig-check.ts';
import type { Need, Operation, Rig } from '../../domain/rig/rig-types.ts';
import { countOrders, listOrders, validateSequence } from './counting.ts';
import { furthestRebuild } from './furthest-rebuild.ts';
import { planOff } from './plan-off.ts';

interface Case {
  readonly id: string;
  readonly kind: string;
  readonly cost?: readonly number[];
  readonly clauses?: readonly (readonly (readonly number[])[])[];
  readonly targets?: readonly number[];
  readonly elements?: readonly string[];
  readonly sequence?: readonly string[];
  readonly before?: readonly (readonly [string, string])[];
  readonly expected: {
    readonly optimum: number;
    readonly unavoidable?: readonly number[];
    readonly count: number;
    readonly sequences?: readonly string[];
    readonly completeSequences: number;
  };
}

interface SupportCase {
  readonly parts: readonly string[];
  readonly removalMinutes: readonly number[];
  readonly needs: Readonly<Record<string, readonly (readonly string[])[]>>;
  readonly supportStates: readonly string[];
  readonly start: string;
  readonly stateNeededToRemove: Readonly<Record<string, readonly string[]>>;
  readonly stateChangeMinutes: Readonly<Record<string, number>>;
  readonly expected: readonly {
    readonly targets: readonly string[];
    readonly cost: number;
    readonly removed: readonly string[];
    readonly support: string;
  }[];
}

const CASES = (JSON.parse(readFileSync('fixtures/planning/planning-cases.json', 'utf8')) as { cases: Case[] }).cases;
const EMPTY: Rig = {
  format: 'witnessmark-rig/1',
  root: 'r',
  parts: [],
  attachments: [],
  operations: [],
  blocks: [],
  guards: [],
  setups: [],
  facts: [],
  looks: [],
};

function withOperations(operations: readonly Operation[]): Rig {
  const rig = checkRig({ ...EMPTY, operations });
  if (!rig.ok) throw new Error(`internal: ${rig.problem.message}; report it`);
  return rig.value;
}

function selective(c: Case): Rig {
  return withOperations(
    c.cost!.map((minutes, a) => ({
      id: `a${a}`,
      minutes,
      needs: { all: c.clauses![a]!.map((any): Need => ({ any: any.map((b) => ({ done: `a${b}` })) })) },
    })),
  );
}

function precedence(ids: readonly string[], before: readonly (readonly [string, string])[]): Rig {
  return withOperations(
    ids.map((id) => ({ id, needs: { all: before.filter(([, y]) => y === id).map(([x]): Need => ({ done: x })) } })),
  );
}

describe('published and computed cases', () => {
  const small = CASES.filter((c) => c.kind === 'andor-small' || c.id === 'sel-ev6');
  it.each(small.map((c) => [c.id, c] as const))('%s: the optimum', (_, c) => {
    const goal: Need = { all: c.targets!.map((t) => ({ done: `a${t}` })) };
    const answer = planOff(selective(c), { done: [] }, goal);
    expect(answer).toMatchObject({ ok: true, value: { cost: c.expected.optimum, proven: true } });
    const must = c.expected.unavoidable?.map((a) => `a${a}`).sort();
    if (must && answer.ok) expect(answer.value.unavoidable).toEqual(must);
  });

  const counted = CASES.filter((c) => c.kind === 'count-linear-extensions');
  it.each(counted.map((c) => [c.id, c] as const))('%s: as many orders as printed', (_, c) => {
    const elements = c.elements!.map(String);
    const rig = precedence(
      elements,
      c.before!.map(([x, y]) => [String(x), String(y)] as const),
    );
    expect(countOrders(rig, { done: [] }, elements)).toEqual({ ok: true, value: BigInt(c.expected.count) });
    const listed = listOrders(rig, { done: [] }, elements, 1000);
    if (!listed.ok || !c.expected.sequences) return;
    expect(listed.value.map((o) => o.join('')).sort()).toEqual([...c.expected.sequences].sort());
  });

  it('sel-ev6: two complete sequences of its printed blocking table', () => {
    const c = CASES.find((x) => x.id === 'sel-ev6')!;
    const all = c.cost!.map((_, a) => `a${a}`);
    expect(countOrders(selective(c), { done: [] }, all)).toEqual({
      ok: true,
      value: BigInt(c.expected.completeSequences),
    });
  });

  it('seq-gearbox28: the printed strip order is allowed, and a step too early is named', () => {
    const c = CASES.find((x) => x.id === 'seq-gearbox28')!;
    const rig = precedence(c.sequence!, c.before!);
    expect(validateSequence(rig, { done: [] }, c.sequence!)).toMatchObject({ ok: true });
    const early = [c.sequence!.at(-1)!, ...c.sequence!.slice(0, -1)];
    expect(validateSequence(rig, { done: [] }, early)).toMatchObject({
      ok: false,
      problem: { code: 'SEQUENCE_ORDER', where: 'sequence[0]' },
    });
  });
});

/** Wheels stand on wheels and legs, jacks under the wings: the states' rule is given by what they rest on. */
function airframe(c: SupportCase): Rig {
  const points = {
    wheels: ['wheelL', 'wheelR', 'legL', 'legR'].map((on) => ({ on })),
    jacks: ['wingL', 'wingR'].map((on) => ({ on })),
  };
  return {
    ...EMPTY,
    parts: c.parts.map((id, i) => {
      const inWay = (c.needs[id] ?? []).map((any): Need => ({ any: any.map((p) => ({ off: p })) }));
      const states: Need[] = c.stateNeededToRemove[id] ? [{ setup: 'support', in: c.stateNeededToRemove[id] }] : [];
      return { id, minutes: c.removalMinutes[i]!, needs: { all: [...inWay, ...states] } };
    }),
    setups: [{ id: 'support', states: c.supportStates, initial: c.start, minutes: c.stateChangeMinutes, points }],
  };
}

describe('support-1: jacks, trestles and wheels', () => {
  const c = CASES.find((x) => x.id === 'support-1') as unknown as SupportCase;
  it.each(c.expected.map((e) => [e.targets.join(' and '), e] as const))('%s', (_, e) => {
    const answer = planOff(airframe(c), { done: [] }, { all: e.targets.map((t): Need => ({ apart: t })) });
    expect(answer).toMatchObject({ ok: true, value: { cost: e.cost, proven: true } });
    if (!answer.ok) return;
    const steps = answer.value.steps.map((s) => s.action);
    expect(steps.filter((s) => s.startsWith('remove:')).sort()).toEqual(e.removed.map((p) => `remove:${p}`).sort());
    expect(steps.findLast((s) => s.startsWith('set:'))).toBe(`set:support=${e.support}`);
  });
});

describe('the furthest rebuild', () => {
  it('keeps off only what the part asks for', () => {
    const rig: Rig = {
      ...EMPTY,
      parts: [
        { id: 'a', minutes: 1 },
        { id: 'b', minutes: 1, needs: { any: [{ off: 'a' }, { off: 'c' }] } },
        { id: 'c', minutes: 5 },
      ],
      operations: [{ id: 'drain', only: 'strip' }],
    };
    const done = ['drain', 'remove:c', 'remove:a', 'remove:b'];
    expect(furthestRebuild(rig, { done }, 'b')).toEqual({
      ok: true,
      value: { stays: ['remove:a', 'remove:b'], putBack: ['remove:c'], cost: 2 },
    });
    expect(furthestRebuild(rig, { done: ['remove:a'] }, 'b')).toMatchObject({ ok: false });
  });
});
