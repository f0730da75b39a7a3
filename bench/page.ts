/**
 * The page of the demo: from asking for its address until what one wants off can be named, in a fresh browser, and
 * what the browser must load before that, gzipped. The rival of a page is a person's patience: no rival, a goal.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { chromium } from 'playwright-core';
import type { BenchRow } from './bench-row.ts';

const top = dirname(dirname(fileURLToPath(import.meta.url)));
const ROUNDS = 3;
export const CHROMIUM = {
  executablePath: '/usr/bin/chromium',
  args: [
    '--no-sandbox',
    '--disable-gpu',
    '--disable-quic',
    '--no-first-run',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
  ],
};

export function row(
  id: string,
  what: string,
  ours: number,
  unit: string,
  goal: string,
  met: boolean,
  note?: string,
): BenchRow {
  return {
    id,
    what,
    ours,
    rival: null,
    rivalName: null,
    unit,
    ratio: null,
    goal,
    met,
    ...(note !== undefined && { note }),
  };
}

export interface Served {
  readonly address: string;
  readonly ms: number;
  readonly server: ChildProcess;
}

/** The address is the first thing that `serve` prints in its last line. */
export async function serveProgram(args: readonly string[]): Promise<Served> {
  const started = performance.now();
  const server = spawn(process.execPath, [join(top, 'bin/witnessmark.mjs'), ...args], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let text = '';
  for await (const chunk of server.stdout) {
    text += String(chunk);
    const address = /http:\/\/localhost:\d+/.exec(text)?.[0];
    if (address) return { address, ms: performance.now() - started, server };
  }
  throw new Error('internal: the server ended before it said its address; report it');
}

/** Scripts that the browser asked for until the page could be used, as they are on disk, gzipped. */
function gzipBytes(paths: ReadonlySet<string>): number {
  return [...paths].reduce((sum, p) => sum + gzipSync(readFileSync(join(top, 'dist/web', p))).length, 0);
}

export async function benchPage(opts: { readonly quick: boolean }): Promise<readonly BenchRow[]> {
  const { address, ms, server } = await serveProgram(['demo', '--port', '0']);
  const browser = await chromium.launch(CHROMIUM);
  const times: number[] = [];
  const scripts = new Set<string>();
  try {
    for (let k = 0; k < (opts.quick ? 1 : ROUNDS); k++) {
      const page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
      page.on('response', (r) => {
        const path = new URL(r.url()).pathname;
        if (path.endsWith('.js')) scripts.add(path);
      });
      const started = performance.now();
      await page.goto(address);
      await page.getByRole('combobox').first().waitFor();
      times.push(performance.now() - started);
      await page.context().close();
    }
  } finally {
    await browser.close();
    server.kill('SIGTERM');
  }
  const usable = Math.min(...times);
  const kb = gzipBytes(scripts) / 1000;
  return [
    row(
      'page-made',
      'demo made and served, from the command to the address',
      ms,
      'ms',
      '',
      true,
      'three jobs made from their history, 118 photographs drawn',
    ),
    row('page-usable', 'demo page usable, fresh browser', usable, 'ms', '<= 2000 ms', usable <= 2000),
    row(
      'page-script',
      'script at first load, gzip',
      kb,
      'kB',
      '<= 250 kB',
      kb <= 250,
      'until the page can be used; the planner (65 kB) comes after, in its worker',
    ),
  ];
}
