/**
 * A ZIP of somebody else's making, read without trust (PKWARE APPNOTE 6.3: end record, central directory, local headers).
 *
 * The list at the end of the file is read once and checked as a whole: number of entries, sum of sizes, no two entries
 * over the same bytes. An entry is then unpacked by itself, in small pieces, and stopped as soon as it gives more than it
 * said or than is taken; its checksum and its own heading must agree with the list. What is wrong with one entry does not
 * stop the others. Names are shown, never used.
 *
 * Not chosen: reading from the front as the bytes come, since a front and an end that disagree are exactly how one file
 * shows different contents to two programs.
 */
import * as fs from 'node:fs';
import { crc32 } from 'node:zlib';
import { Inflate } from 'fflate';
import type { Problem } from '../domain/problem.ts';
import { failed, ok, type Result } from '../domain/result.ts';
import { intakeProblem } from './intake-problems.ts';
import { readName, showName } from './zip-names.ts';

export interface ZipLimits {
  readonly entries: number;
  readonly total: number;
  readonly each: number;
  /** Unpacked to packed; counted only above a megabyte, since small texts shrink a lot. */
  readonly ratio: number;
}

/** Random access to the bytes, in memory or in a file. */
export interface ZipBytes {
  readonly size: number;
  read(from: number, length: number): Uint8Array;
}

export interface ZipEntry {
  readonly shown: string;
  readonly isFolder: boolean;
  readonly bytes: number;
  readonly notices: readonly Problem[];
  /** Why it is not unpacked, or null. */
  readonly refused: Problem | null;
}

export interface ZipArchive {
  readonly entries: readonly ZipEntry[];
  unpack(entry: ZipEntry): Result<Uint8Array>;
}

interface Listed extends ZipEntry {
  readonly flags: number;
  readonly method: number;
  readonly crc: number;
  readonly packed: number;
  readonly at: number;
  readonly name: Uint8Array;
}

const END = 0x06054b50;
const CENTRAL = 0x02014b50;
const LOCAL = 0x04034b50;
const MEGABYTE = 1 << 20;
/** A piece of 16 KB gives at most 16 MB (deflate's best is about 1032 to 1), so a bomb is noticed before it grows. */
const PIECE = 16 * 1024;

export function bytesInMemory(bytes: Uint8Array): ZipBytes {
  return { size: bytes.length, read: (from, length) => bytes.subarray(from, from + length) };
}

/** An open file; the caller closes it. */
export function bytesInFile(path: string): ZipBytes & { close(): void } {
  const file = fs.openSync(path, 'r');
  return {
    size: fs.fstatSync(file).size,
    read(from, length) {
      const into = Buffer.alloc(length);
      const got = fs.readSync(file, into, 0, length, from);
      return into.subarray(0, got);
    },
    close: () => fs.closeSync(file),
  };
}

/** `ZIP_SHAPE`, `ZIP_LIMIT`, `ZIP_64` for the whole; everything else is said at its entry. */
export function openZip(bytes: ZipBytes, limits: ZipLimits): Result<ZipArchive> {
  const end = findEnd(bytes);
  if (!end.ok) return end;
  const listed = readList(bytes, end.value, limits);
  if (!listed.ok) return listed;
  const entries = listed.value;
  const total = entries.reduce((sum, e) => sum + (e.refused === null ? e.bytes : 0), 0);
  if (total > limits.total)
    return failed(
      intakeProblem(
        'ZIP_LIMIT',
        `unpacked it would have ${mega(total)} MB; at most ${mega(limits.total)} are taken in`,
      ),
    );
  const overlap = overlapping(entries, end.value.listAt);
  if (overlap !== null) return failed(intakeProblem('ZIP_LIMIT', `"${overlap}" lies over another entry`, overlap));
  return ok({ entries, unpack: (entry) => unpack(bytes, entry as Listed, limits) });
}

const mega = (n: number): string => (n / MEGABYTE).toFixed(0);

function view(b: Uint8Array): DataView {
  return new DataView(b.buffer, b.byteOffset, b.byteLength);
}

interface End {
  readonly count: number;
  readonly listBytes: number;
  readonly listAt: number;
}

function findEnd(bytes: ZipBytes): Result<End> {
  const from = Math.max(0, bytes.size - 65_557);
  const tail = bytes.read(from, bytes.size - from);
  const v = view(tail);
  for (let at = tail.length - 22; at >= 0; at -= 1) {
    if (v.getUint32(at, true) !== END || at + 22 + v.getUint16(at + 20, true) !== tail.length) continue;
    const count = v.getUint16(at + 10, true);
    const listBytes = v.getUint32(at + 12, true);
    const listAt = v.getUint32(at + 16, true);
    const locator = at >= 20 && v.getUint32(at - 20, true) === 0x07064b50;
    if (locator || count === 0xffff || listAt === 0xffffffff || listBytes === 0xffffffff)
      return failed(intakeProblem('ZIP_64', 'the ZIP is of the form for more than 4 GB'));
    if (v.getUint16(at + 4, true) !== 0 || v.getUint16(at + 8, true) !== count)
      return failed(intakeProblem('ZIP_SHAPE', 'the ZIP goes on in another file'));
    if (listAt + listBytes !== from + at)
      return failed(intakeProblem('ZIP_SHAPE', 'the list of contents does not lie where the ZIP says'));
    return ok({ count, listBytes, listAt });
  }
  return failed(intakeProblem('ZIP_SHAPE', 'the file is no ZIP, or its end is missing'));
}

function readList(bytes: ZipBytes, end: End, limits: ZipLimits): Result<readonly Listed[]> {
  if (end.count > limits.entries)
    return failed(intakeProblem('ZIP_LIMIT', `it holds ${end.count} entries; at most ${limits.entries} are taken in`));
  // Names and extras are at most 64 KB each in the format; a list much longer than its entries need is a trap too.
  if (end.listBytes > end.count * 2_048 + 65_536)
    return failed(intakeProblem('ZIP_LIMIT', 'its list of contents is far longer than its entries need'));
  const list = bytes.read(end.listAt, end.listBytes);
  const v = view(list);
  const entries: Listed[] = [];
  let at = 0;
  for (let n = 0; n < end.count; n += 1) {
    if (at + 46 > list.length || v.getUint32(at, true) !== CENTRAL)
      return failed(intakeProblem('ZIP_SHAPE', `the list of contents breaks off at entry ${n + 1} of ${end.count}`));
    const nameBytes = v.getUint16(at + 28, true);
    const next = at + 46 + nameBytes + v.getUint16(at + 30, true) + v.getUint16(at + 32, true);
    if (next > list.length)
      return failed(intakeProblem('ZIP_SHAPE', `the list of contents breaks off at entry ${n + 1} of ${end.count}`));
    entries.push(readListed(v, at, list.subarray(at + 46, at + 46 + nameBytes), limits));
    at = next;
  }
  return at === list.length
    ? ok(entries)
    : failed(intakeProblem('ZIP_SHAPE', 'something stands behind the list of contents'));
}

function readListed(v: DataView, at: number, name: Uint8Array, limits: ZipLimits): Listed {
  const { text, readable } = readName(name);
  const { shown, notice } = showName(text, readable);
  const facts = {
    flags: v.getUint16(at + 8, true),
    method: v.getUint16(at + 10, true),
    crc: v.getUint32(at + 16, true),
    packed: v.getUint32(at + 20, true),
    bytes: v.getUint32(at + 24, true),
    at: v.getUint32(at + 42, true),
  };
  // The upper half of the outer attributes is the Unix mode, where the maker was a Unix (APPNOTE 4.4.2, 4.4.15).
  const mode = v.getUint16(at + 4, true) >> 8 === 3 ? v.getUint16(at + 40, true) & 0o170000 : 0;
  const refused = refusal(facts, mode, shown, limits);
  return {
    ...facts,
    shown,
    name: name.slice(),
    isFolder: /[/\\]$/.test(text) && facts.bytes === 0,
    notices: notice === null ? [] : [notice],
    refused,
  };
}

type Facts = Pick<Listed, 'flags' | 'method' | 'packed' | 'bytes' | 'at'>;

function refusal(e: Facts, mode: number, shown: string, limits: ZipLimits): Problem | null {
  if (mode !== 0 && mode !== 0o100000 && mode !== 0o040000)
    return intakeProblem(
      'ZIP_ENTRY_LINK',
      `"${shown}" is ${mode === 0o120000 ? 'a link' : 'a device'}, not a file`,
      shown,
    );
  if ((e.flags & 0x2041) !== 0) return intakeProblem('ZIP_ENTRY_SEALED', `"${shown}" is encrypted`, shown);
  if (e.bytes === 0xffffffff || e.packed === 0xffffffff || e.at === 0xffffffff)
    return intakeProblem('ZIP_64', `"${shown}" is of the form for more than 4 GB`, shown);
  if (e.method !== 0 && e.method !== 8)
    return intakeProblem('ZIP_ENTRY_METHOD', `"${shown}" is packed by method ${e.method}`, shown);
  if (e.bytes > limits.each)
    return intakeProblem(
      'ZIP_ENTRY_LARGE',
      `"${shown}" has ${mega(e.bytes)} MB; at most ${mega(limits.each)} MB are taken in`,
      shown,
    );
  if (e.bytes > MEGABYTE && e.bytes > e.packed * limits.ratio)
    return intakeProblem(
      'ZIP_ENTRY_LARGE',
      `"${shown}" would grow ${Math.floor(e.bytes / Math.max(1, e.packed))} times when unpacked; at most ${limits.ratio} times is taken`,
      shown,
    );
  return null;
}

/** Two entries over the same bytes let a small file unpack to terabytes. */
function overlapping(entries: readonly Listed[], listAt: number): string | null {
  let free = 0;
  for (const e of entries.filter((x) => x.refused?.code !== 'ZIP_64').sort((a, b) => a.at - b.at)) {
    if (e.at < free) return e.shown;
    free = e.at + 30 + e.name.length + e.packed;
    if (free > listAt) return e.shown;
  }
  return null;
}

function unpack(bytes: ZipBytes, e: Listed, limits: ZipLimits): Result<Uint8Array> {
  if (e.refused !== null) return failed(e.refused);
  const cut = (why: string) => failed(intakeProblem('ZIP_ENTRY_CUT', `"${e.shown}" ${why}`, e.shown));
  const head = bytes.read(e.at, 30);
  if (head.length < 30 || view(head).getUint32(0, true) !== LOCAL) return cut('does not lie where the list says');
  const v = view(head);
  const name = bytes.read(e.at + 30, v.getUint16(26, true));
  if (v.getUint16(8, true) !== e.method || Buffer.compare(name, e.name) !== 0)
    return cut('has another name or method in its own heading than in the list');
  const from = e.at + 30 + name.length + v.getUint16(28, true);
  const whole = e.method === 0 ? stored(bytes, e, from) : inflated(bytes, e, from, limits.each);
  if (whole === null || whole.length !== e.bytes) return cut(`is not the ${e.bytes} bytes that the list says`);
  if (crc32(whole) >>> 0 !== e.crc) return cut('does not have the checksum that the list says');
  return ok(whole);
}

function stored(bytes: ZipBytes, e: Listed, from: number): Uint8Array | null {
  return e.packed === e.bytes ? bytes.read(from, e.bytes) : null;
}

/** Null when it gives more than it said, or cannot be unpacked. */
function inflated(bytes: ZipBytes, e: Listed, from: number, most: number): Uint8Array | null {
  const into = new Uint8Array(Math.min(e.bytes, most));
  let filled = 0;
  let over = false;
  const inflate = new Inflate((piece) => {
    if (over || filled + piece.length > into.length) over = true;
    else {
      into.set(piece, filled);
      filled += piece.length;
    }
  });
  try {
    for (let at = 0; at < e.packed && !over; at += PIECE) {
      const piece = bytes.read(from + at, Math.min(PIECE, e.packed - at));
      inflate.push(piece.slice(), at + PIECE >= e.packed);
    }
  } catch {
    return null;
  }
  return over ? null : into.subarray(0, filled);
}
