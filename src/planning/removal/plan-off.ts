/**
 * "What is the least I must undo to get this off": the cheapest set and order of actions after which the goal holds.
 * Goal and situation have been read by `rig-check.ts`. The compiled rig is kept as long as the rig itself lives.
 */
import type { Result } from '../../domain/result.ts';
import type { Need, Rig, Situation } from '../../domain/rig/rig-types.ts';
import type { OffAnswer } from '../answers.ts';
import { type OffOptions, Planner, type ProvenOff } from './planner.ts';

const planners = new WeakMap<Rig, Planner>();

export function plannerOf(rig: Rig): Planner {
  let planner = planners.get(rig);
  if (!planner) planners.set(rig, (planner = new Planner(rig)));
  return planner;
}

export function planOff(rig: Rig, situation: Situation, goal: Need, options: OffOptions = {}): Result<OffAnswer> {
  return plannerOf(rig).off(situation, goal, options);
}

/** The same with what a reader needs to check it again. */
export function planOffProven(rig: Rig, situation: Situation, goal: Need, options: OffOptions = {}): Result<ProvenOff> {
  return plannerOf(rig).offProven(situation, goal, options);
}
