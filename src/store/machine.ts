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

/**
 * `isoWithOffset` of each moment, with the minute and the offset kept for as long as the minute lasts: only seconds are
 * written anew. Asking a Date each time costs an append, between two syncs, about 10 µs. Where somebody moves the machine to
 * another time zone, up to a minute is still told with the offset before: the same moment, told as it was there.
 */
export function clockOf(millis: () => number): Clock {
  let minute = Number.NaN;
  let before = '';
  let after = '';
  return {
    now: () => {
      const now = millis();
      const at = Math.floor(now / 60_000);
      if (at !== minute) {
        const text = isoWithOffset(new Date(at * 60_000));
        before = text.slice(0, 17);
        after = text.slice(23);
        minute = at;
      }
      const rest = now - at * 60_000;
      const seconds = Math.floor(rest / 1_000);
      return `${before}${String(seconds).padStart(2, '0')}.${String(rest - seconds * 1_000).padStart(3, '0')}${after}`;
    },
  };
}

export const SYSTEM_CLOCK: Clock = clockOf(Date.now);

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
