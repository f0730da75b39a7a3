/** The thread of `plan-desk.ts`: one question in, one answer out. */
import { parentPort } from 'node:worker_threads';
import { ask } from '../app/ask.ts';
import type { PlanRequest } from './plan-desk.ts';

parentPort?.on('message', (r: PlanRequest) => {
  parentPort?.postMessage(ask(r.rig, r.situation, r.question, { marginPercent: r.marginPercent }));
});
