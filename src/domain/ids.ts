/**
 * Ids. Entries carry a ULID (48 bits of time, 80 bits of chance, Crockford base 32, 26 characters): it sorts roughly by
 * time, is made without a network, and is short enough to read aloud. Not chosen: UUID v4 (no order, longer) and
 * counters (two phones would give the same number).
 *
 * Order is never taken from an id: only `seq` orders entries. Time and chance are given in, so this file stays pure.
 */
import { problem } from './problem.ts';
import { failed, ok, type Result } from './result.ts';

declare const brand: unique symbol;
type Branded<Name extends string> = string & { readonly [brand]: Name };

export type EntryId = Branded<'EntryId'>;
export type PersonId = Branded<'PersonId'>;
export type DeviceId = Branded<'DeviceId'>;
export type LineId = Branded<'LineId'>;
export type PositionId = Branded<'PositionId'>;
export type PieceId = Branded<'PieceId'>;
export type LotId = Branded<'LotId'>;

/** Crockford base 32: no I, L, O, U. */
const ALPHABET = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
const ULID_SHAPE = /^[0-7][0-9A-HJKMNP-TV-Z]{25}$/;
const LATEST_MS = 2 ** 48 - 1;

export function isUlid(text: string): boolean {
  return ULID_SHAPE.test(text);
}

export function readEntryId(text: string): Result<EntryId> {
  if (isUlid(text)) return ok(text as EntryId);
  return failed(
    problem(
      'ENTRY_ID_SHAPE',
      `"${text}" is not an entry id (26 characters, Crockford base 32)`,
      'Copy the id as it is shown beside the entry.',
    ),
  );
}

/** Made of the time in ms and ten bytes of chance. */
export function makeUlid(ms: number, chance: Uint8Array): EntryId {
  if (!Number.isInteger(ms) || ms < 0 || ms > LATEST_MS)
    throw new Error(`internal: time ${ms} does not fit an id; report it`);
  if (chance.length !== 10) throw new Error('internal: an id takes ten bytes of chance; report it');
  return (encodeTime(ms) + encodeChance(chance)) as EntryId;
}

/** The next id after this one: same time, chance plus one. Several entries of one act are told apart by it. */
export function ulidAfter(id: EntryId): EntryId {
  const letters = [...id];
  for (let at = letters.length - 1; at >= 10; at -= 1) {
    const value = ALPHABET.indexOf(letters[at] ?? '0');
    if (value < 31) {
      letters[at] = ALPHABET[value + 1] ?? '0';
      return letters.join('') as EntryId;
    }
    letters[at] = '0';
  }
  return (encodeTime(ulidTime(id) + 1) + letters.slice(10).join('')) as EntryId;
}

/** The time inside an id, in ms. A hint for people, never an order. */
export function ulidTime(id: EntryId): number {
  let ms = 0;
  for (const letter of id.slice(0, 10)) ms = ms * 32 + ALPHABET.indexOf(letter);
  return ms;
}

function encodeTime(ms: number): string {
  let rest = ms;
  let text = '';
  for (let place = 0; place < 10; place += 1) {
    text = (ALPHABET[rest % 32] ?? '0') + text;
    rest = Math.floor(rest / 32);
  }
  return text;
}

function encodeChance(chance: Uint8Array): string {
  let bits = 0;
  let held = 0;
  let text = '';
  for (const byte of chance) {
    bits = (bits << 8) | byte;
    held += 8;
    while (held >= 5) {
      held -= 5;
      text += ALPHABET[(bits >> held) & 31] ?? '0';
    }
    bits &= (1 << held) - 1;
  }
  return text;
}
