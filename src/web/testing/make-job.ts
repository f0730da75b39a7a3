/** A job as the page sees it, made from entries like any other; for tests. */
import { makeUlid } from '../../domain/ids.ts';
import { must } from '../../domain/result.ts';
import type { Rig } from '../../domain/rig/rig-types.ts';
import { type Command, recording } from '../../journal/commands.ts';
import { decide } from '../../journal/decide.ts';
import { asPending } from '../../journal/entry.ts';
import { fold } from '../../journal/fold.ts';
import { EMPTY_STATE } from '../../journal/make-state.ts';
import type { State } from '../../journal/state.ts';
import type { JobView } from '../state/job-view.ts';
import { viewOf } from '../state/view-of.ts';

export function stateAfter(commands: readonly Command[], from: State = EMPTY_STATE): State {
  return commands.reduce((state, command, at) => {
    const chance = new Uint8Array(10);
    chance[8] = Math.floor((state.log.length + at) / 256);
    chance[9] = (state.log.length + at) % 256;
    const stamp = {
      id: makeUlid(1_763_424_000_000, chance),
      at: '2025-11-18T09:14:00+00:00',
      by: 'nadia',
      device: 'tablet',
    };
    return fold(must(decide(state, command, stamp)).map(asPending), state);
  }, from);
}

export function jobOf(rig: Rig, then: readonly Command[] = []): JobView {
  const state = stateAfter([
    recording('job-opened', { job: 'test', name: 'Test', invented: true }),
    recording('person-noted', { person: 'nadia', name: 'Nadia Quist-Fairweather', role: 'apprentice' }),
    { kind: 'take-in-rig', rig, standing: 'ours' },
    ...then,
  ]);
  return viewOf('test', state, 'nadia', 'tablet');
}
