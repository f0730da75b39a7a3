/** Codes of the question "will it tip". */
import type { ProblemList } from '../../domain/problem.ts';

export const SUPPORT_PLAN_PROBLEMS = {
  TIPS_UNKNOWN_ACTION: {
    meaning: 'An action that was given does not exist in the rig.',
    remedy: 'Write it as in the steps of a plan: j3, remove:p1, set:support=jacks.',
  },
  TIPS_MARGIN: {
    meaning: 'The margin is not a share of the weight.',
    remedy: 'Give the margin in per cent, from 0 to less than 50.',
  },
} as const satisfies ProblemList;
