/**
 * Asks the planner in its worker and tells how far it is. A newer question replaces the running one: a worker that is
 * still busy is ended and a fresh one started, which is also how a person stops a slow plan. The last answer to the
 * same question stays on the screen (marked as being looked at again) until the new one is there.
 */
import { useCallback, useEffect, useRef, useState } from 'react';
import type { Problem } from '../../domain/problem.ts';
import type { Result } from '../../domain/result.ts';
import type { Rig, Situation } from '../../domain/rig/rig-types.ts';
import type { Ask, FromPlanner, Progress, Reply, ToPlanner } from './planner-talk.ts';

export interface Plan<R extends Reply> {
  readonly reply: R | null;
  readonly problem: Problem | null;
  readonly working: boolean;
  readonly seconds: number;
  readonly progress: Progress | null;
  readonly stopped: boolean;
  readonly stop: () => void;
  readonly again: () => void;
}

interface Question {
  readonly rig: Rig;
  readonly rigKey: string;
  readonly situation: Situation;
}

export function usePlan<R extends Reply>(question: Question | null, ask: Ask | null): Plan<R> {
  const [reply, setReply] = useState<R | null>(null);
  const [problem, setProblem] = useState<Problem | null>(null);
  const [working, setWorking] = useState(false);
  const [stopped, setStopped] = useState(false);
  const [seconds, setSeconds] = useState(0);
  const [progress, setProgress] = useState<Progress | null>(null);
  const [round, setRound] = useState(0);
  const planner = useRef<PlannerLine | null>(null);
  const askKey = ask === null ? '' : JSON.stringify(ask);
  const lastKey = useRef('');

  // biome-ignore lint/correctness/useExhaustiveDependencies: `ask` is compared by its text; `round` asks again
  useEffect(() => {
    if (question === null || ask === null) {
      setReply(null);
      setProblem(null);
      setWorking(false);
      lastKey.current = '';
      return;
    }
    if (lastKey.current !== askKey) {
      setReply(null);
      setProblem(null);
    }
    lastKey.current = askKey;
    planner.current ??= new PlannerLine();
    setWorking(true);
    setStopped(false);
    setSeconds(0);
    setProgress(null);
    let current = true;
    planner.current
      .ask(question, ask, (p) => current && setProgress(p))
      .then((result) => {
        if (!current) return;
        setWorking(false);
        if (result.ok) {
          setReply(result.value as R);
          setProblem(null);
        } else {
          setReply(null);
          setProblem(result.problem);
        }
      });
    return () => {
      current = false;
    };
  }, [question?.rigKey, question?.situation, askKey, round]);

  useEffect(() => {
    if (!working) return;
    const tick = setInterval(() => setSeconds((s) => s + 1), 1000);
    return () => clearInterval(tick);
  }, [working]);
  useEffect(() => () => planner.current?.end(), []);

  const stop = useCallback(() => {
    planner.current?.end();
    setWorking(false);
    setStopped(true);
  }, []);
  const again = useCallback(() => setRound((n) => n + 1), []);
  return { reply, problem, working, seconds, progress, stopped, stop, again };
}

function newWorker(): Worker {
  return new Worker(new URL('./planner-worker.ts', import.meta.url), { type: 'module' });
}

/** A worker that is loading while the page fetches the job, so that the first plan does not wait for it. */
let spare: Worker | null = null;
export function warmPlanner(): void {
  spare ??= newWorker();
}

/** One worker and the question it is busy with. */
class PlannerLine {
  private worker: Worker | null = null;
  private busy = false;
  private nextId = 1;
  private rigKey = '';
  private settle: ((id: number, r: Result<Reply>) => void) | null = null;
  private tell: ((p: Progress) => void) | null = null;

  ask(question: Question, ask: Ask, tell: (p: Progress) => void): Promise<Result<Reply>> {
    this.tell = tell;
    if (this.busy) this.end();
    const worker = (this.worker ??= this.start());
    const id = this.nextId++;
    const hasRig = this.rigKey === question.rigKey;
    this.rigKey = question.rigKey;
    this.busy = true;
    const message: ToPlanner = {
      id,
      rigKey: question.rigKey,
      situation: question.situation,
      ask,
      ...(hasRig ? {} : { rig: question.rig }),
    };
    worker.postMessage(message);
    return new Promise((resolve) => {
      this.settle = (answered, result) => {
        if (answered !== id) return;
        this.busy = false;
        resolve(result);
      };
    });
  }

  end(): void {
    this.worker?.terminate();
    this.worker = null;
    this.busy = false;
    this.rigKey = '';
  }

  private start(): Worker {
    const worker = spare ?? newWorker();
    spare = null;
    worker.addEventListener('message', (e: MessageEvent<FromPlanner>) => {
      if ('result' in e.data) this.settle?.(e.data.id, e.data.result);
      else this.tell?.(e.data.progress);
    });
    worker.addEventListener('error', (e) => {
      const problem = {
        code: 'PLANNER_STOPPED',
        message: `The planner stopped: ${e.message}`,
        remedy: 'Ask again; when it stops again, report it with the rig.',
      };
      this.settle?.(this.nextId - 1, { ok: false, problem });
    });
    return worker;
  }
}
