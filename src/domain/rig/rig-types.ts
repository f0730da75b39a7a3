/**
 * The rig: what holds what, what is in the way, what stands under it. These types are the file format
 * `witnessmark-rig/1` word for word; `rig-check.ts` turns unknown JSON into a `Rig` or one Problem.
 *
 * Words: a part sits `within` an assembly (which is a part too); an attachment joins two or more parts; a block says
 * that one part is in another's way; a guard names parts that must not all be off together; a setup is how the aircraft
 * stands; a fact is something that only a person can settle; a look is something an inspector must see.
 */
export const RIG_FORMAT = 'witnessmark-rig/1';

export type Need =
  | { readonly all: readonly Need[] }
  | { readonly any: readonly Need[] }
  | { readonly released: string }
  | { readonly off: string }
  | { readonly apart: string }
  | { readonly done: string }
  | { readonly fact: string }
  | { readonly setup: string; readonly in: readonly string[] };

export type Hand = 'L' | 'R' | 'C';

export const ATTACHMENT_KINDS = [
  'bolted',
  'studs',
  'pinned',
  'threaded',
  'riveted',
  'welded',
  'bonded',
  'pressed',
  'splined',
  'meshed',
  'clamped',
  'line',
  'cable',
  'lashed',
  'other',
] as const;
export type AttachmentKind = (typeof ATTACHMENT_KINDS)[number];

export const LOSSES = ['none', 'consumable', 'irreversible'] as const;
export type Loss = (typeof LOSSES)[number];

/** Hazard kinds that must name what clears them; any other word may stand without and then asks for a person's word. */
export const GATED_HAZARDS = ['stored-energy', 'pressure'] as const;

/** A figure, or a figure with its doubt (half-width at about 95 %). The plain number is the common form. */
export type Figure = number | { readonly value: number; readonly plusMinus: number };

/** Metres aft, to the right and above the datum. A missing coordinate counts as 0. */
export interface Place {
  readonly x?: Figure;
  readonly y?: Figure;
  readonly z?: Figure;
}

export interface Hazard {
  readonly kind: string;
  readonly clearedBy?: Need;
  readonly note?: string;
}

export interface Part {
  readonly id: string;
  readonly name?: string;
  readonly within?: string;
  readonly hand?: Hand;
  readonly minutes?: number;
  readonly massKg?: Figure;
  readonly at?: Place;
  readonly needs?: Need;
  readonly hold?: Need;
  readonly note?: string;
  readonly source?: string;
}

export interface Attachment {
  readonly id: string;
  readonly name?: string;
  readonly joins: readonly string[];
  readonly kind?: AttachmentKind;
  readonly minutes?: number;
  readonly needs?: Need;
  readonly refit?: Need;
  readonly loss?: Loss;
  readonly disturbs?: readonly string[];
  readonly hazards?: readonly Hazard[];
  readonly asFound?: Readonly<Record<string, unknown>>;
  readonly asDecided?: Readonly<Record<string, unknown>>;
  readonly threadHand?: 'left' | 'right';
  readonly note?: string;
  readonly source?: string;
}

export interface Operation {
  readonly id: string;
  readonly name?: string;
  readonly on?: string;
  readonly minutes?: number;
  readonly needs?: Need;
  readonly only?: 'strip' | 'refit';
  readonly hazards?: readonly Hazard[];
  readonly note?: string;
  readonly source?: string;
}

export interface Block {
  readonly part: string;
  readonly by: string;
  readonly unless?: Need;
  readonly harm?: string;
  readonly source?: string;
}

export interface Guard {
  readonly notTogether: readonly string[];
  readonly unless?: Need;
  readonly harm?: string;
  readonly source?: string;
}

export interface SupportPoint {
  readonly id?: string;
  readonly name?: string;
  readonly on: string;
  readonly through?: readonly string[];
  readonly at?: Place;
  readonly limitKg?: number;
}

export interface ExtraLoad {
  readonly name?: string;
  readonly massKg: Figure;
  readonly at?: Place;
}

export interface Setup {
  readonly id: string;
  readonly name?: string;
  readonly states: readonly string[];
  readonly initial: string;
  readonly minutes?: number | Readonly<Record<string, number>>;
  readonly points?: Readonly<Record<string, readonly SupportPoint[]>>;
  readonly loads?: Readonly<Record<string, readonly ExtraLoad[]>>;
  readonly changeNeeds?: Readonly<Record<string, Need>>;
  readonly note?: string;
  readonly source?: string;
}

export interface Fact {
  readonly id: string;
  readonly name?: string;
  readonly given?: boolean;
  readonly note?: string;
  readonly source?: string;
}

export interface Look {
  readonly id: string;
  readonly name?: string;
  readonly on?: string;
  readonly visible?: Need;
  readonly whenFitted?: readonly string[];
  readonly people?: number;
  readonly note?: string;
  readonly source?: string;
}

export interface Rig {
  readonly format: typeof RIG_FORMAT;
  readonly name?: string;
  readonly invented?: boolean;
  readonly root: string;
  readonly parts: readonly Part[];
  readonly attachments: readonly Attachment[];
  readonly operations: readonly Operation[];
  readonly blocks: readonly Block[];
  readonly guards: readonly Guard[];
  readonly setups: readonly Setup[];
  readonly facts: readonly Fact[];
  readonly looks: readonly Look[];
}

/** An action as it is written everywhere: `j3` (release or operation), `remove:p1`, `set:support=jacks`. */
export type ActionId = string;

/** What is so now: what was done in recorded order, how it stands, what people have settled, signed and made. */
export interface Situation {
  readonly done: readonly ActionId[];
  /** Present state of setups that differ from `initial`. */
  readonly setups?: Readonly<Record<string, string>>;
  readonly facts?: readonly string[];
  readonly signed?: readonly string[];
  /** Refit-only operations made during the refit. */
  readonly made?: readonly string[];
}
