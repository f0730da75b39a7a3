/**
 * Which states can be reached from the present ones while what is done stays as it is: a walk over combinations of
 * states. Also gives the shortest list of changes to a combination that suits.
 *
 * With very many setups the combinations are not listed; then every setup is walked by itself, a state need of another
 * setup counting as met when some reached state meets it.
 */
import { changeMinutes } from '../../domain/rig/rig-meaning.ts';
import type { RefitModel } from './refit-model.ts';
import type { World } from './world.ts';

const MOST_COMBINATIONS = 4096;

export interface Change {
  readonly setup: number;
  readonly state: number;
}

export type Reach = readonly Uint8Array[];

export function changeId(model: RefitModel, change: Change): string {
  const { setup } = model.setups[change.setup]!;
  return `set:${setup.id}=${setup.states[change.state]!}`;
}

export function sameReach(a: Reach, b: Reach): boolean {
  return a.every((set, s) => set.every((v, state) => v === b[s]![state]));
}

/** Is every state of `a` in `b` too? */
export function isWithin(a: Reach, b: Reach): boolean {
  return a.every((set, s) => set.every((v, state) => v === 0 || b[s]![state] === 1));
}

/** May this state be entered now? The world says how it stands. Guards are asked only where `withGuards` says so. */
export function mayEnter(world: World, { setup, state }: Change, withGuards = false): boolean {
  const rule = world.model.setups[setup]!;
  const from = rule.setup.states[world.states[setup]!]!;
  if (changeMinutes(rule.setup, from, rule.setup.states[state]!) === null) return false;
  if (rule.restsOn[state]!.some((node) => world.holds(node)) || !world.holds(rule.enter[state]!)) return false;
  return !withGuards || !breaksGuard(world, setup, state);
}

function breaksGuard(world: World, setup: number, state: number): boolean {
  if (world.model.guards.length === 0) return false;
  const before = world.model.guards.map((_, g) => world.isBroken(g));
  const was = world.states.slice();
  const then = was.slice();
  then[setup] = state;
  world.standAs(then);
  const breaks = before.some((broken, g) => !broken && world.isBroken(g));
  world.standAs(was);
  return breaks;
}

function each(world: World, visit: (change: Change) => void): void {
  world.model.setups.forEach(({ setup }, s) => {
    setup.states.forEach((_, state) => {
      if (state !== world.states[s]) visit({ setup: s, state });
    });
  });
}

/** Per setup and state: 1 where it can be reached. The world is left as it was. */
export function reachOf(world: World): Reach {
  const reach = world.model.setups.map(({ setup }) => new Uint8Array(setup.states.length));
  if (reach.length === 0) return reach;
  if (reach.reduce((n, set) => n * set.length, 1) > MOST_COMBINATIONS) return reachApart(world, reach);
  walkStates(world, false, () => {
    world.states.forEach((state, s) => {
      reach[s]![state] = 1;
    });
    return false;
  });
  return reach;
}

/** The fewest changes after which `suits` holds (asked with the world standing so), or null. */
export function changesTo(world: World, suits: () => boolean): readonly Change[] | null {
  return walkStates(world, true, suits);
}

interface Stop {
  readonly states: Int32Array;
  readonly by: Change | null;
  readonly from: Stop | null;
}

function walkStates(world: World, withGuards: boolean, suits: () => boolean): readonly Change[] | null {
  const start = world.states.slice();
  const seen = new Set([start.join()]);
  const queue: Stop[] = [{ states: start, by: null, from: null }];
  let found: Stop | null = null;
  for (let head = 0; head < queue.length && found === null && queue.length <= MOST_COMBINATIONS; head++) {
    const stop = queue[head]!;
    world.standAs(stop.states);
    if (suits()) found = stop;
    else
      each(world, (change) => {
        const then = stop.states.slice();
        then[change.setup] = change.state;
        if (seen.has(then.join()) || !mayEnter(world, change, withGuards)) return;
        seen.add(then.join());
        queue.push({ states: then, by: change, from: stop });
      });
  }
  world.standAs(start);
  if (found === null) return null;
  const changes: Change[] = [];
  for (let at: Stop | null = found; at?.by; at = at.from) changes.unshift(at.by);
  return changes;
}

function reachApart(world: World, reach: Reach): Reach {
  const start = world.states.slice();
  start.forEach((state, s) => {
    reach[s]![state] = 1;
  });
  for (let grew = true; grew; ) {
    grew = false;
    reach.forEach((set, s) => {
      for (let from = 0; from < set.length; from++) {
        if (set[from] === 0) continue;
        for (let to = 0; to < set.length; to++) {
          if (set[to] === 1) continue;
          world.states[s] = from;
          world.standAsAnyOf(reach);
          if (!mayEnter(world, { setup: s, state: to })) continue;
          set[to] = 1;
          grew = true;
        }
        world.states[s] = start[s]!;
      }
    });
  }
  world.standAs(start);
  return reach;
}
