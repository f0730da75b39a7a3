/**
 * Runs the tests and ends with one line, `N passed, N failed`. Without arguments: everything but the fault tests, the
 * browser tests included; `--quick`: without browser; `--fault`: only the fault tests, every offset and every kill (about
 * twenty minutes), with `--short` a sample of them.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensureBuilt } from './ensure-built.mjs';

const top = dirname(dirname(fileURLToPath(import.meta.url)));
const CHROMIUM = '/usr/bin/chromium';
const only = process.argv.find((a) => a === '--quick' || a === '--fault');
const short = process.argv.includes('--short');
const passed = process.argv.slice(2).filter((a) => a !== only && a !== '--short');

function installed(program) {
  return spawnSync('sh', ['-c', `command -v ${program}`]).status === 0;
}

/** Chromium and poppler are Debian's; as root on Debian they are installed here, elsewhere named. */
function ensurePrograms() {
  const missing = [...(existsSync(CHROMIUM) ? [] : ['chromium']), ...(installed('pdftotext') ? [] : ['poppler-utils'])];
  if (missing.length === 0) return;
  if (process.getuid?.() !== 0 || !installed('apt-get')) {
    console.log(`missing: ${missing.join(', ')}. Install with: sudo apt-get install ${missing.join(' ')}`);
    console.log('0 passed, 1 failed');
    process.exit(1);
  }
  console.log(`installing ${missing.join(', ')} ...`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  spawnSync('apt-get', ['update', '-qq'], { stdio: 'inherit', env });
  const r = spawnSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...missing], {
    stdio: ['ignore', 'ignore', 'inherit'],
    env,
  });
  if (r.status !== 0) {
    console.log(`apt-get could not install ${missing.join(', ')}`);
    console.log('0 passed, 1 failed');
    process.exit(1);
  }
}

function vitest(config) {
  const dir = mkdtempSync(join(tmpdir(), 'witnessmark-test-'));
  const report = join(dir, 'report.json');
  const args = [
    'run',
    '--config',
    config,
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
    ...passed,
  ];
  const run = spawnSync(join(top, 'node_modules/.bin/vitest'), args, { stdio: 'inherit', cwd: top });
  let counts = { passed: 0, failed: run.status === 0 ? 0 : 1 };
  if (existsSync(report)) {
    const r = JSON.parse(readFileSync(report, 'utf8'));
    const broken = r.testResults.filter(
      (f) => f.status === 'failed' && f.assertionResults.every((t) => t.status !== 'failed'),
    ).length;
    counts = { passed: r.numPassedTests, failed: Math.max(r.numFailedTests + broken, run.status === 0 ? 0 : 1) };
  }
  rmSync(dir, { recursive: true, force: true });
  return counts;
}

if (only === '--fault' && !short) process.env.WITNESSMARK_FAULT = 'all';
const configs = { '--quick': ['vitest.config.ts'], '--fault': ['vitest.fault.config.ts'] };
if (only !== '--quick') ensurePrograms();
await ensureBuilt();
const runs = (configs[only] ?? ['vitest.config.ts', 'vitest.browser.config.ts']).map(vitest);
const total = runs.reduce((a, b) => ({ passed: a.passed + b.passed, failed: a.failed + b.failed }));
console.log(`${total.passed} passed, ${total.failed} failed`);
process.exit(total.failed === 0 && total.passed > 0 ? 0 : 1);
