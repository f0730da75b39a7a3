/** What may go back now, what it would lock out and hide, on the April day of the demo. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Demo, open, REFIT_DAY, ROW, settled, startDemo } from './support/demo.ts';

let demo: Demo;
beforeAll(async () => {
  demo = await startDemo();
});
afterAll(async () => demo.end());

const BAY = `/fits?job=${REFIT_DAY}&place=02&hand=R`;

test('harm is said in a sentence, and drawn; what harms nothing stands beside it', async () => {
  const { page, complaints } = await open(demo, BAY);
  await settled(page);
  const diaphragm = page.locator('.row.harmful', { hasText: 'Gear bay diaphragm, starboard' });
  await diaphragm.waitFor();
  const said = await diaphragm.textContent();
  expect(said).toContain('It would fit. Then ');
  expect(said).toMatch(/not yet seen, (is|are) hidden/);
  expect(await page.locator('.row.fit:not(.harmful)').count()).toBeGreaterThan(0);
  await diaphragm.click();
  await page.locator('.art [data-part="02-12"].is-on').first().waitFor();
  await page.locator('.art .is-harm').first().waitFor();
  expect(await page.locator('.answer').textContent()).toContain('would lock out or hide');
  expect(complaints).toEqual([]);
});

test('fitting what would hide a look is asked about first; the look can be said to be done, unsigned', async () => {
  const { page, complaints } = await open(demo, BAY);
  await settled(page);
  const panel = page.locator('.row.harmful', { hasText: 'Hull side skin panel 9, starboard' });
  await panel.first().click();
  await page.keyboard.press('Enter');
  const leaf = page.getByRole('dialog');
  await leaf.getByText('To be seen before it is fitted').waitFor();
  await leaf.getByRole('button', { name: /It was looked at: flange of C9/ }).click();
  await leaf.waitFor({ state: 'detached' });
  await page.waitForFunction(
    () => ![...document.querySelectorAll('.row.harmful')].some((r) => r.textContent?.includes('flange of C9')),
  );
  await page.keyboard.press('u');
  await page.locator('.row.harmful', { hasText: 'flange of C9' }).first().waitFor();
  expect(complaints).toEqual([]);
});

test('fitted is one key, counted and taken back; a trial fit stays in the list as in place', async () => {
  const { page, complaints } = await open(demo, BAY);
  await settled(page);
  const before = await page.locator('.title', { hasText: 'positions in' }).textContent();
  const bolt = page.locator('.row.fit:not(.harmful)', { hasText: 'Lug bolt M10 special, starboard' }).first();
  await bolt.click();
  await page.getByRole('button', { name: 'Fitted', exact: true }).click();
  await page.locator('.recorded', { hasText: 'Fitted:' }).waitFor();
  await page.waitForFunction((was) => document.querySelector('.title')?.textContent !== was, before);
  await page.keyboard.press('u');
  await page.waitForFunction((was) => document.querySelector('.title')?.textContent === was, before);
  await settled(page);
  await page.locator('.row.fit:not(.harmful)', { hasText: 'Lug bolt M10 special, starboard' }).first().click();
  await page.keyboard.press('t');
  await page.locator(ROW, { hasText: 'comes out again' }).waitFor();
  expect(complaints).toEqual([]);
});

test('why not: any part can be asked about, in words', async () => {
  const { page, complaints } = await open(demo, BAY);
  await settled(page);
  await page.getByRole('button', { name: 'Ask about another part' }).click();
  const leaf = page.getByRole('dialog');
  await leaf.getByRole('combobox').fill('main spring');
  await page
    .getByRole('option', { name: /Main spring/ })
    .first()
    .waitFor();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await leaf.getByText(/It does not fit yet|It fits now|It would fit/).waitFor();
  expect(complaints).toEqual([]);
});

test('tags: a wire leads from what must go in first to what waits for it', async () => {
  const { page, complaints } = await open(demo, `${BAY}&view=tags`);
  await settled(page);
  await page.locator('.tag', { hasText: 'Gear bay diaphragm' }).waitFor();
  expect(await page.locator('.tags .wire').count()).toBeGreaterThan(0);
  expect(complaints).toEqual([]);
});
