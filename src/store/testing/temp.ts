/** For tests: a temporary folder that goes away, a job with a few entries, a photograph made on the spot. */
import * as fs from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { onTestFinished } from 'vitest';
import { must } from '../../domain/result.ts';
import { countingClock, draftOf } from '../../journal/testing/recorder.ts';
import { createJob, type JobFolder } from '../job-folder.ts';

export function tempFolder(): string {
  const folder = fs.mkdtempSync(join(tmpdir(), 'witnessmark-'));
  onTestFinished(() => fs.rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** A job with `entries` notes, open. */
export async function noteJob(folder: string, entries: number, from = 1): Promise<JobFolder> {
  const job = must(createJob(folder, { clock: countingClock(), pollMs: 0 }));
  for (let n = from; n < from + entries; n += 1)
    must(await job.journal.append(null, [draftOf(n, 'note', { text: `note ${n}` })]));
  return job;
}

export async function picture(width: number, height: number, shade = 120): Promise<Buffer> {
  return sharp({ create: { width, height, channels: 3, background: { r: shade, g: 90, b: 60 } } })
    .jpeg()
    .toBuffer();
}
