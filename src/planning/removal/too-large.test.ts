import { expect, it } from 'vitest';
import { must } from '../../domain/result.ts';
import { readRig } from '../../domain/rig/rig-check.ts';
import { countOrders } from './counting.ts';
import { planOff } from './plan-off.ts';

const rigWith = (minutes: number, count: number) =>
  must(
    readRig({
      format: 'witnessmark-rig/1',
      root: 'frame',
      parts: Array.from({ length: count }, (_, i) => ({ id: `p${i}`, minutes })),
      attachments: [{ id: 'j', joins: ['p0', 'frame'], minutes, loss: 'irreversible', disturbs: ['rigging'] }],
    }),
  );

it('minutes too large to compare exactly are PLAN_TOO_LARGE, not a rounded answer', () => {
  const rig = rigWith(Number.MAX_SAFE_INTEGER, 3);
  expect(planOff(rig, { done: [] }, { apart: 'p0' })).toMatchObject({ ok: false, problem: { code: 'PLAN_TOO_LARGE' } });
});

it('more orders than can be counted exactly are COUNT_TOO_LARGE', () => {
  const rig = rigWith(1, 20);
  const actions = rig.parts.slice(1).map((p) => `remove:${p.id}`);
  expect(countOrders(rig, { done: [] }, actions)).toMatchObject({ ok: false, problem: { code: 'COUNT_TOO_LARGE' } });
});
