/**
 * A WOFF 1 file (the form in which the page's lettering is shipped) as the TrueType file that a typesetter reads: the same
 * tables, each inflated. WOFF 2 is not read, since its tables are rewritten and not only packed.
 *
 * Source: W3C, WOFF File Format 1.0 (Recommendation, 13 December 2012), sections 3 to 5. Tables begin on four bytes and
 * stand in the order of the directory, which WOFF keeps sorted by tag.
 */
import { inflateSync } from 'node:zlib';

const WOFF_HEAD = 44;
const WOFF_ROW = 20;
const SFNT_HEAD = 12;
const SFNT_ROW = 16;
const LARGEST_FONT = 8 * 1024 * 1024;

interface Table {
  readonly tag: number;
  readonly checksum: number;
  readonly bytes: Buffer;
}

/** Throws for what is no WOFF 1 file: our own fonts are read, nobody's upload. */
export function sfntOfWoff(woff: Buffer): Buffer {
  if (woff.length < WOFF_HEAD || woff.toString('latin1', 0, 4) !== 'wOFF')
    throw new Error('internal: a shipped font is no WOFF 1 file; report it');
  const count = woff.readUInt16BE(12);
  const tables = Array.from({ length: count }, (_, i) => tableAt(woff, WOFF_HEAD + i * WOFF_ROW));
  const room = tables.reduce((sum, t) => sum + fourfold(t.bytes.length), SFNT_HEAD + count * SFNT_ROW);
  const sfnt = Buffer.alloc(room);
  writeHead(sfnt, woff.readUInt32BE(4), count);
  let at = SFNT_HEAD + count * SFNT_ROW;
  tables.forEach((t, i) => {
    const row = SFNT_HEAD + i * SFNT_ROW;
    sfnt.writeUInt32BE(t.tag, row);
    sfnt.writeUInt32BE(t.checksum, row + 4);
    sfnt.writeUInt32BE(at, row + 8);
    sfnt.writeUInt32BE(t.bytes.length, row + 12);
    t.bytes.copy(sfnt, at);
    at += fourfold(t.bytes.length);
  });
  return sfnt;
}

function tableAt(woff: Buffer, row: number): Table {
  const from = woff.readUInt32BE(row + 4);
  const packed = woff.readUInt32BE(row + 8);
  const length = woff.readUInt32BE(row + 12);
  if (length > LARGEST_FONT) throw new Error('internal: a table of a shipped font is too large; report it');
  const body = woff.subarray(from, from + packed);
  const bytes = packed < length ? inflateSync(body, { maxOutputLength: length }) : Buffer.from(body);
  if (bytes.length !== length) throw new Error('internal: a table of a shipped font is cut; report it');
  return { tag: woff.readUInt32BE(row), checksum: woff.readUInt32BE(row + 16), bytes };
}

/** Version, number of tables, and the three figures by which old readers searched the directory. */
function writeHead(sfnt: Buffer, flavour: number, count: number): void {
  const power = 2 ** Math.floor(Math.log2(count));
  sfnt.writeUInt32BE(flavour, 0);
  sfnt.writeUInt16BE(count, 4);
  sfnt.writeUInt16BE(power * SFNT_ROW, 6);
  sfnt.writeUInt16BE(Math.log2(power), 8);
  sfnt.writeUInt16BE((count - power) * SFNT_ROW, 10);
}

function fourfold(n: number): number {
  return (n + 3) & ~3;
}
