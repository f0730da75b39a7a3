/**
 * A page that was installed from one address of the shop and finds it at another: entries, the follow stream and a
 * photograph go there with the token from pairing. Shut out, everything stays on the device; paired anew, it goes.
 */
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium, type Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { must } from '../../src/domain/result.ts';
import { draftOf } from '../../src/journal/testing/recorder.ts';
import { HostedJob } from '../../src/server/hosted-job.ts';
import { LanDesk } from '../../src/server/lan/lan-desk.ts';
import { type OpenDoors, openDoors } from '../../src/server/lan/open-doors.ts';
import { deskInPlace } from '../../src/server/plan-desk.ts';
import {
  createJob,
  createShop,
  type JobFolder,
  type ShopFolder,
  SYSTEM_CLOCK,
  systemIds,
} from '../../src/store/index.ts';
// @ts-expect-error plain JavaScript, which runs before anything is built
import { ensureBuilt } from '../../tools/ensure-built.mjs';

let folder: string;
let shop: ShopFolder;
let job: JobFolder;
let doors: OpenDoors;
let desk: LanDesk;
let browser: Browser;

beforeAll(async () => {
  await ensureBuilt();
  folder = mkdtempSync(join(tmpdir(), 'witnessmark-address-'));
  shop = must(createShop(join(folder, 'shop'), 'Invented Works'));
  job = must(createJob(join(folder, 'try.job')));
  must(
    await job.journal.append(null, [
      draftOf(1, 'job-opened', { job: 'try', name: 'A try', invented: true }),
      draftOf(2, 'person-noted', { person: 'ana', name: 'Ana' }),
    ]),
  );
  const { journal, photographs, sounds } = job;
  const hosted = must(await HostedJob.open({ id: 'try', journal, photographs, sounds }));
  desk = new LanDesk(shop, '0.0.0');
  const page = join(import.meta.dirname, '../../dist/web');
  const setup = { jobs: [hosted], clock: SYSTEM_CLOCK, ids: systemIds(), plans: deskInPlace(), page };
  const addresses = () => [{ address: '127.0.0.1', cidr: '127.0.0.1/8' }];
  doors = await openDoors(setup, desk, { name: 'witnessmark.local', plainPort: 0, tlsPort: 0, addresses });
  browser = await chromium.launch({
    executablePath: '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--host-resolver-rules=MAP witnessmark.local 127.0.0.1'],
  });
});
afterAll(async () => {
  await browser.close();
  await doors.close();
  job.close();
  shop.close();
  rmSync(folder, { recursive: true, force: true });
});

async function pair(page: Page): Promise<void> {
  await page.goto(`https://witnessmark.local:${desk.place?.tlsPort}/pair`);
  await page.getByLabel('Code').fill(must(shop.register.makeCode(SYSTEM_CLOCK.now())).code);
  await page.getByLabel('What this device is called').fill('Floor phone');
  await page.getByRole('button', { name: 'Pair' }).click();
  await page.waitForURL((url) => url.pathname !== '/pair');
}

async function photograph(page: Page, shade: number): Promise<string> {
  const background = { r: shade, g: 80, b: 80 };
  const buffer = await sharp({ create: { width: 300, height: 200, channels: 3, background } })
    .jpeg()
    .toBuffer();
  await page.locator('input[type="file"]').first().setInputFiles({ name: 'x.jpg', mimeType: 'image/jpeg', buffer });
  return createHash('sha256').update(buffer).digest('hex');
}

test('the shop at another address: a photograph goes there; shut out it stays here; paired anew it goes', async () => {
  const context = await browser.newContext({ ignoreHTTPSErrors: true, viewport: { width: 390, height: 844 } });
  const page = await context.newPage();
  await pair(page);
  const first = shop.register.list().at(-1);
  expect(await page.evaluate(() => localStorage.getItem('witnessmark-device'))).toBe(first?.id);
  const other = `https://127.0.0.1:${desk.place?.tlsPort}`;
  await page.evaluate((address) => localStorage.setItem('witnessmark-sync-address', address), other);
  const asked: string[] = [];
  page.on('request', (r) => asked.push(r.url()));
  await page.goto(`https://witnessmark.local:${desk.place?.tlsPort}/catch`);
  const hash = await photograph(page, 200);
  await expect.poll(() => job.photographs.has(hash), { timeout: 30_000 }).toBe(true);
  const api = asked.filter((u) => u.includes('/api/'));
  expect(api.filter((u) => !u.startsWith(other))).toEqual([]);
  expect(api.some((u) => u.includes('/follow'))).toBe(true);

  must(shop.register.revoke(first?.id ?? '', SYSTEM_CLOCK.now()));
  const kept = await photograph(page, 20);
  await page
    .getByText(/not yet copied to the office/)
    .first()
    .waitFor({ timeout: 30_000 });
  expect(await job.photographs.has(kept)).toBe(false);
  await pair(page);
  await page.goto(`https://witnessmark.local:${desk.place?.tlsPort}/catch`);
  await expect.poll(() => job.photographs.has(kept), { timeout: 30_000 }).toBe(true);
  await context.close();
});
