import { expect, it } from 'vitest';
import { makeUlid } from '../domain/ids.ts';
import { must } from '../domain/result.ts';
import { readRig } from '../domain/rig/rig-check.ts';
import { asPending } from '../journal/entry.ts';
import { decide, EMPTY_STATE, fold, type State } from '../journal/index.ts';
import { takeInKnowledge, typeKnowledge } from './type-knowledge.ts';

const told = must(
  readRig({
    format: 'witnessmark-rig/1',
    root: 'frame',
    parts: [{ id: 'box', note: 'Nadia saw rust' }],
    attachments: [{ id: 'j1', joins: ['box', 'frame'], asFound: { note: 'bent' } }],
    facts: [{ id: 'known', given: true }],
  }),
);

function jobWith(rig: unknown): State {
  const stamp = { id: makeUlid(1, new Uint8Array(10)), at: '2025-11-18T09:00:00+00:00', by: 'nadia', device: 'test' };
  const drafts = must(decide(EMPTY_STATE, { kind: 'take-in-rig', rig, standing: 'ours' }, stamp));
  return fold(drafts.map(asPending));
}

it('gives away joints with their source, and no notes, findings or facts of this aircraft', () => {
  const out = must(typeKnowledge(jobWith(told)));
  expect(JSON.stringify(out)).not.toMatch(/Nadia|bent|given/);
  expect(out.attachments).toMatchObject([{ id: 'j1', source: expect.stringMatching(/recorded on/) }]);
});

it('refuses knowledge that hangs on another root with OTHER_ROOT', () => {
  const other = must(readRig({ format: 'witnessmark-rig/1', root: 'hull', parts: [{ id: 'x' }] }));
  expect(takeInKnowledge(jobWith(told), other, 'a club')).toMatchObject({ ok: false, problem: { code: 'OTHER_ROOT' } });
});
