/** The X-4 arithmetic of the invented scenario (recomputed there, one decimal in print), and what must hold for any rig. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { must } from '../../domain/result.ts';
import { checkRig } from '../../domain/rig/rig-check.ts';
import { RigMeaning } from '../../domain/rig/rig-meaning.ts';
import type { ActionId, ExtraLoad, Place, Rig, SupportPoint } from '../../domain/rig/rig-types.ts';
import { type StaticMass, supportLoads } from '../../domain/statics.ts';
import type { PointLoad } from '../answers.ts';
import { Dice, everyAction, makeRandomSituation, randomRig } from '../testing/random-rig.ts';
import { firstTipping, loadsAfter, loadsAlong, planTips } from './plan-tips.ts';
import { x4Rig } from './testing/x4-rig.ts';

const START = { done: [] };
const ORDER_A = ['remove:tail', 'remove:tail-wheel', 'set:bow=person'];
const ORDER_B = ['remove:engine', 'remove:tail', 'remove:tail-wheel', 'set:bow=person'];
const rear = (loads: readonly PointLoad[]): number => loads.find((l) => l.point === 'rear-stand')?.kg ?? Number.NaN;

describe('X-4: same parts, other order, opposite result', () => {
  it('is a rig that the file check accepts', () => {
    expect(checkRig(x4Rig())).toMatchObject({ ok: true });
  });

  it('as it stands: 80.4 kg on the rear stand', () => {
    const a = must(planTips(x4Rig(), START));
    expect(a.steps.map((s) => s.action)).toEqual([null]);
    expect(Math.abs(rear(a.steps[0]?.loads ?? []) - 80.4)).toBeLessThanOrEqual(0.05);
    expect(a.steps[0]?.loads.map((l) => l.point)).toEqual(['front-stand', 'rear-stand']);
    expect(a).toMatchObject({ steps: [{ least: { point: 'rear-stand' }, underMargin: false }], restrain: [] });
  });

  it.each([
    ['A', ORDER_A, [35.7, 6.7, -29.4], [false, true, true]],
    ['B', ORDER_B, [124.7, 80.1, 51.0, 14.9], [false, false, false, true]],
  ] as const)('order %s', (_, along, want, under) => {
    const a = must(planTips(x4Rig(), START, { along }));
    expect(a.steps.map((s) => s.action)).toEqual(along);
    a.steps.forEach((s, i) => void expect(Math.abs(rear(s.loads) - (want[i] ?? 0))).toBeLessThanOrEqual(0.05));
    expect(a.steps.map((s) => s.underMargin)).toEqual(under);
    expect(a.restrain).toHaveLength(1);
    expect(a.restrain[0]).toMatch(/^restrain the tail: margin .* kg at rear-stand$/);
  });

  it('the last load of order B is small and within the doubt of the centre of gravity: about 9 kg for 50 mm', () => {
    const a = must(planTips(x4Rig({ hullArmDoubt: (0.05 * 847) / 762 }), START, { along: ORDER_B }));
    const least = a.steps.at(-1)?.least;
    expect(least?.plusMinus).toBeCloseTo((847 * 0.05) / 4.7, 9);
    expect(a.restrain).toEqual(['restrain the tail: margin 15 ± 9 kg at rear-stand']);
  });

  it('the margin of the shop decides, worst case over the doubt', () => {
    const at = (marginPercent: number, hullArmDoubt = 0): boolean | undefined =>
      must(planTips(x4Rig({ hullArmDoubt }), { done: ['remove:tail'] }, { marginPercent })).steps[0]?.underMargin;
    // 35.745 kg of 1038 kg is 3.44 %.
    expect([at(2), at(3.4), at(3.5)]).toEqual([false, false, true]);
    expect(at(2, 0.1)).toBe(true);
    expect(firstTipping(x4Rig(), START, ORDER_A)).toMatchObject({ step: 'remove:tail-wheel', point: 'rear-stand' });
    expect(firstTipping(x4Rig(), START, ORDER_A)?.marginKg).toBeCloseTo(1007 * 0.02, 9);
    expect(firstTipping(x4Rig(), { done: ORDER_A.slice(0, 2) }, [])).toMatchObject({ step: null });
    expect(firstTipping(x4Rig(), START, ORDER_A.slice(0, 1))).toBeNull();
  });

  it('leaves no doubt behind when what was doubtful is off', () => {
    const extraParts = [
      { id: 'tank', massKg: { value: 61.7, plusMinus: 3.3 }, at: { x: { value: 4.1, plusMinus: 0.07 } } },
    ];
    const [first, then] = must(planTips(x4Rig({ extraParts }), START, { along: ['bolts-tail', 'remove:tank'] })).steps;
    expect(first?.loads.every((l) => l.plusMinus > 1)).toBe(true);
    expect(then?.loads.map((l) => l.plusMinus)).toEqual([0, 0]);
  });

  it('counts extra loads of the present state and no points where none are in force', () => {
    const bow = must(planTips(x4Rig(), { done: [], setups: { bow: 'person' } })).steps[0]?.loads ?? [];
    expect(bow.reduce((s, l) => s + l.kg, 0)).toBeCloseTo(1165, 9);
    const slings = must(planTips(x4Rig(), { done: [] }, { along: ['set:support=slings', 'remove:tail'] }));
    expect(slings).toEqual({
      steps: [
        { action: 'set:support=slings', loads: [], least: null, underMargin: false },
        { action: 'remove:tail', loads: [], least: null, underMargin: false },
      ],
      restrain: [],
    });
  });

  it('a rig without points says nothing about tipping', () => {
    const bare: Rig = { ...x4Rig(), setups: [] };
    expect(must(planTips(bare, START))).toEqual({
      steps: [{ action: null, loads: [], least: null, underMargin: false }],
      restrain: [],
    });
    expect(firstTipping(bare, START, ['remove:tail'])).toBeNull();
  });

  it('an assembly takes what sits in it along, each with its own mass, and only once', () => {
    const extraParts = [
      { id: 'rudder', within: 'tail', massKg: 10, at: { x: 8.5 } },
      { id: 'label', within: 'rudder' },
    ];
    const rig = x4Rig({ extraParts });
    const total = (done: readonly ActionId[]): number => loadsAfter(rig, START, done, {}).reduce((s, l) => s + l.kg, 0);
    expect(total([])).toBeCloseTo(1090, 9);
    expect(total(['remove:rudder'])).toBeCloseTo(1080, 9);
    expect(total(['remove:tail'])).toBeCloseTo(1038, 9);
    expect(total(['remove:rudder', 'remove:tail', 'remove:tail'])).toBeCloseTo(1038, 9);
    expect(total(['bolts-tail'])).toBeCloseTo(1090, 9);
  });

  it.each<[string, Parameters<typeof planTips>[1], Parameters<typeof planTips>[2], string]>([
    ['TIPS_UNKNOWN_ACTION', { done: ['remove:nothing'] }, {}, 'done[0]'],
    ['TIPS_UNKNOWN_ACTION', START, { along: ['remove:tail', 'set:support=air'] }, 'along[1]'],
    ['TIPS_MARGIN', START, { marginPercent: 50 }, 'margin'],
    ['TIPS_MARGIN', START, { marginPercent: Number.NaN }, 'margin'],
  ])('%s', (code, situation, options, where) => {
    const r = planTips(x4Rig(), situation, options);
    expect(r.ok ? null : r.problem).toMatchObject({ code, where });
  });
});

describe('which end to hold', () => {
  const threeLegs = (massAt: Place): Rig => ({
    ...x4Rig(),
    parts: [{ id: 'hull', massKg: 1000, at: massAt }],
    attachments: [],
    setups: [
      {
        id: 'wheels',
        states: ['down'],
        initial: 'down',
        points: {
          down: [
            { on: 'hull', id: 'port', name: 'Port wheel', at: { x: 3, y: -1 } },
            { on: 'hull', id: 'starboard', at: { x: 3, y: 1 } },
            { on: 'hull', id: 'skid', at: { x: 8 } },
          ],
        },
      },
    ],
  });
  it.each<[string, Place, string]>([
    ['nose down', { x: 2.9, y: 0 }, 'restrain the tail: margin −20.0 kg at skid'],
    ['to the right', { x: 4, y: 0.9 }, 'restrain the nose, left side: margin −50.0 kg at Port wheel'],
    ['to the left', { x: 4, y: -0.9 }, 'restrain the nose, right side: margin −50.0 kg at starboard'],
  ])('%s', (_, at, text) => expect(must(planTips(threeLegs(at), START)).restrain).toEqual([text]));

  it('two stands say so when the weight lies well beside their line', () => {
    const rig = x4Rig({ extraParts: [{ id: 'wing', massKg: 300, at: { x: 3.5, y: 4 } }] });
    expect(must(planTips(rig, START)).restrain).toEqual([
      'restrain it sideways: 2 points in line, and the weight lies beside them',
    ]);
  });
});

/** Any rig, with masses, arms, doubts, points and extra loads put in by a dice. */
function weighted(rig: Rig, seed: number): Rig {
  const dice = new Dice(seed);
  const arm = (): number => dice.below(80) / 10;
  const place = (): Place =>
    dice.chance(0.8) ? { x: dice.chance(0.3) ? { value: arm(), plusMinus: 0.1 } : arm(), y: arm() - 4 } : {};
  return {
    ...rig,
    parts: rig.parts.map((p) =>
      dice.chance(0.8)
        ? {
            ...p,
            massKg: dice.chance(0.3) ? { value: dice.below(90), plusMinus: dice.below(5) } : dice.below(90),
            at: place(),
          }
        : p,
    ),
    setups: rig.setups.map((s) => ({
      ...s,
      points: Object.fromEntries(
        s.states.map((state): [string, SupportPoint[]] => [
          state,
          Array.from({ length: dice.below(4) }, (_, i) => ({
            id: `${s.id}-${state}-${i}`,
            on: rig.root,
            at: { x: arm(), y: arm() - 4 },
          })),
        ]),
      ),
      loads: Object.fromEntries(
        s.states.map((state): [string, ExtraLoad[]] => [state, dice.chance(0.3) ? [{ massKg: 20, at: place() }] : []]),
      ),
    })),
  };
}

describe('for any rig', () => {
  const rigs = fc
    .tuple(randomRig({ parts: 7, setups: 2, guards: 1, holds: 1 }), fc.nat(1e6))
    .map(([rig, seed]) => ({ rig: weighted(rig, seed), seed }));

  it('walking along equals the rule book and the plain statics from scratch, at every step', () => {
    let compared = 0;
    fc.assert(
      fc.property(rigs, ({ rig, seed }) => {
        const meaning = new RigMeaning(rig);
        const situation = makeRandomSituation(rig, seed, 2, 1);
        const dice = new Dice(seed + 1);
        const along = dice.some(everyAction(rig), 8);
        const walked = loadsAlong(rig, situation, along);
        let world = meaning.now(situation);
        along.forEach((action, i) => {
          world = meaning.after(world, action);
          expect(loadsAfter(rig, situation, along.slice(0, i + 1), world.states)).toEqual(walked[i]);
          const points = rig.setups
            .flatMap((s) => s.points?.[world.states[s.id] ?? ''] ?? [])
            .map((p) => ({ id: p.id ?? '', ...(p.at && { at: p.at }) }));
          const masses: StaticMass[] = [
            ...rig.parts
              .filter((p) => !meaning.isOffAircraft(p.id, world))
              .map((p) => ({ kg: p.massKg ?? 0, ...(p.at && { at: p.at }) })),
            ...rig.setups
              .flatMap((s) => s.loads?.[world.states[s.id] ?? ''] ?? [])
              .map((l) => ({ kg: l.massKg, ...(l.at && { at: l.at }) })),
          ];
          const plain = supportLoads(masses, points);
          if (!plain.ok) return;
          compared += 1;
          const byName = new Map(plain.value.loads.map((l) => [l.point, l]));
          expect(walked[i]?.length).toBe(points.length);
          for (const l of walked[i] ?? []) {
            // Points nearly in line give large loads; rounding grows with them.
            const scale = 1e-9 * (1 + Math.max(...plain.value.loads.map((x) => Math.abs(x.kg) + x.plusMinus)));
            expect(Math.abs(l.kg - (byName.get(l.point)?.kg ?? Number.NaN))).toBeLessThan(scale * 100);
            expect(Math.abs(l.plusMinus - (byName.get(l.point)?.plusMinus ?? Number.NaN))).toBeLessThan(scale * 1e4);
          }
        });
      }),
      { numRuns: 300 },
    );
    expect(compared).toBeGreaterThan(300);
  });

  it('never says the word that no sum can give', () => {
    fc.assert(
      fc.property(rigs, ({ rig, seed }) => {
        const along = new Dice(seed).some(everyAction(rig), 5);
        expect(JSON.stringify(must(planTips(rig, { done: [] }, { along })))).not.toMatch(
          /\bsafe|\berror|\binvalid|\bplease/i,
        );
      }),
      { numRuns: 50 },
    );
  });
});
