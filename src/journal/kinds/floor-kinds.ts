/** Entry kinds: what is said in two taps on the floor. */
import { z } from 'zod';
import { aHash, anEntryId, anId, aSubject, maybe, words } from './shared-shapes.ts';

/** Stuck: `part` cannot come because of `by`: adds a block. With only `action` it is a mark on the action. */
export const stuckV1 = z
  .strictObject({ action: maybe(aSubject), part: maybe(anId), by: maybe(anId), harm: maybe(words), note: maybe(words) })
  .refine((d) => d.action !== undefined || d.part !== undefined, 'needs action or part');

/** `action` had to come off before `before` could: adds a need to `before`. */
export const cameOffFirstV1 = z.strictObject({ action: aSubject, before: aSubject, note: maybe(words) });

/** Nothing is behind or fitted here; somebody looked. */
export const nothingHereV1 = z.strictObject({ subject: aSubject, note: maybe(words) });

/** Left half done (a nut finger-tight). Stays on top of everything until cleared. */
export const stoppedHereV1 = z.strictObject({
  subject: aSubject,
  state: words,
  photo: maybe(aHash),
  note: maybe(words),
});
export const stopClearedV1 = z.strictObject({ stop: anEntryId, note: maybe(words) });

/** Damage that we did ourselves. It gets an honest entry of its own. */
export const ourDamageV1 = z.strictObject({
  subject: aSubject,
  what: words,
  photos: maybe(z.array(aHash)),
  step: maybe(aSubject),
});
