/**
 * The state of a job: what the fold of its entries gives. Read it, never change it; it can be thrown away and folded again.
 *
 * `Said` tells of everything who said it, when, and by which entry, so that a screen can show the source of each word.
 * `rig` and `situation` are what the planner takes; both are made on first use and keep their identity while nothing in
 * them changed, so they can key a cache. Rig elements live in maps while folding, since one statement about one joint
 * must not copy 5,000.
 */
import type { EntryId } from '../domain/ids.ts';
import type {
  ActionId,
  Attachment,
  Block,
  Fact,
  Guard,
  Look,
  Need,
  Operation,
  Part,
  Rig,
  Setup,
  Situation,
} from '../domain/rig/rig-types.ts';
import type { CustodyData } from './custody-state.ts';
import type { Entry, Head } from './entry.ts';
import type { DataOf } from './kinds/kinds.ts';
import type { FoundValue, StandingWord } from './kinds/shared-shapes.ts';
import type { RefitStage } from './kinds/step-kinds.ts';

/** Raised whenever the fold would give another state for the same entries; keys the copy on a phone. */
export const FOLD_VERSION = 2;

/** Who said it, when, and in which entry. `seq` is 0 while the entry is pending. All entries are unsigned today. */
export interface Said {
  readonly entry: EntryId;
  readonly seq: number;
  readonly at: string;
  readonly by: string;
  readonly device: string;
  readonly pending?: true;
}

export type Noted<T> = T & { readonly said: Said };

export interface Standing {
  readonly word: StandingWord;
  readonly source?: string;
  readonly reason?: string;
  readonly said: Said;
}

export const STEP_WORDS = ['done', 'refitted', 'set', 'made', 'fact', 'fact-withdrawn'] as const;
export interface StepRecord {
  readonly what: (typeof STEP_WORDS)[number];
  /** `j3`, `remove:p1`, `set:support=jacks`, an operation, or a fact. */
  readonly action: ActionId;
  readonly said: Said;
  readonly planned: boolean | null;
  readonly trial?: true;
  readonly forced?: { readonly harm: string | null };
  readonly stage?: RefitStage;
  readonly note?: string;
  readonly minutes?: number;
  /** It was recorded as done when it already was. */
  readonly again?: true;
  /** The record was taken back: it did not happen. */
  readonly undone?: Said;
}

export interface RefitRecord {
  /** `out`: taken out again after this. */
  readonly stage: RefitStage | 'out';
  readonly said: Said;
  readonly note?: string;
}

export interface Signature {
  readonly look: string;
  readonly says: string;
  readonly second?: string;
  readonly said: Said;
  /** False: the person's right to sign is not recorded; the signature waits for it. */
  readonly counts: boolean;
  /** The area was opened again, or the look re-opened: it no longer covers the present state. */
  readonly lapsed?: { readonly said: Said; readonly why: string };
}

export interface Stop {
  readonly id: EntryId;
  readonly subject: string;
  readonly state: string;
  readonly photo?: string;
  readonly note?: string;
  readonly said: Said;
  readonly cleared?: Said;
}

/** One statement about (subject, aspect). The last in its list holds. */
export interface FactRecord {
  readonly value: FoundValue;
  readonly tool?: string;
  readonly note?: string;
  readonly said: Said;
}

export interface Withdrawal {
  /** The entry that took it back, or replaced it. */
  readonly by: EntryId;
  readonly how: 'withdrawn' | 'corrected';
  readonly why?: string;
}

export interface SetAside {
  readonly key: string;
  readonly why: string;
  readonly said: Said;
}

export interface StateData extends CustodyData {
  readonly head: Head;
  /** Every entry, withdrawn ones too, in order. */
  readonly log: readonly Entry[];
  readonly withdrawn: ReadonlyMap<string, Withdrawal>;
  /** Kinds we do not know: kept, shown, counted. */
  readonly unknown: readonly Entry[];
  /** Kinds we know in a version we do not: the journal is read-only for this program. */
  readonly newer: readonly Entry[];
  readonly unreadable: readonly { readonly entry: Entry; readonly why: string }[];

  readonly job: Noted<DataOf<'job-opened'>> | null;
  readonly marginPercent: number;
  readonly people: ReadonlyMap<string, Noted<DataOf<'person-noted'>>>;
  readonly devices: ReadonlyMap<string, Noted<DataOf<'device-noted'>>>;
  readonly lines: ReadonlyMap<string, Noted<DataOf<'part-line-noted'>>>;
  readonly positions: ReadonlyMap<string, Noted<DataOf<'position-noted'>>>;
  readonly pieces: ReadonlyMap<string, Noted<DataOf<'piece-noted'>>>;
  readonly lots: ReadonlyMap<string, Noted<DataOf<'lot-noted'>>>;

  readonly rigRoot: string;
  readonly rigName: string | null;
  readonly rigInvented: boolean;
  readonly rigParts: ReadonlyMap<string, Part>;
  readonly rigAttachments: ReadonlyMap<string, Attachment>;
  readonly rigOperations: ReadonlyMap<string, Operation>;
  readonly rigBlocks: ReadonlyMap<string, Block>;
  readonly rigGuards: ReadonlyMap<string, Guard>;
  readonly rigSetups: ReadonlyMap<string, Setup>;
  readonly rigFacts: ReadonlyMap<string, Fact>;
  readonly rigLooks: ReadonlyMap<string, Look>;
  /** Blocks that "stuck" added; laid into `rig` where both parts are known. */
  readonly stuckBlocks: ReadonlyMap<string, Block>;
  /** What had to come off first, by the action it had to come before. */
  readonly cameOffFirst: ReadonlyMap<string, readonly { readonly action: ActionId; readonly said: Said }[]>;
  /** Needs gained by mirroring, by action (`remove:p`, joint, operation) or look. */
  readonly gainedNeeds: ReadonlyMap<string, readonly Need[]>;
  /** By element id; blocks and guards by `blockKey` and `guardKey`. */
  readonly standing: ReadonlyMap<string, Standing>;
  /** Statements told or expected that did not displace what was seen here. */
  readonly setAside: readonly SetAside[];

  readonly steps: readonly StepRecord[];
  /** What is off now: action (or `set:…#entry`) to who did it, in recorded order. */
  readonly done: ReadonlyMap<string, { readonly action: ActionId; readonly said: Said }>;
  readonly setupStates: ReadonlyMap<string, string>;
  readonly settled: ReadonlyMap<string, Said>;
  readonly factsWithdrawn: ReadonlyMap<string, Said>;
  readonly made: ReadonlyMap<string, Said>;
  readonly refits: ReadonlyMap<string, readonly RefitRecord[]>;
  readonly signatures: ReadonlyMap<string, readonly Signature[]>;

  readonly stops: ReadonlyMap<string, Stop>;
  readonly stuck: ReadonlyMap<string, readonly Noted<DataOf<'stuck'>>[]>;
  readonly nothingHere: ReadonlyMap<string, Noted<DataOf<'nothing-here'>>>;
  readonly damages: readonly Noted<DataOf<'our-damage'>>[];
  readonly photos: ReadonlyMap<string, readonly Noted<DataOf<'photo-taken'>>[]>;
  readonly photosByHash: ReadonlyMap<string, Noted<DataOf<'photo-taken'>>>;
  /** By `factKey(subject, aspect)`; use `factsOf`. */
  readonly facts: ReadonlyMap<string, readonly FactRecord[]>;
  readonly aspects: ReadonlyMap<string, readonly string[]>;
  readonly notes: ReadonlyMap<string, readonly Noted<DataOf<'note'>>[]>;
  readonly contradictionsSettled: ReadonlyMap<string, Noted<DataOf<'contradiction-settled'>>>;
  readonly losses: readonly Noted<DataOf<'loss-accepted'>>[];
}

export interface State extends StateData {
  /** The effective rig: as stated, with what "stuck", "came off first" and mirroring added. */
  readonly rig: Rig;
  readonly situation: Situation;
  /** Left half done, oldest first. On top of everything. */
  readonly openStops: readonly Stop[];
}

export function blockKey(b: { readonly part: string; readonly by: string }): string {
  return `block:${b.part}<${b.by}`;
}

export function guardKey(g: { readonly notTogether: readonly string[] }): string {
  return `guard:${[...g.notTogether].sort().join('+')}`;
}

export function factKey(subject: string, aspect: string): string {
  return `${subject}\u0000${aspect}`;
}

/** Facts about a subject: aspect to its statements, the last of which holds. */
export function factsOf(state: StateData, subject: string): ReadonlyMap<string, readonly FactRecord[]> {
  const aspects = state.aspects.get(subject) ?? [];
  return new Map(aspects.map((a) => [a, state.facts.get(factKey(subject, a)) ?? []]));
}

export function factNow(state: StateData, subject: string, aspect: string): FactRecord | null {
  return state.facts.get(factKey(subject, aspect))?.at(-1) ?? null;
}

/** How far an action is back, or null when it was never refitted or has come out again. */
export function refitStage(state: StateData, action: ActionId): RefitStage | null {
  const last = state.refits.get(action)?.at(-1)?.stage;
  return last === undefined || last === 'out' ? null : last;
}

export function isDone(state: StateData, action: ActionId): boolean {
  return state.done.has(action);
}

/** The signature that covers the present state, or null. */
export function signatureNow(state: StateData, look: string): Signature | null {
  return state.signatures.get(look)?.findLast((s) => s.counts && s.lapsed === undefined) ?? null;
}

export function nameOf(state: StateData, person: string): string {
  return state.people.get(person)?.name ?? person;
}
