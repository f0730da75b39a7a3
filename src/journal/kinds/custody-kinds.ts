/**
 * Entry kinds: bags, places, and who holds what (docs/adr/0011). A thing is a piece or a counted lot; it lies in a bag, at a
 * place, with somebody or on the aircraft, and in one of these only. A bag carries what is in it.
 */
import { z } from 'zod';
import { isBagCode } from '../../domain/bag-code.ts';
import { aHand, aHash, anEntryId, anId, aSubject, maybe, words } from './shared-shapes.ts';

export const aBag = z.string().refine((t): boolean => isBagCode(t), 'is not a bag code');
const aCount = z.number().int().positive().max(1_000_000);
const unit = z.number().min(0).max(1);

/** A point on a drawing sheet or photograph, in parts of its width and height. */
export const aPin = z.strictObject({ sheet: anId, x: unit, y: unit });

/**
 * Where a thing goes. `place`: shelf or rack; `custodian`: a person or a shop outside; `bag`; `position`: back on the
 * aircraft. Exactly one of them says where; `place` may stand beside `custodian`.
 */
export const aWhere = z
  .strictObject({ place: maybe(anId), custodian: maybe(anId), bag: maybe(aBag), position: maybe(anId) })
  .refine((w) => {
    const ways = [w.bag, w.position].filter((x) => x !== undefined).length;
    const loose = w.place !== undefined || w.custodian !== undefined;
    return ways + (loose ? 1 : 0) === 1;
  }, 'says in one way where it goes: a bag, a position, or a place and who holds it');

/** The one gesture: this came off, into this bag. Filling a bag again adds to what is said. */
export const baggedV1 = z.strictObject({
  bag: aBag,
  /** The code was used for the first time. Twice by different people is a clash and is shown. */
  opens: maybe(z.boolean()),
  of: maybe(z.array(aSubject)),
  /** Pieces and lots put in. */
  things: maybe(z.array(anId)),
  hand: maybe(aHand),
  pin: maybe(aPin),
  place: maybe(anId),
  note: maybe(words),
});

/** A bag, piece or lot goes somewhere. */
export const movedV1 = z.strictObject({ what: anId, to: aWhere, note: maybe(words) });

/** `count` pieces leave `lot` and are a lot of their own, where they are put. */
export const lotSplitV1 = z.strictObject({
  lot: anId,
  into: anId,
  count: aCount,
  to: maybe(aWhere),
  note: maybe(words),
});
/** All of `lot` goes into `into`; `lot` is empty then. */
export const lotsJoinedV1 = z.strictObject({ lot: anId, into: anId, note: maybe(words) });

/** Counted again. A difference stays visible until somebody says what became of it. */
export const countedV1 = z.strictObject({
  lot: anId,
  count: z.number().int().nonnegative(),
  how: maybe(z.enum(['by-hand', 'by-weight', 'on-photograph'])),
  note: maybe(words),
});
export const differenceExplainedV1 = z.strictObject({ difference: anEntryId, what: words });

/**
 * Robbed: a thing of one aircraft goes to another of the shop. Two entries with one `transfer`: `out` in the giving job,
 * `in` in the taking one. `owed`: it, or its like, is to come back.
 */
export const robbedV1 = z.strictObject({
  transfer: anId,
  way: z.enum(['out', 'in']),
  thing: anId,
  count: maybe(aCount),
  /** The other job. */
  job: anId,
  name: maybe(words),
  position: maybe(anId),
  owed: maybe(z.boolean()),
  bag: maybe(aBag),
  why: maybe(words),
});
/** What was robbed goes back: `out` in the job that has had it, `in` in the job that gave it. */
export const robbedReturnedV1 = z.strictObject({
  transfer: anId,
  way: z.enum(['out', 'in']),
  count: maybe(aCount),
  note: maybe(words),
});

/** A shelf, rack or corner of the shop; on the photograph of a wall, the box (left, top, width, height, in parts). */
export const placeNotedV1 = z.strictObject({
  place: anId,
  name: maybe(words),
  kind: maybe(z.enum(['shelf', 'rack', 'quarantine', 'bench', 'box', 'outside', 'other'])),
  wall: maybe(z.strictObject({ photo: aHash, box: z.tuple([unit, unit, unit, unit]) })),
  note: maybe(words),
});

/** Numbers `from`..`to` of the shop's series belong to a device or a pre-printed roll. */
export const bagsSetAsideV1 = z
  .strictObject({ from: aCount, to: aCount, for: anId, roll: maybe(z.boolean()) })
  .refine((d) => d.to >= d.from, 'ends before it begins');

/** Kept together as a set: matched pieces, hardware of one joint. Sets that share a member are one set. */
export const goesWithV1 = z.strictObject({ members: z.array(aSubject).min(2), why: maybe(words) });

/** Tools, rags, lamps, phones: how many went into a bay, how many came out. */
export const countedInsideV1 = z.strictObject({
  zone: aSubject,
  way: z.enum(['in', 'out']),
  items: z.array(z.strictObject({ what: words, count: aCount })).min(1),
  note: maybe(words),
});

export const TAG_WORDS = ['open', 'do-not-clean', 'quarantine', 'hazard'] as const;
/** A tag that hangs on the thing itself. */
export const taggedV1 = z.strictObject({ subject: aSubject, tag: z.enum(TAG_WORDS), says: maybe(words) });
export const tagTakenOffV1 = z.strictObject({ tag: anEntryId, note: maybe(words) });
