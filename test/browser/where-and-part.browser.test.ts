/**
 * "Where it sat" and "One part": pins set by thumb and by keys and found again, a job without any drawing, grids typed and
 * pasted, the four answers, undo, A5, and whether everybody can read and reach it.
 */
import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Demo, type Kind, type Light, open, REFIT_DAY, startDemo } from './support/demo.ts';

const BIN = join(import.meta.dirname, '../../bin/witnessmark.mjs');
const NEVER = /\b(safe|error|invalid|please)\b/i;
const THUMB = 76;

let demo: Demo;
let folder: string;
let bare: { readonly program: ChildProcess; readonly address: string };

beforeAll(async () => {
  demo = await startDemo();
  folder = mkdtempSync(join(tmpdir(), 'witnessmark-bare-'));
  const job = join(folder, 'bare.job');
  execFileSync(process.execPath, [BIN, 'new', job, '--name', 'Basket case']);
  bare = await serve(job);
});
afterAll(async () => {
  const gone = new Promise((resolve) => bare.program.once('exit', resolve));
  bare.program.kill('SIGTERM');
  await gone;
  rmSync(folder, { recursive: true, force: true });
  await demo.end();
});

function serve(job: string): Promise<typeof bare> {
  const program = spawn(process.execPath, [BIN, 'serve', job, '--port', '0'], { stdio: ['ignore', 'pipe', 'pipe'] });
  return new Promise((resolve, reject) => {
    let said = '';
    const hear = (chunk: Buffer) => {
      said += chunk.toString();
      const found = /http:\/\/(?:localhost|127\.0\.0\.1):\d+/.exec(said);
      if (found) resolve({ program, address: found[0] });
    };
    program.stdout?.on('data', hear);
    program.stderr?.on('data', hear);
    program.once('exit', (code) => reject(new Error(`the program ended with ${code}: ${said}`)));
  });
}

/** A made-up plate, 600 by 400. */
async function picture(name: string): Promise<{ name: string; mimeType: string; buffer: Buffer }> {
  const plate =
    '<svg xmlns="http://www.w3.org/2000/svg" width="600" height="400"><rect width="600" height="400" fill="#888"/><path d="M80 80 540 60 560 340 60 330Z" fill="#bbb"/></svg>';
  return { name, mimeType: 'image/jpeg', buffer: await sharp(Buffer.from(plate)).jpeg().toBuffer() };
}

async function openHere(path: string, kind: Kind = 'desk', light: Light = 'light') {
  const watched = await open(demo, path, kind, light);
  watched.page.setDefaultTimeout(12_000);
  return watched;
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

/** As a spreadsheet puts it on the clipboard. */
async function paste(page: Page, text: string): Promise<void> {
  await page.evaluate((t) => {
    const data = new DataTransfer();
    data.setData('text/plain', t);
    document.activeElement?.dispatchEvent(
      new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
    );
  }, text);
}

test('keys alone: a pin is set beside its part, has a station, is found again after the page is opened anew, and undone', async () => {
  const { page, context, complaints } = await openHere('/where?at=10-07');
  await page.locator('.board .pins').waitFor();
  await page.keyboard.press('p');
  for (let i = 0; i < 4; i += 1) await page.keyboard.press('Shift+ArrowRight');
  await page.keyboard.press('ArrowUp');
  await page.keyboard.press('Enter');
  await page.locator('.where-card .state', { hasText: 'pinned' }).waitFor();
  await page.getByRole('button', { name: 'Note station and height' }).focus();
  await page.keyboard.press('Enter');
  await page.getByLabel('Station', { exact: true }).fill('C19 + 40 mm');
  await page.getByLabel('Height', { exact: true }).fill('210 mm above the keel');
  await page.keyboard.press('Enter');
  await page.locator('.where-card', { hasText: 'station C19 + 40 mm · height 210 mm above the keel' }).waitFor();
  const before = await page.locator('.pins .label.strong').getAttribute('x');

  await page.goto(`${demo.address}/where?sheet=tail-wheel-exploded`);
  const row = page.getByRole('option', { name: /Retaining nut.*C19 \+ 40 mm/ });
  await row.waitFor();
  await row.focus();
  await page.keyboard.press('Enter');
  await page.locator('.where-card h1', { hasText: 'Retaining nut' }).waitFor();
  expect(await page.locator('.pins .label.strong').getAttribute('x')).toBe(before);

  await page.keyboard.press('u');
  await page.keyboard.press('u');
  await page.locator('.where-card .state', { hasText: 'on the aircraft' }).waitFor();
  await page.keyboard.press('Escape');
  await page.getByRole('listbox', { name: 'Marked on this sheet' }).waitFor();
  expect(complaints).toEqual([]);
  await context.close();
});

test('what came off last is marked, what was looked for and not there has its own shape, and a tap opens it', async () => {
  const { page, context, complaints } = await openHere('/where?sheet=tail-wheel-exploded', 'phone');
  const nothing = page.getByRole('option', { name: /nothing here/ });
  await nothing.first().waitFor();
  expect((await nothing.first().boundingBox())?.height).toBeGreaterThanOrEqual(THUMB);
  for (const key of await page.locator('.bottom .key').all())
    expect((await key.boundingBox())?.height).toBeGreaterThanOrEqual(THUMB);
  // The open ring with a bar, on the sheet.
  expect(await page.locator('.pins path[d="M-13.5 0H13.5"]').count()).toBeGreaterThan(0);
  await nothing.first().tap();
  await page.locator('.where-card .state', { hasText: 'nothing here' }).waitFor();
  await page.goto(`${demo.address}/where?sheet=tail-unit`);
  await page.getByRole('option', { name: /last off/ }).waitFor();
  await page.locator('.pins .last.still').waitFor({ state: 'attached' });
  expect(await page.locator('.pins .last').count()).toBe(2);
  expect(
    await page
      .locator('.pins .last')
      .first()
      .evaluate((e) => getComputedStyle(e).animationName),
  ).toBe('none');
  expect(complaints).toEqual([]);
  await context.close();
});

test('a job without drawings: one tap to a photograph of one’s own, pins in own words, found again', async () => {
  const context = await demo.browser.newContext({
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    isMobile: true,
  });
  const page = await context.newPage();
  page.setDefaultTimeout(12_000);
  await page.goto(`${bare.address}/where`);
  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Add a photograph or drawing' }).tap();
  await (await chooser).setFiles(await picture('IMG_0042.jpg'));
  await page.getByLabel('Name of the sheet').fill('Bow, port side');
  await page.getByRole('button', { name: 'Name it' }).last().tap();
  await page.locator('.board img').waitFor();
  await page.getByRole('button', { name: 'Set a pin' }).tap();
  const board = await page.locator('.board .art').boundingBox();
  if (!board) throw new Error('the board has no size');
  await page.touchscreen.tap(board.x + board.width * 0.3, board.y + board.height / 2);
  await page.getByRole('button', { name: 'Save the pin' }).tap();
  await page.getByLabel('Or in your own words').fill('Mooring cleat');
  await page.getByRole('button', { name: 'Pin it' }).tap();
  await page.locator('.where-card h1', { hasText: 'Mooring cleat' }).waitFor();
  await page.getByRole('button', { name: 'All that is on this sheet' }).tap();

  await page.getByRole('button', { name: 'Nothing here' }).tap();
  await page.touchscreen.tap(board.x + board.width * 0.7, board.y + board.height / 2);
  await page.getByRole('button', { name: 'Save the pin' }).tap();
  await page.getByLabel('Or in your own words').fill('Shim under the cleat');
  await page.getByRole('button', { name: 'None is fitted' }).tap();
  await page.locator('.where-card .state', { hasText: 'nothing here' }).waitFor();

  await page.waitForFunction(() => !/to send/.test(document.querySelector('.top .where')?.textContent ?? ''));
  await page.reload();
  await page.goto(`${bare.address}/where`);
  await page.getByRole('option', { name: /Mooring cleat/ }).waitFor();
  await page.getByRole('option', { name: /Shim under the cleat.*nothing here/ }).waitFor();
  expect(await page.locator('.where-over').innerText()).toContain('Bow, port side');
  // Where the thumb was: a tap there opens it again.
  const again = await page.locator('.board .art').boundingBox();
  if (!again) throw new Error('the board has no size');
  await page.touchscreen.tap(again.x + again.width * 0.3, again.y + again.height / 2);
  await page.locator('.where-card h1', { hasText: 'Mooring cleat' }).waitFor();
  expect(await faults(page)).toEqual([]);
  await context.close();
});

test('a grid is typed by keys and pasted, lies over the photograph, and one undo takes it back', async () => {
  const { page, context, complaints } = await openHere('/part?part=10-14');
  await page.locator('.part-card').waitFor();
  const chooser = page.waitForEvent('filechooser');
  // The browser is told to hand the question on before it is asked.
  await page.waitForTimeout(500);
  await page.keyboard.press('f');
  await (await chooser).setFiles(await picture('keel.jpg'));
  await page.locator('.part-photo img').waitFor();
  await page.keyboard.press('2');
  await page.getByRole('button', { name: 'Thickness grid' }).focus();
  await page.keyboard.press('Enter');
  await page.getByLabel('a 1', { exact: true }).focus();
  await page.keyboard.type('2.02');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.type('1,98');
  await page.keyboard.press('Tab');
  await page.keyboard.type('1.96');
  await page.keyboard.press('Enter');
  expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toBe('c 2');
  await page.getByLabel('a 2', { exact: true }).focus();
  await paste(page, '2.00\t1.90\t1.62\t1.50\t1.74\t1.97\r\n2.01\t1.97\t\t1.88\t1.93\t2.00\r\n');
  expect(await page.getByLabel('f 3', { exact: true }).inputValue()).toBe('2.00');
  await page.getByRole('button', { name: 'Corner upper left' }).focus();
  await page.keyboard.press('Shift+ArrowLeft');
  await page.getByLabel('Nominal, in mm').fill('2.0');
  expect(await faults(page, '.leaf')).toEqual([]);
  await page.getByRole('button', { name: 'Keep the grid' }).focus();
  await page.keyboard.press('Enter');
  const grid = page.locator('.thickness');
  await grid.waitFor();
  expect(await grid.locator('figcaption').innerText()).toContain(
    '14 of 18 squares of 20 mm, 1.5 to 2.02 mm, thinnest at d2, nominal 2.0',
  );
  expect(await grid.locator('.square text').allTextContents()).toContain('1,98');
  expect(await grid.locator('.least').count()).toBe(1);
  expect(await grid.locator('.hatch').count()).toBeGreaterThan(2);
  expect(await grid.locator('img').count()).toBe(1);

  await page.keyboard.press('3');
  await page.locator('.history li', { hasText: 'Thickness grid' }).waitFor();
  await page.keyboard.press('u');
  await page.locator('.history li.gone', { hasText: 'Thickness grid' }).waitFor();
  expect(await page.locator('.history li.gone').first().innerText()).toContain('taken back');
  expect(complaints).toEqual([]);
  await context.close();
});

test('dial readings, measurements with repeats, a tag, a datum before and after, as found with a stack', async () => {
  const { page, context, complaints } = await openHere('/part?part=10-02&leaf=figures');
  await page.locator('.part-card').waitFor();
  await page.getByRole('button', { name: 'Dial readings' }).click();
  await page.getByLabel('0 1', { exact: true }).focus();
  await paste(page, '0\t2\t5\t8\t9\t7\t4\t1\n0\t5\t12\t19\t22\t17\t10\t3\n0\t1\t2\t3\t3\t2\t1\t0');
  await page.getByRole('button', { name: 'Keep the readings' }).click();
  // Worked by hand: the largest less the smallest of each row.
  expect(await page.locator('.dial td.total').allInnerTexts()).toEqual(['9', '22', '3']);

  await page.keyboard.press('m');
  await page.getByLabel('As it reads, with its unit').fill('1/2 in');
  await page.getByRole('button', { name: 'And again' }).click();
  await page.getByLabel('As it reads, with its unit').fill('12.72 mm');
  await page.getByRole('button', { name: 'Keep 2 readings' }).click();
  // An inch is 25.4 mm exactly (international inch, 1959).
  await page.locator('.measured', { hasText: '1/2 in · 12.72 mm' }).waitFor();
  expect(await page.locator('.measured').innerText()).toContain('12.7 mm · 12.72 mm');

  await page.keyboard.press('t');
  await page.getByRole('button', { name: 'Do not clean' }).click();
  await page.getByRole('button', { name: 'Hang it' }).click();
  await page.locator('.hung', { hasText: /do not clean/i }).waitFor();
  await page.getByRole('button', { name: 'Take it off' }).click();
  await page.locator('.hung').waitFor({ state: 'detached' });

  await page.keyboard.press('1');
  const joint = page.locator('.found-block').first();
  await joint.locator('summary').click();
  await joint.getByRole('button', { name: 'washers in order' }).click();
  for (const piece of ['washer', 'lug', 'castle nut'])
    await page.getByRole('dialog').getByRole('button', { name: piece, exact: true }).click();
  await page.getByRole('button', { name: 'Note the stack' }).click();
  await joint.locator('.stack').waitFor();
  expect(await joint.locator('.stack li').allInnerTexts()).toEqual(['1 washer', '2 lug', '3 castle nut']);

  await page.keyboard.press('l');
  for (const [when, text] of [
    ['Before', '412 mm'],
    ['After', '409 mm'],
  ] as const) {
    await page.getByRole('button', { name: 'Read a datum' }).click();
    await page.getByLabel('Which').fill('level, port, C4 to C9');
    await page.getByRole('button', { name: when, exact: true }).click();
    await page.getByLabel('First reading, with its unit').fill(text);
    await page.getByRole('button', { name: 'Keep it' }).click();
  }
  expect(
    await page
      .getByRole('row', { name: /level, port, C4 to C9/ })
      .locator('td.total')
      .innerText(),
  ).toBe('−3 mm');
  expect(complaints).toEqual([]);
  await context.close();
});

test('the card prints on A5, alone', async () => {
  const { page, context } = await openHere('/part?part=10-03');
  await page.locator('.part-card').waitFor();
  const pdf = await page.pdf({ preferCSSPageSize: true });
  const box = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(pdf.toString('latin1'));
  // ISO 216: A5 is 148 by 210 mm; 72 points to the inch.
  expect(Math.abs(Number(box?.[1]) - (148 / 25.4) * 72)).toBeLessThan(1);
  expect(Math.abs(Number(box?.[2]) - (210 / 25.4) * 72)).toBeLessThan(1);
  await page.emulateMedia({ media: 'print' });
  expect(await page.locator('.index').isVisible()).toBe(false);
  expect(await page.locator('.part-card h1').isVisible()).toBe(true);
  await context.close();
});

const WAYS: readonly (readonly [Kind, Light])[] = [
  ['desk', 'light'],
  ['desk', 'dark'],
  ['phone', 'light'],
  ['phone', 'dark'],
];
const PATHS = [
  '/where?sheet=tail-wheel-exploded',
  '/where?at=10-20',
  `/where?job=${REFIT_DAY}&sheet=side`,
  '/part',
  '/part?part=10-20',
  `/part?job=${REFIT_DAY}&part=10-03&leaf=history`,
  '/part?datums=1',
] as const;
for (const [kind, light] of WAYS) {
  test(`axe finds nothing on ${kind}, ${light}; no word we never use`, async () => {
    for (const path of PATHS) {
      const { page, context, complaints } = await openHere(path, kind, light);
      await page.locator('.sheet').waitFor();
      await page.waitForTimeout(600);
      expect(await faults(page), path).toEqual([]);
      expect(NEVER.exec(await page.locator('body').innerText())?.[0] ?? null, path).toBeNull();
      expect(complaints, path).toEqual([]);
      await context.close();
    }
  });
}
