/**
 * The browser's own store (IndexedDB), opened once for every page of this origin. One database, small stores:
 *
 *   outbox    entries not yet taken in by the shop's machine, in the order made (`n` counts up; clocks may jump)
 *   media     what is known of each photograph and sound made here; `media-bytes` the originals until the shop's machine
 *             has them, `media-thumbs` a small picture that stays
 *   segments  the copy of each job's entries in pieces of 2,000, so that a new entry rewrites one piece
 *   settings  jobs, bag numbers set aside, the shop's address: one row each
 *
 * Bytes are ArrayBuffers, not Blobs: some browsers lose Blobs kept in IndexedDB.
 */
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { EntryDraft, StoredEntry } from '../../journal/entry.ts';

export interface OutRow {
  readonly n?: number;
  readonly id: string;
  readonly job: string;
  readonly draft: EntryDraft;
}

export interface MediaRow {
  /** `job/hash` */
  readonly key: string;
  readonly job: string;
  readonly hash: string;
  readonly what: 'photo' | 'sound';
  readonly mime: string;
  readonly bytes: number;
  readonly keptAt: number;
  /** 1: the shop's machine does not have it yet. A number, since IndexedDB has no index over truth values. */
  readonly waiting: 0 | 1;
}

export interface SegmentRow {
  readonly job: string;
  readonly piece: number;
  readonly entries: readonly StoredEntry[];
}

interface Kept extends DBSchema {
  pending: { key: string; value: { readonly id: string; readonly job: string; readonly draft: EntryDraft } };
  outbox: { key: number; value: OutRow; indexes: { id: string; job: string } };
  media: { key: string; value: MediaRow; indexes: { waiting: number } };
  'media-bytes': { key: string; value: ArrayBuffer };
  'media-thumbs': { key: string; value: ArrayBuffer };
  segments: { key: [string, number]; value: SegmentRow };
  settings: { key: string; value: unknown };
}
export type Base = IDBPDatabase<Kept>;

let opened: Promise<Base> | null = null;

export function base(): Promise<Base> {
  opened ??= open();
  return opened;
}

/** For tests: the next `base()` opens anew. */
export async function closeBase(): Promise<void> {
  const was = opened;
  opened = null;
  if (was !== null) (await was).close();
}

function open(): Promise<Base> {
  const opening = openDB<Kept>('witnessmark', 2, {
    async upgrade(db, from, _to, tx) {
      const outbox = db.createObjectStore('outbox', { keyPath: 'n', autoIncrement: true });
      outbox.createIndex('id', 'id', { unique: true });
      outbox.createIndex('job', 'job');
      db.createObjectStore('media', { keyPath: 'key' }).createIndex('waiting', 'waiting');
      db.createObjectStore('media-bytes');
      db.createObjectStore('media-thumbs');
      db.createObjectStore('segments', { keyPath: ['job', 'piece'] });
      db.createObjectStore('settings');
      if (from < 1) return;
      // Format 1 kept entries by id only; ids count up, so their order is the order made.
      for (const row of await tx.objectStore('pending').getAll()) await outbox.add(row);
      db.deleteObjectStore('pending');
    },
    blocking(_now, _next, event) {
      // A newer page wants to change the format: let go, and open again when asked.
      (event.target as IDBDatabase).close();
      opened = null;
    },
    terminated() {
      opened = null;
    },
  });
  opening.catch(() => {
    opened = null;
  });
  return opening;
}

export async function setting<T>(key: string): Promise<T | undefined> {
  return (await (await base()).get('settings', key)) as T | undefined;
}

export async function keepSetting(key: string, value: unknown): Promise<void> {
  await (await base()).put('settings', value, key);
}

/** Reads, changes and writes one setting in one transaction: two pages cannot both take the same number. */
export async function changeSetting<T, R>(
  key: string,
  change: (was: T | undefined) => { readonly next: T; readonly answer: R },
): Promise<R> {
  const tx = (await base()).transaction('settings', 'readwrite', { durability: 'strict' });
  const { next, answer } = change((await tx.store.get(key)) as T | undefined);
  await tx.store.put(next, key);
  await tx.done;
  return answer;
}
