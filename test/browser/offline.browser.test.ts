/**
 * The page without network: opened again from the device itself, recording, keeping photographs, and afterwards each
 * entry and each photograph exactly once on the shop's machine. Two pages of one device at once, too.
 */
import { createHash } from 'node:crypto';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { StoredEntry } from '../../src/journal/entry.ts';
import { type Demo, open, SPRING_DAY, settled, startDemo } from './support/demo.ts';

let demo: Demo;
beforeAll(async () => {
  demo = await startDemo();
});
afterAll(async () => demo.end());

const OFF = `/off?job=${SPRING_DAY}&goal=10-03`;

async function entries(): Promise<readonly StoredEntry[]> {
  const answer = await fetch(`${demo.address}/api/jobs/${SPRING_DAY}/entries`);
  return (
    (await answer.text())
      .split('\n')
      .filter((l) => l !== '')
      .map((l) => JSON.parse(l) as StoredEntry)
      // The machine's own entry when a device that captures asks for bag numbers.
      .filter((e) => !e.body.includes('"kind":"bags-set-aside.'))
  );
}

async function photograph(shade: number): Promise<{ readonly bytes: Buffer; readonly hash: string }> {
  const background = { r: shade, g: 90, b: 60 };
  const bytes = await sharp({ create: { width: 800, height: 600, channels: 3, background } })
    .jpeg()
    .toBuffer();
  return { bytes, hash: createHash('sha256').update(bytes).digest('hex') };
}

/** The page is kept whole, and the copy of the job is written. */
async function keptForLater(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  const pieces = () =>
    page.evaluate(
      (job) =>
        new Promise<number>((resolve) => {
          const opening = indexedDB.open('witnessmark');
          opening.onsuccess = () => {
            const store = opening.result.transaction('segments').objectStore('segments');
            const asked = store.count(IDBKeyRange.bound([job, 0], [job, 9e9]));
            asked.onsuccess = () => {
              opening.result.close();
              resolve(asked.result);
            };
          };
        }),
      SPRING_DAY,
    );
  await expect.poll(pieces, { timeout: 30_000 }).toBeGreaterThan(0);
}

async function keepPhotograph(page: Page, bytes: Buffer): Promise<void> {
  await page
    .locator('input[type="file"]')
    .first()
    .setInputFiles({ name: 'x.jpg', mimeType: 'image/jpeg', buffer: bytes });
}

const title = (page: Page, words: RegExp) => page.locator('.title', { hasText: words }).waitFor({ timeout: 30_000 });

test('no network: loaded anew from the device, a step and a photograph are kept, loaded again, then each is there once', async () => {
  const before = (await entries()).length;
  const { page, context, complaints } = await open(demo, OFF);
  await settled(page);
  await keptForLater(page);
  await context.setOffline(true);

  await page.reload();
  await settled(page);
  await title(page, /away/);
  await page.getByRole('button', { name: 'Did it' }).click();
  await title(page, /1 to send/);

  const shot = await photograph(180);
  await page.goto(`${demo.address}/catch?job=${SPRING_DAY}`);
  await keepPhotograph(page, shot.bytes);
  await page.locator('img[alt="Photograph 1"]').waitFor();
  await page.goto(`${demo.address}${OFF}`);
  await settled(page);
  await title(page, /1 to send · 1 photograph not yet copied to the office/);

  await page.reload();
  await settled(page);
  await title(page, /1 to send · 1 photograph not yet copied to the office/);
  expect((await entries()).length).toBe(before);
  expect((await fetch(`${demo.address}/api/jobs/${SPRING_DAY}/photos/${shot.hash}/thumb`)).status).toBe(404);

  await context.setOffline(false);
  await page.waitForFunction(
    () => !/to send|not yet copied|away/.test(document.querySelector('.title')?.textContent ?? 'away'),
    undefined,
    { timeout: 40_000 },
  );
  const after = await entries();
  expect(after.length).toBe(before + 1);
  expect(new Set(after.map((e) => e.digest)).size).toBe(after.length);
  const there = await fetch(`${demo.address}/api/jobs/${SPRING_DAY}/photos/${shot.hash}/original`);
  expect(
    createHash('sha256')
      .update(Buffer.from(await there.arrayBuffer()))
      .digest('hex'),
  ).toBe(shot.hash);
  expect(complaints.filter((c) => !/offline|fetch/i.test(c))).toEqual([]);
  await context.close();
});

test('two pages of one device without network: what both recorded arrives once, whichever page is still open', async () => {
  const before = (await entries()).length;
  const { page, context } = await open(demo, OFF);
  await settled(page);
  await keptForLater(page);
  const second = await context.newPage();
  await second.goto(demo.address + OFF);
  await settled(second);
  await context.setOffline(true);
  await page.getByRole('button', { name: 'Did it' }).click();
  await title(page, /1 to send/);
  // The other page knows of it too, and records the next one.
  await title(second, /1 to send/);
  await settled(second);
  await second.getByRole('button', { name: 'Did it' }).click();
  await title(second, /2 to send/);
  await page.close();
  await context.setOffline(false);
  await second.waitForFunction(
    () => !/to send|away/.test(document.querySelector('.title')?.textContent ?? 'away'),
    undefined,
    { timeout: 40_000 },
  );
  const after = await entries();
  expect(after.length).toBe(before + 2);
  expect(new Set(after.map((e) => JSON.parse(e.body).id)).size).toBe(after.length);
  await context.close();
});
