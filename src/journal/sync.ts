/**
 * The copy on a phone (docs/adr/0006): accepted entries and their fold, and its own pending entries laid over it.
 * Pure; the browser keeps `packCopy(copy)` as one blob and sends `copy.pending`.
 *
 *   copy      = accepted entries (chain checked as they come) -> state
 *   shown     = fold(pending, state)              what the screen draws
 *   takeIn    = the server's entries arrive: state moves on, what was accepted drops out of pending, the rest is laid again
 */
import { failed, ok, type Result } from '../domain/result.ts';
import type { Hasher } from './digest.ts';
import { sha256Hex } from './digest.ts';
import {
  asPending,
  type Entry,
  type EntryDraft,
  type Head,
  linkFault,
  readDraft,
  readStored,
  type StoredEntry,
} from './entry.ts';
import { fold } from './fold.ts';
import { journalProblem } from './journal-problems.ts';
import { EMPTY_STATE } from './make-state.ts';
import { FOLD_VERSION, type State } from './state.ts';

export interface LocalCopy {
  readonly stored: readonly StoredEntry[];
  readonly state: State;
  readonly pending: readonly EntryDraft[];
  /** State with the pending entries laid over it. */
  readonly shown: State;
  /** Pending entries whose id the server knows with other content. Kept, shown, never sent again. */
  readonly clashes: readonly EntryDraft[];
}

export const EMPTY_COPY: LocalCopy = { stored: [], state: EMPTY_STATE, pending: [], shown: EMPTY_STATE, clashes: [] };

export function overlay(state: State, pending: readonly EntryDraft[]): State {
  return fold(pending.map(asPending), state);
}

export interface Reconciled {
  readonly still: readonly EntryDraft[];
  readonly accepted: readonly EntryDraft[];
  readonly clashes: readonly EntryDraft[];
}

/** Which pending entries are among the accepted ones now. */
export function reconcile(
  pending: readonly EntryDraft[],
  accepted: readonly Pick<Entry, 'id' | 'digest'>[],
): Reconciled {
  const digests = new Map(accepted.map((e) => [e.id as string, e.digest]));
  const still = pending.filter((p) => !digests.has(p.id));
  return {
    still,
    accepted: pending.filter((p) => digests.get(p.id) === p.digest),
    clashes: pending.filter((p) => digests.has(p.id) && digests.get(p.id) !== p.digest),
  };
}

export function addPending(copy: LocalCopy, drafts: readonly EntryDraft[]): LocalCopy {
  return { ...copy, pending: [...copy.pending, ...drafts], shown: overlay(copy.shown, drafts) };
}

/** Takes in entries that follow the copy's head; ones it has already are passed over. */
export function takeIn(
  copy: LocalCopy,
  arrived: readonly StoredEntry[],
  hasher: Hasher = sha256Hex,
): Result<LocalCopy> {
  const fresh = arrived.filter((s) => s.seq > copy.state.head.seq);
  const read = readChain(fresh, copy.state.head, hasher);
  if (!read.ok) return read;
  const state = fold(read.value, copy.state);
  const { still, clashes } = reconcile(copy.pending, read.value);
  return ok({
    stored: [...copy.stored, ...fresh],
    state,
    pending: still,
    shown: overlay(state, still),
    clashes: [...copy.clashes, ...clashes],
  });
}

/** Checks each link and parses. The first one that does not hold is named. */
export function readChain(
  stored: readonly StoredEntry[],
  after: Head,
  hasher: Hasher = sha256Hex,
): Result<readonly Entry[]> {
  const entries: Entry[] = [];
  let head = after;
  for (const s of stored) {
    const fault = linkFault(s, head, hasher);
    if (fault !== null) return failed(journalProblem('CHAIN_BROKEN', fault));
    const entry = readStored(s);
    if (!entry.ok) return entry;
    entries.push(entry.value);
    head = { seq: s.seq, hash: s.hash };
  }
  return ok(entries);
}

export interface PackedCopy {
  readonly foldVersion: number;
  readonly head: Head;
  readonly stored: readonly StoredEntry[];
  readonly pending: readonly { readonly body: string; readonly digest: string }[];
}

export function packCopy(copy: LocalCopy): PackedCopy {
  const pending = [...copy.pending, ...copy.clashes].map(({ body, digest }) => ({ body, digest }));
  return { foldVersion: FOLD_VERSION, head: copy.state.head, stored: copy.stored, pending };
}

/**
 * The copy again from its blob. Pending entries are never lost: where the accepted part does not hold, the copy starts
 * empty and fetches anew, and the pending ones are still there. `refetch` says so.
 */
export function unpackCopy(
  packed: PackedCopy,
  hasher: Hasher = sha256Hex,
): { readonly copy: LocalCopy; readonly refetch: boolean } {
  const pending = packed.pending.flatMap((p) => {
    const draft = readDraft(p.body, p.digest, hasher);
    return draft.ok ? [draft.value] : [];
  });
  const start: LocalCopy = { ...EMPTY_COPY, pending, shown: overlay(EMPTY_STATE, pending) };
  const taken = takeIn(start, packed.stored, hasher);
  return taken.ok ? { copy: taken.value, refetch: false } : { copy: start, refetch: true };
}
