/**
 * Entry kinds: what was done, in recorded order. Actions are named as everywhere: `j3`, `remove:p1`; setups have their
 * own kind and stand in the order as `set:id=state`.
 */
import { z } from 'zod';
import { anId, aSubject, maybe, minutes, words } from './shared-shapes.ts';

/** First form, before it was noted whether a step followed the plan in both senses. Kept for old journals; never edit. */
export const stepDoneV1 = z.strictObject({
  action: aSubject,
  unplanned: maybe(z.boolean()),
  forced: maybe(z.boolean()),
  note: maybe(words),
  minutes: maybe(minutes),
});

export const stepDoneV2 = z.strictObject({
  action: aSubject,
  /** True: the plan named it; false: something else was done; null: nobody said. */
  planned: z.boolean().nullable(),
  /** Taken out again after a trial fit. */
  trial: maybe(z.literal(true)),
  /** Done against what hindered it; `harm` null: not noted. */
  forced: maybe(z.strictObject({ harm: words.nullable() })),
  note: maybe(words),
  minutes: maybe(minutes),
});

/** The record was wrong: the step did not happen. Putting a part back is `step-refitted`. */
export const stepUndoneV1 = z.strictObject({ action: aSubject, why: maybe(words) });

/** How far a joint or part is back. A trial fit must come out again; torque and safetying are two different ticks. */
export const REFIT_STAGES = ['trial', 'loose', 'final', 'torqued', 'safetied', 'seen'] as const;
export type RefitStage = (typeof REFIT_STAGES)[number];
export const stepRefittedV1 = z.strictObject({
  action: aSubject,
  stage: z.enum(REFIT_STAGES),
  note: maybe(words),
  minutes: maybe(minutes),
});

export const setupChangedV1 = z.strictObject({
  setup: anId,
  state: anId,
  planned: maybe(z.boolean()),
  note: maybe(words),
  minutes: maybe(minutes),
});

/** An operation that belongs to the refit only (`only: "refit"`). */
export const madeV1 = z.strictObject({ operation: anId, note: maybe(words), minutes: maybe(minutes) });
