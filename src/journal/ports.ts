/**
 * What the core needs from outside, as interfaces. The disk implements them in `src/store`; `memory-journal.ts` implements
 * the journal for the browser and for tests; one acceptance suite (`testing/journal-acceptance.ts`) runs against all.
 * A server over PostgreSQL and an object store would implement the same two.
 *
 * Everything answers with a Result. An append that answered ok is on disk; it survives a kill and a pulled plug.
 */
import type { EntryId } from '../domain/ids.ts';
import type { Result } from '../domain/result.ts';
import type { EntryDraft, Head, StoredEntry } from './entry.ts';

export interface Journal {
  /**
   * Appends all drafts or none, and answers with all of them as accepted. A draft that is already there (same id, same
   * digest) is not added again: its accepted form is given back, so sending twice is harmless. `afterSeq` null: wherever the
   * journal ends now (facts made offline); a number: only if nobody recorded in between (`JOURNAL_MOVED`).
   */
  append(afterSeq: number | null, drafts: readonly EntryDraft[]): Promise<Result<readonly StoredEntry[]>>;
  /** Entries from `fromSeq` (1 is the first) on, at most `limit`. */
  read(fromSeq: number, limit?: number): Promise<Result<readonly StoredEntry[]>>;
  head(): Promise<Result<Head>>;
  /** Calls back with entries accepted from now on, also from other programs. Gives a function that ends it. */
  follow(cb: (entries: readonly StoredEntry[]) => void): () => void;
}

export const PHOTO_SIZES = ['original', 'print', 'thumb'] as const;
export type PhotoSize = (typeof PHOTO_SIZES)[number];
export type PhotoMime = 'image/jpeg' | 'image/png' | 'image/webp' | 'image/avif';

/** What is known of a photograph once it is taken in: the data of a `photo-taken` entry, but for `of`. */
export interface PhotoInfo {
  readonly hash: string;
  readonly mime: PhotoMime;
  readonly bytes: number;
  readonly width: number;
  readonly height: number;
  /** The camera's own text for the time, never converted. Absent where it wrote none. */
  readonly takenAsWritten?: string;
}

export interface PhotoBytes {
  readonly bytes: Uint8Array;
  readonly mime: PhotoMime;
}

export interface Photographs {
  /** Checks the content (not the name), keeps it under its hash, makes the small sizes. Putting twice keeps one. */
  put(bytes: Uint8Array): Promise<Result<PhotoInfo>>;
  get(hash: string, size: PhotoSize): Promise<Result<PhotoBytes>>;
  has(hash: string): Promise<boolean>;
}

export type SoundMime = 'audio/webm' | 'audio/ogg' | 'audio/mp4' | 'audio/wav' | 'audio/mpeg';

/** What is known of a voice note once it is taken in: part of the data of a `sound-kept` entry. */
export interface SoundInfo {
  readonly hash: string;
  readonly mime: SoundMime;
  readonly bytes: number;
}

export interface SoundBytes {
  readonly bytes: Uint8Array;
  readonly mime: SoundMime;
}

export interface Sounds {
  /** Checks the content (not the name) and keeps it under its hash. Putting twice keeps one. */
  put(bytes: Uint8Array): Promise<Result<SoundInfo>>;
  get(hash: string): Promise<Result<SoundBytes>>;
}

export interface Clock {
  /** ISO 8601 with offset. */
  now(): string;
}

export interface Ids {
  /** A new id, later than every one given before. */
  next(): EntryId;
}
