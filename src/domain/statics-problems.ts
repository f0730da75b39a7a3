/** Codes of the statics of masses on supports: what each means and what can be done. */
import type { ProblemList } from './problem.ts';

export const STATICS_PROBLEMS = {
  SUPPORT_NO_POINTS: {
    meaning: 'No support point was given.',
    remedy: 'Give at least one point with its arm.',
  },
  SUPPORT_NO_WEIGHT: {
    meaning: 'Nothing with a mass rests on the points.',
    remedy: 'Give the mass and arm of at least the airframe.',
  },
  SUPPORT_NOT_FINITE: {
    meaning: 'A mass, arm, doubt or limit is not a finite number.',
    remedy: 'Correct the figure that is named.',
  },
  SUPPORT_NEGATIVE: {
    meaning: 'A mass, doubt or limit is below nought.',
    remedy: 'Leave out what was taken off, instead of giving it a negative mass.',
  },
  SUPPORT_POINT_REPEATED: {
    meaning: 'Two support points have the same name.',
    remedy: 'Name each point once.',
  },
  SUPPORT_POINTS_COINCIDE: {
    meaning: 'All support points lie on one spot, so that nothing shares the load between them.',
    remedy: 'Give the arms (x, and y where they stand left and right) of the points.',
  },
  SUPPORT_POINTS_IN_LINE: {
    meaning: 'Three or more points lie in one line and the weight lies beside it: nothing holds it up sideways.',
    remedy: 'Give the sideways arms (y) of the points, or add a point off the line.',
  },
} as const satisfies ProblemList;
