/**
 * What this device must not lose: entries not yet taken in by the shop's machine. IndexedDB, one row per entry, in the
 * order made. Small settings (person in hand, light) are in localStorage; the present screen is in the address.
 */
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { EntryDraft } from '../../journal/entry.ts';

interface Kept extends DBSchema {
  pending: { key: string; value: { readonly id: string; readonly job: string; readonly draft: EntryDraft } };
}

let opened: Promise<IDBPDatabase<Kept>> | null = null;

function db(): Promise<IDBPDatabase<Kept>> {
  opened ??= openDB<Kept>('witnessmark', 1, {
    upgrade(base) {
      base.createObjectStore('pending', { keyPath: 'id' });
    },
  });
  return opened;
}

export async function pendingOf(job: string): Promise<readonly EntryDraft[]> {
  const rows = await (await db()).getAll('pending');
  return rows.filter((r) => r.job === job).map((r) => r.draft);
}

export async function keepPending(job: string, drafts: readonly EntryDraft[]): Promise<void> {
  const tx = (await db()).transaction('pending', 'readwrite');
  for (const draft of drafts) void tx.store.put({ id: draft.id, job, draft });
  await tx.done;
}

export async function dropPending(ids: readonly string[]): Promise<void> {
  const tx = (await db()).transaction('pending', 'readwrite');
  for (const id of ids) void tx.store.delete(id);
  await tx.done;
}

const DEVICE_KEY = 'witnessmark-device';
const PERSON_KEY = 'witnessmark-person';

/** A name for this browser, made once. */
export function deviceId(): string {
  const had = localStorage.getItem(DEVICE_KEY);
  if (had !== null) return had;
  const made = `web-${[...crypto.getRandomValues(new Uint8Array(4))].map((b) => b.toString(36)).join('')}`;
  localStorage.setItem(DEVICE_KEY, made);
  return made;
}

export function personKept(job: string): string | null {
  return localStorage.getItem(`${PERSON_KEY}-${job}`);
}

export function keepPerson(job: string, person: string): void {
  localStorage.setItem(`${PERSON_KEY}-${job}`, person);
}
