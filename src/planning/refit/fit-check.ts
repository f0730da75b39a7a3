/**
 * Does an action fit now? The conditions of docs: with x taken out of what is done, its refit conditions and the hold
 * rule hold, no lifted assembly parts the ends of a joint, no guard is newly broken and every present state still
 * stands. A forced action has no conditions of its own; what speaks about the aircraft as it would then be still counts.
 */
import { REFIT, type RefitModel } from './refit-model.ts';
import type { World } from './world.ts';

/** `world` is how it is now, with x done (an operation of the refit: not yet made). It is left as it was. */
export function fitsNow(world: World, x: number, forced: boolean): boolean {
  const { model } = world;
  if (model.only[x] === 'refit') return world.done[x] === 0 && forwards(world, x);
  if (world.done[x] === 0 || model.only[x] === 'strip') return false;
  world.done[x] = 0;
  const fits =
    (forced || (world.meets(x, REFIT) && world.brokenHolds(x).length === 0)) &&
    (!model.isJoint(x) || world.partedBy(x) < 0) &&
    world.fallenStates().length === 0;
  world.done[x] = 1;
  return fits && world.guardsChanged(x, 'undone').length === 0;
}

function forwards(world: World, x: number): boolean {
  return world.meets(x, REFIT) && world.fallenStates().length === 0 && world.guardsChanged(x, 'done').length === 0;
}

export type InTheWay =
  | { readonly kind: 'condition'; readonly condition: RefitModel['conditions'][number][number] }
  | { readonly kind: 'hold'; readonly rule: number }
  | { readonly kind: 'parted'; readonly part: number }
  | { readonly kind: 'guard'; readonly guard: number }
  | { readonly kind: 'state'; readonly setup: number }
  | { readonly kind: 'not-done' }
  | { readonly kind: 'stays' }
  | { readonly kind: 'made' };

/** Everything that hinders x; empty when it fits. */
export function inTheWay(world: World, x: number, forced: boolean): readonly InTheWay[] {
  const { model } = world;
  const refit = model.only[x] === 'refit';
  if (refit && world.done[x] === 1) return [{ kind: 'made' }];
  if (!refit && model.only[x] === 'strip') return [{ kind: 'stays' }];
  if (!refit && world.done[x] === 0) return [{ kind: 'not-done' }];
  const found: InTheWay[] = [];
  if (!refit) world.done[x] = 0;
  if (!forced) {
    for (const condition of model.conditions[x]!) {
      if ((condition.reading & REFIT) !== 0 && !world.holds(condition.node))
        found.push({ kind: 'condition', condition });
    }
    if (!refit) for (const rule of world.brokenHolds(x)) found.push({ kind: 'hold', rule });
  }
  if (model.isJoint(x)) {
    for (const part of model.index.crossed[x]!) {
      if (world.done[model.lift(part)] === 1) found.push({ kind: 'parted', part });
    }
  }
  for (const setup of world.fallenStates()) found.push({ kind: 'state', setup });
  if (!refit) world.done[x] = 1;
  for (const guard of world.guardsChanged(x, refit ? 'done' : 'undone')) found.push({ kind: 'guard', guard });
  return found;
}
