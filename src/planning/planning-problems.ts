/** Codes of the planner's questions about taking apart, for `docs/errors.md`. */
import type { ProblemList } from '../domain/problem.ts';

export const PLANNING_PROBLEMS = {
  NO_WAY_OFF: {
    meaning:
      'No order of allowed actions leads to the goal; the message names what can never be met, or what is waited for.',
    remedy: 'Settle what is named (measure it, record it, correct the rig), then ask again.',
  },
  NO_WAY_YET: {
    meaning: 'The budget ran out before a way was found or excluded.',
    remedy: 'Ask again with a larger budget, or for a nearer goal.',
  },
  PLAN_TOO_LARGE: {
    meaning: 'Minutes, settings and irreversible actions together are too large to be compared exactly.',
    remedy: 'Check the minutes of the rig, or ask for a part of the goal.',
  },
  SEQUENCE_ORDER: {
    meaning: 'A given order does a step before one that has to come first.',
    remedy: 'Move the step that is named behind the one it needs.',
  },
  COUNT_TOO_LARGE: {
    meaning: 'There are more feasible sets than can be counted one by one.',
    remedy: 'Ask about a smaller rig, or count only the parts that matter.',
  },
} as const satisfies ProblemList;
export type PlanningProblemCode = keyof typeof PLANNING_PROBLEMS;
