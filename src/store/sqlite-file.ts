/**
 * The journal file as SQLite: one append-only table. Update and delete are refused by triggers inside the file, so any
 * other program meets them too. `user_version` is the format number, `application_id` spells WMK1.
 */
import Database from 'better-sqlite3';

export const JOURNAL_FORMAT = 1;
const APPLICATION_ID = 0x574d4b31;

export type Db = Database.Database;

/** What the file is made of, by name; `verify` compares. */
export const SCHEMA_OBJECTS: ReadonlyMap<string, string> = new Map([
  [
    'entry',
    `CREATE TABLE entry (
  seq         INTEGER PRIMARY KEY,
  id          TEXT NOT NULL UNIQUE,
  recorded_at TEXT NOT NULL,
  body        TEXT NOT NULL,
  digest      TEXT NOT NULL,
  signature   TEXT,
  prev        TEXT NOT NULL,
  hash        TEXT NOT NULL
)`,
  ],
  [
    'entry_is_never_changed',
    "CREATE TRIGGER entry_is_never_changed BEFORE UPDATE ON entry BEGIN SELECT RAISE(ABORT, 'entries are never changed'); END",
  ],
  [
    'entry_is_never_deleted',
    "CREATE TRIGGER entry_is_never_deleted BEFORE DELETE ON entry BEGIN SELECT RAISE(ABORT, 'entries are never deleted'); END",
  ],
]);

/** The pragmas that carry the promise; the bench uses the same for the bare database. */
export function setPragmas(db: Db): void {
  db.pragma('journal_mode = WAL');
  db.pragma('synchronous = FULL');
  db.pragma('trusted_schema = OFF');
}

export function createJournalFile(path: string): Db {
  const db = new Database(path, { timeout: 5_000 });
  setPragmas(db);
  db.transaction(() => {
    for (const sql of SCHEMA_OBJECTS.values()) db.exec(sql);
    db.pragma(`application_id = ${APPLICATION_ID}`);
    db.pragma(`user_version = ${JOURNAL_FORMAT}`);
  })();
  return db;
}

export function openJournalFile(path: string, readonly: boolean): Db {
  const db = new Database(path, { timeout: 5_000, readonly, fileMustExist: true });
  if (!readonly) setPragmas(db);
  return db;
}

export function formatOf(db: Db): number {
  return Number(db.pragma('user_version', { simple: true }));
}
