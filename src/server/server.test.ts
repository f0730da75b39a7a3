/** The HTTP face on a real job folder: what comes in is recorded, what goes out is the exact text, strangers are refused. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { FastifyInstance } from 'fastify';
import sharp from 'sharp';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { must } from '../domain/result.ts';
import {
  type Command,
  decide,
  EMPTY_STATE,
  type EntryDraft,
  fold,
  readStored,
  recording,
  type StoredEntry,
} from '../journal/index.ts';
import { createJob, type JobFolder, SYSTEM_CLOCK, systemIds } from '../store/index.ts';
import { HostedJob } from './hosted-job.ts';
import { deskInPlace } from './plan-desk.ts';
import { createServer } from './server.ts';

const ids = systemIds();
const rig = {
  format: 'witnessmark-rig/1',
  root: 'frame',
  parts: [
    { id: 'box', minutes: 5 },
    { id: 'lid', minutes: 2 },
  ],
  attachments: [
    { id: 'j1', joins: ['box', 'frame'], minutes: 3, needs: { off: 'lid' } },
    { id: 'j2', joins: ['lid', 'frame'], minutes: 1 },
  ],
};

let folder: string;
let job: JobFolder;
let app: FastifyInstance;

function drafts(...commands: Command[]): EntryDraft[] {
  let state = EMPTY_STATE;
  return commands.flatMap((c) => {
    const made = must(decide(state, c, { id: ids.next(), at: SYSTEM_CLOCK.now(), by: 'nadia', device: 'test' }));
    state = fold(
      made.map((d, i) => ({ ...d, seq: i + 1, recordedAt: d.at, hash: '' })),
      state,
    );
    return [...made];
  });
}

const opening = (): EntryDraft[] =>
  drafts(
    recording('job-opened', { job: 'try', name: 'A try' }),
    recording('person-noted', { person: 'nadia', name: 'Nadia' }),
    { kind: 'take-in-rig', rig, standing: 'ours' },
  );

const wire = (list: readonly EntryDraft[]) => list.map((d) => ({ body: d.body, digest: d.digest }));

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'witnessmark-server-'));
  job = must(createJob(join(folder, 'try.job')));
  const hosted = must(await HostedJob.open({ id: 'try', journal: job.journal, photographs: job.photographs }));
  app = await createServer({
    jobs: [hosted],
    clock: SYSTEM_CLOCK,
    ids,
    plans: deskInPlace(),
    page: join(folder, 'none'),
  });
});

afterEach(async () => {
  await app.close();
  job.close();
  rmSync(folder, { recursive: true, force: true });
});

async function post(url: string, payload: unknown, headers: Record<string, string> = {}) {
  return app.inject({
    method: 'POST',
    url,
    payload: JSON.stringify(payload),
    headers: { host: 'localhost', 'content-type': 'application/json', ...headers },
  });
}

const get = (url: string, headers: Record<string, string> = {}) =>
  app.inject({ method: 'GET', url, headers: { host: 'localhost', ...headers } });

describe('entries', () => {
  it('are accepted as device halves and given back as their exact text', async () => {
    const sent = opening();
    expect((await post('/api/jobs/try/entries', wire(sent))).statusCode).toBe(201);
    const lines = (await get('/api/jobs/try/entries?after=0')).body
      .trim()
      .split('\n')
      .map((l) => JSON.parse(l) as StoredEntry);
    expect(lines.map((l) => l.body)).toEqual(sent.map((d) => d.body));
    expect(fold(lines.map((l) => must(readStored(l)))).job?.name).toBe('A try');
  });

  it('sent twice stand once', async () => {
    const sent = wire(opening());
    await post('/api/jobs/try/entries', sent);
    expect((await post('/api/jobs/try/entries', sent)).statusCode).toBe(201);
    expect((await get('/api/jobs')).json()).toMatchObject([{ id: 'try', name: 'A try', head: { seq: sent.length } }]);
  });

  it('with another digest are refused, and nothing of them is recorded', async () => {
    const sent = wire(opening());
    const reply = await post('/api/jobs/try/entries', [sent[0], { body: sent[1]?.body, digest: '0'.repeat(64) }]);
    expect(reply.json()).toMatchObject({ code: 'DIGEST_DIFFERS', remedy: expect.any(String), status: 422 });
    expect((await get('/api/jobs/try/entries')).body).toBe('');
  });

  it('that are no entries give BODY_UNREADABLE', async () => {
    expect((await post('/api/jobs/try/entries', { a: 1 })).json()).toMatchObject({ code: 'BODY_UNREADABLE' });
  });

  it('over what is taken at once give TOO_MUCH', async () => {
    const reply = await post('/api/jobs/try/entries', 'x'.repeat(21 * 1024 * 1024));
    expect(reply.json()).toMatchObject({ code: 'TOO_MUCH', status: 413 });
  });

  it('come to a follower from where it left off, and as they are accepted', async () => {
    const sent = wire(opening());
    await post('/api/jobs/try/entries', sent.slice(0, 2));
    await app.listen({ port: 0, host: '127.0.0.1' });
    const address = app.server.address();
    const port = typeof address === 'object' && address ? address.port : 0;
    const stop = new AbortController();
    const reply = await fetch(`http://127.0.0.1:${port}/api/jobs/try/follow`, {
      headers: { 'last-event-id': '1' },
      signal: stop.signal,
    });
    const reader = reply.body!.pipeThrough(new TextDecoderStream()).getReader();
    await post('/api/jobs/try/entries', sent.slice(2));
    let text = '';
    while (!/id: 3/.test(text)) text += (await reader.read()).value ?? '';
    expect(text.match(/^id: \d+$/gm)).toEqual(['id: 2', 'id: 3']);
    stop.abort();
  });
});

describe('commands and plans', () => {
  it('decides a command on the server, and plans from what is so then', async () => {
    await post('/api/jobs/try/entries', wire(opening()));
    const before = await get(`/api/jobs/try/off?goal=${encodeURIComponent('{"apart":"box"}')}`);
    expect(before.json()).toMatchObject({ cost: 11, proven: true });
    await post('/api/jobs/try/commands', { command: { kind: 'step', action: 'j2' }, by: 'nadia', device: 'test' });
    expect((await get(`/api/jobs/try/off?goal=${encodeURIComponent('{"apart":"box"}')}`)).json()).toMatchObject({
      cost: 10,
    });
    expect((await get('/api/jobs/try/why-not?action=remove:box')).json()).toMatchObject({ allowed: false });
    expect((await get('/api/jobs/try/fits')).json()).toMatchObject({ next: [{ action: 'j2', fits: true }] });
  });

  it('says what is missing in a question', async () => {
    await post('/api/jobs/try/entries', wire(opening()));
    expect((await get('/api/jobs/try/off')).json()).toMatchObject({ code: 'QUESTION_UNREADABLE', where: 'goal' });
    expect((await get('/api/jobs/try/off?goal={"apart":"x"}')).json()).toMatchObject({ code: 'RIG_UNKNOWN_ID' });
    expect((await get('/api/jobs/nowhere/fits')).json()).toMatchObject({ code: 'NO_SUCH_JOB', status: 404 });
    expect((await get('/api/elsewhere')).json()).toMatchObject({ code: 'NO_SUCH_PLACE' });
  });
});

describe('photographs', () => {
  it('are taken in by content and given back in three sizes', async () => {
    const jpeg = await sharp({ create: { width: 800, height: 600, channels: 3, background: '#888' } })
      .jpeg()
      .toBuffer();
    const put = await app.inject({
      method: 'POST',
      url: '/api/jobs/try/photos',
      payload: jpeg,
      headers: { host: 'localhost', 'content-type': 'image/jpeg' },
    });
    const { hash } = put.json() as { hash: string };
    const thumb = await get(`/api/jobs/try/photos/${hash}/thumb`);
    expect(thumb.headers['content-type']).toBe('image/jpeg');
    expect((await sharp(thumb.rawPayload).metadata()).width).toBeLessThanOrEqual(320);
    expect((await get(`/api/jobs/try/photos/${'0'.repeat(64)}/thumb`)).statusCode).toBe(404);
    expect((await get(`/api/jobs/try/photos/..%2f..%2fjournal.db/thumb`)).json()).toMatchObject({
      code: 'PHOTO_NOT_HERE',
    });
  });
});

describe('strangers', () => {
  it.each([
    [{ host: 'evil.example' }],
    [{ host: 'localhost', origin: 'http://evil.example' }],
    [{ host: 'localhost', 'sec-fetch-site': 'cross-site' }],
  ])('%o may not record', async (headers) => {
    const reply = await post('/api/jobs/try/entries', wire(opening()), headers);
    expect([reply.statusCode, (reply.json() as { code: string }).code]).toEqual([403, 'OTHER_ORIGIN']);
  });
});
