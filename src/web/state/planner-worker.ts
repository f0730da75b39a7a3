/** The planner in its own thread, so that a slow plan never holds the page. Keeps the rig it was last given. */
import type { Rig } from '../../domain/rig/rig-types.ts';
import { answerAsk } from './planner-answers.ts';
import type { FromPlanner, Progress, ToPlanner } from './planner-talk.ts';

const TELL_EVERY_MS = 200;
let known: { readonly key: string; readonly rig: Rig } | null = null;

self.addEventListener('message', (e: MessageEvent<ToPlanner>) => {
  const { id, rigKey, rig, situation, ask } = e.data;
  if (rig) known = { key: rigKey, rig };
  if (known?.key !== rigKey)
    throw new Error('internal: the planner was asked about a rig it was never given; report it');
  let told = Date.now();
  const tell = (progress: Progress) => {
    const now = Date.now();
    if (now - told < TELL_EVERY_MS) return;
    told = now;
    self.postMessage({ id, progress } satisfies FromPlanner);
  };
  self.postMessage({ id, result: answerAsk(known.rig, situation, ask, tell) } satisfies FromPlanner);
});
