/** A newer page on the shop's machine: told, not taken by itself, taken with one tap, on the same screen. */
import { appendFileSync, cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { must } from '../../src/domain/result.ts';
import { draftOf } from '../../src/journal/testing/recorder.ts';
import { HostedJob } from '../../src/server/hosted-job.ts';
import { deskInPlace } from '../../src/server/plan-desk.ts';
import { createServer } from '../../src/server/server.ts';
import { createJob, type JobFolder, SYSTEM_CLOCK, systemIds } from '../../src/store/index.ts';
// @ts-expect-error plain JavaScript, which runs before anything is built
import { ensureBuilt } from '../../tools/ensure-built.mjs';

let folder: string;
let job: JobFolder;
let app: Awaited<ReturnType<typeof createServer>>;
let address: string;
let browser: Browser;

beforeAll(async () => {
  await ensureBuilt();
  folder = mkdtempSync(join(tmpdir(), 'witnessmark-newer-'));
  cpSync(join(import.meta.dirname, '../../dist/web'), join(folder, 'web'), { recursive: true });
  job = must(createJob(join(folder, 'try.job')));
  must(await job.journal.append(null, [draftOf(1, 'job-opened', { job: 'try', name: 'A try', invented: true })]));
  const { journal, photographs, sounds } = job;
  const hosted = must(await HostedJob.open({ id: 'try', journal, photographs, sounds }));
  const plans = deskInPlace();
  app = await createServer({ jobs: [hosted], clock: SYSTEM_CLOCK, ids: systemIds(), plans, page: join(folder, 'web') });
  address = (await app.listen({ port: 0, host: '127.0.0.1' })).replace('127.0.0.1', 'localhost');
  browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu'] });
});
afterAll(async () => {
  await browser.close();
  await app.close();
  job.close();
  rmSync(folder, { recursive: true, force: true });
});

test('a newer page waits until it is taken, and taking it keeps the screen', async () => {
  const page = await (await browser.newContext({ viewport: { width: 390, height: 844 } })).newPage();
  await page.goto(`${address}/catch`);
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  const banner = page.getByRole('complementary', { name: 'A newer page is here' });
  expect(await banner.count()).toBe(0);
  appendFileSync(join(folder, 'web/sw.js'), '\n// a newer one\n');
  await page.evaluate(async () => {
    await (await navigator.serviceWorker.ready).update();
  });
  await banner.waitFor();
  // It is not taken by itself, nor by another look.
  await page.reload();
  await banner.waitFor();
  const loaded = page.waitForEvent('load');
  await page.getByRole('button', { name: 'Take it' }).click();
  await loaded;
  await page.locator('.finder').waitFor();
  expect(new URL(page.url()).pathname).toBe('/catch');
  expect(await banner.count()).toBe(0);
});
