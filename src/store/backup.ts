/**
 * A backup is one tar file with everything that cannot be made again: the journal (a consistent copy while the program
 * runs), the head mark, photographs and sounds, the reading instructions, and last a list with the SHA-256 of each.
 *
 *   write beside -> sync -> read back, compare with the list, check the chain -> rename -> sync the folder
 *
 * So a file with the final name is a backup that was read once. Not chosen: zip (the library at hand stops at 4 GB), and
 * copying the folder by hand (a log half copied is a cut log).
 */
import * as fs from 'node:fs';
import { basename, dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { failed, ok, type Result } from '../domain/result.ts';
import type { Head } from '../journal/entry.ts';
import { type Disk, REAL_DISK, removeQuietly, syncFolder } from './disk.ts';
import { HeadMark } from './head-mark.ts';
import {
  JOURNAL_FILE,
  MARK_FILE,
  openJob,
  PHOTOS_FOLDER,
  READ_ME_FILE,
  readJournal,
  SOUNDS_FOLDER,
} from './job-folder.ts';
import { hashBytes } from './machine.ts';
import { listOriginals } from './photo-folder.ts';
import { READ_ME } from './read-me.ts';
import { SOUND_NAME } from './sound-folder.ts';
import { diskProblem, storeProblem } from './store-problems.ts';
import { isPlainName, readTar, TarFault, TarWriter } from './tar.ts';
import { type VerifyReport, verify } from './verify.ts';

const LIST = 'LIST.json';

interface Listed {
  readonly name: string;
  readonly bytes: number;
  readonly sha256: string;
}

export interface BackupReport {
  readonly file: string;
  readonly bytes: number;
  readonly entries: number;
  readonly photographs: number;
}

export interface BackupOptions {
  readonly disk?: Disk;
  /** Called after each photograph with how many of how many. */
  readonly onProgress?: (done: number, of: number) => void;
}

export async function backup(folder: string, file: string, options: BackupOptions = {}): Promise<Result<BackupReport>> {
  const disk = options.disk ?? REAL_DISK;
  if (fs.existsSync(file)) return failed(storeProblem('BACKUP_EXISTS', `"${basename(file)}" is there already`));
  const job = openJob(folder, { readOnly: true });
  if (!job.ok) return job;
  const { problems, state } = job.value;
  job.value.close();
  const fault = problems.find((p) => p.code !== 'JOURNAL_NEWER');
  if (fault !== undefined)
    return failed(
      storeProblem('BACKUP_NOT_WHOLE', `the job is not whole, so it was not backed up: ${fault.message}`, fault.remedy),
    );
  const beside = `${file}.part-${process.pid}`;
  const copy = `${beside}.db`;
  try {
    await copyJournal(folder, copy);
    const head = headOf(copy);
    const written = writeAll(disk, folder, beside, copy, head, options.onProgress);
    const found = checkBackup(beside);
    if (!found.ok) return found;
    if (found.value.head.hash !== head.hash || head.seq < state.head.seq) {
      return failed(
        storeProblem(
          'BACKUP_NOT_WHOLE',
          `the backup ends with entry ${found.value.head.seq}, the journal with ${state.head.seq}`,
        ),
      );
    }
    disk.rename(beside, file);
    syncFolder(disk, dirname(file));
    return ok({ file, bytes: written.bytes, entries: head.seq, photographs: written.photographs });
  } catch (thrown) {
    if (thrown instanceof TarFault) return failed(storeProblem('BACKUP_NOT_WHOLE', thrown.message));
    return failed(diskProblem(thrown, 'writing the backup'));
  } finally {
    removeQuietly(REAL_DISK, beside);
    for (const end of ['', '-wal', '-shm']) removeQuietly(REAL_DISK, copy + end);
  }
}

async function copyJournal(folder: string, to: string): Promise<void> {
  const db = new Database(join(folder, JOURNAL_FILE), { readonly: true, fileMustExist: true, timeout: 5_000 });
  try {
    await db.backup(to);
  } finally {
    db.close();
  }
  // A plain file without a log, so that the copy is one file.
  const plain = new Database(to);
  plain.pragma('journal_mode = DELETE');
  plain.close();
}

function headOf(path: string): Head {
  const db = new Database(path, { readonly: true, fileMustExist: true });
  try {
    const read = readJournal(db);
    if (read.fault !== null) throw new TarFault(read.fault.message);
    return read.head;
  } finally {
    db.close();
  }
}

function writeAll(
  disk: Disk,
  folder: string,
  beside: string,
  copy: string,
  head: Head,
  onProgress: BackupOptions['onProgress'],
): { readonly bytes: number; readonly photographs: number } {
  const fd = disk.open(beside, 'w');
  try {
    const tar = new TarWriter(disk, fd, Math.floor(Date.now() / 1000));
    const list: Listed[] = [];
    const add = (name: string, bytes: Uint8Array): void => {
      tar.add(name, bytes);
      list.push({ name, bytes: bytes.length, sha256: hashBytes(bytes) });
    };
    add(READ_ME_FILE, Buffer.from(READ_ME, 'utf8'));
    add(JOURNAL_FILE, fs.readFileSync(copy));
    add(MARK_FILE, Buffer.from(HeadMark.text(head), 'latin1'));
    const originals = listOriginals(join(folder, PHOTOS_FOLDER));
    for (const [i, photo] of originals.entries()) {
      const name = `${PHOTOS_FOLDER}/${photo.hash.slice(0, 2)}/${photo.hash.slice(2, 4)}/${basename(photo.path)}`;
      add(name, fs.readFileSync(photo.path));
      onProgress?.(i + 1, originals.length);
    }
    for (const sound of listOriginals(join(folder, SOUNDS_FOLDER), SOUND_NAME)) {
      const name = `${SOUNDS_FOLDER}/${sound.hash.slice(0, 2)}/${sound.hash.slice(2, 4)}/${basename(sound.path)}`;
      add(name, fs.readFileSync(sound.path));
    }
    tar.add(
      LIST,
      Buffer.from(`${JSON.stringify({ format: 'witnessmark-backup/1', head, files: list }, null, 1)}\n`, 'utf8'),
    );
    const bytes = tar.end();
    disk.sync(fd);
    return { bytes, photographs: originals.length };
  } finally {
    disk.close(fd);
  }
}

export interface CheckedBackup {
  readonly head: Head;
  readonly files: number;
}

/** Reads a backup through: each member against the list, nothing missing, nothing added. */
export function checkBackup(file: string, each?: (name: string, bytes: Buffer) => void): Result<CheckedBackup> {
  const found = new Map<string, string>();
  let list: { head: Head; files: readonly Listed[] } | null = null;
  try {
    for (const member of readTar(file)) {
      if (member.name === LIST)
        list = JSON.parse(member.bytes.toString('utf8')) as { head: Head; files: readonly Listed[] };
      else {
        found.set(member.name, hashBytes(member.bytes));
        each?.(member.name, member.bytes);
      }
    }
  } catch (thrown) {
    if (thrown instanceof TarFault || thrown instanceof SyntaxError)
      return failed(storeProblem('BACKUP_NOT_WHOLE', `the backup is not whole: ${thrown.message}`));
    return failed(diskProblem(thrown, 'reading the backup'));
  }
  if (list === null) return failed(storeProblem('BACKUP_NOT_WHOLE', 'the backup has no list, so it was cut'));
  const wrong = list.files.find((f) => found.get(f.name) !== f.sha256);
  if (wrong !== undefined)
    return failed(storeProblem('BACKUP_NOT_WHOLE', `"${wrong.name}" in the backup is missing or changed`));
  if (found.size !== list.files.length)
    return failed(storeProblem('BACKUP_NOT_WHOLE', 'the backup holds files that are not in its list'));
  return ok({ head: list.head, files: found.size });
}

/** Unpacks beside, verifies, renames. The place must be free; an existing job is never overwritten. */
export async function restore(
  file: string,
  folder: string,
  options: BackupOptions = {},
): Promise<Result<VerifyReport>> {
  const disk = options.disk ?? REAL_DISK;
  if (fs.existsSync(folder) && fs.readdirSync(folder).length > 0)
    return failed(storeProblem('JOB_EXISTS', `"${folder}" is not empty`));
  const beside = `${folder}.part-${process.pid}`;
  try {
    const checked = unpack(disk, file, beside);
    if (!checked.ok) return checked;
    const report = verify(beside);
    if (!report.ok) return report;
    if (report.value.head.hash !== checked.value.head.hash) {
      return failed(
        storeProblem(
          'BACKUP_NOT_WHOLE',
          `the journal in the backup ends with entry ${report.value.head.seq}, its list says ${checked.value.head.seq}`,
        ),
      );
    }
    if (fs.existsSync(folder)) fs.rmdirSync(folder);
    disk.rename(beside, folder);
    syncFolder(disk, dirname(folder));
    return report;
  } catch (thrown) {
    return failed(diskProblem(thrown, 'unpacking the backup'));
  } finally {
    removeQuietly(REAL_DISK, beside);
  }
}

function unpack(disk: Disk, file: string, beside: string): Result<CheckedBackup> {
  disk.makeFolder(join(beside, PHOTOS_FOLDER));
  return checkBackup(file, (name, bytes) => {
    if (!isPlainName(name)) return;
    const path = join(beside, ...name.split('/'));
    disk.makeFolder(dirname(path));
    const fd = disk.open(path, 'wx');
    try {
      disk.write(fd, bytes, null);
      disk.sync(fd);
    } finally {
      disk.close(fd);
    }
  });
}
