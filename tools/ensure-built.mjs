/**
 * Builds the program when it has never been built, or when a source is newer than the build. So `npx witnessmark ...`
 * works straight after `npm ci`, and nobody tests yesterday's code.
 */
import { existsSync, readdirSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const top = dirname(dirname(fileURLToPath(import.meta.url)));
const SOURCES = ['src', 'demo', 'tools', 'package.json', 'vite.config.ts'];

function newest(path) {
  if (!existsSync(path)) return 0;
  const s = statSync(path);
  if (!s.isDirectory()) return s.mtimeMs;
  return readdirSync(path).reduce((latest, name) => Math.max(latest, newest(join(path, name))), 0);
}

export async function ensureBuilt() {
  const stamp = join(top, 'dist', 'built');
  const built = existsSync(stamp) ? statSync(stamp).mtimeMs : 0;
  const latest = Math.max(...SOURCES.map((s) => newest(join(top, s))));
  if (built >= latest) return;
  const { build } = await import('./build.mjs');
  await build();
}
