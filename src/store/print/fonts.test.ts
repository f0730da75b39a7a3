/** The shipped fonts unpacked: whole by their own checksums, and the same list as the build's. */
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { LETTERING } from './fonts.ts';
import { sfntOfWoff } from './woff.ts';

const top = join(dirname(fileURLToPath(import.meta.url)), '../../..');
const woffOf = (source: string) => readFileSync(join(top, 'node_modules', source));

/** Sum of the words of a table, big-endian, modulo 2^32. Source: OpenType 1.9, "Calculating checksums". */
function sum(table: Buffer): number {
  let total = 0;
  for (let at = 0; at < table.length; at += 4) {
    const word = Buffer.alloc(4);
    table.copy(word, 0, at, Math.min(at + 4, table.length));
    total = (total + word.readUInt32BE(0)) >>> 0;
  }
  return total;
}

it.each(LETTERING)('%s unpacks to tables that are whole', (_file, source) => {
  const font = sfntOfWoff(woffOf(source));
  const count = font.readUInt16BE(4);
  expect(count).toBeGreaterThan(8);
  for (let i = 0; i < count; i += 1) {
    const row = 12 + i * 16;
    const tag = font.toString('latin1', row, row + 4);
    const [from, length] = [font.readUInt32BE(row + 8), font.readUInt32BE(row + 12)];
    const table = Buffer.from(font.subarray(from, from + length));
    // The head table is summed with its own adjustment taken as nothing.
    if (tag === 'head') table.writeUInt32BE(0, 8);
    expect([tag, sum(table)]).toEqual([tag, font.readUInt32BE(row + 4)]);
  }
});

it('what is no WOFF 1 file is our own mistake', () => {
  const woff2 = readFileSync(join(top, 'node_modules/@fontsource/b612/files/b612-latin-400-normal.woff2'));
  expect(() => sfntOfWoff(woff2)).toThrow('internal');
  expect(() => sfntOfWoff(Buffer.alloc(3))).toThrow('internal');
});

it('the build puts the same files into dist/fonts', () => {
  const build = readFileSync(join(top, 'tools/build.mjs'), 'utf8');
  for (const [file, source] of LETTERING) expect(build).toContain(`'${file}': '${source}'`);
});
