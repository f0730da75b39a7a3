/**
 * What this device must not lose: entries not yet taken in by the shop's machine. IndexedDB, one row per entry, in the
 * order made. Small settings (person in hand, light) are in localStorage; the present screen is in the address.
 */
import type { EntryDraft } from '../../journal/entry.ts';
import { base } from './base.ts';

export async function pendingOf(job: string): Promise<readonly EntryDraft[]> {
  const rows = await (await base()).getAllFromIndex('outbox', 'job', job);
  return rows.toSorted((a, b) => (a.n ?? 0) - (b.n ?? 0)).map((r) => r.draft);
}

/** All or none; resolved means it is on the device's disk. Keeping again what is kept already changes nothing. */
export async function keepPending(job: string, drafts: readonly EntryDraft[]): Promise<void> {
  const tx = (await base()).transaction('outbox', 'readwrite', { durability: 'strict' });
  for (const draft of drafts) {
    const had = await tx.store.index('id').getKey(draft.id);
    if (had === undefined) await tx.store.add({ id: draft.id, job, draft });
  }
  await tx.done;
}

export async function dropPending(ids: readonly string[]): Promise<void> {
  const tx = (await base()).transaction('outbox', 'readwrite');
  for (const id of ids) {
    const n = await tx.store.index('id').getKey(id);
    if (n !== undefined) await tx.store.delete(n);
  }
  await tx.done;
}

const DEVICE_KEY = 'witnessmark-device';
const PERSON_KEY = 'witnessmark-person';
const DAY_KEY = 'witnessmark-day';
const LAST_JOB_KEY = 'witnessmark-job';

/** A name for this browser: the one the shop paired it under, else one made once. */
export function deviceId(): string {
  const had = localStorage.getItem(DEVICE_KEY);
  if (had !== null) return had;
  const made = `web-${[...crypto.getRandomValues(new Uint8Array(4))].map((b) => b.toString(36)).join('')}`;
  localStorage.setItem(DEVICE_KEY, made);
  return made;
}

export function keepDeviceId(id: string): void {
  localStorage.setItem(DEVICE_KEY, id);
}

export function personKept(job: string): string | null {
  return localStorage.getItem(`${PERSON_KEY}-${job}`);
}

export function keepPerson(job: string, person: string): void {
  localStorage.setItem(`${PERSON_KEY}-${job}`, person);
}

/** The day an invented job stands on, so that an entry made before the job is read has it too. */
export function dayKept(job: string): string {
  return localStorage.getItem(`${DAY_KEY}-${job}`) ?? '';
}

export function keepDay(job: string, day: string): void {
  localStorage.setItem(`${DAY_KEY}-${job}`, day);
}

/** The job that was open last: the camera opens on it before the list of jobs is there. */
export function lastJob(): string | null {
  return localStorage.getItem(LAST_JOB_KEY);
}

export function keepLastJob(job: string): void {
  localStorage.setItem(LAST_JOB_KEY, job);
}
