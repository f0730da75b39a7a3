import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RigMeaning } from '../../domain/rig/rig-meaning.ts';
import type { Rig } from '../../domain/rig/rig-types.ts';
import { Dice, everyAction, makeRandomRig, makeRandomSituation } from '../testing/random-rig.ts';
import { Everything } from './testing/enumerate.ts';
import { whyNot } from './why-not.ts';

function judge(seed: number): void {
  const rig = makeRandomRig(seed, { parts: 3, extraJoints: 2, setups: 1, guards: 1, holds: 1, blocks: 2 });
  const situation = makeRandomSituation(rig, seed, seed % 4, seed % 3 === 0 ? 1 : 0);
  const meaning = new RigMeaning(rig);
  const now = meaning.now(situation);
  const action = new Dice(seed).pick(everyAction(rig).filter((a) => !now.done.has(a)));
  const answer = whyNot(rig, situation, action);
  if (!answer.ok) throw new Error(`internal: ${answer.problem.code}; report it`);
  const { allowed, unmet, cheapestWay, harm } = answer.value;
  expect(allowed).toBe(meaning.allowed(action, now));
  expect(unmet.length === 0).toBe(allowed);
  if (rig.setups.some((s) => action === `set:${s.id}=${now.states[s.id]}`)) return;
  const forced = meaning.hindrances(action, now).filter((h) => h.rule !== 'hazard');
  expect(harm).toEqual([...new Set(forced.flatMap((h) => h.harm ?? []))].sort());
  if (cheapestWay === null) {
    const all = Everything.of(rig, situation, 3000);
    expect(all?.worlds.some((w) => meaning.allowed(action, w)) ?? false).toBe(false);
    return;
  }
  let world = now;
  for (const a of cheapestWay.actions) {
    expect(meaning.allowed(a, world)).toBe(true);
    world = meaning.after(world, a);
  }
  expect(meaning.allowed(action, world)).toBe(true);
  expect(cheapestWay.actions).not.toContain(action);
}

const TAIL: Rig = {
  format: 'witnessmark-rig/1',
  root: 'hull',
  parts: [
    { id: 'fork', name: 'Fork', hold: { done: 'strop' } },
    { id: 'wheel', name: 'Wheel' },
    { id: 'spat', name: 'Spat', needs: { fact: 'photographed' } },
  ],
  attachments: [
    { id: 'axle', joins: ['wheel', 'fork'], minutes: 8, needs: { off: 'spat' } },
    { id: 'screws', joins: ['spat', 'fork'], minutes: 6 },
    {
      id: 'pivot',
      joins: ['fork', 'hull'],
      minutes: 9,
      hazards: [{ kind: 'stored-energy', clearedBy: { done: 'let-down' } }],
    },
  ],
  operations: [
    { id: 'strop', minutes: 4 },
    { id: 'let-down', minutes: 7 },
  ],
  blocks: [{ part: 'wheel', by: 'spat', harm: 'cracks the spat' }],
  guards: [{ notTogether: ['wheel', 'fork'], unless: { setup: 'stand', in: ['high'] }, harm: 'the tail drops' }],
  setups: [{ id: 'stand', states: ['low', 'high'], initial: 'low', minutes: 3, points: { low: [{ on: 'wheel' }] } }],
  facts: [{ id: 'photographed', name: 'Spat photographed in place' }],
  looks: [],
};

describe('why not', () => {
  it('agrees with the meaning on random rigs: allowed, harm, ways that are legal, and never', () => {
    fc.assert(fc.property(fc.nat(10_000_000), judge), { numRuns: 250 });
  });

  it('says the block with its harm, the state that rests on it, and folds the joint that waits for the block', () => {
    const answer = whyNot(TAIL, { done: [], facts: ['photographed'] }, 'remove:wheel');
    expect(answer).toMatchObject({ ok: true, value: { allowed: false, harm: ['cracks the spat'] } });
    if (!answer.ok) return;
    const { unmet, cheapestWay, unavoidable } = answer.value;
    expect(unmet.map((u) => [u.kind, u.need])).toEqual([
      ['block', { off: 'spat' }],
      ['setup', { setup: 'stand', in: ['high'] }],
    ]);
    expect(unmet[0]?.text).toContain('1 more behind it');
    expect(cheapestWay).toEqual({ cost: 17, actions: ['screws', 'remove:spat', 'axle', 'set:stand=high'] });
    expect(unavoidable).toEqual(['axle', 'remove:spat', 'screws', 'set:stand=high']);
  });

  it('asks for the hold and clears the stored energy before the last joint', () => {
    const answer = whyNot(TAIL, { done: [] }, 'pivot');
    expect(answer).toMatchObject({ ok: true, value: { cheapestWay: { cost: 11 } } });
    if (answer.ok) expect(answer.value.unmet.map((u) => u.kind)).toEqual(['hazard', 'hold']);
  });

  it('names the fact where no way leads there', () => {
    const answer = whyNot(TAIL, { done: [] }, 'remove:wheel');
    expect(answer).toMatchObject({ ok: true, value: { cheapestWay: null, nextWays: [] } });
    if (answer.ok)
      expect(answer.value.unmet).toContainEqual(
        expect.objectContaining({ kind: 'fact', need: { fact: 'photographed' } }),
      );
  });

  it('explains what waits for each other', () => {
    const circle: Rig = {
      ...TAIL,
      attachments: [
        { id: 'axle', name: 'axle', joins: ['wheel', 'fork'], needs: { released: 'pivot' } },
        { id: 'pivot', name: 'pivot', joins: ['fork', 'hull'], needs: { released: 'axle' } },
      ],
    };
    const answer = whyNot(circle, { done: [] }, 'axle');
    expect(answer).toMatchObject({ ok: true, value: { unmet: [{ kind: 'circular' }], cheapestWay: null } });
    if (answer.ok) expect(answer.value.unmet[0]?.text).toContain('ach waits for the other');
  });

  it('is empty when it may be done', () => {
    expect(whyNot(TAIL, { done: [] }, 'screws')).toEqual({
      ok: true,
      value: {
        action: 'screws',
        allowed: true,
        unmet: [],
        cheapestWay: { cost: 0, actions: [] },
        nextWays: [],
        unavoidable: [],
        harm: [],
      },
    });
  });

  it('knows what is done already and what is never offered', () => {
    expect(whyNot(TAIL, { done: ['screws'] }, 'screws')).toMatchObject({
      ok: true,
      value: { allowed: false, cheapestWay: null },
    });
    expect(whyNot(TAIL, { done: [] }, 'set:stand=low')).toMatchObject({
      ok: true,
      value: { unmet: [{ kind: 'setup' }], cheapestWay: null },
    });
  });
});
