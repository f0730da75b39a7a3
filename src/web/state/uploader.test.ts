/** Photographs on their way, against a real HTTP server that cuts, changes and refuses. */
import 'fake-indexeddb/auto';
import { createHash } from 'node:crypto';
import { createServer, type RequestListener, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { Problem } from '../../domain/problem.ts';
import { recording } from '../../journal/commands.ts';
import { unseenDrafts } from './acts.ts';
import { base, closeBase } from './base.ts';
import { ask } from './client.ts';
import { keepMedia, mediaKey, readSound, waitingMedia } from './keep-media.ts';
import { Uploader, type Waiting } from './uploader.ts';
import { type KeepFault, keepProblem } from './web-problems.ts';

let server: Server;
let answer: RequestListener;
let told: { waiting: Waiting; problem: Problem | null };
let uploader: Uploader;
const settings = new Map<string, string>();

beforeEach(async () => {
  await closeBase();
  await new Promise((resolve) => {
    indexedDB.deleteDatabase('witnessmark').onsuccess = resolve;
  });
  settings.clear();
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => settings.get(key) ?? null,
    setItem: (key: string, value: string) => settings.set(key, value),
    removeItem: (key: string) => settings.delete(key),
  });
  server = createServer((request, response) => answer(request, response));
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  settings.set('witnessmark-sync-address', `http://127.0.0.1:${(server.address() as AddressInfo).port}`);
  settings.set('witnessmark-token', 'a-token-of-the-pairing-kind');
  uploader = new Uploader('a', (waiting, problem) => {
    told = { waiting, problem };
  });
});
afterEach(async () => {
  uploader.stop();
  server.closeAllConnections();
  server.close();
  vi.unstubAllGlobals();
  await closeBase();
});

const hashOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

async function keep(text: string): Promise<string> {
  const bytes = new TextEncoder().encode(text);
  const hash = hashOf(bytes);
  const about = { job: 'a', hash, what: 'photo', mime: 'image/jpeg', bytes: bytes.length } as const;
  await keepMedia({ key: mediaKey('a', hash), ...about, keptAt: text.length, waiting: 1 }, bytes.buffer);
  return hash;
}

/** Takes in what comes and names its hash, as the shop's machine does. */
function takes(into: string[]): RequestListener {
  return (request, response) => {
    const parts: Buffer[] = [];
    request.on('data', (part: Buffer) => parts.push(part));
    request.on('end', () => {
      into.push(hashOf(Buffer.concat(parts)));
      expect(request.headers.authorization).toBe('Bearer a-token-of-the-pairing-kind');
      response.writeHead(201, { 'content-type': 'application/json' }).end(JSON.stringify({ hash: into.at(-1) }));
    });
  };
}

it('cut off after the machine took it in: it is kept, sent again, and then is there', async () => {
  const [one, two] = [await keep('one'), await keep('another')];
  const came: string[] = [];
  const taking = takes(came);
  answer = (request, response) => {
    request.resume().on('end', () => {
      came.push(one);
      response.destroy();
    });
  };
  expect(await uploader.run()).toBe(false);
  expect(told.waiting.photos).toBe(2);
  answer = taking;
  expect(await uploader.run()).toBe(true);
  expect(came).toEqual([one, one, two]);
  expect(await waitingMedia('a')).toEqual([]);
  expect(told).toEqual({ waiting: { photos: 0, sounds: 0 }, problem: null });
});

it('a machine that does not answer is AWAY; nothing is lost', async () => {
  answer = (_request, response) => response.destroy();
  await keep('one');
  expect(await uploader.run()).toBe(false);
  expect(await ask('/api/jobs')).toMatchObject({ ok: false, problem: { code: 'AWAY' } });
  expect((await waitingMedia('a')).length).toBe(1);
});

it('shut out: everything waits, and the machine’s own words are given on', async () => {
  answer = (_request, response) =>
    response
      .writeHead(401, { 'content-type': 'application/problem+json' })
      .end('{"code":"DEVICE_REVOKED","message":"Shut out"}');
  await keep('one');
  expect(await uploader.run()).toBe(false);
  expect(await ask('/api/jobs')).toMatchObject({ ok: false, problem: { code: 'DEVICE_REVOKED' } });
  expect((await waitingMedia('a')).length).toBe(1);
});

it('one that is refused or arrives changed stays here, is named, and holds up none of the others', async () => {
  await keep('x');
  const good = await keep('good one');
  const came: string[] = [];
  const taking = takes(came);
  let n = 0;
  answer = (request, response) => {
    n += 1;
    if (n > 1) return taking(request, response);
    response.writeHead(201, { 'content-type': 'application/json' }).end(JSON.stringify({ hash: '0'.repeat(64) }));
  };
  expect(await uploader.run()).toBe(true);
  expect(came).toEqual([good]);
  expect(told).toMatchObject({ waiting: { photos: 1 }, problem: { code: 'PHOTO_CHANGED' } });
});

it('bytes that are not on the device any more are told', async () => {
  const hash = await keep('gone');
  await (await base()).delete('media-bytes', hash);
  answer = (_request, response) => response.destroy();
  expect(await uploader.run()).toBe(true);
  expect(told.problem?.code).toBe('PHOTO_GONE');
});

it('before the job is read: facts are recorded, what needs the job is told to wait', () => {
  const made = unseenDrafts([recording('note', { text: 'a note' })], 'ana', '2026-04-14');
  expect(made).toMatchObject({ ok: true, value: [{ kind: 'note.v1', by: 'ana' }] });
  expect(unseenDrafts([{ kind: 'undo-last' }], 'ana', '')).toMatchObject({ problem: { code: 'JOB_STILL_OPENING' } });
});

it('what is no sound, and a browser that keeps nothing, are told as such', async () => {
  const read = await readSound(new Blob(['x'], { type: 'text/plain' })).catch((thrown: unknown) => thrown);
  expect((read as KeepFault).problem.code).toBe('SOUND_UNREADABLE');
  expect(keepProblem(new Error('x'), 'what was recorded').code).toBe('DEVICE_KEEPS_NOTHING');
});
