/**
 * The file shop.db: its tables by format, the step from one format to the next, and who may read it. It holds the key of
 * the shop's certificate authority, so it is made for its owner only (0600) where the system has such a thing, and an
 * older file that others could read is narrowed when it is opened. The log beside it takes the same mode from it (SQLite).
 */
import * as fs from 'node:fs';
import Database from 'better-sqlite3';
import { VAULT_TABLE } from './authority/vault.ts';
import { DEVICE_TABLES } from './devices.ts';
import { setPragmas } from './sqlite-file.ts';

export const SHOP_FORMAT = 2;
const OWNER_ONLY = 0o600;

const FORMAT_1 = [
  'CREATE TABLE shop (key TEXT PRIMARY KEY, value TEXT NOT NULL)',
  'CREATE TABLE person (id TEXT PRIMARY KEY, data TEXT NOT NULL)',
  'CREATE TABLE device (id TEXT PRIMARY KEY, data TEXT NOT NULL)',
] as const;

/** Format 2: the shop's authority, paired devices and their codes, and where it was last served. */
const TO_FORMAT_2 = [
  VAULT_TABLE,
  ...DEVICE_TABLES,
  'CREATE TABLE network (key TEXT PRIMARY KEY, value TEXT NOT NULL)',
] as const;

export function createShopFile(path: string, name: string): void {
  fs.closeSync(fs.openSync(path, 'wx', OWNER_ONLY));
  const db = new Database(path, { timeout: 5_000 });
  try {
    setPragmas(db);
    db.transaction(() => {
      for (const sql of [...FORMAT_1, ...TO_FORMAT_2]) db.exec(sql);
      db.prepare("INSERT INTO shop VALUES ('name', ?)").run(name);
      db.pragma(`user_version = ${SHOP_FORMAT}`);
    })();
  } finally {
    db.close();
  }
}

/** Opens and brings an older file up; null when it was written by a newer version (then nothing is touched). */
export function openShopFile(path: string): Database.Database | null {
  const db = new Database(path, { timeout: 5_000, fileMustExist: true });
  try {
    if (formatOf(db) > SHOP_FORMAT) {
      db.close();
      return null;
    }
    narrow(path);
    setPragmas(db);
    bringUp(db);
    return db;
  } catch (thrown) {
    db.close();
    throw thrown;
  }
}

function formatOf(db: Database.Database): number {
  return Number(db.pragma('user_version', { simple: true }));
}

/** Looked at again inside the transaction: another program may have brought it up meanwhile. */
function bringUp(db: Database.Database): void {
  if (formatOf(db) === SHOP_FORMAT) return;
  db.transaction(() => {
    if (formatOf(db) !== 1) return;
    for (const sql of TO_FORMAT_2) db.exec(sql);
    db.pragma('user_version = 2');
  }).immediate();
}

function narrow(path: string): void {
  for (const file of [path, `${path}-wal`, `${path}-shm`]) {
    try {
      if ((fs.statSync(file).mode & 0o077) !== 0) fs.chmodSync(file, OWNER_ONLY);
    } catch {
      // Not there, not ours, or a disk without owners (a memory stick): the folder's own protection is all there is.
    }
  }
}
