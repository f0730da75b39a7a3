/**
 * Where plans are made: in a thread of its own, so that a slow one holds up nobody who records. A plan can be stopped;
 * the thread is then ended and a fresh one started for the next question. Without a built worker (tests from source)
 * the same questions are answered in place.
 */
import { existsSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { type Answer, ask, type Question } from '../app/ask.ts';
import { failed, type Result } from '../domain/result.ts';
import type { Rig, Situation } from '../domain/rig/rig-types.ts';
import { serverProblem } from './server-problems.ts';

export interface PlanRequest {
  readonly rig: Rig;
  readonly situation: Situation;
  readonly question: Question;
  readonly marginPercent: number;
}

export interface PlanDesk {
  plan(request: PlanRequest, stopped: AbortSignal): Promise<Result<Answer>>;
  close(): Promise<void>;
}

export function deskInPlace(): PlanDesk {
  return {
    plan: async (r) => ask(r.rig, r.situation, r.question, { marginPercent: r.marginPercent }),
    close: async () => undefined,
  };
}

export function deskInThread(workerFile: string): PlanDesk {
  if (!existsSync(workerFile)) return deskInPlace();
  const running = new Set<Worker>();
  let idle: Worker | null = null;
  return {
    plan: (request, stopped) =>
      new Promise((done) => {
        const worker = idle ?? new Worker(workerFile);
        idle = null;
        running.add(worker);
        const end = (result: Result<Answer>, keep: boolean): void => {
          worker.removeAllListeners();
          stopped.removeEventListener('abort', onStop);
          running.delete(worker);
          if (keep && idle === null) idle = worker;
          else void worker.terminate();
          done(result);
        };
        const onStop = (): void => end(failed(serverProblem('PLAN_STOPPED', 'the plan was stopped')), false);
        stopped.addEventListener('abort', onStop);
        worker.once('message', (result: Result<Answer>) => end(result, true));
        worker.once('error', (e) => {
          process.stderr.write(`internal: ${e instanceof Error ? e.stack : String(e)}\n`);
          end(failed(serverProblem('PLAN_STOPPED', 'the planner ended unexpectedly')), false);
        });
        worker.unref();
        worker.postMessage(request);
      }),
    close: async () => {
      await Promise.all([...running, ...(idle ? [idle] : [])].map((w) => w.terminate()));
    },
  };
}
