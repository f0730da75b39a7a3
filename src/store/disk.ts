/**
 * The calls by which backups, photographs and marks touch the disk, as one object: fault tests hand in one whose n-th
 * write, sync or rename fails. Synchronous: each is short, and their order is the whole point.
 */
import * as fs from 'node:fs';
import { dirname } from 'node:path';

export interface Disk {
  open(path: string, flags: string): number;
  write(fd: number, bytes: Uint8Array, at: number | null): void;
  sync(fd: number): void;
  close(fd: number): void;
  rename(from: string, to: string): void;
  remove(path: string): void;
  makeFolder(path: string): void;
}

export const REAL_DISK: Disk = {
  open: (path, flags) => fs.openSync(path, flags),
  write: (fd, bytes, at) => {
    let from = 0;
    while (from < bytes.length) {
      from += fs.writeSync(fd, bytes, from, bytes.length - from, at === null ? null : at + from);
    }
  },
  sync: (fd) => fs.fsyncSync(fd),
  close: (fd) => fs.closeSync(fd),
  rename: (from, to) => fs.renameSync(from, to),
  remove: (path) => fs.rmSync(path, { recursive: true, force: true }),
  makeFolder: (path) => {
    fs.mkdirSync(path, { recursive: true });
  },
};

/** A new name in a folder is on disk only once the folder is synced. Windows syncs it by itself and has no such call. */
export function syncFolder(disk: Disk, folder: string): void {
  if (process.platform === 'win32') return;
  const fd = disk.open(folder, 'r');
  try {
    disk.sync(fd);
  } finally {
    disk.close(fd);
  }
}

/** Whole or not at all: written beside, synced, renamed, folder synced. */
export function writeWhole(disk: Disk, path: string, bytes: Uint8Array): void {
  const beside = `${path}.part-${process.pid}`;
  try {
    const fd = disk.open(beside, 'w');
    try {
      disk.write(fd, bytes, null);
      disk.sync(fd);
    } finally {
      disk.close(fd);
    }
    disk.rename(beside, path);
  } catch (thrown) {
    removeQuietly(disk, beside);
    throw thrown;
  }
  syncFolder(disk, dirname(path));
}

export function removeQuietly(disk: Disk, path: string): void {
  try {
    disk.remove(path);
  } catch {
    // A leftover beside is named .part- and is passed over by every reader.
  }
}
