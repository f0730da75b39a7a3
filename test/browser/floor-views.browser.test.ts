/**
 * Floor today, Bags and shelves and Find anything: what was left half done comes first and one tap ends it, a bag is put
 * on a shelf by tapping the wall, a code typed sloppily is found; by keys alone, for a gloved thumb, in both lights.
 */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Demo, type Kind, type Light, open, startDemo } from './support/demo.ts';

/** 14 mm at the 138 px to the inch that a browser's px stands for on a phone 390 px wide. */
const THUMB_PX = 76;
const NEVER = /\b(safe|error|invalid|please)\b/i;
/** A bag of the demo that lies on the long bench, and one on a shelf of the wall. */
const ON_BENCH = 'B216X';
const VIEWS = [
  ['/floor', '.floor-row'],
  ['/bags', '.bag-row'],
  [`/bags?bag=${ON_BENCH}`, '.bag-card'],
  ['/find?q=spring', '.found-row'],
] as const;

let demo: Demo;
beforeAll(async () => {
  demo = await startDemo();
});
afterAll(async () => {
  await demo.end();
});

async function view(path: string, kind: Kind = 'desk', light: Light = 'light', wait = '.list') {
  const watched = await open(demo, path, kind, light);
  await watched.page.locator(wait).first().waitFor();
  return watched;
}

async function faults(page: Page): Promise<readonly string[]> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations.map(
    (v) =>
      `${v.id}: ${v.nodes
        .map((n) => n.target.join(' '))
        .slice(0, 3)
        .join(' | ')}`,
  );
}

describe.each(VIEWS)('%s', (path, wait) => {
  test.each([
    ['desk', 'light'],
    ['desk', 'dark'],
    ['phone', 'light'],
    ['phone', 'dark'],
  ] as const)('on a %s, %s: axe finds nothing, no forbidden word, nothing runs off the side', async (kind, light) => {
    const { page, context, complaints } = await view(path, kind, light, wait);
    expect(await faults(page)).toEqual([]);
    expect((await page.locator('body').allInnerTexts()).join()).not.toMatch(NEVER);
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
    expect(complaints).toEqual([]);
    await context.close();
  });

  test('everything to be tapped on a phone is 14 mm high', async () => {
    const { page, context } = await view(path, 'phone', 'light', wait);
    const low = await page.evaluate((least) => {
      const what = '.list a, .list button, .list summary, .list [role="option"], .list input';
      return [...document.querySelectorAll(what)]
        .map((e) => ({ e, box: e.getBoundingClientRect() }))
        .filter(({ box }) => box.width > 0 && box.height < least)
        .map(({ e, box }) => `${e.className} ${e.textContent?.slice(0, 30)} ${Math.round(box.height)}`);
    }, THUMB_PX);
    expect(low).toEqual([]);
    await context.close();
  });
});

test('what was left half done heads the floor; one tap ends it, Undo brings it back', async () => {
  const { page, context } = await view('/floor', 'phone', 'light', '.floor-row');
  const first = page.locator('.floor-group').first();
  expect(await first.getAttribute('class')).toContain('open');
  const rows = first.locator('.floor-row');
  const before = await rows.count();
  const stop = rows.filter({ hasText: /^OPEN/ }).first();
  const said = (await stop.locator('b').textContent()) ?? '';
  await stop.getByRole('button').tap();
  await first.getByText(said).waitFor({ state: 'detached' });
  expect(await rows.count()).toBe(before - 1);
  await page.getByRole('button', { name: 'Undo' }).first().tap();
  await first.getByText(said).waitFor();
  await context.close();
});

test('by keys alone: a sloppy code finds the bag, m and a name put it on a shelf, the wall frames it', async () => {
  const { page, context } = await view('/bags', 'desk', 'light', '.bag-row');
  await page.keyboard.press('/');
  await page.keyboard.type('216 x');
  await page.getByText('1 bag', { exact: true }).waitFor();
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: ON_BENCH }).waitFor();
  expect(page.url()).toContain(`bag=${ON_BENCH}`);
  await page.keyboard.press('m');
  await page.getByRole('dialog').waitFor();
  await page.getByRole('searchbox', { name: /Shelf/ }).focus();
  await page.keyboard.type('rack 06, shelf 3');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Rack 06, shelf 3, here it lies' }).waitFor();
  expect(await page.locator('.bag-card .where').textContent()).toMatch(/Rack 06, shelf 3/);
  await page.keyboard.press('u');
  await page.getByRole('button', { name: 'Long bench, here it lies' }).waitFor();
  await context.close();
});

test('a shelf on the wall tells what lies there', async () => {
  const { page, context } = await view('/bags', 'desk', 'light', '.wall .shelf');
  await page
    .locator('.wall .shelf', { has: page.locator('span') })
    .first()
    .waitFor();
  await page.getByRole('button', { name: 'Rack 06, shelf 1' }).click();
  await page.getByText(/^\d+ bags? on Rack 06, shelf 1/).waitFor();
  expect(await page.locator('.bag-head').allInnerTexts()).toHaveLength(1);
  await context.close();
});

test('found by keys alone, with a letter wrong, and opened', async () => {
  const { page, context } = await view('/floor', 'desk', 'light', '.floor-row');
  await page.keyboard.press('/');
  await page.getByRole('status').filter({ hasText: 'can be found' }).waitFor();
  await page.keyboard.type('main sprng');
  await page.locator('.found-row', { hasText: 'Main spring' }).first().waitFor();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await page.waitForURL(/\/(part|bags)\?/);
  await context.close();
});
