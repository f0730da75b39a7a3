/** Can everybody read and reach it: axe in light and dark, desk and phone; words; the theme kept; the weight of the page. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Demo, type Kind, type Light, open, REFIT_DAY, settled, startDemo } from './support/demo.ts';

const WEB = join(import.meta.dirname, '../../dist/web');
/** JavaScript before the list is there, kilobytes as sent; the planner's thread comes when something is asked. */
const FIRST_LOAD_KB = 250;
const NEVER = /\b(safe|error|invalid|please)\b/i;

let demo: Demo;
beforeAll(async () => {
  demo = await startDemo();
});
afterAll(async () => demo.end());

/** Of the whole page, or of what lies over it: what is behind is hidden from a screen reader then. */
async function faults(page: Page, over?: string): Promise<readonly string[]> {
  const axe = new AxeBuilder({ page });
  const { violations } = await (over === undefined ? axe : axe.include(over).disableRules('region')).analyze();
  return violations.map(
    (v) =>
      `${v.id}: ${v.nodes
        .map((n) => n.target.join(' '))
        .slice(0, 3)
        .join(' | ')}`,
  );
}

const SCREENS = [
  { name: 'Getting it off', path: '/off?goal=10-03' },
  { name: 'Getting it off, drawing', path: '/off?goal=10-03&view=drawing' },
  { name: 'What fits next', path: `/fits?job=${REFIT_DAY}&place=02` },
] as const;
const WAYS: readonly (readonly [Kind, Light])[] = [
  ['desk', 'light'],
  ['desk', 'dark'],
  ['phone', 'light'],
  ['phone', 'dark'],
];

for (const [kind, light] of WAYS) {
  for (const screen of SCREENS) {
    test(`axe finds nothing: ${screen.name}, ${kind}, ${light}; it says that it is an invented example; no word we never use`, async () => {
      const { page, context, complaints } = await open(demo, screen.path, kind, light);
      await settled(page);
      expect(await faults(page)).toEqual([]);
      const words = await page.locator('body').innerText();
      expect(words.toLowerCase()).toContain('invented example');
      expect(NEVER.exec(words)?.[0] ?? null).toBeNull();
      expect(complaints).toEqual([]);
      await context.close();
    });
  }
}

test('axe finds nothing in what opens over the sheet: find, stuck, why not, other ways, index', async () => {
  const { page } = await open(demo, '/off?goal=10-03', 'desk', 'dark');
  await settled(page);
  for (const key of ['s', 'w']) {
    await page.keyboard.press(key);
    await page.getByRole('dialog').waitFor();
    await page.waitForTimeout(400);
    expect(await faults(page, '.leaf')).toEqual([]);
    expect(NEVER.exec(await page.getByRole('dialog').innerText())?.[0] ?? null).toBeNull();
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
  }
  await page.getByRole('button', { name: /other way/ }).click();
  await page.getByRole('dialog').waitFor();
  expect(await faults(page, '.leaf')).toEqual([]);
  await page.keyboard.press('Escape');
  await page.keyboard.press('/');
  await page.keyboard.type('wheel');
  await page.getByRole('option').first().waitFor();
  expect(await faults(page, '.slip')).toEqual([]);
});

test('the light that was chosen is kept', async () => {
  const { page } = await open(demo, '/off');
  await page.getByRole('radio', { name: 'Night' }).click();
  await page.reload();
  await page.getByRole('heading', { name: 'What do you want off?' }).waitFor();
  expect(await page.evaluate(() => document.documentElement.dataset.theme)).toBe('night');
});

interface Chunk {
  readonly file: string;
  readonly imports?: readonly string[];
  readonly isEntry?: boolean;
}

test(`the page weighs at most ${FIRST_LOAD_KB} kB of JavaScript before its list`, () => {
  const manifest = JSON.parse(readFileSync(join(WEB, '.vite/manifest.json'), 'utf8')) as Record<string, Chunk>;
  const files = new Set<string>();
  const take = (key: string) => {
    const chunk = manifest[key];
    if (!chunk || files.has(chunk.file)) return;
    files.add(chunk.file);
    for (const next of chunk.imports ?? []) take(next);
  };
  take('index.html');
  take('off/off-screen.tsx');
  const kilobytes = [...files].reduce((sum, f) => sum + gzipSync(readFileSync(join(WEB, f))).length, 0) / 1000;
  expect(files.size).toBeGreaterThan(1);
  expect(kilobytes).toBeLessThanOrEqual(FIRST_LOAD_KB);
});
