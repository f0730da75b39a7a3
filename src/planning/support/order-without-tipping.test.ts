/** Orders that hold, against trying every order; and what is said where none does. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RigMeaning } from '../../domain/rig/rig-meaning.ts';
import type { ActionId, Guard, Rig, Situation } from '../../domain/rig/rig-types.ts';
import { Dice } from '../testing/random-rig.ts';
import { orderWithoutTipping } from './order-without-tipping.ts';
import { firstTipping } from './plan-tips.ts';
import { x4Rig } from './testing/x4-rig.ts';

const START: Situation = { done: [] };

/** By the rule book: slow and right. */
function byMeaning(rig: Rig): (done: readonly ActionId[], action: ActionId) => boolean {
  const meaning = new RigMeaning(rig);
  return (done, action) => meaning.allowed(action, meaning.now({ done }));
}

const BOLTS = ['bolts-tail', 'bolts-tail-wheel', 'bolts-engine'];
const STEPS = [...BOLTS, 'remove:tail', 'remove:tail-wheel', 'remove:engine'];
const spot = (order: readonly ActionId[], a: ActionId): number => order.indexOf(a);

describe('X-4', () => {
  it('turns order A into one in which the engine goes before the tail-wheel', () => {
    const rig = x4Rig();
    expect(firstTipping(rig, START, STEPS)).toMatchObject({ step: 'remove:tail-wheel' });
    const a = orderWithoutTipping(rig, START, STEPS, byMeaning(rig));
    expect(a.kind).toBe('holds');
    expect([...a.order].sort()).toEqual([...STEPS].sort());
    expect(spot(a.order, 'remove:engine')).toBeLessThan(spot(a.order, 'remove:tail-wheel'));
    expect(firstTipping(rig, START, a.order)).toBeNull();
  });

  it('keeps an order that holds as it is, without asking what is allowed', () => {
    const steps = [...BOLTS, 'remove:engine', 'remove:tail', 'remove:tail-wheel'];
    const never = (): boolean => {
      throw new Error('not to be asked');
    };
    expect(orderWithoutTipping(x4Rig(), START, steps, never)).toEqual({ kind: 'holds', order: steps });
  });

  it('says what tips, proven, and what to put under it, where the engine can only come last', () => {
    const rig = x4Rig({ engineNeeds: { all: [{ off: 'tail' }, { off: 'tail-wheel' }] } });
    const a = orderWithoutTipping(rig, START, STEPS, byMeaning(rig));
    expect(a).toMatchObject({ kind: 'tips', proven: true, tipsAt: { point: 'rear-stand' } });
    if (a.kind !== 'tips') return;
    // Tail-wheel first leaves 51.4 kg; whichever of the two goes second tips.
    expect(['remove:tail', 'remove:tail-wheel']).toContain(a.tipsAt.step);
    expect(spot(a.order, a.tipsAt.step ?? '')).toBe(4);
    expect(a.tipsAt.kg).toBeCloseTo(6.74, 1);
    expect(a.tipsAt.marginKg).toBeCloseTo(20.14, 2);
    expect(a.tipsAt.text).toMatch(
      /^With (Tail unit|Tail-wheel) off: restrain the tail: margin 6\.7 kg at rear-stand \(20\.1 kg wanted\)$/,
    );
    // 20.14 - 6.74 = 13.40, of which 2 % goes into the margin itself: 13.7.
    expect(a.proposal).toMatch(
      /^Before (Tail unit|Tail-wheel) comes off: restrain the tail \(about 14 kg held down at rear-stand/,
    );
    expect(a.proposal).toContain('a further stand under the nose');
    expect(a.proposal).not.toMatch(/\bsafe/i);
    const held: Rig = { ...rig, parts: [...rig.parts, { id: 'ballast', massKg: 14, at: { x: 7.9 } }] };
    expect(firstTipping(held, START, a.order)).toBeNull();
  });

  it('proves it over changes of setup too: with a person in the bow at the end no order holds', () => {
    const rig = x4Rig();
    const a = orderWithoutTipping(rig, START, [...STEPS, 'set:bow=person'], byMeaning(rig));
    expect(a).toMatchObject({ kind: 'tips', proven: true });
    if (a.kind === 'tips') expect(spot(a.order, a.tipsAt.step ?? '')).toBe(STEPS.length);
  });

  it('says when the budget ran out instead of claiming a proof', () => {
    const rig = x4Rig({ engineNeeds: { all: [{ off: 'tail' }, { off: 'tail-wheel' }] } });
    expect(orderWithoutTipping(rig, START, STEPS, byMeaning(rig), { nodeBudget: 1 })).toMatchObject({
      kind: 'tips',
      proven: false,
    });
    expect(orderWithoutTipping(rig, START, STEPS, byMeaning(rig), { checkBudget: 2 })).toMatchObject({
      kind: 'tips',
      proven: false,
    });
  });

  it('names no step where it is under the margin already, and nothing at all where there are no points', () => {
    const now: Situation = { done: [...BOLTS, 'remove:tail', 'remove:tail-wheel'] };
    const rig = x4Rig();
    const a = orderWithoutTipping(rig, now, ['remove:engine'], byMeaning(rig));
    expect(a).toMatchObject({ kind: 'tips', proven: true, order: ['remove:engine'], tipsAt: { step: null } });
    if (a.kind === 'tips') expect(a.proposal).toMatch(/^Before anything more is taken off: restrain the tail/);
    const bare: Rig = { ...rig, setups: [] };
    expect(orderWithoutTipping(bare, START, STEPS, byMeaning(bare))).toEqual({ kind: 'holds', order: STEPS });
  });
});

describe('doors that close', () => {
  const holds = (rig: Rig, steps: readonly ActionId[]): readonly ActionId[] => {
    expect(firstTipping(rig, START, steps)).not.toBeNull();
    const a = orderWithoutTipping(rig, START, steps, byMeaning(rig));
    expect(a.kind).toBe('holds');
    expect(firstTipping(rig, START, a.order)).toBeNull();
    return a.order;
  };

  it('a guard: the panel may not be taken as soon as it could be', () => {
    const rig: Rig = {
      ...x4Rig({ extraParts: [{ id: 'panel' }] }),
      guards: [{ notTogether: ['panel', 'engine'], unless: { all: [{ off: 'tail' }, { off: 'tail-wheel' }] } }],
    };
    const order = holds(rig, [...BOLTS, 'remove:tail', 'remove:tail-wheel', 'remove:engine', 'remove:panel']);
    expect(spot(order, 'remove:panel')).toBeGreaterThan(spot(order, 'remove:tail-wheel'));
  });

  it('a hold: the engine bolts may not be taken as soon as they could be', () => {
    const plain = x4Rig();
    const rig: Rig = {
      ...plain,
      parts: plain.parts.map((p) => (p.id === 'engine' ? { ...p, hold: { done: 'sling' } } : p)),
      attachments: [...plain.attachments, { id: 'brace', joins: ['engine', 'hull'], needs: { off: 'tail' } }],
      operations: [{ id: 'sling', needs: { released: 'brace' } }],
    };
    const order = holds(rig, [
      'bolts-tail',
      'bolts-tail-wheel',
      'remove:tail',
      'remove:tail-wheel',
      'brace',
      'sling',
      'bolts-engine',
      'remove:engine',
    ]);
    expect(spot(order, 'bolts-engine')).toBeGreaterThan(spot(order, 'brace'));
  });

  it('changes of setup: the same changes in another order leave another state', () => {
    const plain = x4Rig();
    const points = (x: number) => [
      { id: 'front', on: 'hull', at: { x } },
      { id: 'rear', on: 'hull', at: { x: 7.9 } },
    ];
    const stands = {
      id: 'support',
      states: ['now', 'near', 'far'],
      initial: 'now',
      points: { now: points(3), near: points(3.3), far: points(2.6) },
    };
    const rig: Rig = { ...plain, setups: [stands] };
    const order = holds(rig, [
      'bolts-tail',
      'bolts-tail-wheel',
      'set:support=far',
      'set:support=near',
      'remove:tail',
      'remove:tail-wheel',
    ]);
    expect(spot(order, 'set:support=far')).toBeGreaterThan(spot(order, 'set:support=near'));
  });
});

/** Small rigs on two to four points: parts bolted to the root, random precedence, sometimes holds, guards, setups. */
function smallCase(seed: number): {
  readonly rig: Rig;
  readonly steps: readonly ActionId[];
  readonly closing: boolean;
} {
  const dice = new Dice(seed);
  const n = 3 + dice.below(3);
  const ids = Array.from({ length: n }, (_, i) => `p${i}`);
  const closing = dice.chance(0.5);
  const points = Array.from({ length: 2 + dice.below(3) }, (_, i) => ({
    id: `s${i}`,
    on: 'r',
    at: { x: i < 2 ? i * 6 : dice.below(60) / 10, y: i < 2 ? 0 : dice.below(40) / 10 - 2 },
  }));
  const guards: Guard[] =
    closing && dice.chance(0.5) ? [{ notTogether: dice.some(ids, 2), unless: { off: dice.pick(ids) } }] : [];
  const rig: Rig = {
    format: 'witnessmark-rig/1',
    root: 'r',
    parts: [
      {
        id: 'r',
        massKg: { value: 200, plusMinus: dice.below(4) },
        at: { x: { value: 2 + dice.below(20) / 10, plusMinus: 0.05 } },
      },
      ...ids.map((id, i) => ({
        id,
        massKg: 20 + dice.below(50),
        // Heavy ends: taken off one after the other they balance, all of one end first they tip.
        at: { x: dice.chance(0.5) ? -2 - dice.below(20) / 10 : 7 + dice.below(20) / 10, y: dice.below(10) / 10 - 0.5 },
        ...(i > 0 && dice.chance(0.3) && { needs: { off: ids[dice.below(i)] as string } }),
        ...(closing && dice.chance(0.3) && { hold: { off: dice.pick(ids) } }),
      })),
    ],
    attachments: ids.map((id) => ({ id: `j-${id}`, joins: [id, 'r'] })),
    operations: [],
    blocks: [],
    guards,
    setups: [
      {
        id: 'u',
        states: ['a', 'b'],
        initial: 'a',
        points: { a: points, b: points.map((p) => ({ ...p, at: { ...p.at, x: p.at.x + 1 } })) },
      },
    ],
    facts: [],
    looks: [],
  };
  const joints = ids.map((id) => `j-${id}`);
  // Bolts out beforehand where only the lifting is to be ordered: fewer orders to try, all of them tried.
  const steps = [
    ...(closing ? joints.slice(0, 2) : []),
    ...ids.map((id) => `remove:${id}`),
    ...(closing && dice.chance(0.5) ? ['set:u=b'] : []),
  ];
  return { rig, steps: steps.slice(0, 7), closing };
}

/** Every allowed order of the steps, by trying. */
function* ordersOf(
  steps: readonly ActionId[],
  done: readonly ActionId[],
  allowed: (done: readonly ActionId[], a: ActionId) => boolean,
): Generator<readonly ActionId[]> {
  if (steps.length === 0) yield [];
  for (const [i, s] of steps.entries()) {
    if (!allowed(done, s)) continue;
    for (const rest of ordersOf(
      steps.filter((_, k) => k !== i),
      [...done, s],
      allowed,
    ))
      yield [s, ...rest];
  }
}

describe('against trying every order', () => {
  it('finds one exactly when there is one, and goes as far as any where there is none', () => {
    const seen = { holds: 0, turned: 0, tips: 0 };
    fc.assert(
      fc.property(fc.nat(1e6), (seed) => {
        const { rig, steps, closing } = smallCase(seed);
        const inSteps = new Set(steps);
        const situation: Situation = { done: rig.attachments.map((a) => a.id).filter((j) => !inSteps.has(j)) };
        const allowed = byMeaning(rig);
        const all = [...ordersOf(steps, situation.done, allowed)];
        const tips = (o: readonly ActionId[]) => firstTipping(rig, situation, o);
        // Mostly a given order that tips, so that there is something to turn.
        const given = (seed % 4 > 0 ? all.find((o) => tips(o) !== null) : undefined) ?? all[0];
        if (given === undefined) return;
        const a = orderWithoutTipping(rig, situation, given, allowed);
        // What is answered is itself an order that the rules allow.
        expect(all.some((o) => JSON.stringify(o) === JSON.stringify(a.order))).toBe(true);
        if (all.some((o) => tips(o) === null)) {
          expect(a.kind).toBe('holds');
          expect(tips(a.order)).toBeNull();
          seen[tips(given) === null ? 'holds' : 'turned'] += 1;
          return;
        }
        seen.tips += 1;
        expect(a).toMatchObject({ kind: 'tips', proven: true, tipsAt: tips(a.order) as object });
        const reach = (o: readonly ActionId[]): number => spot(o, tips(o)?.step ?? '');
        if (!closing) expect(reach(a.order)).toBe(Math.max(...all.map(reach)));
      }),
      { numRuns: 300 },
    );
    // The cases are of all three kinds, or this test would show nothing.
    expect(Math.min(seen.holds, seen.turned, seen.tips)).toBeGreaterThan(4);
  });
});
