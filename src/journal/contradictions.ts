/**
 * Where the record and the rig say different things: a step that was done although the rig, as known today, forbids it.
 * Either the rig is wrong or harm was done; a person settles it (`contradiction-settled`). Worked out on demand by replaying
 * the steps against `RigMeaning`, the one meaning of the rig; never inside the fold (docs/adr/0005).
 *
 * While the rig stays the same object and steps were only added, a further call looks at the new steps alone.
 */
import type { EntryId } from '../domain/ids.ts';
import { type Hindrance, RigMeaning } from '../domain/rig/rig-meaning.ts';
import type { ActionId, Rig } from '../domain/rig/rig-types.ts';
import type { DataOf } from './kinds/kinds.ts';
import type { Noted, Said, State, StepRecord } from './state.ts';

export interface Contradiction {
  /** The entry of the step; `contradiction-settled` names it. */
  readonly id: EntryId;
  readonly action: ActionId;
  readonly what: 'done' | 'refitted' | 'set';
  readonly forced: boolean;
  readonly hindrances: readonly Hindrance[];
  readonly said: Said;
  readonly settled: Noted<DataOf<'contradiction-settled'>> | null;
}

interface Replay {
  readonly meaning: RigMeaning;
  readonly seen: StepRecord[];
  readonly done: Set<ActionId>;
  readonly facts: Set<string>;
  states: Readonly<Record<string, string>>;
  readonly found: Omit<Contradiction, 'settled'>[];
}

const replays = new WeakMap<Rig, Replay>();

export function contradictions(state: State): readonly Contradiction[] {
  let replay = replays.get(state.rig);
  if (replay === undefined || !replay.seen.every((s, i) => state.steps[i] === s)) {
    replay = start(state.rig);
    replays.set(state.rig, replay);
  }
  for (const step of state.steps.slice(replay.seen.length)) take(replay, step);
  return replay.found.map((c) => ({ ...c, settled: state.contradictionsSettled.get(c.id) ?? null }));
}

/** Those that nobody has settled yet. */
export function openContradictions(state: State): readonly Contradiction[] {
  return contradictions(state).filter((c) => c.settled === null);
}

function start(rig: Rig): Replay {
  const meaning = new RigMeaning(rig);
  const world = meaning.start();
  return { meaning, seen: [], done: new Set(world.done), facts: new Set(world.facts), states: world.states, found: [] };
}

function take(r: Replay, step: StepRecord): void {
  r.seen.push(step);
  if (step.undone !== undefined) return;
  switch (step.what) {
    case 'done':
      if (!r.done.has(step.action)) judge(r, step, 'done');
      r.done.add(step.action);
      return;
    case 'refitted':
      if (step.stage === 'trial' || !r.done.delete(step.action)) return;
      judge(r, step, 'refitted');
      return;
    case 'set': {
      judge(r, step, 'set');
      const at = step.action.indexOf('=');
      r.states = { ...r.states, [step.action.slice(4, at)]: step.action.slice(at + 1) };
      return;
    }
    case 'made':
      r.done.add(step.action);
      return;
    case 'fact':
      r.facts.add(step.action);
      return;
    case 'fact-withdrawn':
      r.facts.delete(step.action);
      return;
    default:
      step.what satisfies never;
  }
}

function judge(r: Replay, step: StepRecord, what: Contradiction['what']): void {
  const world = { done: r.done, states: r.states, facts: r.facts };
  const hindrances = r.meaning.hindrances(step.action, world, what === 'refitted');
  if (hindrances.length === 0) return;
  r.found.push({
    id: step.said.entry,
    action: step.action,
    what,
    forced: step.forced !== undefined,
    hindrances,
    said: step.said,
  });
}
