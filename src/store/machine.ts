/** Clock, ids and hashing of this machine, for the ports of the journal. The only place that asks for time or chance. */
import * as crypto from 'node:crypto';
import { type EntryId, makeUlid, ulidAfter } from '../domain/ids.ts';
import type { Hasher } from '../journal/digest.ts';
import type { Clock, Ids } from '../journal/ports.ts';

/** Same answers as `sha256Hex`, several times faster; checks 100,000 entries at opening. */
export const nodeSha256Hex: Hasher = (text) => crypto.hash('sha256', text, 'hex');

export function hashBytes(bytes: Uint8Array): string {
  return crypto.createHash('sha256').update(bytes).digest('hex');
}

/** ISO 8601 with the machine's offset, milliseconds. */
export function isoWithOffset(date: Date): string {
  const offset = -date.getTimezoneOffset();
  const two = (n: number): string => String(Math.abs(n)).padStart(2, '0');
  const local = new Date(date.getTime() + offset * 60_000).toISOString().slice(0, 23);
  return `${local}${offset < 0 ? '-' : '+'}${two(Math.trunc(offset / 60))}:${two(offset % 60)}`;
}

export const SYSTEM_CLOCK: Clock = { now: () => isoWithOffset(new Date()) };

/** Ids of this process: each later than the one before, also within one millisecond. */
export function systemIds(): Ids {
  let last: EntryId | null = null;
  return {
    next: () => {
      const fresh = makeUlid(Date.now(), crypto.randomBytes(10));
      last = last !== null && fresh <= last ? ulidAfter(last) : fresh;
      return last;
    },
  };
}
