/** The planner in its own thread, so that a slow plan never holds the page. Keeps the rig it was last given. */
import type { Rig } from '../../domain/rig/rig-types.ts';
import { answerAsk } from './planner-answers.ts';
import type { FromPlanner, ToPlanner } from './planner-talk.ts';

const rigs = new Map<string, Rig>();

self.addEventListener('message', (e: MessageEvent<ToPlanner>) => {
  const { id, rigKey, rig, situation, ask } = e.data;
  if (rig) {
    rigs.clear();
    rigs.set(rigKey, rig);
  }
  const known = rigs.get(rigKey);
  if (!known) throw new Error('internal: the planner was asked about a rig it was never given; report it');
  const reply: FromPlanner = { id, result: answerAsk(known, situation, ask) };
  self.postMessage(reply);
});
