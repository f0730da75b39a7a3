import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { must } from '../domain/result.ts';
import { readRig } from '../domain/rig/rig-check.ts';
import { deskInThread } from './plan-desk.ts';

const rig = must(readRig({ format: 'witnessmark-rig/1', root: 'frame', parts: [{ id: 'box' }] }));
const request = { rig, situation: { done: [] }, question: { kind: 'fits' as const }, marginPercent: 2 };

it('a plan that takes too long is stopped with PLAN_STOPPED, and the next one gets a fresh thread', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'witnessmark-desk-'));
  const file = join(folder, 'never.mjs');
  writeFileSync(file, "import { parentPort } from 'node:worker_threads'; parentPort.on('message', () => {});");
  const desk = deskInThread(file);
  const stop = new AbortController();
  const plan = desk.plan(request, stop.signal);
  stop.abort();
  expect(await plan).toMatchObject({ ok: false, problem: { code: 'PLAN_STOPPED' } });
  await desk.close();
  rmSync(folder, { recursive: true, force: true });
});
