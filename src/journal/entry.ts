/**
 * The entry envelope (docs/adr/0001).
 *
 *   device half    body = RFC 8785 text of {at, by, corrects?, data, device, id, kind}      digest = SHA-256(body)
 *   accepted half  seq, recordedAt, prev, signature       hash = SHA-256(RFC 8785 of {digest, prev, recordedAt, seq, signature})
 *
 * Three forms of one entry: `EntryDraft` (made on a device, no place in the chain yet), `StoredEntry` (the exact bytes with
 * the accepted half) and `Entry` (parsed for the fold). The body is hashed before it is parsed and is never written again.
 * Not chosen: hashing parsed fields, which ties every digest to one serialiser.
 */
import type { EntryId } from '../domain/ids.ts';
import { isUlid } from '../domain/ids.ts';
import { failed, ok, type Result } from '../domain/result.ts';
import { canonicalText, type Hasher, sha256Hex } from './digest.ts';
import { journalProblem } from './journal-problems.ts';

/** What every entry says of itself. `kind` is `name.v1`; `at` is ISO 8601 with offset. */
export interface EntryHead {
  readonly id: EntryId;
  readonly at: string;
  readonly by: string;
  readonly device: string;
  readonly kind: string;
  readonly corrects?: EntryId;
}

/** Device half: ready to be sent or appended. `body` holds head and data as exact text. */
export interface EntryDraft extends EntryHead {
  readonly data: unknown;
  readonly body: string;
  readonly digest: string;
}

/** What is on disk and on the wire: exact bytes and the place in the chain. */
export interface StoredEntry {
  readonly seq: number;
  readonly recordedAt: string;
  readonly body: string;
  readonly digest: string;
  /** Null: unsigned. Nobody proves their name yet. */
  readonly signature: string | null;
  readonly prev: string;
  readonly hash: string;
}

/** A parsed accepted entry. `seq` 0 and `pending` mark one that no journal has accepted yet. */
export interface Entry extends EntryHead {
  readonly seq: number;
  readonly recordedAt: string;
  readonly digest: string;
  readonly hash: string;
  readonly data: unknown;
  readonly pending?: true;
}

export interface Head {
  readonly seq: number;
  readonly hash: string;
}

export const NO_HASH = '0'.repeat(64);
export const EMPTY_HEAD: Head = { seq: 0, hash: NO_HASH };

export interface Stamp {
  /** Id of the first entry of the act; further ones count up from it. */
  readonly id: EntryId;
  readonly at: string;
  readonly by: string;
  readonly device: string;
}

const AT_SHAPE = /^\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d(\.\d{1,9})?)?(Z|[+-]\d\d:\d\d)$/;
const KIND_SHAPE = /^[a-z][a-z0-9]*(-[a-z0-9]+)*\.v[1-9]\d*$/;
const HEX_SHAPE = /^[0-9a-f]{64}$/;

export function isTimeWithOffset(text: string): boolean {
  return AT_SHAPE.test(text) && !Number.isNaN(Date.parse(text));
}

/** Makes the device half. `kind` is the full kind with its version. */
export function draftEntry(stamp: Stamp, kind: string, data: unknown, corrects?: EntryId): EntryDraft {
  const head: EntryHead = {
    id: stamp.id,
    at: stamp.at,
    by: stamp.by,
    device: stamp.device,
    kind,
    ...(corrects === undefined ? {} : { corrects }),
  };
  const body = canonicalText({ ...head, data });
  const draft: EntryDraft = { ...head, data, body, digest: sha256Hex(body) };
  return parseBody(body).ok ? vouched(draft) : draft;
}

/**
 * Drafts whose digest is that of their body and whose head is that of their body, looked at when they were made. They are
 * frozen, so it stays true, and a copy with something changed is another object. Spares the journal the second look, which
 * costs between two syncs several times what it costs in a loop.
 */
const checked = new WeakSet<EntryDraft>();

function vouched(draft: EntryDraft): EntryDraft {
  checked.add(Object.freeze(draft));
  return draft;
}

/** Whether this very object was checked when it was made. False says nothing against it: then it is to be looked at. */
export function isVouched(draft: EntryDraft): boolean {
  return checked.has(draft);
}

/** A draft from its exact text, as a phone sends it. Refused when the digest is not that of the bytes. */
export function readDraft(body: string, digest: string, hasher: Hasher = sha256Hex): Result<EntryDraft> {
  if (hasher(body) !== digest) {
    return failed(
      journalProblem(
        'DIGEST_DIFFERS',
        'the entry text and its digest do not belong together',
        'Send the entry again from the device that made it.',
      ),
    );
  }
  const parsed = parseBody(body);
  if (!parsed.ok) return parsed;
  return ok(vouched({ ...parsed.value, body, digest }));
}

/** Parses a body: well formed head, any kind, any data. */
export function parseBody(body: string): Result<EntryHead & { readonly data: unknown }> {
  let raw: unknown;
  try {
    raw = JSON.parse(body);
  } catch {
    return failed(
      journalProblem(
        'ENTRY_UNREADABLE',
        `the entry text is not JSON: ${body.slice(0, 60)}`,
        'Run verify; restore the job from its last backup if the file was changed.',
      ),
    );
  }
  const fault = headFault(raw);
  if (fault !== null) {
    return failed(
      journalProblem(
        'ENTRY_UNREADABLE',
        `the entry has no proper ${fault}: ${body.slice(0, 60)}`,
        'Make the entry with this program, or give id, at (with offset), by, device, kind and data.',
        fault,
      ),
    );
  }
  return ok(raw as EntryHead & { data: unknown });
}

function headFault(raw: unknown): string | null {
  if (typeof raw !== 'object' || raw === null) return 'head';
  const r = raw as Record<string, unknown>;
  if (typeof r.id !== 'string' || !isUlid(r.id)) return 'id';
  if (typeof r.at !== 'string' || !AT_SHAPE.test(r.at)) return 'at';
  if (typeof r.by !== 'string' || r.by === '') return 'by';
  if (typeof r.device !== 'string' || r.device === '') return 'device';
  if (typeof r.kind !== 'string' || !KIND_SHAPE.test(r.kind)) return 'kind';
  if (!('data' in r)) return 'data';
  if (r.corrects !== undefined && (typeof r.corrects !== 'string' || !isUlid(r.corrects))) return 'corrects';
  return null;
}

/**
 * RFC 8785 text of the accepted half, written out by hand: its members are hex, digits and a time, so nothing needs
 * escaping, and the test holds it equal to `canonicalText`.
 */
export function chainText(
  digest: string,
  prev: string,
  recordedAt: string,
  seq: number,
  signature: string | null,
): string {
  const signed = signature === null ? 'null' : JSON.stringify(signature);
  return `{"digest":"${digest}","prev":"${prev}","recordedAt":"${recordedAt}","seq":${seq},"signature":${signed}}`;
}

/** Gives a draft its place after `head`. */
export function accept(draft: EntryDraft, head: Head, recordedAt: string, hasher: Hasher = sha256Hex): StoredEntry {
  const seq = head.seq + 1;
  const hash = hasher(chainText(draft.digest, head.hash, recordedAt, seq, null));
  return { seq, recordedAt, body: draft.body, digest: draft.digest, signature: null, prev: head.hash, hash };
}

/**
 * One link checked: the body's digest, the place, the hash before, the hash itself. Gives null when all hold.
 * `seq` is compared with the one expected, so an entry left out is seen.
 */
export function linkFault(stored: StoredEntry, before: Head, hasher: Hasher = sha256Hex): string | null {
  if (stored.seq !== before.seq + 1) return `entry ${before.seq + 1} is missing (the next one found is ${stored.seq})`;
  if (hasher(stored.body) !== stored.digest) return `entry ${stored.seq}: its text is not the text that was recorded`;
  if (stored.prev !== before.hash) return `entry ${stored.seq}: it does not follow entry ${before.seq}`;
  if (hasher(chainText(stored.digest, stored.prev, stored.recordedAt, stored.seq, stored.signature)) !== stored.hash) {
    return `entry ${stored.seq}: its place, time or hash was changed`;
  }
  return null;
}

/** Parses a stored entry for the fold. Field by field: a spread here is half a second of 100,000 entries. */
export function readStored(stored: StoredEntry): Result<Entry> {
  const parsed = parseBody(stored.body);
  if (!parsed.ok) return parsed;
  const { id, at, by, device, kind, data, corrects } = parsed.value;
  const { seq, recordedAt, digest, hash } = stored;
  if (corrects === undefined) return ok({ id, at, by, device, kind, data, seq, recordedAt, digest, hash });
  return ok({ id, at, by, device, kind, corrects, data, seq, recordedAt, digest, hash });
}

/** A draft as the fold sees it before any journal has accepted it. */
export function asPending(draft: EntryDraft): Entry {
  const { body: _body, ...rest } = draft;
  return { ...rest, seq: 0, recordedAt: draft.at, hash: '', pending: true };
}

export interface KindSplit {
  readonly name: string;
  readonly version: number;
}

/** Kinds are few and asked for with every entry. */
const splits = new Map<string, KindSplit>();

export function splitKind(kind: string): KindSplit {
  let split = splits.get(kind);
  if (split === undefined) {
    const at = kind.lastIndexOf('.v');
    split = { name: kind.slice(0, at), version: Number(kind.slice(at + 2)) };
    if (splits.size < 1_000) splits.set(kind, split);
  }
  return split;
}

export function isHash(text: string): boolean {
  return HEX_SHAPE.test(text);
}
