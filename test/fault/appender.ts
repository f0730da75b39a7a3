/** The program that gets killed: records notes and photographs as fast as it can and says each one that was acknowledged. */
import * as fs from 'node:fs';
import sharp from 'sharp';
import { must } from '../../src/domain/result.ts';
import { draftEntry } from '../../src/journal/entry.ts';
import { createJob, isJobFolder, openJob } from '../../src/store/job-folder.ts';
import { SYSTEM_CLOCK, systemIds } from '../../src/store/machine.ts';

const folder = process.argv[2] ?? '';
const job = must(isJobFolder(folder) ? openJob(folder, { pollMs: 0 }) : createJob(folder, { pollMs: 0 }));
const ids = systemIds();

function say(line: string): void {
  fs.writeSync(1, `${line}\n`);
}

async function record(kind: string, data: unknown): Promise<void> {
  const draft = draftEntry({ id: ids.next(), at: SYSTEM_CLOCK.now(), by: 'ana', device: 'tablet' }, kind, data);
  const [stored] = must(await job.journal.append(null, [draft]));
  say(`${stored?.seq} ${stored?.hash}`);
}

say(`open ${job.readOnly ? 'read-only' : 'ready'} ${job.problems.map((p) => p.code).join(' ')}`);
for (let n = 0; ; n += 1) {
  if (n % 40 === 20) {
    const shade = (job.state.head.seq * 7 + n) % 256;
    const bytes = await sharp({
      create: { width: 24, height: 24, channels: 3, background: { r: shade, g: n % 256, b: 9 } },
    })
      .jpeg()
      .toBuffer();
    await record('photo-taken.v1', { ...must(await job.photographs.put(bytes)), of: ['leg-r'] });
  }
  await record('note.v1', { text: `note ${n} ${'x'.repeat(n % 200)}` });
}
