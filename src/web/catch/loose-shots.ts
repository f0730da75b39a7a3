/**
 * Photographs that were shot and not yet bagged. They outlive the screen, the page and the battery: written down in
 * IndexedDB at the press of the shutter (the picture itself is kept by the job's own store), gone when they are bagged.
 */
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { Shot } from './gestures.ts';

interface LooseShots extends DBSchema {
  shots: {
    key: [string, string];
    value: { readonly job: string; readonly hash: string; readonly at: number; readonly shot: Shot };
  };
}

let opened: Promise<IDBPDatabase<LooseShots>> | null = null;

function db(): Promise<IDBPDatabase<LooseShots>> {
  opened ??= openDB<LooseShots>('witnessmark-loose', 1, {
    upgrade(base) {
      base.createObjectStore('shots', { keyPath: ['job', 'hash'] });
    },
  });
  return opened;
}

/** In the order shot. */
export async function looseShots(job: string): Promise<readonly Shot[]> {
  const all = await (await db()).getAll('shots', IDBKeyRange.bound([job, ''], [job, '\uffff']));
  return all.sort((a, b) => a.at - b.at).map((r) => r.shot);
}

export async function keepLoose(job: string, shots: readonly Shot[]): Promise<void> {
  const tx = (await db()).transaction('shots', 'readwrite');
  for (const [i, shot] of shots.entries()) void tx.store.put({ job, hash: shot.hash, at: Date.now() + i, shot });
  await tx.done;
}

export async function dropLoose(job: string, hashes: readonly string[]): Promise<void> {
  const tx = (await db()).transaction('shots', 'readwrite');
  for (const hash of hashes) void tx.store.delete([job, hash]);
  await tx.done;
}
