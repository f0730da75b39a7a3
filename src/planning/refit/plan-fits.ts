/** All of `fits` for one situation; `options.action` asks about one action, also when it does not fit. */
import type { Result } from '../../domain/result.ts';
import type { Rig, Situation } from '../../domain/rig/rig-types.ts';
import type { FitsAnswer } from '../answers.ts';
import { type FitsOptions, RefitPlanner } from './refit-planner.ts';

export function planFits(rig: Rig, situation: Situation, options: FitsOptions = {}): Result<FitsAnswer> {
  return new RefitPlanner(rig).fits(situation, options);
}
