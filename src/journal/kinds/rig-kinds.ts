/**
 * Entry kinds that say what the rig is. They carry the elements themselves, never a rule for making them: what was
 * recorded must read the same when the code has changed.
 */
import { z } from 'zod';
import {
  anEntryId,
  anId,
  aRigPiece,
  aStanding,
  aSubject,
  maybe,
  RIG_ELEMENT_KINDS,
  rigElementFault,
  words,
} from './shared-shapes.ts';

export const rigTakenInV1 = z.strictObject({
  rig: aRigPiece,
  standing: aStanding,
  source: maybe(words),
  note: maybe(words),
});

/**
 * One statement about the rig: (subject `what`+`id`, aspect). Without `aspect` the value is the whole element; null
 * takes it away. With `aspect` it is one field of it. The last one holds.
 */
export const rigStatedV1 = z
  .strictObject({
    what: z.enum(RIG_ELEMENT_KINDS),
    id: anId,
    aspect: maybe(z.string().min(1)),
    value: z.json(),
    standing: maybe(aStanding),
    source: maybe(words),
    reason: maybe(words),
  })
  .superRefine((d, ctx) => {
    if (d.aspect !== undefined || d.value === null) return;
    const fault = rigElementFault(d.what, d.value);
    if (fault !== null) ctx.addIssue({ code: 'custom', message: fault, path: ['value'] });
  });

/** The other side, as expected: `rig` holds what was mirrored; `gains` are needs that centre things gain. */
export const mirroredV1 = z.strictObject({
  assembly: anId,
  from: z.enum(['L', 'R']),
  to: z.enum(['L', 'R']),
  rig: aRigPiece,
  gains: maybe(
    z.array(z.strictObject({ what: z.enum(['part', 'attachment', 'operation', 'look']), id: anId, value: z.json() })),
  ),
  note: maybe(words),
});

/** Seen on this aircraft, on this side: expected or told becomes ours. */
export const seenOnThisSideV1 = z.strictObject({ subject: aSubject, note: maybe(words) });

export const CONTRADICTION_ENDS = ['rig-is-wrong', 'harm-was-done', 'record-is-wrong', 'was-all-right'] as const;

/** Settles what `contradictions(state)` names; `contradiction` is its id (the entry of the step). */
export const contradictionSettledV1 = z.strictObject({
  contradiction: anEntryId,
  end: z.enum(CONTRADICTION_ENDS),
  note: maybe(words),
});
