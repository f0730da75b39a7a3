/**
 * The shop's entries as they come to a device: which of them are new, whether they follow what is here, and what is to be
 * sent once more where the shop's journal was put back to an older state (restored from a backup). Pure.
 *
 * Links are compared (place, hash before), digests are not worked out anew: the bytes come from the shop's own machine,
 * which checks the whole chain when it opens the job, and a phone would need seconds for a long one.
 */
import {
  type Entry,
  type EntryDraft,
  type Head,
  readDraft,
  readStored,
  type StoredEntry,
} from '../../journal/entry.ts';

export interface Arrivals {
  readonly stored: readonly StoredEntry[];
  readonly entries: readonly Entry[];
  /** `gap`: one was missed, fetch from where we are. `other`: another journal than the one here, fetch it all. */
  readonly fault: 'gap' | 'other' | null;
}

export function readArrivals(head: Head, arrived: readonly StoredEntry[]): Arrivals {
  const stored: StoredEntry[] = [];
  const entries: Entry[] = [];
  let at = head;
  for (const s of arrived) {
    if (s.seq === at.seq && s.hash !== at.hash) return { stored, entries, fault: 'other' };
    if (s.seq <= at.seq) continue;
    if (s.seq > at.seq + 1) return { stored, entries, fault: 'gap' };
    if (s.prev !== at.hash) return { stored, entries, fault: 'other' };
    const read = readStored(s);
    if (!read.ok) return { stored, entries, fault: 'gap' };
    stored.push(s);
    entries.push(read.value);
    at = { seq: s.seq, hash: s.hash };
  }
  return { stored, entries, fault: null };
}

/**
 * Whether the shop's journal, by its head alone, cannot be the one copied here: it ends before the copy, or in the same
 * place with another entry. (Where it is longer, the first new entry tells, see `readArrivals`.)
 */
export function isOtherJournal(shop: Head, copy: Head): boolean {
  return shop.seq < copy.seq || (shop.seq === copy.seq && shop.hash !== copy.hash);
}

/** Entries of the copy here that the shop's journal does not hold any more: facts that must not be lost, sent again. */
export function leftBehind(copy: readonly StoredEntry[], now: readonly StoredEntry[]): readonly EntryDraft[] {
  const there = new Set(now.map((s) => s.digest));
  return copy.flatMap((s) => {
    if (there.has(s.digest)) return [];
    const draft = readDraft(s.body, s.digest);
    return draft.ok ? [draft.value] : [];
  });
}
