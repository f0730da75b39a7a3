/**
 * Devices that may come in from the shop's network, and the one-time codes that let them in. shop.db holds only SHA-256 of
 * a token or a code: who reads the file cannot come in with what stands there. A plain SHA-256 will do for a token (32
 * random bytes) and for a code that ends after ten minutes; a slow hash protects what people choose, and nobody chooses these.
 *
 * A device is shut out by a mark on its row, looked at with every request: it acts at once, whoever set it.
 * A token belongs to the door it was given at. What was once sent plainly may have been heard, so it opens no TLS door.
 */
import { createHash, randomBytes, randomInt, timingSafeEqual } from 'node:crypto';
import type Database from 'better-sqlite3';
import { failed, ok, type Result } from '../domain/result.ts';
import { diskProblem, storeProblem } from './store-problems.ts';

export const DEVICE_TABLES = [
  `CREATE TABLE paired_device (
  id         TEXT PRIMARY KEY,
  name       TEXT NOT NULL,
  token_hash TEXT NOT NULL UNIQUE,
  over       TEXT NOT NULL CHECK (over IN ('plain', 'tls')),
  origin     TEXT,
  paired_at  TEXT NOT NULL,
  last_seen  TEXT,
  revoked_at TEXT
)`,
  'CREATE TABLE pairing_code (code_hash TEXT PRIMARY KEY, ends_at TEXT NOT NULL)',
] as const;

/** No I, L, O, U, 0, 1: nothing that is mistaken for another when read aloud or off a dirty screen. 30^8 codes. */
export const CODE_LETTERS = 'ABCDEFGHJKMNPQRSTVWXYZ23456789';
export const CODE_LENGTH = 8;
export const CODE_MINUTES = 10;
const SEEN_EVERY_MS = 60_000;
const LONGEST_NAME = 60;

export type Over = 'plain' | 'tls';

export interface PairedDevice {
  readonly id: string;
  readonly name: string;
  /** By which door it comes: plainly, or over TLS. */
  readonly over: Over;
  readonly pairedAt: string;
  readonly lastSeen: string | null;
  readonly revokedAt: string | null;
}

export interface PairingCode {
  /** `ABCD-EFGH`. Shown once; only its hash is kept. */
  readonly code: string;
  readonly endsAt: string;
}

export interface PairingWish {
  readonly code: string;
  readonly name: string;
  readonly over: Over;
  /** Origin of the page that asked, kept so that the same page may later sync with another address of the shop. */
  readonly origin: string | null;
  readonly at: string;
}

interface DeviceRow {
  readonly id: string;
  readonly name: string;
  readonly over: Over;
  readonly paired_at: string;
  readonly last_seen: string | null;
  readonly revoked_at: string | null;
}

const COLUMNS = 'id, name, over, paired_at, last_seen, revoked_at';

export class DeviceRegister {
  constructor(private readonly db: Database.Database) {}

  makeCode(at: string): Result<PairingCode> {
    const letters = Array.from({ length: CODE_LENGTH }, () => CODE_LETTERS[randomInt(CODE_LETTERS.length)]).join('');
    const endsAt = new Date(Date.parse(at) + CODE_MINUTES * 60_000).toISOString();
    try {
      this.db
        .transaction(() => {
          this.dropEnded(at);
          this.db.prepare('INSERT INTO pairing_code VALUES (?, ?)').run(sha256(letters), endsAt);
        })
        .immediate();
      return ok({ code: `${letters.slice(0, 4)}-${letters.slice(4)}`, endsAt });
    } catch (thrown) {
      return failed(diskProblem(thrown, 'making a pairing code'));
    }
  }

  /** Uses the code up and lets the device in. The token is given once, here. */
  pair(wish: PairingWish): Result<{ readonly device: PairedDevice; readonly token: string }> {
    const name = wish.name.trim();
    if (name === '' || name.length > LONGEST_NAME)
      return failed(
        storeProblem('DEVICE_NAME', `a device has a name of 1 to ${LONGEST_NAME} letters`, undefined, 'name'),
      );
    const token = randomBytes(32).toString('base64url');
    try {
      const device = this.db
        .transaction(() => {
          if (!this.useUp(wish.code, wish.at)) return null;
          const id = this.freshId();
          this.db
            .prepare('INSERT INTO paired_device VALUES (?, ?, ?, ?, ?, ?, NULL, NULL)')
            .run(id, name, sha256(token), wish.over, wish.origin, wish.at);
          this.db
            .prepare('INSERT INTO device VALUES (?, ?) ON CONFLICT (id) DO NOTHING')
            .run(id, JSON.stringify({ device: id, name }));
          return { id, name, over: wish.over, pairedAt: wish.at, lastSeen: null, revokedAt: null };
        })
        .immediate();
      if (device !== null) return ok({ device, token });
      return failed(storeProblem('PAIRING_CODE_UNKNOWN', 'no code like this is waiting', undefined, 'code'));
    } catch (thrown) {
      return failed(diskProblem(thrown, 'pairing the device'));
    }
  }

  /** The device of a token given at this door, shut out or not; the caller looks at `revokedAt`. */
  find(token: string, over: Over, at: string): PairedDevice | null {
    const row = this.db
      .prepare(`SELECT ${COLUMNS} FROM paired_device WHERE token_hash = ? AND over = ?`)
      .get(sha256(token), over) as DeviceRow | undefined;
    if (row === undefined) return null;
    if (row.revoked_at === null && isLongAgo(row.last_seen, at)) this.noteSeen(row.id, at);
    return deviceOf(row);
  }

  isAdmitted(id: string): boolean {
    return this.db.prepare('SELECT 1 FROM paired_device WHERE id = ? AND revoked_at IS NULL').get(id) !== undefined;
  }

  list(): readonly PairedDevice[] {
    const rows = this.db.prepare(`SELECT ${COLUMNS} FROM paired_device ORDER BY paired_at, id`).all() as DeviceRow[];
    return rows.map(deviceOf);
  }

  /** Shuts a device out. Doing it again leaves the first time standing. */
  revoke(id: string, at: string): Result<PairedDevice> {
    try {
      this.db.prepare('UPDATE paired_device SET revoked_at = coalesce(revoked_at, ?) WHERE id = ?').run(at, id);
    } catch (thrown) {
      return failed(diskProblem(thrown, 'shutting the device out'));
    }
    const found = this.list().find((d) => d.id === id);
    return found
      ? ok(found)
      : failed(storeProblem('DEVICE_NOT_FOUND', `no device "${id.slice(0, 40)}" is paired`, undefined, 'id'));
  }

  /** Origins of pages that were paired and not shut out. */
  origins(): readonly string[] {
    const rows = this.db
      .prepare('SELECT DISTINCT origin FROM paired_device WHERE origin IS NOT NULL AND revoked_at IS NULL')
      .all() as { origin: string }[];
    return rows.map((r) => r.origin);
  }

  /** Every waiting code is compared, each in constant time, so the time taken says nothing about how near a guess was. */
  private useUp(code: string, at: string): boolean {
    this.dropEnded(at);
    const given = Buffer.from(sha256(plainCode(code)), 'hex');
    const waiting = this.db.prepare('SELECT code_hash FROM pairing_code').all() as { code_hash: string }[];
    let found: string | null = null;
    for (const { code_hash } of waiting) if (timingSafeEqual(given, Buffer.from(code_hash, 'hex'))) found = code_hash;
    if (found === null) return false;
    this.db.prepare('DELETE FROM pairing_code WHERE code_hash = ?').run(found);
    return true;
  }

  private dropEnded(at: string): void {
    const rows = this.db.prepare('SELECT code_hash, ends_at FROM pairing_code').all() as {
      code_hash: string;
      ends_at: string;
    }[];
    const drop = this.db.prepare('DELETE FROM pairing_code WHERE code_hash = ?');
    for (const r of rows) if (Date.parse(r.ends_at) <= Date.parse(at)) drop.run(r.code_hash);
  }

  private freshId(): string {
    const taken = this.db.prepare('SELECT 1 FROM paired_device WHERE id = ? UNION SELECT 1 FROM device WHERE id = ?');
    for (;;) {
      const tail = Array.from({ length: 6 }, () => CODE_LETTERS[randomInt(CODE_LETTERS.length)]).join('');
      const id = `device-${tail.toLowerCase()}`;
      if (taken.get(id, id) === undefined) return id;
    }
  }

  /** Once a minute at most: it is for people to see which phone is in use, and a synced write per request is too dear. */
  private noteSeen(id: string, at: string): void {
    try {
      this.db.prepare('UPDATE paired_device SET last_seen = ? WHERE id = ?').run(at, id);
    } catch {
      // A full or busy disk must not shut a device out; the next request tries again.
    }
  }
}

/** As typed: small letters, spaces and hyphens are all the same code. */
export function plainCode(text: string): string {
  return text.toUpperCase().replace(/[\s-]/g, '');
}

function isLongAgo(seen: string | null, at: string): boolean {
  return seen === null || Date.parse(at) - Date.parse(seen) >= SEEN_EVERY_MS;
}

function sha256(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex');
}

function deviceOf(r: DeviceRow): PairedDevice {
  return {
    id: r.id,
    name: r.name,
    over: r.over,
    pairedAt: r.paired_at,
    lastSeen: r.last_seen,
    revokedAt: r.revoked_at,
  };
}
