/**
 * How far the aircraft can go back together while one part is away: what has been done, without the cheapest plan for
 * that part alone. Only what really has been done counts as a plan here; nothing new is asked to be undone.
 */
import { failed, ok, type Result } from '../../domain/result.ts';
import type { ActionId, Rig, Situation } from '../../domain/rig/rig-types.ts';
import { Moment } from '../rig-model/moment.ts';
import { plannerOf } from './plan-off.ts';
import { type OffOptions, searchOptions } from './planner.ts';
import { Question } from './question.ts';
import { findPlan } from './search.ts';
import { moveIds } from './ways.ts';

export interface Rebuild {
  /** Must stay as it is while the part is away; in an order in which it could have been done. */
  readonly stays: readonly ActionId[];
  /** Can be put back; in recorded order. */
  readonly putBack: readonly ActionId[];
  /** Minutes of what stays, as taken apart. */
  readonly cost: number;
}

export function furthestRebuild(
  rig: Rig,
  situation: Situation,
  part: string,
  options: OffOptions = {},
): Result<Rebuild> {
  const planner = plannerOf(rig);
  const { model } = planner;
  const complete = {
    done: [],
    ...(situation.facts && { facts: situation.facts }),
    ...(situation.made && { made: situation.made }),
  };
  const goal = model.need({ apart: part }, [model.places.root]);
  const q = new Question(model, Moment.of(model, complete), goal);
  const done = new Set(situation.done);
  const acts = Uint8Array.from({ length: q.size }, (_, a) => (done.has(q.id(a)) ? 0 : 1));
  const found = findPlan(q, {
    ...searchOptions(options),
    without: { acts, changes: new Uint8Array(q.changes.length) },
  });
  if (found.kind !== 'plan') return failed(planner.noPlan(q, goal, found, options));
  const stays = moveIds(q, found.moves).filter((id) => !id.startsWith('set:'));
  const kept = new Set(stays);
  const stripOnly = new Set(rig.operations.filter((o) => o.only === 'strip').map((o) => o.id));
  const putBack = situation.done.filter((a) => !a.startsWith('set:') && !kept.has(a) && !stripOnly.has(a));
  return ok({ stays, putBack, cost: stays.reduce((sum, id) => sum + model.minutes(model.find(id)!), 0) });
}
