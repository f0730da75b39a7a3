/**
 * The part of the state that says where things are and what was caught on the floor. Read it through `custody.ts`; the
 * maps here are what the fold keeps.
 *
 * Every thing has one `Where` by construction. Counts of hardware are kept as a balance for each family of lots (all that
 * came from one first lot): known counts now = first + differences - out + in, whatever was recorded in which order. A
 * count below nothing is not hidden but shown, since two people may have split the same lot while apart.
 */
import type { EntryId } from '../domain/ids.ts';
import type { DataOf } from './kinds/kinds.ts';
import type { Noted, Said } from './state.ts';

export type Where =
  | { readonly is: 'bag'; readonly bag: string }
  | { readonly is: 'position'; readonly position: string }
  /** In the shop or with somebody; a place that nobody said is absent. */
  | { readonly is: 'held'; readonly place?: string; readonly custodian?: string }
  /** With another aircraft of the shop. */
  | { readonly is: 'job'; readonly job: string; readonly transfer: string };

export interface Held {
  readonly where: Where;
  readonly said: Said;
}

export interface Bag {
  readonly code: string;
  readonly opened: Said;
  /** The parts, joints and positions it came from. */
  readonly of: readonly string[];
  readonly hand?: 'L' | 'R' | 'C';
  readonly pin?: { readonly sheet: string; readonly x: number; readonly y: number };
  readonly note?: string;
  readonly where: Where;
  /** Somebody else opened a bag of the same code. */
  readonly clash?: readonly Said[];
  readonly said: Said;
}

export interface LotCount {
  readonly count: number | null;
  /** The first lot of its family. */
  readonly root: string;
}

export interface Ledger {
  readonly first: number;
  readonly differences: number;
  readonly out: number;
  readonly in: number;
}

/** A recount that gave another number. */
export interface Difference {
  readonly id: EntryId;
  readonly lot: string;
  readonly was: number;
  readonly is: number;
  readonly said: Said;
  readonly explained?: { readonly what: string; readonly said: Said };
}

export interface Transfer {
  readonly transfer: string;
  readonly way: 'out' | 'in';
  readonly thing: string;
  readonly job: string;
  readonly name?: string;
  readonly position?: string;
  /** Absent: one piece. */
  readonly count?: number;
  readonly owed: boolean;
  readonly why?: string;
  /** How many went back; a piece counts one. */
  readonly returned: number;
  readonly said: Said;
}

export interface Tag {
  readonly id: EntryId;
  readonly subject: string;
  readonly tag: DataOf<'tagged'>['tag'];
  readonly says?: string;
  readonly said: Said;
  readonly off?: Said;
}

/** What was recorded about custody and cannot be so. Kept, shown, settled by people. */
export interface CustodyFault {
  readonly what: 'transfer-doubled' | 'transfer-unknown' | 'thing-unknown' | 'lot-unknown';
  readonly id: string;
  readonly said: Said;
}

export interface CustodyData {
  readonly bags: ReadonlyMap<string, Bag>;
  readonly held: ReadonlyMap<string, Held>;
  readonly lotCounts: ReadonlyMap<string, LotCount>;
  readonly ledgers: ReadonlyMap<string, Ledger>;
  readonly differences: ReadonlyMap<string, Difference>;
  readonly transfers: ReadonlyMap<string, Transfer>;
  readonly custodyFaults: readonly CustodyFault[];
  readonly places: ReadonlyMap<string, Noted<DataOf<'place-noted'>>>;
  readonly bagsSetAside: readonly Noted<DataOf<'bags-set-aside'>>[];
  readonly goesWith: readonly Noted<DataOf<'goes-with'>>[];
  readonly inside: ReadonlyMap<string, readonly Noted<DataOf<'counted-inside'>>[]>;
  readonly tags: ReadonlyMap<string, Tag>;
  readonly sounds: ReadonlyMap<string, readonly Noted<DataOf<'sound-kept'>>[]>;
  readonly measurements: ReadonlyMap<string, readonly Noted<DataOf<'measured'>>[]>;
  readonly thicknesses: ReadonlyMap<string, readonly Noted<DataOf<'thickness-noted'>>[]>;
  readonly dials: ReadonlyMap<string, readonly Noted<DataOf<'dial-noted'>>[]>;
  readonly datums: ReadonlyMap<string, readonly Noted<DataOf<'datum-read'>>[]>;
  readonly sheets: ReadonlyMap<string, Noted<DataOf<'sheet-added'>>>;
  /** By `pinKey(subject, sheet)`. */
  readonly pins: ReadonlyMap<string, Noted<DataOf<'pin-set'>>>;
  readonly tried: ReadonlyMap<string, readonly Noted<DataOf<'tried'>>[]>;
  /** By the entry of "stuck". */
  readonly freed: ReadonlyMap<string, Said>;
}

export function pinKey(subject: string, sheet: string): string {
  return `${subject}\u0000${sheet}`;
}

export const NO_CUSTODY: CustodyData = {
  bags: new Map(),
  held: new Map(),
  lotCounts: new Map(),
  ledgers: new Map(),
  differences: new Map(),
  transfers: new Map(),
  custodyFaults: [],
  places: new Map(),
  bagsSetAside: [],
  goesWith: [],
  inside: new Map(),
  tags: new Map(),
  sounds: new Map(),
  measurements: new Map(),
  thicknesses: new Map(),
  dials: new Map(),
  datums: new Map(),
  sheets: new Map(),
  pins: new Map(),
  tried: new Map(),
  freed: new Map(),
};
