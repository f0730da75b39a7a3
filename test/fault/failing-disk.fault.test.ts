/**
 * The n-th write, sync, rename or folder fails, for n = 1, 2, … until one run passes; once, and from there on for good.
 * After each: what was there before is there and whole, and what is new is whole or not there at all.
 */
import * as fs from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Result } from '../../src/domain/result.ts';
import { must } from '../../src/domain/result.ts';
import { draftOf } from '../../src/journal/testing/recorder.ts';
import { backup, checkBackup, restore } from '../../src/store/backup.ts';
import { type Disk, REAL_DISK } from '../../src/store/disk.ts';
import { exportJsonLines, fromJsonLines } from '../../src/store/json-lines.ts';
import { listOriginals, PhotoFolder } from '../../src/store/photo-folder.ts';
import { noteJob, picture } from '../../src/store/testing/temp.ts';
import { verify } from '../../src/store/verify.ts';
import { fastFolder } from './fault-kit.ts';

type How = 'once' | 'for good';

function failingDisk(nth: number, how: How): { readonly disk: Disk; readonly failed: () => boolean } {
  let calls = 0;
  let hit = false;
  const may = (what: string): void => {
    calls += 1;
    if (calls === nth || (how === 'for good' && calls > nth)) {
      hit = true;
      throw Object.assign(new Error(`EIO: ${what} failed (call ${calls})`), { code: nth % 2 === 0 ? 'ENOSPC' : 'EIO' });
    }
  };
  const disk: Disk = {
    ...REAL_DISK,
    open: (path, flags) => {
      may('open');
      return REAL_DISK.open(path, flags);
    },
    write: (fd, bytes, at) => {
      // Half of it gets there before it fails, as on a disk that fills.
      try {
        may('write');
      } catch (thrown) {
        REAL_DISK.write(fd, bytes.subarray(0, Math.floor(bytes.length / 2)), at);
        throw thrown;
      }
      REAL_DISK.write(fd, bytes, at);
    },
    sync: (fd) => {
      may('sync');
      REAL_DISK.sync(fd);
    },
    rename: (from, to) => {
      may('rename');
      REAL_DISK.rename(from, to);
    },
    makeFolder: (path) => {
      may('folder');
      REAL_DISK.makeFolder(path);
    },
  };
  return { disk, failed: () => hit };
}

/** Runs until the fault is never met; gives how many faults there were. */
async function untilItPasses(
  how: How,
  run: (disk: Disk) => Promise<Result<unknown>>,
  after: (answer: Result<unknown>) => void,
): Promise<number> {
  for (let nth = 1; nth < 500; nth += 1) {
    const { disk, failed } = failingDisk(nth, how);
    const answer = await run(disk);
    after(answer);
    if (!failed()) {
      expect(answer.ok).toBe(true);
      return nth - 1;
    }
    expect(answer, `call ${nth}`).toMatchObject({ ok: false, problem: { code: expect.stringMatching(/^DISK_/) } });
  }
  throw new Error('never passed');
}

async function job(): Promise<{ top: string; folder: string }> {
  const top = fastFolder();
  const folder = join(top, 'a.job');
  const made = await noteJob(folder, 5);
  for (const shade of [10, 20]) {
    const info = must(await made.photographs.put(await picture(40, 30, shade)));
    must(await made.journal.append(null, [draftOf(100 + shade, 'photo-taken', { ...info, of: ['leg-r'] })]));
  }
  made.close();
  return { top, folder };
}

describe.each<How>(['once', 'for good'])('[J7] a disk that fails %s', (how) => {
  it('while a backup is written', async () => {
    const { top, folder } = await job();
    const file = join(top, 'a.tar');
    const faults = await untilItPasses(
      how,
      (disk) => backup(folder, file, { disk }),
      () => {
        expect(must(verify(folder)).whole).toBe(true);
        if (fs.existsSync(file)) expect(checkBackup(file)).toMatchObject({ ok: true });
        fs.rmSync(file, { force: true });
        expect(fs.readdirSync(top)).toEqual(['a.job']);
      },
    );
    expect(faults).toBeGreaterThan(7);
  });

  it('while a backup is unpacked', async () => {
    const { top, folder } = await job();
    must(await backup(folder, join(top, 'a.tar')));
    const target = join(top, 'b.job');
    await untilItPasses(
      how,
      (disk) => restore(join(top, 'a.tar'), target, { disk }),
      () => {
        if (fs.existsSync(target)) expect(must(verify(target))).toMatchObject({ whole: true, entries: 7 });
        fs.rmSync(target, { recursive: true, force: true });
        expect(fs.readdirSync(top).sort()).toEqual(['a.job', 'a.tar']);
      },
    );
  });

  it('while an export is written over an older one', async () => {
    const { top, folder } = await job();
    const file = join(top, 'a.jsonl');
    must(await exportJsonLines(folder, file));
    await untilItPasses(
      how,
      (disk) => exportJsonLines(folder, file, disk),
      () => {
        expect(must(fromJsonLines(fs.readFileSync(file, 'utf8'))).stored).toHaveLength(7);
        expect(fs.readdirSync(top).sort()).toEqual(['a.job', 'a.jsonl']);
      },
    );
  });

  it('while a photograph is kept', async () => {
    const root = fastFolder();
    const bytes = await picture(60, 40, 99);
    await untilItPasses(
      how,
      (disk) => new PhotoFolder(root, { disk }).put(bytes),
      (answer) => {
        for (const o of listOriginals(root)) expect(fs.readFileSync(o.path)).toEqual(bytes);
        if (answer.ok) expect(listOriginals(root)).toHaveLength(1);
        else fs.rmSync(root, { recursive: true, force: true });
        fs.mkdirSync(root, { recursive: true });
      },
    );
  });
});
