/**
 * Shapes that several entry kinds share. Unknown fields are refused when an entry is made; what was recorded earlier is
 * kept whatever it holds. Rig elements are checked by the rig format's own reader, so there is one definition of them.
 */
import { z } from 'zod';
import { readRigShape } from '../../domain/rig/rig-read.ts';
import {
  type Attachment,
  type Block,
  type Fact,
  type Guard,
  type Look,
  type Operation,
  type Part,
  RIG_FORMAT,
  type Rig,
  type Setup,
} from '../../domain/rig/rig-types.ts';

/** An id as people and programs give it: not empty, at most 120 characters. */
export const anId = z.string().min(1).max(120);
/** A subject: whatever a note can be about (rig element, `remove:p`, line, position, piece, lot, `job`). */
export const aSubject = z.string().min(1).max(200);
export const words = z.string().min(1).max(10_000);
export const maybe = z.exactOptional;
export const aHash = z.string().regex(/^[0-9a-f]{64}$/);
export const anEntryId = z.string().regex(/^[0-7][0-9A-HJKMNP-TV-Z]{25}$/);
export const minutes = z.number().nonnegative().max(100_000);
export const aHand = z.enum(['L', 'R', 'C']);

/** Who says it: seen on this aircraft, told by others, or expected from the other side. */
export const STANDINGS = ['ours', 'told', 'expected'] as const;
export type StandingWord = (typeof STANDINGS)[number];
export const aStanding = z.enum(STANDINGS);

/**
 * A value as found. `none` (none was fitted), `not-looked`, `not-noted` and `unknown` are four different answers and
 * never an empty field. `text` is as written; `si` the same in SI, where it is a quantity.
 */
export const anSi = z.strictObject({
  value: z.number(),
  unit: z.string().max(40),
  plusMinus: maybe(z.number().nonnegative()),
});
export const aFoundValue = z.discriminatedUnion('is', [
  z.strictObject({ is: z.literal('value'), text: z.string().max(2_000), si: maybe(anSi) }),
  z.strictObject({ is: z.literal('none') }),
  z.strictObject({ is: z.literal('not-looked') }),
  z.strictObject({ is: z.literal('not-noted') }),
  z.strictObject({ is: z.literal('unknown') }),
]);
export type FoundValue = z.infer<typeof aFoundValue>;

/** What is usually asked about a joint while it comes apart; any other word is taken too. */
export const JOINT_ASPECTS = [
  'head-direction',
  'washer-stack',
  'shims',
  'thread',
  'thread-hand',
  'safetying',
  'clocking',
  'threads-showing',
  'cable-tension',
  'spring-length',
  'match-mark-old',
  'match-mark-ours',
] as const;

export interface RigElements {
  readonly part: Part;
  readonly attachment: Attachment;
  readonly operation: Operation;
  readonly block: Block;
  readonly guard: Guard;
  readonly setup: Setup;
  readonly fact: Fact;
  readonly look: Look;
}
export type RigElementKind = keyof RigElements;
export const RIG_ELEMENT_KINDS = [
  'part',
  'attachment',
  'operation',
  'block',
  'guard',
  'setup',
  'fact',
  'look',
] as const;

export const RIG_LISTS = {
  part: 'parts',
  attachment: 'attachments',
  operation: 'operations',
  block: 'blocks',
  guard: 'guards',
  setup: 'setups',
  fact: 'facts',
  look: 'looks',
} as const satisfies Record<RigElementKind, keyof Rig>;

/** A rig or a piece of one: every list may be absent. */
export type RigPiece = Partial<Omit<Rig, 'format'>> & { readonly format?: typeof RIG_FORMAT };

export const aRigPiece = z.custom<RigPiece>((value) => {
  if (typeof value !== 'object' || value === null) return false;
  return readRigShape({ format: RIG_FORMAT, root: 'airframe', ...value }).ok;
}, 'is not of the shape of a rig');

/** One element, checked by reading a rig that holds only it. Gives the message of what is wrong, or null. */
export function rigElementFault(what: RigElementKind, element: unknown): string | null {
  const read = readRigShape({ format: RIG_FORMAT, root: 'airframe', [RIG_LISTS[what]]: [element] });
  return read.ok ? null : `${read.problem.message} (${read.problem.where ?? what})`;
}
