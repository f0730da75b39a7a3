/** The invented shop is made once for all browser tests, by the program itself; each file serves a copy of its own. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';

const TOP = join(import.meta.dirname, '../../..');

declare module 'vitest' {
  interface ProvidedContext {
    readonly demoShop: string;
  }
}

export function setup(project: TestProject): () => void {
  const folder = mkdtempSync(join(tmpdir(), 'witnessmark-demo-once-'));
  const shop = join(folder, 'shop');
  execFileSync(process.execPath, [join(TOP, 'bin/witnessmark.mjs'), 'demo', '--make', '--folder', shop], {
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  project.provide('demoShop', shop);
  return () => rmSync(folder, { recursive: true, force: true });
}
