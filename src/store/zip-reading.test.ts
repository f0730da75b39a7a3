/**
 * ZIPs that were made to do harm. Offsets of fields: PKWARE APPNOTE 6.3.10, sections 4.3.7 (local heading), 4.3.12 (list)
 * and 4.3.16 (end), from memory, and held against files that fflate writes. Overlapping entries: the method of D. Fifield,
 * "A better zip bomb", WOOT 2019, in small.
 */
import * as fs from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { strToU8, type Zippable, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { must } from '../domain/result.ts';
import { openPile, pileOfBytes } from './photo-pile.ts';
import { picture, tempFolder } from './testing/temp.ts';
import { showName } from './zip-names.ts';
import { bytesInMemory, openZip, type ZipArchive, type ZipLimits } from './zip-reading.ts';

const LIMITS: ZipLimits = { entries: 100, total: 32 << 20, each: 16 << 20, ratio: 200 };

const open = (bytes: Uint8Array, limits = LIMITS) => openZip(bytesInMemory(bytes), limits);
const zip = (files: Zippable) => zipSync(files);

/** Offsets of the records in the list of contents. */
function listed(bytes: Uint8Array): number[] {
  const b = Buffer.from(bytes);
  const found: number[] = [];
  for (let at = b.indexOf('PK\x01\x02', 0, 'latin1'); at >= 0; at = b.indexOf('PK\x01\x02', at + 4, 'latin1'))
    found.push(at);
  return found;
}
function patched(bytes: Uint8Array, change: (b: Buffer, list: number[]) => void): Buffer {
  const b = Buffer.from(bytes);
  change(b, listed(bytes));
  return b;
}
const codeOf = (z: ZipArchive, n: number): string | null => {
  const e = z.entries[n];
  if (e === undefined) throw new Error('no such entry');
  const got = z.unpack(e);
  return got.ok ? null : got.problem.code;
};

const two = () => zip({ 'a.txt': strToU8('first '.repeat(50)), 'b.txt': [strToU8('second'), { level: 0 }] });

describe('a ZIP', () => {
  it('gives back what was put in, packed or stored', () => {
    const z = must(open(two()));
    expect(z.entries.map((e) => e.shown)).toEqual(['a.txt', 'b.txt']);
    expect(z.entries.map((e) => Buffer.from(must(z.unpack(e))).toString())).toEqual(['first '.repeat(50), 'second']);
  });

  it('any files come back as they were', () => {
    const names = fc.stringMatching(/^[a-z]{1,8}\/[a-z0-9]{1,8}$/);
    fc.assert(
      fc.property(fc.dictionary(names, fc.uint8Array({ maxLength: 5_000 }), { maxKeys: 8 }), (files) => {
        const z = must(open(zip(files)));
        const back = Object.fromEntries(z.entries.map((e) => [e.shown, [...must(z.unpack(e))]]));
        expect(back).toEqual(Object.fromEntries(Object.entries(files).map(([k, v]) => [k, [...v]])));
      }),
      { numRuns: 40 },
    );
  });

  it('cut or changed at any byte gives a Problem or the same files, never others', () => {
    const whole = two();
    for (let n = 0; n < whole.length; n += 1) expect(open(whole.subarray(0, n)).ok).toBe(false);
    for (let n = 0; n < whole.length; n += 1) {
      const z = open(patched(whole, (b) => (b[n] = (b[n] ?? 0) ^ 0xff)));
      if (!z.ok) continue;
      for (const e of z.value.entries) {
        const got = z.value.unpack(e);
        if (got.ok) expect(['first '.repeat(50), 'second']).toContain(Buffer.from(got.value).toString());
      }
    }
  });

  it('is refused whole when it is none, goes on elsewhere, or is of the large form', () => {
    expect(open(strToU8('not a zip at all'))).toMatchObject({ problem: { code: 'ZIP_SHAPE' } });
    const end = two().length - 22;
    expect(open(patched(two(), (b) => b.writeUInt16LE(1, end + 4)))).toMatchObject({ problem: { code: 'ZIP_SHAPE' } });
    expect(open(patched(two(), (b) => b.writeUInt16LE(0xffff, end + 10)))).toMatchObject({
      problem: { code: 'ZIP_64' },
    });
    const large = must(open(patched(two(), (b, [a = 0]) => b.writeUInt32LE(0xffffffff, a + 24))));
    expect([codeOf(large, 0), codeOf(large, 1)]).toEqual(['ZIP_64', null]);
  });

  it('with too many entries, too much in all, or entries over one another is refused whole', () => {
    const many = zip(Object.fromEntries(Array.from({ length: 101 }, (_, n) => [`${n}`, strToU8('x')])));
    expect(open(many)).toMatchObject({ problem: { code: 'ZIP_LIMIT' } });
    const zeros = new Uint8Array(12 << 20);
    const much = zip({ a: [zeros, { level: 0 }], b: [zeros, { level: 0 }], c: [zeros, { level: 0 }] });
    expect(open(much)).toMatchObject({ problem: { code: 'ZIP_LIMIT' } });
    const over = patched(two(), (b, [a = 0, c = 0]) => b.writeUInt32LE(b.readUInt32LE(a + 42), c + 42));
    expect(open(over)).toMatchObject({ problem: { code: 'ZIP_LIMIT' } });
  });

  it('an entry that grows a thousand times is refused by what it says, and stopped when it lies', () => {
    const bomb = zip({ bomb: new Uint8Array(15 << 20), good: strToU8('good') });
    expect(bomb.length).toBeLessThan(20_000);
    const z = must(open(bomb));
    expect([codeOf(z, 0), codeOf(z, 1)]).toEqual(['ZIP_ENTRY_LARGE', null]);
    const lying = must(open(patched(bomb, (b, [a = 0]) => b.writeUInt32LE(1_000, a + 24))));
    expect([codeOf(lying, 0), codeOf(lying, 1)]).toEqual(['ZIP_ENTRY_CUT', null]);
    const each = must(open(zip({ a: [new Uint8Array(17 << 20).map((_, i) => i * 7), { level: 0 }] })));
    expect(codeOf(each, 0)).toBe('ZIP_ENTRY_LARGE');
  });

  it('sealed entries, links, devices and unknown methods are refused by themselves', () => {
    const link = zip({ a: [strToU8('/etc/passwd'), { os: 3, attrs: 0o120777 * 65_536 }], b: strToU8('b') });
    const l = must(open(link));
    expect([codeOf(l, 0), codeOf(l, 1)]).toEqual(['ZIP_ENTRY_LINK', null]);
    const device = must(open(zip({ a: [strToU8(''), { os: 3, attrs: 0o020666 * 65_536 }] })));
    expect(codeOf(device, 0)).toBe('ZIP_ENTRY_LINK');
    const sealed = must(open(patched(two(), (b, [a = 0]) => b.writeUInt16LE(b.readUInt16LE(a + 8) | 1, a + 8))));
    expect([codeOf(sealed, 0), codeOf(sealed, 1)]).toEqual(['ZIP_ENTRY_SEALED', null]);
    const method = must(open(patched(two(), (b, [a = 0]) => b.writeUInt16LE(93, a + 10))));
    expect([codeOf(method, 0), codeOf(method, 1)]).toEqual(['ZIP_ENTRY_METHOD', null]);
  });

  it('an entry whose heading tells another name than the list is cut', () => {
    const z = must(open(patched(two(), (b) => b.write('z.txt', 30, 'latin1'))));
    expect([codeOf(z, 0), codeOf(z, 1)]).toEqual(['ZIP_ENTRY_CUT', null]);
  });
});

describe('names', () => {
  it.each([
    ['../../etc/passwd', 'etc/passwd', /climbs/],
    ['/etc/passwd', 'etc/passwd', /top of the disk/],
    ['C:\\Users\\x\\a.jpg', 'Users/x/a.jpg', /backslashes.*drive/],
    ['..\\..\\a.jpg', 'a.jpg', /backslashes.*climbs/],
    ['a\u202egpj.exe', 'a·gpj.exe', /not shown/],
    ['a\0b.jpg', 'a·b.jpg', /not shown/],
    ['..', '(no name)', /climbs/],
  ])('%j is shown as %j and said', (text, shown, words) => {
    const name = showName(text);
    expect([name.shown, name.notice?.code]).toEqual([shown, 'ZIP_NAME']);
    expect(name.notice?.message).toMatch(words);
  });

  it('an ordinary one is left as it is', () => {
    expect(showName('Tail wheel/Größe 1.jpg')).toEqual({ shown: 'Tail wheel/Größe 1.jpg', notice: null });
  });

  it('that is not UTF-8 is shown byte by byte', () => {
    const bytes = patched(zip({ 'axxb.jpg': strToU8('1') }), (b) => {
      for (const at of [30, listed(b)[0]! + 46]) b.set([0xff, 0xfe], at + 1);
    });
    expect(must(open(bytes)).entries[0]).toMatchObject({ shown: 'aÿþb.jpg', notices: [{ code: 'ZIP_NAME' }] });
  });
});

describe('a pile', () => {
  it('of a ZIP passes hidden files over and opens no archive in an archive', async () => {
    const pile = must(
      pileOfBytes(
        zip({
          'a.jpg': await picture(20, 20),
          'in.zip': zip({ b: strToU8('b') }),
          'in.jpg': new Uint8Array([0x1f, 0x8b, 8]),
          '__MACOSX/._a.jpg': strToU8('x'),
          '.DS_Store': strToU8('x'),
          'folder/': new Uint8Array(),
        }),
        'ours.zip',
      ),
    );
    expect([pile.files.map((f) => f.shown), pile.passedOver]).toEqual([['a.jpg', 'in.zip', 'in.jpg'], 2]);
    const codes = [];
    for (const f of pile.files) {
      const got = await pile.read(f);
      codes.push(got.ok ? null : got.problem.code);
    }
    expect(codes).toEqual([null, 'ZIP_ENTRY_NESTED', 'ZIP_ENTRY_NESTED']);
  });

  it('of a folder follows no link', async () => {
    const root = tempFolder();
    const outside = tempFolder();
    fs.writeFileSync(join(outside, 'secret.jpg'), await picture(20, 20));
    fs.mkdirSync(join(root, 'B105C'));
    fs.writeFileSync(join(root, 'B105C', 'a.jpg'), await picture(20, 20));
    fs.symlinkSync(join(outside, 'secret.jpg'), join(root, 'b.jpg'));
    fs.symlinkSync(outside, join(root, 'c'));
    const pile = must(openPile(root));
    expect(pile.files.map((f) => [f.shown, f.refused?.code ?? null])).toEqual([
      ['B105C/a.jpg', null],
      ['b.jpg', 'ZIP_ENTRY_LINK'],
      ['c', 'ZIP_ENTRY_LINK'],
    ]);
  });
});

describe('a ZIP by another program', () => {
  // Each made with the program named, and kept as it came.
  it.each<[string, string, (string | number)[][]]>([
    [
      'Python 3 zipfile, to a stream (sizes behind the data)',
      'UEsDBBQACAgIAIV7eV0AAAAAAAAAAAAAAAANAAAAYS9ncsO2w59lLnR4dO3EMQ0AAAgDMCuYI+FYgv8PEbzt0elka2zbtm3btm3b9uMDUEsHCME3DEAjAAAAcBcAAFBLAwQUAAgACACFe3ldAAAAAAAAAAAAAAAABQAAAGIudHh0qwAAUEsHCIMW3IwDAAAAAQAAAFBLAQIUAxQACAgIAIV7eV3BNwxAIwAAAHAXAAANAAAAAAAAAAAAAACAAQAAAABhL2dyw7bDn2UudHh0UEsBAhQDFAAIAAgAhXt5XYMW3IwDAAAAAQAAAAUAAAAAAAAAAAAAAIABXgAAAGIudHh0UEsFBgAAAAACAAIAbgAAAJQAAAAAAA==',
      [
        ['a/größe.txt', 6000],
        ['b.txt', 1],
      ],
    ],
    [
      'Info-ZIP 3.0 -y (a link kept as a link)',
      'UEsDBAoAAAAAAIZ7eV16em/tAwAAAAMAAAAFABwAZi50eHRVVAkAA4v+BmuL/gZrdXgLAAEEAAAAAAQAAAAAaGkKUEsDBAoAAAAAAIZ7eV0KuR8pCwAAAAsAAAABABwAbFVUCQADi/4Ga4v+Bmt1eAsAAQQAAAAABAAAAAAvZXRjL3Bhc3N3ZFBLAQIeAwoAAAAAAIZ7eV16em/tAwAAAAMAAAAFABgAAAAAAAEAAACkgQAAAABmLnR4dFVUBQADi/4Ga3V4CwABBAAAAAAEAAAAAFBLAQIeAwoAAAAAAIZ7eV0KuR8pCwAAAAsAAAABABgAAAAAAAAAAAD/oUIAAABsVVQFAAOL/gZrdXgLAAEEAAAAAAQAAAAAUEsFBgAAAAACAAIAkgAAAIgAAAAAAA==',
      [
        ['f.txt', 3],
        ['l', 'ZIP_ENTRY_LINK'],
      ],
    ],
    [
      'Info-ZIP 3.0 -P (a password)',
      'UEsDBAoACQAAAIZ7eV16em/tDwAAAAMAAAAFABwAZi50eHRVVAkAA4v+BmuL/gZrdXgLAAEEAAAAAAQAAAAAjI0xkIUagq1+bvPW+Pu9UEsHCHp6b+0PAAAAAwAAAFBLAQIeAwoACQAAAIZ7eV16em/tDwAAAAMAAAAFABgAAAAAAAEAAACkgQAAAABmLnR4dFVUBQADi/4Ga3V4CwABBAAAAAAEAAAAAFBLBQYAAAAAAQABAEsAAABeAAAAAAA=',
      [['f.txt', 'ZIP_ENTRY_SEALED']],
    ],
    [
      'Python 3 zipfile, bzip2',
      'UEsDBC4AAAAMAIV7eV0oeIvILQAAAPQBAAABAAAAYUJaaDkxQVkmU1n8Uq5OAABjgQACRKAAMM00ClBhFxFpFwi8XckU4UJD8Uq5OFBLAQIuAy4AAAAMAIV7eV0oeIvILQAAAPQBAAABAAAAAAAAAAAAAACAAQAAAABhUEsFBgAAAAABAAEALwAAAEwAAAAAAA==',
      [['a', 'ZIP_ENTRY_METHOD']],
    ],
  ])('%s', (_program, base64, expected) => {
    const z = must(open(Buffer.from(base64, 'base64')));
    const got = z.entries.map((e) => {
      const unpacked = z.unpack(e);
      return [e.shown, unpacked.ok ? unpacked.value.length : unpacked.problem.code];
    });
    expect(got).toEqual(expected);
  });
});
