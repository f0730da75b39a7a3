/** Codes of this folder, for `docs/errors.md`. */
import type { ProblemList } from '../problem.ts';

export const RIG_PROBLEMS = {
  RIG_FORMAT: {
    meaning: 'The file does not say `"format": "witnessmark-rig/1"`, or is of a newer format.',
    remedy: 'Check that this is a rig file; for a newer one use a newer program.',
  },
  RIG_SHAPE: {
    meaning: 'A field is missing, of the wrong kind, or out of its range.',
    remedy: 'Mend the field at the place named; `docs/rig-format.md` lists every field.',
  },
  RIG_UNKNOWN_KEY: {
    meaning: 'A field has a name that the format does not know.',
    remedy: 'Correct the spelling or take the field out; nothing is ignored in silence.',
  },
  RIG_ID: {
    meaning: 'An id is empty, holds `:` or `=`, or is used twice.',
    remedy: 'Give every part, joint, operation, setup, look and fact an id of its own.',
  },
  RIG_UNKNOWN_ID: {
    meaning: 'Something is referred to that the rig does not declare.',
    remedy: 'Declare it, or correct the reference.',
  },
  RIG_WITHIN: {
    meaning: '`within` loops, stands on the root, or names the root.',
    remedy: 'Leave `within` out for parts that sit directly on the root.',
  },
  RIG_JOINT_ENDS: {
    meaning: 'An attachment has fewer than two different ends.',
    remedy: 'Name at least two different parts in `joins`.',
  },
  RIG_BLOCK: {
    meaning: 'A block by or of the root has no `unless`, or stands between a part and one inside it.',
    remedy: 'Say what clears it with `unless`, or write it as a `needs`.',
  },
  RIG_OWN_DOING: {
    meaning: 'A need can hold only after the very thing that needs it.',
    remedy: 'Take the circle out of the need.',
  },
  RIG_HAZARD: {
    meaning: 'Stored energy or pressure does not say what clears it.',
    remedy: 'Add `clearedBy`: an operation that lets the energy out, or a fact that only a person can settle.',
  },
  RIG_ACTION: {
    meaning: 'An action is named that the rig does not have, or that cannot be recorded in that place.',
    remedy: 'Name actions as in the steps: `j3`, `remove:p1`, `set:support=jacks`.',
  },
} as const satisfies ProblemList;
export type RigProblemCode = keyof typeof RIG_PROBLEMS;
