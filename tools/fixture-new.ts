/**
 * `npm run fixture:new -- JOB NAME`: keeps the journal of a job as fixtures/journal/NAME.jsonl, with its exact bytes. A
 * fixture that is there is never written again: old journals must read for ever as they did on their day.
 */
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { exportJsonLines } from '../src/store/index.ts';

const [job, name] = process.argv.slice(2);
const top = dirname(dirname(fileURLToPath(import.meta.url)));

async function keep(): Promise<string> {
  if (job === undefined || name === undefined || !/^[a-z0-9-]+$/.test(name))
    return 'usage: npm run fixture:new -- JOB NAME (a-z, 0-9, -)';
  const file = join(top, 'fixtures', 'journal', `${name}.jsonl`);
  if (existsSync(file)) return `fixtures/journal/${name}.jsonl is there; choose another name`;
  const done = await exportJsonLines(job, file);
  return done.ok ? '' : `${done.problem.message}. ${done.problem.remedy}`;
}

const trouble = await keep();
if (trouble !== '') {
  process.stderr.write(`${trouble}\n`);
  process.exitCode = 1;
} else process.stdout.write(`kept; pin its SHA-256 in src/store/format.test.ts\n`);
