/** Entry kinds: as-found details, readings, photographs, notes, and taking entries back. */
import { z } from 'zod';
import { aFoundValue, aHash, anEntryId, anSi, aSubject, maybe, words } from './shared-shapes.ts';

/** As-found details of a joint or part, aspect by aspect (`JOINT_ASPECTS` or any other word). */
export const jointNotedV1 = z.strictObject({
  subject: aSubject,
  aspects: z.record(z.string().min(1).max(80), aFoundValue),
  note: maybe(words),
});

/** A reading: the text as written beside SI, never instead of it. */
export const readingNotedV1 = z.strictObject({
  subject: aSubject,
  aspect: z.string().min(1).max(80),
  text: z.string().min(1).max(400),
  si: maybe(anSi),
  tool: maybe(z.string()),
  note: maybe(words),
});

/** A photograph in the job's folder. `takenAsWritten` is the camera's own text, never converted. */
export const photoTakenV1 = z.strictObject({
  hash: aHash,
  mime: z.enum(['image/jpeg', 'image/png', 'image/webp', 'image/avif']),
  bytes: z.number().int().positive(),
  width: z.number().int().positive(),
  height: z.number().int().positive(),
  takenAsWritten: maybe(z.string().max(80)),
  of: z.array(aSubject),
  caption: maybe(words),
});

export const noteV1 = z.strictObject({ subject: maybe(aSubject), text: words });

/** Takes an earlier entry back (docs/adr/0004). */
export const entryWithdrawnV1 = z.strictObject({ entry: anEntryId, why: maybe(words) });

/** Entries `from`..`to` were acknowledged and are gone; `hash` is the hash of the last lost one. Carrying on was decided. */
export const lossAcceptedV1 = z.strictObject({
  from: z.number().int().positive(),
  to: z.number().int().positive(),
  hash: aHash,
  note: maybe(words),
});
