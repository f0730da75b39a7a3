/**
 * Files cut and bytes changed. After each: either `verify` says that something does not hold, or every entry reads
 * exactly as it was recorded. And nobody can go on recording over a loss without having been told.
 */
import * as fs from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { must } from '../../src/domain/result.ts';
import { JOURNAL_FILE } from '../../src/store/job-folder.ts';
import { verify } from '../../src/store/verify.ts';
import { ALL, chance, fastFolder, JOB_FILES, layDown, leftJob, readBack, same } from './fault-kit.ts';

const LAST_BYTES = 65_536;
const STRIDE = ALL ? 1 : 64;

describe.each([
  ['closed', JOURNAL_FILE],
  ['crashed', JOURNAL_FILE],
  ['crashed', `${JOURNAL_FILE}-wal`],
] as const)('[J7] a %s job whose %s is cut', (how, name) => {
  it(`is reported at every ${STRIDE === 1 ? '' : `${STRIDE}th `}offset of the last ${LAST_BYTES} bytes`, async () => {
    const { files, entries } = await leftJob(how, 320);
    const folder = join(fastFolder(), 'cut.job');
    layDown(folder, files);
    const path = join(folder, name);
    const size = files.get(name)?.length ?? 0;
    expect(size).toBeGreaterThan(10_000);
    expect(must(verify(folder))).toMatchObject({ whole: true, entries: entries.length });
    let silent = 0;
    for (let at = size - 1; at >= Math.max(0, size - LAST_BYTES); at -= STRIDE) {
      fs.truncateSync(path, at);
      fs.rmSync(join(folder, `${JOURNAL_FILE}-shm`), { force: true });
      const report = verify(folder);
      if (!report.ok || !report.value.whole) continue;
      // Not reported: then nothing may be missing. (The end of a log can hold frames that no longer count.)
      silent += 1;
      const read = await readBack(folder);
      expect(same(read?.entries ?? [], entries), `cut at ${at} of ${size}`).toBe(true);
      layDown(folder, new Map([...files].map(([n, b]) => [n, n === name ? b.subarray(0, at) : b])));
    }
    expect(silent).toBeLessThan(LAST_BYTES / STRIDE / 4);
  });

  it('what can still be read is a beginning of what was recorded, and it opens for reading only', async () => {
    const { files, entries } = await leftJob(how, 200);
    const folder = join(fastFolder(), 'cut.job');
    const size = files.get(name)?.length ?? 0;
    const next = chance(7);
    let opened = 0;
    for (let i = 0; i < (ALL ? 400 : 60); i += 1) {
      const at = next(size);
      layDown(folder, new Map([...files].map(([n, b]) => [n, n === name ? b.subarray(0, at) : b])));
      const read = await readBack(folder);
      if (read === null) continue;
      opened += 1;
      if (read.writable) expect(same(read.entries, entries), `cut at ${at}`).toBe(true);
      const report = verify(folder);
      const known = report.ok ? report.value.entries : 0;
      expect(same(read.entries, entries.slice(0, known)), `cut at ${at}`).toBe(true);
    }
    expect(opened).toBeGreaterThan(0);
  });
});

describe.each(['closed', 'crashed'] as const)('[J7] a %s job with one byte changed', (how) => {
  it('verify reports it, or every entry reads as it was recorded (500 places)', async () => {
    const { files, entries } = await leftJob(how, 200);
    const folder = join(fastFolder(), 'changed.job');
    const names = JOB_FILES.filter((n) => (files.get(n)?.length ?? 0) > 0);
    const total = names.reduce((sum, n) => sum + (files.get(n)?.length ?? 0), 0);
    const next = chance(how === 'closed' ? 20260105 : 20260106);
    let [reported, unchanged] = [0, 0];
    for (let i = 0; i < (ALL ? 5_000 : 500); i += 1) {
      let at = next(total);
      const name = names.find((n) => (at -= files.get(n)?.length ?? 0) < 0) ?? JOURNAL_FILE;
      const bytes = Buffer.from(files.get(name) ?? Buffer.alloc(0));
      const place = at + bytes.length;
      bytes[place] = ((bytes[place] ?? 0) + 1 + next(255)) % 256;
      layDown(folder, new Map(files).set(name, bytes));
      const report = verify(folder);
      const noticed = !report.ok || !report.value.whole || report.value.notes.some((n) => n.includes('journal.head'));
      const read = await readBack(folder);
      const identical = read !== null && same(read.entries, entries);
      expect(noticed || identical, `${name}, byte ${place}`).toBe(true);
      if (read?.writable === true) expect(identical, `${name}, byte ${place}: writable`).toBe(true);
      if (noticed) reported += 1;
      else unchanged += 1;
    }
    expect(reported).toBeGreaterThan(100);
    expect(reported + unchanged).toBe(ALL ? 5_000 : 500);
  });
});
