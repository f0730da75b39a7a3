/**
 * The first hour of a real user, on a phone without a network: strip a tail-wheel into twelve bags with one interruption,
 * find bag seven the next day, and find everything on the big screen, the plan answering from it and the joint left
 * finger-tight on top of the list. Taps are counted: a bag with two photographs takes at most four.
 */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Demo, open, SPRING_DAY, startDemo } from './support/demo.ts';

const BAGS = 12;
const INTERRUPTED_AFTER = 5;
let demo: Demo;
beforeAll(async () => {
  demo = await startDemo(['--use-fake-device-for-media-stream', '--use-fake-ui-for-media-stream']);
});
afterAll(async () => demo.end());

async function codeOf(page: Page): Promise<string> {
  const code = page.locator('.code', { hasText: /^B\d{3,}[A-Z]$/ });
  await code.waitFor();
  return code.innerText();
}

/** One bag with two photographs; gives its code and how many taps it took. */
async function bag(page: Page): Promise<{ readonly code: string; readonly taps: number }> {
  let taps = 0;
  const tap = async (what: ReturnType<Page['locator']>) => {
    taps += 1;
    await what.tap();
  };
  const code = await codeOf(page);
  await tap(page.locator('.shutter'));
  await page.locator('.strip li').first().waitFor();
  // The test picture moves; two shots of the very same frame would be one photograph.
  await page.waitForTimeout(300);
  await tap(page.locator('.shutter'));
  await page.locator('.strip li').nth(1).waitFor();
  await tap(page.getByRole('button', { name: /^Bag it/ }).first());
  await page.getByRole('heading', { name: code }).waitFor();
  await tap(page.getByRole('button', { name: 'Next bag', exact: true }).first());
  await page.locator('.shutter:not([disabled])').waitFor();
  return { code, taps };
}

async function shopHas(code: string): Promise<number> {
  const got = await fetch(`${demo.address}/api/jobs/${SPRING_DAY}/entries?after=0`);
  const lines = (await got.text()).split('\n').filter((l) => l.includes(code));
  return lines.filter((l) => /"kind\\":\\"bagged\./.test(l)).length;
}

async function photosOf(code: string): Promise<readonly string[]> {
  const got = await fetch(`${demo.address}/api/jobs/${SPRING_DAY}/entries?after=0`);
  return (await got.text())
    .split('\n')
    .filter((l) => l.includes(code) && l.includes('photo-taken'))
    .map((l) => /\\"hash\\":\\"([0-9a-f]{64})/.exec(l)?.[1] ?? '');
}

test('twelve bags without a network, one interruption, and all of it is there afterwards', async () => {
  const { page, context, complaints } = await open(demo, `/catch?job=${SPRING_DAY}`, 'phone');
  await page.locator('.shutter:not([disabled])').waitFor();
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  await codeOf(page);
  // The job is read once and kept before the network goes.
  await page.goto(`${demo.address}/floor?job=${SPRING_DAY}`);
  await page.locator('.floor-head h1').waitFor();
  await page.waitForTimeout(4_000);
  await page.goto(`${demo.address}/catch?job=${SPRING_DAY}`);
  await page.locator('.shutter:not([disabled])').waitFor();

  await context.setOffline(true);
  const made: { readonly code: string; readonly taps: number }[] = [];
  for (let i = 0; i < INTERRUPTED_AFTER; i += 1) made.push(await bag(page));

  // Called away with one photograph taken: the page is thrown away and opened again, still without a network.
  await page.locator('.shutter').tap();
  await page.locator('.strip li:not(.is-keeping)').first().waitFor();
  await page.goto('about:blank');
  await page.goto(`${demo.address}/catch?job=${SPRING_DAY}`);
  await page.locator('.shutter:not([disabled])').waitFor();
  await page.locator('.strip li').first().waitFor();
  const code = await codeOf(page);
  await page
    .getByRole('button', { name: /^Bag it/ })
    .first()
    .tap();
  await page.getByRole('heading', { name: code }).waitFor();
  await page.getByRole('button', { name: 'Next bag', exact: true }).first().tap();
  await page.locator('.shutter:not([disabled])').waitFor();
  made.push({ code, taps: 3 });
  while (made.length < BAGS) made.push(await bag(page));
  expect(new Set(made.map((m) => m.code)).size).toBe(BAGS);
  expect(Math.max(...made.map((m) => m.taps))).toBeLessThanOrEqual(4);

  // A joint is left finger-tight, said on the plan's own screen.
  await page.goto(`${demo.address}/off?job=${SPRING_DAY}&goal=10-14`);
  await page.locator('.row').first().waitFor();
  await page.getByRole('button', { name: 'More', exact: true }).tap();
  await page.getByRole('menuitem', { name: /^Stopped here/ }).tap();
  await page.locator('#leaf-words').fill('axle nut finger-tight');
  await page.keyboard.press('Enter');
  await page.getByText('Stopped here: axle nut finger-tight').first().waitFor({ state: 'attached' });
  await page.goto(`${demo.address}/floor?job=${SPRING_DAY}`);
  await page.getByText('axle nut finger-tight').first().waitFor();
  expect(await page.locator('.top .where').innerText()).toMatch(/\d+ photographs not yet copied to the office/);

  // Bag seven is found without a network, by a sloppy hand.
  const seven = made[6]?.code ?? '';
  await page.goto(`${demo.address}/bags?job=${SPRING_DAY}`);
  await page.getByLabel('Find a bag').fill(seven.toLowerCase().replace('b', ''));
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: seven }).waitFor();

  await context.setOffline(false);
  await expect
    .poll(async () => (await Promise.all(made.map((m) => shopHas(m.code)))).join(), { timeout: 40_000 })
    .toBe(made.map(() => 1).join());
  const hashes = await photosOf(seven);
  expect(hashes.length).toBe(2);
  for (const hash of hashes)
    await expect
      .poll(async () => (await fetch(`${demo.address}/api/jobs/${SPRING_DAY}/photos/${hash}/original`)).status, {
        timeout: 40_000,
      })
      .toBe(200);
  await expect
    .poll(async () => page.locator('.top .where').innerText(), { timeout: 40_000 })
    .not.toMatch(/not yet copied/);
  expect(complaints).toEqual([]);
  await context.close();

  // The big screen: the joint left finger-tight heads the list, and the plan answers.
  const desk = await open(demo, `/floor?job=${SPRING_DAY}`, 'desk');
  await desk.page.getByText('axle nut finger-tight').first().waitFor();
  await desk.page.goto(`${demo.address}/bags?job=${SPRING_DAY}&bag=${seven}`);
  await desk.page.getByRole('heading', { name: seven }).waitFor();
  expect(await desk.page.locator('.bag-photos > *').count()).toBe(2);
  await desk.page.goto(`${demo.address}/off?job=${SPRING_DAY}&goal=10-14`);
  await desk.page.locator('.row').first().waitFor();
  await desk.context.close();
}, 240_000);
