/**
 * Pairing as a phone does it: the link of the QR code, on to the locked address with the code carried along, the form
 * sent by the browser itself, then another address of the same shop by the token. Certificate trust is OpenSSL's to judge
 * (src/store/authority/authority.test.ts); here the browser is told to look past it.
 */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { must } from '../../src/domain/result.ts';
import { LanDesk } from '../../src/server/lan/lan-desk.ts';
import { type OpenDoors, openDoors } from '../../src/server/lan/open-doors.ts';
import { deskInPlace } from '../../src/server/plan-desk.ts';
import { createShop, type ShopFolder, SYSTEM_CLOCK, systemIds } from '../../src/store/index.ts';

let folder: string;
let shop: ShopFolder;
let doors: OpenDoors;
let desk: LanDesk;
let browser: Browser;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'witnessmark-pairing-'));
  const page = join(folder, 'page');
  mkdirSync(page);
  writeFileSync(join(page, 'index.html'), '<!doctype html><title>In</title><link rel="icon" href="data:,">');
  shop = must(createShop(join(folder, 'shop'), 'Invented Works'));
  desk = new LanDesk(shop, '0.0.0');
  const setup = { jobs: [], clock: SYSTEM_CLOCK, ids: systemIds(), plans: deskInPlace(), page };
  const addresses = () => [{ address: '127.0.0.1', cidr: '127.0.0.1/8' }];
  doors = await openDoors(setup, desk, { name: 'witnessmark.local', plainPort: 0, tlsPort: 0, addresses });
  browser = await chromium.launch({
    executablePath: '/usr/bin/chromium',
    args: ['--no-sandbox', '--host-resolver-rules=MAP witnessmark.local 127.0.0.1'],
  });
});
afterAll(async () => {
  await browser.close();
  await doors.close();
  shop.close();
  rmSync(folder, { recursive: true, force: true });
});

const code = (): string => must(shop.register.makeCode(SYSTEM_CLOCK.now())).code;

test('the link of the QR code leads to the locked address, and the form pairs', async () => {
  const context = await browser.newContext({ ignoreHTTPSErrors: true, viewport: { width: 390, height: 844 } });
  const page = await context.newPage();
  const first = code();
  await page.goto(`http://127.0.0.1:${desk.place?.plainPort}/pair#${first}`);
  expect(await page.inputValue('#code')).toBe(first);
  expect(page.url()).not.toContain('#');
  await page.getByRole('link', { name: /witnessmark\.local/ }).click();
  await page.waitForURL(/^https:/);
  expect(await page.inputValue('#code')).toBe(first);
  for (const key of await page.getByRole('button').all())
    expect((await key.boundingBox())?.height).toBeGreaterThanOrEqual(53); // 14 mm at 96 px to the inch
  await page.getByLabel('What this device is called').fill('Floor tablet');
  await page.getByRole('button', { name: 'Pair' }).click();
  await page.waitForURL((url) => url.pathname === '/');
  expect(await page.title()).toBe('In');
  expect((await context.cookies()).map((c) => [c.name, c.secure, c.httpOnly, c.sameSite])).toEqual([
    ['__Host-witnessmark', true, true, 'Strict'],
  ]);

  // Another address of the same shop: the token opens it, the cookie does not.
  const other = `https://127.0.0.1:${desk.place?.tlsPort}/api/jobs`;
  const told = await page.evaluate(
    async ([c]) => {
      const headers = { 'content-type': 'application/json' };
      const sent = await fetch('/pair', { method: 'POST', headers, body: JSON.stringify({ code: c, name: 'Second' }) });
      return (await sent.json()) as { token: string };
    },
    [code()],
  );
  const tried = await page.evaluate(
    async ([url = '', token]) => {
      const byToken = await fetch(url, { headers: { authorization: `Bearer ${token}` } }).then((r) => r.status);
      const byCookie = await fetch(url, { credentials: 'include' }).then(
        (r) => String(r.status),
        () => 'refused by the browser',
      );
      return { byToken, byCookie };
    },
    [other, told.token],
  );
  expect(tried).toEqual({ byToken: 200, byCookie: 'refused by the browser' });
  await context.close();
});

test('plainly, a browser pairs as well; a wrong code is told on the page', async () => {
  const context = await browser.newContext({ javaScriptEnabled: false });
  const page = await context.newPage();
  await page.goto(`http://127.0.0.1:${desk.place?.plainPort}/`);
  expect(page.url()).toMatch(/\/pair$/);
  for (const typed of ['AAAA-AAAA', code()]) {
    await page.getByLabel('Code').fill(typed);
    await page.getByLabel('What this device is called').fill('Old phone');
    await page.getByRole('button').click();
    if (typed === 'AAAA-AAAA') expect(await page.getByRole('alert').innerText()).toMatch(/no code like this/);
  }
  await page.waitForURL((url) => url.pathname === '/');
  expect((await context.cookies()).map((c) => [c.name, c.secure])).toEqual([['witnessmark', false]]);
  await context.close();
});
