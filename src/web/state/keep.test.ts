/** What a device keeps, on a real IndexedDB in memory (fake-indexeddb). */
import 'fake-indexeddb/auto';
import { openDB } from 'idb';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { bagCode } from '../../domain/bag-code.ts';
import { MemoryJournal } from '../../journal/memory-journal.ts';
import { countingClock, draftOf } from '../../journal/testing/recorder.ts';
import { base, changeSetting, closeBase, type MediaRow } from './base.ts';
import { dropPending, keepPending, pendingOf } from './keep.ts';
import { CopyKeeper, copyKept } from './keep-copy.ts';
import { keepMedia, localPhoto, mediaArrived, mediaBytes, readPhoto, waitingMedia } from './keep-media.ts';
import { KeepFault, keepProblem } from './web-problems.ts';

const note = (n: number) => draftOf(n, 'note', { text: `note ${n}` });
const row = (hash: string, job = 'a'): MediaRow => ({
  ...{ key: `${job}/${hash}`, job, hash, what: 'photo', mime: 'image/jpeg', bytes: 3, keptAt: 1, waiting: 1 },
});
const BYTES = Uint8Array.from([1, 2, 3]).buffer;
const NO_ROOM = { name: 'QuotaExceededError' };

beforeEach(async () => {
  await closeBase();
  await new Promise((resolve) => {
    indexedDB.deleteDatabase('witnessmark').onsuccess = resolve;
  });
});
afterEach(closeBase);

it('pending entries come back in the order made, whatever their ids say; keeping twice is once', async () => {
  const [late, early] = [note(9), note(1)];
  await keepPending('a', [late]);
  await keepPending('a', [early, late]);
  await keepPending('b', [note(5)]);
  expect((await pendingOf('a')).map((d) => d.id)).toEqual([late.id, early.id]);
  expect((await pendingOf('a'))[0]?.body).toBe(late.body);
  await dropPending([late.id]);
  expect((await pendingOf('a')).map((d) => d.id)).toEqual([early.id]);
});

it('entries kept by format 1 of the store are still there in format 2', async () => {
  const old = await openDB('witnessmark', 1, {
    upgrade(db) {
      db.createObjectStore('pending', { keyPath: 'id' });
    },
  });
  for (const draft of [note(2), note(1)]) await old.put('pending', { id: draft.id, job: 'a', draft });
  old.close();
  expect((await pendingOf('a')).map((d) => d.id)).toEqual([note(1).id, note(2).id]);
});

it('the copy of a job comes back over pieces, up to where it holds; a page that is behind shortens nothing', async () => {
  const journal = new MemoryJournal(countingClock());
  const drafts = Array.from({ length: 4_100 }, (_, i) => note(i + 1));
  const made = await journal.append(null, drafts);
  if (!made.ok) throw new Error('4,100 notes');
  const behind = new CopyKeeper('a', () => undefined);
  behind.add(made.value.slice(0, 2_050));
  const ahead = new CopyKeeper('a', () => undefined);
  ahead.add(made.value);
  await ahead.write();
  await behind.write();
  expect((await copyKept('a')).length).toBe(4_100);
  expect(await copyKept('a')).toEqual(made.value);
  await (await base()).delete('segments', ['a', 1]);
  expect((await copyKept('a')).length).toBe(2_000);
});

it('a photograph waits until the machine has it; then the original goes and the small one stays', async () => {
  await keepMedia(row('h1'), BYTES);
  await keepMedia(row('h1'), BYTES);
  expect((await waitingMedia('a')).map((r) => r.hash)).toEqual(['h1']);
  expect(new Uint8Array((await mediaBytes('a', 'h1')) ?? BYTES.slice(0, 0))).toEqual(new Uint8Array(BYTES));
  await mediaArrived(row('h1'), Uint8Array.from([9]).buffer);
  expect(await waitingMedia('a')).toEqual([]);
  expect(await mediaBytes('a', 'h1')).toBeNull();
  expect((await localPhoto('a', 'h1'))?.size).toBe(1);
});

it('the same photograph that waits in another job keeps its bytes', async () => {
  await keepMedia(row('h2', 'a'), BYTES);
  await keepMedia(row('h2', 'b'), BYTES);
  await mediaArrived(row('h2', 'a'), null);
  expect(await mediaBytes('b', 'h2')).not.toBeNull();
});

it('a full device: one clear Problem, the photograph held in the page, and everything kept before still there', async () => {
  await keepPending('a', [note(1)]);
  await keepMedia(row('h3'), BYTES);
  const store = await base();
  const real = store.transaction.bind(store);
  Object.assign(store, {
    transaction: () => {
      throw Object.assign(new Error('no room'), NO_ROOM);
    },
  });
  const kept = await keepMedia(row('h4'), BYTES).then(
    () => null,
    (thrown: unknown) => thrown,
  );
  Object.assign(store, { transaction: real });
  expect(kept).toBeInstanceOf(KeepFault);
  expect((kept as KeepFault).problem).toMatchObject({
    code: 'DEVICE_FULL',
    message: expect.stringMatching(/photograph/),
  });
  expect((await waitingMedia('a')).map((r) => r.hash)).toEqual(['h3', 'h4']);
  expect(await mediaBytes('a', 'h4')).toBe(BYTES);
  expect((await pendingOf('a')).length).toBe(1);
  expect(keepProblem(Object.assign(new Error('x'), NO_ROOM), 'what was recorded').code).toBe('DEVICE_FULL');
});

it('two pages that take a number at once take two numbers', async () => {
  const take = () => changeSetting<number, number>('n', (was = 1) => ({ next: was + 1, answer: was }));
  const taken = await Promise.all(Array.from({ length: 20 }, take));
  expect(new Set(taken).size).toBe(20);
  expect(bagCode(Math.max(...taken))).toMatch(/^B020/);
});

it('what is no picture is said to be none, not kept', async () => {
  const read = await readPhoto(new Blob(['<svg/>'])).catch((thrown: unknown) => thrown);
  expect((read as KeepFault).problem.code).toBe('PHOTO_UNREADABLE');
});
