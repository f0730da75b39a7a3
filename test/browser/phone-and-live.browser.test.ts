/** The phone in the dark, by touch alone; and two people at once, each seeing what the other records. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Demo, open, REFIT_DAY, settled, startDemo } from './support/demo.ts';

let demo: Demo;
beforeAll(async () => {
  demo = await startDemo();
});
afterAll(async () => demo.end());

/** 14 mm at the 138 px to the inch of a phone's css pixel. */
const THUMB = 76;

async function heights(page: Page, selector: string): Promise<readonly number[]> {
  return page
    .locator(selector)
    .evaluateAll((els) =>
      els.filter((e) => e.getClientRects().length > 0).map((e) => e.getBoundingClientRect().height),
    );
}

test('phone, dark, touch alone: find the spring, did it, stuck, undo; keys and rows are as high as a thumb', async () => {
  const { page, complaints } = await open(demo, '/', 'phone', 'dark');
  expect(await page.evaluate(() => document.documentElement.dataset.theme)).toBe('night');
  await page.getByRole('combobox').tap();
  await page.getByRole('combobox').fill('10-03');
  await page.getByRole('option', { name: /Main spring/ }).tap();
  await settled(page);
  expect(await page.locator('.top').textContent()).toContain('invented example');
  for (const h of [...(await heights(page, '.bottom .key')), ...(await heights(page, '.row:not(.done)'))])
    expect(h).toBeGreaterThanOrEqual(THUMB);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);

  await page.getByRole('button', { name: 'Did it' }).tap();
  await settled(page);
  await page.locator('.answer', { hasText: '7' }).waitFor();
  await page.getByRole('button', { name: 'Stuck' }).tap();
  await page.getByRole('heading', { name: 'Stop. Do not force it.' }).waitFor();
  await page.getByRole('button', { name: 'Not known yet' }).tap();
  await page.getByRole('button', { name: 'Undo' }).tap();
  await page.getByRole('button', { name: 'Undo' }).tap();
  await settled(page);
  await page.locator('.answer', { hasText: '8' }).waitFor();

  await page.getByRole('button', { name: 'Drawing', exact: true }).tap();
  await page.locator('.tag').first().waitFor();
  await page.getByRole('button', { name: 'List', exact: true }).tap();
  await page.locator('.top .where').tap();
  await page.getByRole('link', { name: 'What fits next' }).tap();
  await settled(page);
  expect(page.url()).toContain('/fits');
  expect(complaints).toEqual([]);
});

test('two open browsers: what one records, the other sees, with who did it; each keeps its own person', async () => {
  const desk = await open(demo, '/off?goal=10-03');
  const phone = await open(demo, '/off?goal=10-03', 'phone', 'dark');
  await settled(desk.page);
  await settled(phone.page);
  await desk.page.getByRole('button', { name: /In hand/ }).click();
  await desk.page.getByRole('option', { name: /Joss Penhallick/ }).click();
  await desk.page.getByRole('button', { name: 'Did it' }).click();
  await phone.page
    .locator('.row.done', { hasText: 'Joss' })
    .or(phone.page.locator('.answer', { hasText: '7' }))
    .first()
    .waitFor();
  await phone.page.getByRole('button', { name: 'Did it' }).tap();
  await settled(desk.page);
  await desk.page.locator('.answer', { hasText: /^6\s*steps/ }).waitFor();
  await desk.page
    .locator('.row.done', { hasText: /Marit|Joss/ })
    .first()
    .waitFor();
  await desk.page.locator('p[role="status"]', { hasText: 'Marit Oduya:' }).waitFor({ state: 'attached' });
  expect(await desk.page.locator('.title').textContent()).toContain('Joss Penhallick');
  expect([...desk.complaints, ...phone.complaints]).toEqual([]);
});

test('away: what is recorded shows at once and says so; back again it is sent, and what others did is there', async () => {
  const here = await open(demo, `/fits?job=${REFIT_DAY}&place=02&hand=R`);
  const away = await open(demo, `/fits?job=${REFIT_DAY}&place=02&hand=R`);
  await settled(here.page);
  await settled(away.page);
  await away.context.setOffline(true);
  await away.page.locator('.row.fit:not(.harmful)', { hasText: 'Lug bolt' }).first().click();
  await away.page.getByRole('button', { name: 'Fitted', exact: true }).click();
  await away.page.locator('.recorded', { hasText: 'saved here' }).waitFor();
  await away.page.locator('.title', { hasText: /away/ }).waitFor();
  await away.page.locator('.title', { hasText: '1 to send' }).waitFor();
  await here.page.getByRole('button', { name: 'Stopped here' }).click();
  await here.page.getByRole('button', { name: 'held by pins' }).click();
  await away.context.setOffline(false);
  await away.page.locator('.note-line', { hasText: 'held by pins' }).waitFor({ timeout: 30_000 });
  await away.page.waitForFunction(
    () => !document.querySelector('.title')?.textContent?.includes('to send'),
    undefined,
    { timeout: 30_000 },
  );
  await here.page.waitForFunction(
    () => document.querySelector('.title')?.textContent?.includes('62 of 549'),
    undefined,
    { timeout: 30_000 },
  );
  expect([...here.complaints, ...away.complaints]).toEqual([]);
});
