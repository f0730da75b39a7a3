/** A fresh invented shop, served by the program as a person would start it, and browsers that look at it. */
import { type ChildProcess, spawn } from 'node:child_process';
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { inject } from 'vitest';

const TOP = join(import.meta.dirname, '../../..');
export const SPRING_DAY = 'qx-ola';
export const REFIT_DAY = 'qx-ola-2026-04-14';

export interface Demo {
  readonly address: string;
  readonly browser: Browser;
  readonly end: () => Promise<void>;
}

/** `also`: further switches for the browser, such as a camera that shows a test picture. */
export async function startDemo(also: readonly string[] = []): Promise<Demo> {
  const folder = mkdtempSync(join(tmpdir(), 'witnessmark-browser-'));
  const shop = join(folder, 'shop');
  cpSync(inject('demoShop'), shop, { recursive: true });
  const args = [join(TOP, 'bin/witnessmark.mjs'), 'serve', shop, '--port', '0'];
  const program = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'pipe'] });
  const address = await addressOf(program);
  const browser = await chromium.launch({
    executablePath: '/usr/bin/chromium',
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      ...also,
    ],
  });
  const end = async () => {
    await browser.close();
    const gone = new Promise((resolve) => program.once('exit', resolve));
    program.kill('SIGTERM');
    await gone;
    rmSync(folder, { recursive: true, force: true });
  };
  return { address, browser, end };
}

function addressOf(program: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = '';
    const hear = (chunk: Buffer) => {
      said += chunk.toString();
      const found = /http:\/\/(?:localhost|127\.0\.0\.1):\d+/.exec(said);
      if (found) resolve(found[0]);
    };
    program.stdout?.on('data', hear);
    program.stderr?.on('data', hear);
    program.once('exit', (code) => reject(new Error(`the program ended with ${code}: ${said}`)));
  });
}

export type Kind = 'desk' | 'phone';
export type Light = 'light' | 'dark';

export interface Watched {
  readonly page: Page;
  readonly context: BrowserContext;
  /** What the page complained about; a test ends with none. */
  readonly complaints: readonly string[];
}

/** A browser of its own: own storage, own person, own light. */
export async function open(demo: Demo, path: string, kind: Kind = 'desk', light: Light = 'light'): Promise<Watched> {
  const viewport = kind === 'desk' ? { width: 1440, height: 900 } : { width: 390, height: 844 };
  const context = await demo.browser.newContext({
    viewport,
    colorScheme: light,
    hasTouch: kind === 'phone',
    isMobile: kind === 'phone',
    reducedMotion: 'reduce',
  });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('pageerror', (e) => complaints.push(e.message));
  page.on('console', (m) => {
    if (m.type() === 'error' && !m.text().includes('Failed to load resource') && !m.text().includes('net::ERR'))
      complaints.push(m.text());
  });
  await page.goto(demo.address + path);
  return { page, context, complaints };
}

export const ROW = '[role="option"]';
export const rowsOf = (page: Page) => page.locator(ROW).allInnerTexts();

/** Waits until the plan is there and nothing is being looked for. */
export async function settled(page: Page): Promise<void> {
  await page.locator('.row').first().waitFor();
  await page.waitForFunction(() => !/looking/.test(document.querySelector('.answer')?.textContent ?? ''));
}
