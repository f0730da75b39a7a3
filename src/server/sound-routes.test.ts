/** Voice notes over HTTP on a real job folder. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { FastifyInstance } from 'fastify';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { must } from '../domain/result.ts';
import { createJob, type JobFolder, SYSTEM_CLOCK, systemIds } from '../store/index.ts';
import { HostedJob } from './hosted-job.ts';
import { deskInPlace } from './plan-desk.ts';
import { createServer } from './server.ts';

let folder: string;
let job: JobFolder;
let app: FastifyInstance;
const headers = { 'content-type': 'audio/ogg', host: 'localhost' };
const note = Buffer.concat([Buffer.from('OggS'), Buffer.alloc(500, 7)]);

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'witnessmark-sounds-'));
  job = must(createJob(join(folder, 'try.job')));
  const { journal, photographs, sounds } = job;
  const hosted = must(await HostedJob.open({ id: 'try', journal, photographs, sounds }));
  const plans = deskInPlace();
  app = await createServer({ jobs: [hosted], clock: SYSTEM_CLOCK, ids: systemIds(), plans, page: folder });
});
afterEach(async () => {
  await app.close();
  job.close();
  rmSync(folder, { recursive: true, force: true });
});

const send = (payload: Buffer) => app.inject({ method: 'POST', url: '/api/jobs/try/sounds', headers, payload });

it('a sound goes in, twice is once, and comes out whole or in one stretch', async () => {
  const first = await send(note);
  expect(first.statusCode).toBe(201);
  expect(first.json()).toMatchObject({ mime: 'audio/ogg', bytes: 504 });
  expect((await send(note)).json()).toEqual(first.json());
  const url = `/api/jobs/try/sounds/${first.json().hash}`;
  const whole = await app.inject({ method: 'GET', url, headers: { host: 'localhost' } });
  expect(whole.rawPayload.equals(note)).toBe(true);
  expect(whole.headers['content-type']).toBe('audio/ogg');
  const part = await app.inject({ method: 'GET', url, headers: { host: 'localhost', range: 'bytes=0-3' } });
  expect([part.statusCode, part.body, part.headers['content-range']]).toEqual([206, 'OggS', 'bytes 0-3/504']);
  const beyond = await app.inject({ method: 'GET', url, headers: { host: 'localhost', range: 'bytes=900-' } });
  expect(beyond.statusCode).toBe(416);
});

it('what is no sound is refused whatever it is called, and nothing is kept', async () => {
  const answer = await send(Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"><script>1</script></svg>'));
  expect([answer.statusCode, answer.json().code]).toEqual([422, 'SOUND_KIND']);
  const missing = await app.inject({ method: 'GET', url: `/api/jobs/try/sounds/${'0'.repeat(64)}`, headers });
  expect([missing.statusCode, missing.json().code]).toEqual([404, 'SOUND_NOT_FOUND']);
});
