/**
 * SIGKILL at any moment, again and again on one job: no acknowledged entry is ever lost, no photograph that an entry names,
 * and the job opens each time as if nothing had happened.
 */
import { spawn } from 'node:child_process';
import * as fs from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { describe, expect, it } from 'vitest';
import { must } from '../../src/domain/result.ts';
import { openJob } from '../../src/store/job-folder.ts';
import { verify } from '../../src/store/verify.ts';
import { ALL, chance, fastFolder } from './fault-kit.ts';

const TOP = join(import.meta.dirname, '../..');
const KILLS = ALL ? 200 : 20;

/** One file, so that the program starts in a fraction of a second; beside node_modules, so that it finds them. */
async function bundled(): Promise<string> {
  const outfile = join(TOP, 'node_modules', '.cache', `witnessmark-appender-${process.pid}.mjs`);
  await build({
    entryPoints: [join(TOP, 'test/fault/appender.ts')],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    packages: 'external',
  });
  return outfile;
}

/** Runs the program and kills it so many milliseconds after its first answer. Gives the whole lines it said. */
async function runAndKill(program: string, folder: string, afterMs: number): Promise<readonly string[]> {
  const child = spawn(process.execPath, [program, folder], { stdio: ['ignore', 'pipe', 'inherit'] });
  const said: string[] = [];
  let started = false;
  child.stdout.setEncoding('utf8');
  child.stdout.on('data', (text: string) => {
    said.push(text);
    if (!started) setTimeout(() => child.kill('SIGKILL'), afterMs);
    started = true;
  });
  await new Promise((resolve) => child.on('close', resolve));
  expect(child.signalCode).toBe('SIGKILL');
  return said.join('').split('\n').slice(0, -1);
}

describe('[J7] killed while recording', () => {
  it(`${KILLS} times: every acknowledged entry is there`, async () => {
    const program = await bundled();
    const folder = join(fastFolder(), 'killed.job');
    const next = chance(4711);
    const acknowledged = new Map<number, string>();
    try {
      for (let kill = 0; kill < KILLS; kill += 1) {
        const [opened, ...lines] = await runAndKill(program, folder, next(90));
        expect(opened?.trim(), `start ${kill}`).toBe('open ready');
        for (const line of lines) acknowledged.set(Number(line.split(' ')[0]), line.split(' ')[1] ?? '');
        const job = must(openJob(folder, { pollMs: 0, readOnly: true }));
        expect(job.problems).toEqual([]);
        const hashes = new Map(job.state.log.map((e) => [e.seq, e.hash]));
        for (const [seq, hash] of acknowledged) expect(hashes.get(seq), `entry ${seq} after kill ${kill}`).toBe(hash);
        job.close();
      }
      expect(acknowledged.size).toBeGreaterThan(KILLS * 3);
      const report = must(verify(folder));
      expect(report.problems).toEqual([]);
      expect(report.photographs.missing).toEqual([]);
    } finally {
      fs.rmSync(program, { force: true });
    }
  });
});
