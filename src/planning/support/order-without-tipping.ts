/**
 * An order of the same steps in which no step falls under the margin, worst case over the doubt.
 *
 * Depth first. Steps that change no load are done as soon as they may be; where doing more never closes a door that
 * loses nothing, so a state is known by the heavy steps that are done, and a state that failed once is not entered
 * again. Where a door can close (setups that change, holds, guards) a second search keeps all steps apart. The answer
 * says whether it is proven that no order holds, or only that the budget ran out. Not chosen: sorting by arm, which
 * misses orders that the joints forbid, and an integer program, which is long for what is mostly a few dozen steps.
 *
 *   given order holds? -> quick search -> full search -> the order that goes longest, and what to put under it
 */
import type { ActionId, Rig, Situation } from '../../domain/rig/rig-types.ts';
import type { Tipping } from '../answers.ts';
import { DEFAULT_MARGIN_PERCENT, marginOf, proposalFor } from './margin.ts';
import { type AllowedNow, OrderSearch, type SearchEnd } from './order-search.ts';
import { firstTipping } from './plan-tips.ts';
import { type SupportModel, supportModelOf } from './support-model.ts';

export interface OrderOptions {
  readonly marginPercent?: number;
  /** States looked at before it gives up. */
  readonly nodeBudget?: number;
  /** Times that `allowed` is asked before it gives up. */
  readonly checkBudget?: number;
}

export type OrderAnswer =
  | { readonly kind: 'holds'; readonly order: readonly ActionId[] }
  | {
      readonly kind: 'tips';
      /** The order, of those met, that goes longest before it falls under the margin. */
      readonly order: readonly ActionId[];
      /** True: no order of these steps holds. False: the budget ran out before that was known. */
      readonly proven: boolean;
      readonly tipsAt: Tipping;
      readonly proposal: string;
    };

const NODES = 20_000;
const CHECKS = 200_000;

/** Doing more may close a door only through changing setups, holds and guards. */
function canCloseDoors(rig: Rig, steps: readonly ActionId[]): boolean {
  return (
    rig.guards.length > 0 || steps.some((s) => s.startsWith('set:')) || rig.parts.some((p) => p.hold !== undefined)
  );
}

/** Without a change of setup the last state is the same in every order; under the margin there, no order holds. */
function endsUnder(model: SupportModel, situation: Situation, steps: readonly ActionId[], percent: number): boolean {
  if (steps.some((s) => s.startsWith('set:'))) return false;
  if (!steps.some((s) => model.changesLoads(s))) return false;
  const walk = model.walk(situation);
  for (const s of steps) walk.apply(s);
  return marginOf(walk, percent).underMargin;
}

function longer(a: SearchEnd, b: SearchEnd): SearchEnd {
  return b.found !== null || b.longest.length > a.longest.length ? b : a;
}

/**
 * `allowed(done, action)`: whether the action may be done after `done`, which is all in recorded order: what the
 * situation says, then the steps taken so far. `steps` must be an allowed order themselves.
 */
export function orderWithoutTipping(
  rig: Rig,
  situation: Situation,
  steps: readonly ActionId[],
  allowed: AllowedNow,
  options: OrderOptions = {},
): OrderAnswer {
  const percent = options.marginPercent ?? DEFAULT_MARGIN_PERCENT;
  const model = supportModelOf(rig);
  const given = firstTipping(rig, situation, steps, percent);
  if (given === null) return { kind: 'holds', order: steps };
  const hopeless = endsUnder(model, situation, steps, percent);
  const search = new OrderSearch(model, situation, steps, allowed, {
    percent,
    nodes: options.nodeBudget ?? NODES,
    checks: options.checkBudget ?? CHECKS,
    hopeless,
  });
  const closing = canCloseDoors(rig, steps);
  let end = search.run('quick');
  let exhausted = end.exhausted && !closing;
  if (end.found === null && closing && !hopeless) {
    const full = search.run('full');
    exhausted = full.exhausted;
    end = longer(end, full);
  }
  const order = end.found ?? search.finish(end.longest) ?? steps;
  const tipsAt = firstTipping(rig, situation, order, percent);
  if (tipsAt === null) return { kind: 'holds', order };
  const walk = model.walk(situation);
  if (tipsAt.step !== null) for (const s of order.slice(0, order.indexOf(tipsAt.step) + 1)) walk.apply(s);
  const proven = tipsAt.step === null || hopeless || exhausted;
  return { kind: 'tips', order, proven, tipsAt, proposal: proposalFor(model, walk, tipsAt, percent) };
}
