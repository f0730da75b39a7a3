import fc from 'fast-check';
import { expect, test } from 'vitest';
import { planOff } from '../../planning/removal/plan-off.ts';
import { makeRandomGoal, randomRig } from '../../planning/testing/random-rig.ts';
import { tailRig } from '../testing/tail-rig.ts';
import { restingOn, wiresBetween, withoutShortcuts } from './graph-model.ts';

const SPRING = [
  'axle',
  'remove:10-14',
  'set:support=stand',
  'shear-pin',
  'press',
  'nut',
  'let-down',
  'spring-seat',
  'remove:10-03',
];

test('wires say why: a solid one for what must come first, a gate for a hazard, a block with its harm', () => {
  const wires = wiresBetween(tailRig(), SPRING);
  const way = (from: string, to: string) => wires.find((w) => w.from === from && w.to === to);
  expect(way('shear-pin', 'nut')?.way).toBe('first');
  expect(way('press', 'nut')?.way).toBe('gate');
  expect(way('set:support=stand', 'press')?.way).toBe('first');
  expect(way('remove:10-14', 'remove:10-03')).toEqual({
    from: 'remove:10-14',
    to: 'remove:10-03',
    way: 'block',
    harm: 'the leg cannot drop clear while the wheel is on',
  });
});

test('a solid wire that a chain of wires says already is left out', () => {
  const wires = wiresBetween(tailRig(), SPRING);
  expect(wires.some((w) => w.from === 'press' && w.to === 'let-down')).toBe(false);
  const kept = withoutShortcuts([
    { from: 'a', to: 'b', way: 'first' },
    { from: 'b', to: 'c', way: 'first' },
    { from: 'a', to: 'c', way: 'first' },
    { from: 'a', to: 'c', way: 'block', harm: 'tears' },
  ]);
  expect(kept.map((w) => `${w.from}${w.to}${w.way}`)).toEqual(['abfirst', 'bcfirst', 'acblock']);
});

test('what was done and holds up the plan is drawn with it, other done things are not', () => {
  const left = ['press', 'nut', 'let-down', 'spring-seat', 'remove:10-03'];
  const done = ['gland', 'axle', 'remove:10-14', 'set:support=stand', 'shear-pin'];
  expect(restingOn(tailRig(), left, done)).toEqual(['remove:10-14', 'set:support=stand', 'shear-pin']);
});

test('wires of any plan lead forwards, and every step but the last leads somewhere', () => {
  const shape = { parts: 8, extraJoints: 3, operations: 3, blocks: 3, setups: 1, holds: 1, needs: 0.5 };
  fc.assert(
    fc.property(randomRig(shape), fc.nat(1000), (rig, seed) => {
      const plan = planOff(rig, { done: [] }, makeRandomGoal(rig, seed), { nextWays: 0 });
      if (!plan.ok) return;
      const steps = plan.value.steps.map((s) => s.action);
      const wires = wiresBetween(rig, steps);
      for (const w of wires) expect(steps.indexOf(w.from)).toBeLessThan(steps.lastIndexOf(w.to));
      for (const step of steps.slice(0, -1)) expect(wires.some((w) => w.from === step)).toBe(true);
    }),
    { numRuns: 60 },
  );
});
