/** The exact removal core, as other folders use it. */
export { checkCertificate } from './check-certificate.ts';
export { landmarks } from './landmarks.ts';
export { minimise } from './minimise.ts';
export type {
  Certificate,
  CoreAnswer,
  CoreOptions,
  CoreProblem,
  CoreProgress,
  Cut,
  Prices,
  ProofNode,
  ProofPart,
} from './problem-types.ts';
export { GOAL } from './problem-types.ts';
export { closure, orderOf, reachesGoal } from './reach.ts';
export { solveCore } from './solve-core.ts';
