/**
 * The journal port in memory: for the browser's demonstration, for tests, and as the plainest statement of what a journal
 * does. Same acceptance suite as the one on disk. Keeps stored entries, not states.
 */
import { failed, ok, type Result } from '../domain/result.ts';
import { type Hasher, sha256Hex } from './digest.ts';
import { accept, EMPTY_HEAD, type EntryDraft, type Head, isVouched, parseBody, type StoredEntry } from './entry.ts';
import { journalProblem } from './journal-problems.ts';
import type { Clock, Journal } from './ports.ts';

export class MemoryJournal implements Journal {
  private readonly entries: StoredEntry[] = [];
  private readonly places = new Map<string, number>();
  private readonly followers = new Set<(entries: readonly StoredEntry[]) => void>();

  constructor(private readonly clock: Clock) {}

  async append(afterSeq: number | null, drafts: readonly EntryDraft[]): Promise<Result<readonly StoredEntry[]>> {
    let head = this.present();
    if (afterSeq !== null && afterSeq !== head.seq) return failed(moved(afterSeq, head.seq));
    const fresh: StoredEntry[] = [];
    const answer: StoredEntry[] = [];
    const inBatch = new Map<string, StoredEntry>();
    for (const draft of drafts) {
      const fault = draftFault(draft);
      if (!fault.ok) return fault;
      const place = this.places.get(draft.id);
      const known = inBatch.get(draft.id) ?? (place === undefined ? undefined : this.entries[place]);
      if (known !== undefined) {
        if (known.digest !== draft.digest) return failed(taken(draft.id));
        answer.push(known);
        continue;
      }
      const stored = accept(draft, head, this.clock.now());
      head = { seq: stored.seq, hash: stored.hash };
      inBatch.set(draft.id, stored);
      fresh.push(stored);
      answer.push(stored);
    }
    for (const [id, stored] of inBatch) this.places.set(id, stored.seq - 1);
    this.entries.push(...fresh);
    if (fresh.length > 0) for (const cb of [...this.followers]) cb(fresh);
    return ok(answer);
  }

  async read(fromSeq: number, limit = Number.POSITIVE_INFINITY): Promise<Result<readonly StoredEntry[]>> {
    const start = Math.max(0, fromSeq - 1);
    return ok(this.entries.slice(start, start + limit));
  }

  async head(): Promise<Result<Head>> {
    return ok(this.present());
  }

  follow(cb: (entries: readonly StoredEntry[]) => void): () => void {
    this.followers.add(cb);
    return () => this.followers.delete(cb);
  }

  private present(): Head {
    const last = this.entries.at(-1);
    return last === undefined ? EMPTY_HEAD : { seq: last.seq, hash: last.hash };
  }
}

const NO_FAULT: Result<true> = ok(true);

/**
 * A draft whose digest is not that of its bytes, or whose head does not say what its bytes say, is refused. One that was
 * looked at when it was made, and cannot have changed since, is not looked at twice.
 */
export function draftFault(draft: EntryDraft, hasher: Hasher = sha256Hex): Result<true> {
  if (isVouched(draft)) return NO_FAULT;
  if (hasher(draft.body) !== draft.digest) {
    return failed(
      journalProblem('DIGEST_DIFFERS', `entry ${draft.id}: the text and its digest do not belong together`),
    );
  }
  const parsed = parseBody(draft.body);
  if (!parsed.ok) return parsed;
  if (parsed.value.id !== draft.id)
    return failed(journalProblem('DIGEST_DIFFERS', `entry ${draft.id}: its text speaks of ${parsed.value.id}`));
  return NO_FAULT;
}

export function moved(after: number, now: number): ReturnType<typeof journalProblem> {
  return journalProblem('JOURNAL_MOVED', `to be recorded after entry ${after}, but the journal is at entry ${now}`);
}

export function taken(id: string): ReturnType<typeof journalProblem> {
  return journalProblem(
    'ENTRY_ID_TAKEN',
    `the id ${id} belongs to another entry with other content; nothing was changed`,
  );
}
