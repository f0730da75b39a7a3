/** Labels and bag numbers over HTTP, on a real shop: what is answered, and that two devices never get the same number. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { FastifyInstance } from 'fastify';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { bagCode } from '../domain/bag-code.ts';
import { must } from '../domain/result.ts';
import { decide, recording } from '../journal/index.ts';
import { createJob, createShop, type JobFolder, type ShopFolder, SYSTEM_CLOCK, systemIds } from '../store/index.ts';
import { HostedJob } from './hosted-job.ts';
import { deskInPlace } from './plan-desk.ts';
import { createServer } from './server.ts';

const ids = systemIds();
let folder: string;
let shop: ShopFolder;
let app: FastifyInstance;
const open: JobFolder[] = [];

async function hosted(job: JobFolder, id: string): Promise<HostedJob> {
  open.push(job);
  const source = must(await HostedJob.open({ id, journal: job.journal, photographs: job.photographs }));
  for (const command of [
    recording('job-opened', { job: id, name: id, registration: 'QX-TRY', invented: true }),
    recording('bagged', { bag: 'B105C', opens: true, note: 'Hinge' }),
    recording('place-noted', { place: 'rack-1', name: 'Rack 1' }),
  ])
    must(
      await source.append(
        must(decide(source.state, command, { id: ids.next(), at: SYSTEM_CLOCK.now(), by: 'ana', device: 't' })),
      ),
    );
  return source;
}

const setup = (jobs: readonly HostedJob[]) => ({
  jobs,
  clock: SYSTEM_CLOCK,
  ids,
  plans: deskInPlace(),
  page: join(folder, 'none'),
});

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'witnessmark-labels-'));
  shop = must(createShop(join(folder, 'shop'), 'Try'));
  const jobs = [await hosted(must(shop.createJob('a')), 'a'), await hosted(must(shop.createJob('b')), 'b')];
  app = await createServer({ ...setup(jobs), bags: shop.bagSeries });
});
afterEach(async () => {
  await app.close();
  for (const job of open.splice(0)) job.close();
  shop.close();
  rmSync(folder, { recursive: true, force: true });
});

const post = (job: string, payload: unknown, server = app) =>
  server.inject({
    method: 'POST',
    url: `/api/jobs/${job}/bags/set-aside`,
    payload: JSON.stringify(payload),
    headers: { host: 'localhost', 'content-type': 'application/json' },
  });
const get = (query: string) =>
  app.inject({ method: 'GET', url: `/api/jobs/a/labels.pdf?${query}`, headers: { host: 'localhost' } });
interface Block {
  readonly from: number;
  readonly to: number;
  readonly codes: readonly string[];
}

function numbers(blocks: readonly Block[]): readonly number[] {
  return blocks.flatMap((b) => Array.from({ length: b.to - b.from + 1 }, (_, i) => b.from + i));
}

describe('bags set aside', () => {
  it('gives the next numbers of the shop with their letters, and they are in the journal of the job', async () => {
    const got = await post('a', { count: 3, for: 'tablet-2' });
    expect(got.statusCode).toBe(201);
    expect(got.json()).toEqual({ from: 106, to: 108, codes: ['B106K', 'B107T', 'B108A'] });
    const entries = await app.inject({
      method: 'GET',
      url: '/api/jobs/a/entries?after=3',
      headers: { host: 'localhost' },
    });
    expect(entries.body).toContain('bags-set-aside');
    expect((await post('b', { count: 1, for: 'roll', roll: true })).json()).toMatchObject({ from: 109, to: 109 });
  });

  it('two devices and two jobs asking at once never get the same number', async () => {
    const asked = await Promise.all(
      Array.from({ length: 30 }, (_, i) =>
        post(i % 2 === 0 ? 'a' : 'b', { count: 1 + (i % 4), for: `phone-${i % 5}` }),
      ),
    );
    expect(asked.map((r) => r.statusCode)).toEqual(asked.map(() => 201));
    const all = numbers(asked.map((r) => r.json<Block>()));
    expect([new Set(all).size, Math.min(...all)]).toEqual([all.length, 106]);
  });

  it('nor do they where the job stands alone, without a shop', async () => {
    const alone = await hosted(must(createJob(join(folder, 'alone.job'))), 'alone');
    const server = await createServer(setup([alone]));
    const asked = await Promise.all(
      Array.from({ length: 20 }, (_, i) => post('alone', { count: 2, for: `p${i}` }, server)),
    );
    expect(asked.map((r) => r.statusCode)).toEqual(asked.map(() => 201));
    const all = numbers(asked.map((r) => r.json<Block>()));
    expect(new Set(all).size).toBe(40);
    await server.close();
  });

  it.each([
    [{ count: 0, for: 'x' }, 'BAGS_COUNT'],
    [{ count: 1_001, for: 'x' }, 'BAGS_COUNT'],
    [{ count: 2.5, for: 'x' }, 'BAGS_COUNT'],
    [{ count: 1 }, 'BODY_UNREADABLE'],
    [{ count: '5', for: 'x' }, 'BODY_UNREADABLE'],
    [{ count: 5, for: 'x', more: 1 }, 'BODY_UNREADABLE'],
  ])('%j is refused as %s, and no number is spent', async (body, code) => {
    expect((await post('a', body)).json()).toMatchObject({ code });
    expect((await post('a', { count: 1, for: 'x' })).json()).toMatchObject({ from: 106 });
  });
});

describe('labels.pdf', () => {
  it.each([
    'what=bag&ids=B105C&form=a4-24&start=3',
    'what=bag&ids=%5B%22B105C%22%5D&form=roll-62x29',
    'what=place&form=a4-12',
    'what=place&ids=rack-1&form=57x32',
    'what=bag&ids=B105C&form=sheet&grid=2x7&label=90x38&gap=5x1',
  ])('%s is shown as a PDF in the browser', async (query) => {
    const got = await get(query);
    expect([got.statusCode, got.headers['content-type']]).toEqual([200, 'application/pdf']);
    expect(got.headers['content-disposition']).toMatch(/^inline; filename="labels-(bag|place)\.pdf"$/);
    expect(got.rawPayload.subarray(0, 5).toString()).toBe('%PDF-');
  });

  it('prints a roll that was set aside', async () => {
    const { from, to } = (await post('a', { count: 12, for: 'roll', roll: true })).json<Block>();
    expect((await get(`what=roll&from=${from}&to=${bagCode(to)}&form=roll-62x29`)).statusCode).toBe(200);
    expect((await get(`what=roll&from=${from}&to=${to + 1}&form=roll-62x29`)).json()).toMatchObject({
      code: 'BAGS_NOT_SET_ASIDE',
    });
  });

  it.each([
    ['what=bag&ids=B106K', 'LABEL_SUBJECT_UNKNOWN'],
    ['what=bag&ids=B105D', 'BAG_CODE_LETTER'],
    ['what=bag&ids=B105C&form=a5-9', 'FORM_UNKNOWN'],
    ['what=bag&ids=B105C&form=10x10', 'LABEL_TOO_SMALL'],
    ['what=bag&ids=B105C&start=25', 'LABEL_START'],
    ['what=bag&ids=B105C&start=x', 'LABEL_START'],
    ['what=tags', 'LABELS_NONE'],
    ['what=stamp', 'LABEL_KIND_UNKNOWN'],
    ['what=bag&ids=B105C&form=a4-24&form=a4-12', 'BODY_UNREADABLE'],
  ])('%s is refused as %s', async (query, code) => {
    const got = await get(query);
    expect([got.statusCode, String(got.headers['content-type'])]).toEqual([
      422,
      expect.stringMatching(/^application\/problem\+json/),
    ]);
    expect(got.json()).toMatchObject({ code });
  });
});
