/**
 * Catch it on a phone, with a camera that shows a test picture: a bag in three taps, questions as pictures, undo, an
 * interruption, no network in the middle, a label read by the camera, keyboard alone, and targets for a gloved thumb.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { toBuffer } from 'qrcode';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { bagCode } from '../../src/domain/bag-code.ts';
import { type Demo, type Kind, type Light, open, SPRING_DAY, startDemo } from './support/demo.ts';

/** A bag of the demo, whose label the camera sees. */
const SEEN = bagCode(105);
const NEVER = /\b(safe|error|invalid|please)\b/i;
/** 14 mm at the 138 px to the inch that a browser's px stands for on a phone 390 px wide. */
const THUMB_PX = 76;
const PICTURE = { width: 640, height: 480 } as const;

let demo: Demo;
let folder: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'witnessmark-camera-'));
  const film = join(folder, 'label.mjpeg');
  writeFileSync(film, await labelFilm());
  demo = await startDemo([
    '--use-fake-device-for-media-stream',
    '--use-fake-ui-for-media-stream',
    `--use-file-for-fake-video-capture=${film}`,
  ]);
});
afterAll(async () => {
  await demo.end();
  rmSync(folder, { recursive: true, force: true });
});

/** A label held before the camera; a mark moves, so that no two frames are the same photograph. */
async function labelFilm(): Promise<Buffer> {
  const label = await toBuffer(SEEN, { width: 260, margin: 4 });
  const frames = Array.from({ length: 24 }, async (_, i) => {
    const mark = await sharp({ create: { width: 20, height: 20, channels: 3, background: '#333' } })
      .png()
      .toBuffer();
    return sharp({ create: { ...PICTURE, channels: 3, background: '#cfc9b8' } })
      .composite([
        { input: label, left: 190, top: 120 },
        { input: mark, left: 20 + 24 * i, top: 20 },
      ])
      .jpeg({ quality: 90 })
      .toBuffer();
  });
  return Buffer.concat(await Promise.all(frames));
}

async function camera(kind: Kind = 'phone', light: Light = 'light', path = '/catch') {
  const watched = await open(demo, path, kind, light);
  await ready(watched.page);
  return watched;
}

async function ready(page: Page): Promise<void> {
  await page.locator('.shutter:not([disabled])').waitFor();
  await codeOf(page);
}

/** The code that stands there to be written on the bag. */
async function codeOf(page: Page): Promise<string> {
  const code = page.locator('.code', { hasText: /^B\d{3,}[A-Z]$/ });
  await code.waitFor();
  return code.innerText();
}

const tap = (page: Page, name: string | RegExp, exact = typeof name === 'string') =>
  page.getByRole('button', { name, exact }).first().tap();
const shots = (page: Page) => page.locator('.strip li').count();

async function bagWithTwo(page: Page): Promise<string> {
  const code = await codeOf(page);
  await page.locator('.shutter').tap();
  await page.waitForTimeout(250);
  await page.locator('.shutter').tap();
  await page.locator('.strip li').nth(1).waitFor();
  await tap(page, /^Bag it/);
  await page.getByRole('heading', { name: code }).waitFor();
  return code;
}

interface Kept {
  readonly id: string;
  readonly kind: string;
  readonly data: Record<string, unknown>;
}

/** What the shop's machine has, asked until it has it. */
async function entriesAbout(code: string, least: number): Promise<readonly Kept[]> {
  for (let i = 0; ; i += 1) {
    const about = (await allEntries()).filter((e) => JSON.stringify(e.data).includes(code));
    if (about.length >= least || i > 60) return about;
    await new Promise((resolve) => setTimeout(resolve, 250));
  }
}

async function allEntries(): Promise<readonly Kept[]> {
  const entries: Kept[] = [];
  for (let after = 0, more = true; more; ) {
    const got = await fetch(`${demo.address}/api/jobs/${SPRING_DAY}/entries?after=${after}`);
    const rows = (await got.text()).split('\n').filter((l) => l !== '');
    const read = rows.map((l) => JSON.parse(l) as { readonly seq: number; readonly body: string });
    entries.push(...read.map((r) => JSON.parse(r.body) as Kept));
    after = read.at(-1)?.seq ?? after;
    more = rows.length > 0 && got.headers.get('x-more') === 'true';
  }
  return entries;
}

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

test('a bag with two photographs is three taps, and all of it reaches the shop’s machine', async () => {
  const { page, context, complaints } = await camera();
  const code = await bagWithTwo(page);
  const kept = await entriesAbout(code, 3);
  expect(kept.map((e) => e.kind.split('.')[0])).toEqual(['bagged', 'photo-taken', 'photo-taken']);
  expect(kept[0]?.data).toMatchObject({ bag: code, opens: true, of: [] });
  const hashes = kept.slice(1).map((e) => e.data.hash);
  expect(new Set(hashes).size).toBe(2);
  expect(kept[1]?.data).toMatchObject({ ...PICTURE, of: [code], mime: 'image/jpeg' });
  await expect
    .poll(async () => (await fetch(`${demo.address}/api/jobs/${SPRING_DAY}/photos/${hashes[1]}/thumb`)).status)
    .toBe(200);
  // The next one is ready, and it is another number.
  await tap(page, 'Next bag');
  expect(await codeOf(page)).not.toBe(code);
  expect(await shots(page)).toBe(0);
  expect(complaints).toEqual([]);
  await context.close();
});

test('what was seen is answered with pictures, and four answers are not a value', async () => {
  const { page, context } = await camera();
  const code = await bagWithTwo(page);
  await tap(page, 'safetied how');
  await tap(page, 'split pin');
  await tap(page, 'washers in order');
  for (const piece of ['washer', 'shim', '0.5', 'brass', 'lug', 'castle nut']) await tap(page, piece);
  await tap(page, 'Note the stack');
  await tap(page, 'thread hand');
  await tap(page, /^Not looked/);
  await page.getByRole('button', { name: /thread hand.*not looked/ }).waitFor();
  const noted = (await entriesAbout(code, 6)).filter((e) => e.kind.startsWith('joint-noted'));
  expect(Object.assign({}, ...noted.map((e) => e.data.aspects))).toEqual({
    safetying: { is: 'value', text: 'split pin' },
    'washer-stack': { is: 'value', text: 'washer | shim 0.5 brass | lug | castle nut' },
    'thread-hand': { is: 'not-looked' },
  });
  await context.close();
});

test('undo takes the last answer back, then the bag, and the photographs are loose again', async () => {
  const { page, context } = await camera();
  const code = await bagWithTwo(page);
  await tap(page, 'thread hand');
  await tap(page, 'left');
  await page.getByRole('button', { name: /thread hand.*left/ }).waitFor();
  await tap(page, 'Undo');
  await page.getByRole('button', { name: /thread hand.*left/ }).waitFor({ state: 'detached' });
  await tap(page, 'Undo');
  await page.locator('.shutter:not([disabled])').waitFor();
  expect(await codeOf(page)).toBe(code);
  expect(await shots(page)).toBe(2);
  // A photograph left out by a slip of the thumb is back with the same key.
  await tap(page, /^Photograph 1/);
  await expect.poll(() => shots(page)).toBe(1);
  await tap(page, 'Undo');
  await expect.poll(() => shots(page)).toBe(2);
  await context.close();
});

test('leaving at any moment loses nothing: to another sheet, and the page thrown away', async () => {
  const { page, context } = await camera();
  const code = await codeOf(page);
  await page.locator('.shutter').tap();
  // Faint until it is kept.
  await page.locator('.strip li:not(.is-keeping)').waitFor();
  await page.goto(`${demo.address}/off`);
  await page.goto(`${demo.address}/catch`);
  await ready(page);
  await page.locator('.strip li').waitFor();
  expect(await codeOf(page)).toBe(code);
  await page.reload();
  await ready(page);
  await page.locator('.strip li').waitFor();
  await tap(page, /^Bag it/);
  await page.getByRole('heading', { name: code }).waitFor();
  // A stack half built is there again, too.
  await tap(page, 'washers in order');
  await tap(page, 'washer');
  await page.reload();
  await page.getByRole('heading', { name: code }).waitFor();
  await tap(page, 'washers in order');
  await page.locator('.stack-words', { hasText: 'washer' }).waitFor();
  await context.close();
});

test('without network a bag is saved as ever; back in it, each entry is there once', async () => {
  const { page, context } = await camera();
  await context.setOffline(true);
  const code = await bagWithTwo(page);
  await page.locator('.saved-line', { hasText: '2 photographs' }).waitFor();
  await tap(page, 'Next bag');
  await ready(page);
  await context.setOffline(false);
  const kept = await entriesAbout(code, 3);
  expect(kept).toHaveLength(3);
  expect(new Set(kept.map((e) => e.id)).size).toBe(3);
  await context.close();
});

test('the camera is there before the job is read, and a bag made then is in it', async () => {
  const { page, context } = await camera();
  await page.waitForFunction(() => /positions off/.test(document.body.innerText));
  let go: () => void = () => undefined;
  const held = new Promise<void>((resolve) => {
    go = resolve;
  });
  await page.route(/\/entries\?after=/, async (route) => {
    await held;
    await route.continue();
  });
  await page.goto(`${demo.address}/catch`);
  await ready(page);
  // The copy kept on the device may already be read; what the shop's machine has is still held back.
  expect(await page.locator('.top .where').innerText()).toMatch(/reading the job|positions off/);
  const code = await bagWithTwo(page);
  go();
  expect(await entriesAbout(code, 3)).toHaveLength(3);
  await page.getByRole('button', { name: /Which part is it/ }).waitFor();
  await context.close();
});

test('a part is named from the list, carried on, and one tap says that it is off', async () => {
  const { page, context } = await camera();
  await page.waitForFunction(() => /positions off/.test(document.body.innerText));
  await tap(page, /Where is this/);
  await tap(page, /^Tail-wheel unit/);
  await page.locator('.place-list button', { hasText: '10-03' }).tap();
  await page.getByRole('button', { name: /Main spring/ }).waitFor();
  const code = await bagWithTwo(page);
  const [bagged] = await entriesAbout(code, 3);
  expect(bagged?.data).toMatchObject({ of: ['10-03'], hand: 'C' });
  await tap(page, /^It is off/);
  await page.getByText('Recorded as off.').waitFor();
  await tap(page, 'Next bag');
  await page.getByRole('button', { name: /Tail-wheel unit.*no part named/ }).waitFor();
  await expect
    .poll(async () =>
      (await allEntries()).some((e) => e.kind.startsWith('step-done') && e.data.action === 'remove:10-03'),
    )
    .toBe(true);
  await context.close();
});

test('a part nobody had named makes the rig grow', async () => {
  const { page, context } = await camera();
  await page.waitForFunction(() => /positions off/.test(document.body.innerText));
  const code = await bagWithTwo(page);
  await tap(page, 'New part here');
  await tap(page, 'pin');
  await page.getByRole('button', { name: new RegExp(`Part in bag ${code}`) }).waitFor();
  const grown = (await entriesAbout(code, 6)).filter((e) => e.kind.startsWith('rig-stated'));
  expect(grown.map((e) => e.data.what)).toEqual(['part', 'attachment']);
  await context.close();
});

test('stuck is saved first; the ladder has no figure of force', async () => {
  const { page, context } = await camera();
  await page.waitForFunction(() => /positions off/.test(document.body.innerText));
  await tap(page, /Where is this/);
  await tap(page, /^Tail-wheel unit/);
  await page.locator('.place-list button', { hasText: '10-12' }).first().tap();
  const before = (await allEntries()).length;
  await tap(page, 'Stuck');
  await page.getByRole('heading', { name: 'Stop. Do not force it.' }).waitFor();
  await expect.poll(async () => (await allEntries()).slice(before).map((e) => e.kind.split('.')[0])).toContain('stuck');
  expect(await page.locator('.leaf').innerText()).not.toMatch(/\d+ ?(N|kN|kg|bar|Nm)\b/);
  await tap(page, 'Tried');
  await tap(page, 'No help');
  await expect
    .poll(async () => (await allEntries()).slice(before).filter((e) => e.kind.startsWith('tried')).length)
    .toBe(2);
  await tap(page, 'It came free');
  await context.close();
});

test('the label before the camera opens its bag; a code typed wrongly opens nothing', async () => {
  const { page, context, complaints } = await camera();
  await tap(page, 'Other');
  await tap(page, /^Scan a bag/);
  await page.waitForURL((url) => url.pathname === '/bags' && url.searchParams.get('bag') === SEEN);
  await page.goto(`${demo.address}/catch`);
  await page.addInitScript(() => {
    navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException('no', 'NotAllowedError'));
  });
  await page.reload();
  await page.locator('.shutter-file').waitFor();
  await tap(page, 'Other');
  await tap(page, /^Scan a bag/);
  await page.getByLabel('Or type what stands on the bag').fill(`${SEEN.slice(0, -1)}A`);
  await tap(page, 'Open the bag');
  await page.getByRole('alert').waitFor();
  expect(new URL(page.url()).pathname).toBe('/catch');
  await page.getByLabel('Or type what stands on the bag').fill(SEEN.toLowerCase());
  await tap(page, 'Open the bag');
  await page.waitForURL((url) => url.pathname === '/bags' && url.searchParams.get('bag') === SEEN);
  expect(complaints).toEqual([]);
  await context.close();
});

test('a browser without a camera takes the phone’s own', async () => {
  const { page, context } = await open(demo, '/catch', 'phone');
  await page.addInitScript(() => {
    navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException('no', 'NotAllowedError'));
  });
  await page.reload();
  const code = await codeOf(page);
  const picture = await sharp({ create: { ...PICTURE, channels: 3, background: '#456' } })
    .jpeg()
    .toBuffer();
  await page.locator('.shutter-file input').setInputFiles({ name: 'a.jpg', mimeType: 'image/jpeg', buffer: picture });
  await page.locator('.strip li').waitFor();
  await tap(page, /^Bag it/);
  await page.getByRole('heading', { name: code }).waitFor();
  expect(await entriesAbout(code, 2)).toHaveLength(2);
  await context.close();
});

test('every action by keys alone', async () => {
  const { page, context } = await camera('desk');
  const code = await codeOf(page);
  await page.keyboard.press('Enter');
  await page.locator('.strip li').waitFor();
  await page.waitForTimeout(250);
  await page.keyboard.press('Space');
  await page.locator('.strip li').nth(1).waitFor();
  await page.keyboard.press('b');
  await page.getByRole('heading', { name: code }).waitFor();
  const to = page.getByRole('button', { name: 'safetied how' });
  for (let i = 0; i < 60 && !(await to.evaluate((e) => e === document.activeElement)); i += 1)
    await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await page.locator('.leaf').waitFor();
  for (let i = 0; i < 40; i += 1) {
    if ((await page.evaluate(() => document.activeElement?.textContent)) === 'locking wire') break;
    await page.keyboard.press('Tab');
  }
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: /safetied how.*locking wire/ }).waitFor();
  await page.keyboard.press('u');
  await page.getByRole('button', { name: /safetied how.*locking wire/ }).waitFor({ state: 'detached' });
  await page.keyboard.press('n');
  await ready(page);
  await page.keyboard.press('s');
  await page.getByRole('heading', { name: 'Stop. Do not force it.' }).waitFor();
  await page.keyboard.press('Escape');
  await context.close();
});

/** Everything that can be tapped, and is lower or narrower than a thumb. */
function small(page: Page, within: string): Promise<readonly string[]> {
  return page.evaluate(
    ([scope, least]) =>
      [...document.querySelectorAll<HTMLElement>(`${scope} :is(button,a,input,label[class])`)]
        .filter(
          (e) => e.checkVisibility() && !e.closest('.out-of-sight') && !e.matches('.cell-name,[aria-label="Dismiss"]'),
        )
        .map((e) => ({ e: e.closest('.field') ?? e, box: (e.closest('.field') ?? e).getBoundingClientRect() }))
        .filter(({ box }) => box.width > 1 && (box.height < least || box.width < least))
        .map(({ e, box }) => `${e.textContent?.slice(0, 30)} ${Math.round(box.width)} x ${Math.round(box.height)}`),
    [within, THUMB_PX] as const,
  );
}

const LEAVES = [
  'washers in order',
  'shims',
  'clocking',
  'threads showing',
  'cable tension',
  'Goes with …',
  'Measure',
  'Our damage',
  'Stuck',
  'Voice note',
] as const;

for (const light of ['light', 'dark'] as const) {
  test(`${light}: axe finds nothing, targets are for a thumb, and no word we never use`, async () => {
    const { page, context, complaints } = await camera('phone', light);
    await page.waitForFunction(() => /positions off/.test(document.body.innerText));
    const found: string[] = [];
    const look = async (what: string, within = '.sheet', over?: string) => {
      const never = NEVER.exec(await page.locator('body').innerText())?.[0] ?? [];
      found.push(...[await faults(page, over), await small(page, within), never].flat().map((f) => `${what}: ${f}`));
    };
    await look('before');
    await tap(page, 'Other');
    await look('other', '.leaf', '.leaf');
    await page.keyboard.press('Escape');
    await tap(page, /Where is this/);
    await look('place', '.leaf', '.leaf');
    await page.keyboard.press('Escape');
    await bagWithTwo(page);
    await look('after');
    for (const name of LEAVES) {
      await tap(page, name);
      await page.locator('.leaf').waitFor();
      await look(name, '.leaf', '.leaf');
      await page.keyboard.press('Escape');
      await page.locator('.leaf').waitFor({ state: 'detached' });
    }
    expect(found).toEqual([]);
    expect(complaints).toEqual([]);
    await context.close();
  });
}
