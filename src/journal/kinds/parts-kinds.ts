/** Entry kinds: part lines, positions, pieces, lots (docs/adr/0002). Noting the same id again replaces what was said. */
import { z } from 'zod';
import { aHand, anId, anSi, maybe, words } from './shared-shapes.ts';

export const partLineNotedV1 = z.strictObject({
  line: anId,
  name: words,
  number: maybe(z.string()),
  quantity: maybe(z.number().int().nonnegative()),
  material: maybe(z.string()),
  group: maybe(z.string()),
  source: maybe(z.string()),
  note: maybe(words),
});

export const positionNotedV1 = z.strictObject({
  position: anId,
  line: maybe(anId),
  name: maybe(words),
  hand: maybe(aHand),
  /** The rig part or joint that sits here. */
  rig: maybe(anId),
  station: maybe(z.string()),
  note: maybe(words),
});

export const pieceNotedV1 = z.strictObject({
  piece: anId,
  name: maybe(words),
  line: maybe(anId),
  position: maybe(anId),
  hand: maybe(aHand),
  number: maybe(z.string()),
  /** Who has it now: a person, an outside shop. */
  custodian: maybe(z.string()),
  place: maybe(z.string()),
  state: maybe(z.string()),
  mass: maybe(anSi),
  note: maybe(words),
});

/** Counted hardware in one bag. `count` null: not counted yet, which is not zero. */
export const lotNotedV1 = z.strictObject({
  lot: anId,
  what: words,
  count: z.number().int().nonnegative().nullable(),
  /** The joint or part it belongs to. */
  of: maybe(anId),
  place: maybe(z.string()),
  custodian: maybe(z.string()),
  note: maybe(words),
});
