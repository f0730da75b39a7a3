/** Entry kinds: sounds, repeated measurements, grids, dial tables, datums, drawings of the user's own and pins on them. */
import { z } from 'zod';
import { aPin } from './custody-kinds.ts';
import { aHash, anEntryId, anId, anSi, aSubject, maybe, words } from './shared-shapes.ts';

const asWritten = z.string().min(1).max(400);
const aspect = z.string().min(1).max(80);
/** One cell of a table: the text as written, or null where nobody measured. */
const cell = z.string().max(80).nullable();
const cells = z.array(z.array(cell).max(400)).min(1).max(400);

function rectangular(rows: readonly (readonly unknown[])[], wide: number | null): boolean {
  const width = wide ?? rows[0]?.length ?? 0;
  return width > 0 && rows.every((r) => r.length === width);
}

/** Kept as sound. A transcript is optional and says whether a machine made it. */
export const soundKeptV1 = z.strictObject({
  hash: aHash,
  mime: z.enum(['audio/webm', 'audio/ogg', 'audio/mp4', 'audio/wav', 'audio/mpeg']),
  bytes: z.number().int().positive(),
  seconds: maybe(z.number().nonnegative()),
  of: z.array(aSubject),
  transcript: maybe(z.strictObject({ text: words, machine: z.boolean() })),
});

/** One thing measured, every repeat kept. */
export const measuredV1 = z.strictObject({
  subject: aSubject,
  aspect,
  readings: z
    .array(z.strictObject({ text: asWritten, si: maybe(anSi) }))
    .min(1)
    .max(200),
  instrument: maybe(asWritten),
  temperature: maybe(asWritten),
  at: maybe(asWritten),
  note: maybe(words),
});

/** Thickness read square by square, laid over a photograph by its four corners (clockwise from upper left). */
export const thicknessNotedV1 = z
  .strictObject({
    subject: aSubject,
    photo: maybe(aHash),
    corners: maybe(z.array(z.tuple([z.number(), z.number()])).length(4)),
    /** Side of a square, as written: `20 mm`. */
    step: asWritten,
    unit: z.string().min(1).max(20),
    nominal: maybe(asWritten),
    readings: cells,
    instrument: maybe(asWritten),
    note: maybe(words),
  })
  .refine((d) => rectangular(d.readings, null), 'every row has as many squares as the first');

/** Dial readings round a shaft: rows are stations, columns are angles in degrees. */
export const dialNotedV1 = z
  .strictObject({
    subject: aSubject,
    stations: z.array(asWritten).min(1).max(400),
    angles: z.array(z.number()).min(2).max(400),
    /** What one unit of a reading is: `0.01 mm`. */
    unit: asWritten,
    readings: cells,
    supports: maybe(z.array(asWritten)),
    instrument: maybe(asWritten),
    note: maybe(words),
  })
  .refine(
    (d) => d.readings.length === d.stations.length && rectangular(d.readings, d.angles.length),
    'has one row for each station and one column for each angle',
  );

export const DATUM_SORTS = ['level', 'diagonal', 'droop', 'gap', 'incidence', 'other'] as const;
/** Datum readings before the strip and after, two readings each where there was time. */
export const datumReadV1 = z.strictObject({
  datum: anId,
  sort: z.enum(DATUM_SORTS),
  when: z.enum(['before', 'after']),
  readings: z
    .array(z.strictObject({ text: asWritten, si: maybe(anSi) }))
    .min(1)
    .max(20),
  instrument: maybe(asWritten),
  note: maybe(words),
});

/** A drawing or photograph of the user's own, on which pins can be set. */
export const sheetAddedV1 = z.strictObject({ sheet: anId, name: words, photo: aHash, group: maybe(anId) });
/** Where a thing sits on a sheet. The last one for the same subject and sheet holds. */
export const pinSetV1 = z.strictObject({
  subject: aSubject,
  pin: aPin,
  station: maybe(asWritten),
  height: maybe(asWritten),
  note: maybe(words),
});

/** What was tried on a stuck part, gentle things first. */
export const triedV1 = z.strictObject({
  stuck: anEntryId,
  method: words,
  helped: z.enum(['yes', 'no', 'not-yet-known']),
  note: maybe(words),
});
/** It is not stuck any more. The block that "stuck" added stays until the rig is stated otherwise. */
export const freedV1 = z.strictObject({ stuck: anEntryId, note: maybe(words) });
