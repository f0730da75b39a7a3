/**
 * The PDF as others see it: read back with poppler (page sizes, positions, text, pictures) and with a reader of QR codes
 * (zxing) from the rendered picture. Neither knows anything of how it was made.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader';
import { bagCode } from '../../domain/bag-code.ts';
import { must } from '../../domain/result.ts';
import type { Label } from '../../records/labels/label.ts';
import { readForm } from '../../records/labels/label-form.ts';
import { placeLabels } from '../../records/labels/place-labels.ts';
import type { PrintDocument } from '../../records/labels/print-document.ts';
import { typstPrinter } from './typst-printer.ts';

const MM = 72 / 25.4;
const madeAt = '2025-11-18T16:20:00+00:00';
const printer = typstPrinter();
let dir: string;

beforeAll(() => {
  dir = mkdtempSync(join(tmpdir(), 'witnessmark-print-'));
  const wasm = readFileSync(
    join(dirname(createRequire(import.meta.url).resolve('zxing-wasm/reader')), '../../reader/zxing_reader.wasm'),
  );
  prepareZXingModule({ overrides: { wasmBinary: new Uint8Array(wasm).buffer } });
});
afterAll(() => rmSync(dir, { recursive: true, force: true }));

const label = (o: Partial<Label> = {}): Label => ({
  kind: 'bag',
  id: 'B105C',
  hand: 'R',
  registration: 'QX-OLA',
  station: 'C4',
  name: 'Mooring hatch hinge',
  invented: true,
  ...o,
});

function document(labels: readonly Label[], form: string, start = 1): PrintDocument {
  return must(placeLabels(labels, must(readForm({ form })), { title: 'Labels', madeAt, start }));
}

async function print(labels: readonly Label[], form: string, start = 1): Promise<string> {
  const file = join(dir, `p${Math.floor(performance.now() * 1_000)}.pdf`);
  writeFileSync(file, must(await printer.pdf(document(labels, form, start))));
  return file;
}

const poppler = (program: string, ...args: string[]): string =>
  execFileSync(program, args, { encoding: 'utf8', maxBuffer: 64 * 1024 * 1024, stdio: ['ignore', 'pipe', 'ignore'] });

function textOf(file: string): string {
  return poppler('pdftotext', file, '-').replace(/[\u200b\u202a-\u202e\u2066-\u2069]/g, '');
}

interface Word {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly right: number;
  readonly bottom: number;
}

/** Words with their boxes in millimetres. */
function wordsOf(file: string): readonly Word[] {
  const html = poppler('pdftotext', '-bbox', file, '-');
  return [...html.matchAll(/<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)</g)].map(
    ([, x, y, right, bottom, text]) => ({
      text: text ?? '',
      x: Number(x) / MM,
      y: Number(y) / MM,
      right: Number(right) / MM,
      bottom: Number(bottom) / MM,
    }),
  );
}

function pageSizes(file: string): readonly (readonly [number, number])[] {
  const info = poppler('pdfinfo', '-f', '1', '-l', '99', file);
  return [...info.matchAll(/Page\s+\d+ size:\s+([\d.]+) x ([\d.]+) pts/g)].map(([, w, h]) => [
    Number(w) / MM,
    Number(h) / MM,
  ]);
}

async function picture(file: string, dpi: number, page = 1): Promise<string> {
  const out = file.replace('.pdf', `-${dpi}`);
  poppler('pdftoppm', '-r', String(dpi), '-f', String(page), '-l', String(page), '-singlefile', '-png', file, out);
  return `${out}.png`;
}

async function codesIn(png: string): Promise<readonly string[]> {
  const { data, info } = await sharp(png).ensureAlpha().raw().toBuffer({ resolveWithObject: true });
  const pixels = { data: new Uint8ClampedArray(data), width: info.width, height: info.height, colorSpace: 'srgb' };
  const found = await readBarcodes(pixels as ImageData, {
    formats: ['QRCode'],
    maxNumberOfSymbols: 255,
    tryHarder: true,
  });
  return found.map((f) => f.text);
}

/** Dark pixels in a box given in millimetres: how far they reach. */
async function inkIn(png: string, dpi: number, box: { x: number; y: number; w: number; h: number }) {
  const px = (mm: number) => Math.round((mm / 25.4) * dpi);
  const area = { left: px(box.x), top: px(box.y), width: px(box.w), height: px(box.h) };
  const { data, info } = await sharp(png).extract(area).greyscale().raw().toBuffer({ resolveWithObject: true });
  const rows: number[] = [];
  let dark = 0;
  for (let y = 0; y < info.height; y += 1) {
    let count = 0;
    for (let x = 0; x < info.width; x += 1) if ((data[y * info.width + x] ?? 255) < 128) count += 1;
    rows.push(count);
    dark += count;
  }
  const first = rows.findIndex((n) => n > 0);
  const last = rows.findLastIndex((n) => n > 0);
  return { rows, height: ((last - first + 1) / dpi) * 25.4, share: dark / (info.width * info.height) };
}

describe('pages', () => {
  it.each([
    ['a4-24', 210, 297],
    ['a4-4', 210, 297],
    ['roll-62x29', 62, 29],
    ['tag-50x100', 50, 100],
    ['57.5x31.7', 57.5, 31.7],
  ])('%s is %s x %s mm', async (form, w, h) => {
    const file = await print([label(), label({ id: 'B106K' })], form);
    const pages = pageSizes(file);
    expect(pages).toHaveLength(form.startsWith('a4') ? 1 : 2);
    // poppler tells points to two places or six figures, 0.0018 mm
    for (const page of pages) {
      expect(page[0]).toBeCloseTo(w, 1);
      expect(page[1]).toBeCloseTo(h, 1);
    }
  });

  it('24 labels on a sheet: codes equal the data, in rows, each inside its own label', async () => {
    const codes = Array.from({ length: 24 }, (_, i) => bagCode(101 + i));
    const file = await print(
      codes.map((id) => label({ id })),
      'a4-24',
    );
    const words = wordsOf(file);
    codes.forEach((code, i) => {
      const found = words.filter((w) => w.text === code);
      expect(found, code).toHaveLength(1);
      const [x, y] = [7.25 + (i % 3) * 66, 12.9 + Math.floor(i / 3) * 33.9];
      expect(found[0]?.x).toBeGreaterThan(x);
      expect(found[0]?.right).toBeLessThan(x + 63.5);
      expect(found[0]?.y).toBeGreaterThan(y - 2.5); // poppler's boxes have the whole height of the font, not of the letters
      expect(found[0]?.bottom).toBeLessThan(y + 33.9);
    });
    for (const w of words) {
      expect(w.x).toBeGreaterThan(7.25);
      expect(w.right).toBeLessThan(210 - 7.25);
      expect(w.bottom).toBeLessThan(297 - 12.9);
    }
  });

  it('no ink between the labels or in the margins of a sheet', async () => {
    const codes = Array.from({ length: 24 }, (_, i) => bagCode(9_000 + i));
    const file = await print(
      codes.map((id) => label({ id, name: 'Wheel '.repeat(60), says: 'X'.repeat(300) })),
      'a4-24',
    );
    const png = await picture(file, 100);
    for (const gap of [
      { x: 0, y: 0, w: 7, h: 297 },
      { x: 0, y: 0, w: 210, h: 12.6 },
      { x: 71, y: 0, w: 2, h: 297 },
      { x: 137, y: 0, w: 2, h: 297 },
      { x: 203, y: 0, w: 7, h: 297 },
      { x: 0, y: 284.4, w: 210, h: 12 },
    ])
      expect((await inkIn(png, 100, gap)).share).toBe(0);
  });

  it('a sheet that was begun goes on at its fifth label', async () => {
    const file = await print([label()], 'a4-24', 5);
    const code = wordsOf(file).find((w) => w.text === 'B105C');
    expect(code?.x).toBeGreaterThan(7.25 + 66);
    expect(code?.right).toBeLessThan(7.25 + 66 + 63.5);
    expect(code?.y).toBeGreaterThan(12.9 + 33.9 - 2.5);
    expect(code?.bottom).toBeLessThan(12.9 + 2 * 33.9);
  });
});

describe('what is read from the picture', () => {
  it.each(['a4-24', 'roll-62x29', 'roll-50x25', 'tag-50x100', 'roll-100x62'])(
    'the QR code of a label on %s holds the id and nothing else, at 203 dpi',
    async (form) => {
      const file = await print([label()], form);
      expect(await codesIn(await picture(file, 203))).toEqual(['B105C']);
    },
  );

  it('all 24 QR codes of a sheet, in 203 dpi', async () => {
    const codes = Array.from({ length: 24 }, (_, i) => bagCode(400 + i));
    const file = await print(
      codes.map((id) => label({ id })),
      'a4-24',
    );
    expect([...(await codesIn(await picture(file, 203)))].sort()).toEqual([...codes].sort());
  });

  it.each([
    ['roll-62x29', { x: 26, y: 1, w: 35, h: 11.5 }],
    ['a4-24', { x: 7.25 + 27, y: 12.9 + 1, w: 35, h: 13 }],
  ])('the numerals on %s are 6 mm high or more, measured in the picture', async (form, box) => {
    const { hand: _none, ...one } = label({ kind: 'blank', id: bagCode(105) });
    const file = await print([one], form);
    expect((await inkIn(await picture(file, 300), 300, box)).height).toBeGreaterThanOrEqual(6);
  });

  it('the hand is a shape: a triangle grows towards its base, a diamond is widest in the middle', async () => {
    // On the wide roll the shape stands in the upper right corner, 3 mm from the edges.
    const box = { x: 80, y: 2.5, w: 17.5, h: 17.5 };
    const columnsOf = async (hand: 'L' | 'R' | 'C') => {
      const png = await picture(await print([label({ hand, name: 'x' })], 'roll-100x62'), 200);
      const turned = png.replace('.png', `-${hand}.png`);
      const px = (mm: number) => Math.round((mm / 25.4) * 200);
      await sharp(
        await sharp(png)
          .extract({ left: px(box.x), top: px(box.y), width: px(box.w), height: px(box.h) })
          .png()
          .toBuffer(),
      )
        .rotate(90)
        .toFile(turned);
      const { rows } = await inkIn(turned, 200, { x: 0, y: 0, w: box.h - 0.5, h: box.w - 0.5 });
      const used = rows.filter((n) => n > 2);
      const at = (part: number) => used[Math.floor(part * (used.length - 1))] ?? 0;
      return [at(0.1), at(0.5), at(0.9)] as const;
    };
    const [l, r, c] = [await columnsOf('L'), await columnsOf('R'), await columnsOf('C')];
    expect(l[0]).toBeLessThan(l[1]);
    expect(l[1]).toBeLessThan(l[2]);
    expect(r[0]).toBeGreaterThan(r[1]);
    expect(r[1]).toBeGreaterThan(r[2]);
    expect(c[1]).toBeGreaterThan(c[0]);
    expect(c[1]).toBeGreaterThan(c[2]);
  });

  it('OPEN is more than 16 mm high on a 60 mm tag, and told without colour on a roll', async () => {
    const file = await print([label({ kind: 'open', id: '10-j05', says: 'Finger-tight', who: 'Nadia' })], 'tag-60x120');
    const png = await picture(file, 200);
    const word = await inkIn(png, 200, { x: 6, y: 19.5, w: 48, h: 22 });
    expect(word.height).toBeGreaterThan(16);
    const { channels } = await sharp(png).stats();
    expect(Math.abs((channels[0]?.mean ?? 0) - (channels[2]?.mean ?? 255))).toBeLessThan(0.5);
    expect(textOf(file)).toMatch(/OPEN[\s\S]*Finger-tight/);
  });
});

describe('what people wrote', () => {
  it.each([
    [
      'markup',
      '#set page(width: 1mm) *bold* _it_ $x^2$ @ref <label> = Head',
      '#set page(width: 1mm) *bold* _it_ $x^2$',
    ],
    [
      'code',
      '#import "@preview/x:1.0.0" #eval("1+1") #read("/etc/hosts") #panic("x")',
      '#import "@preview/x:1.0.0" #eval("1+1")',
    ],
    ['quotes', `"double" 'single' \`back\` \\ backslash`, `"double" 'single' \`back\` \\ backslash`],
    ['a JSON end', '"}]} \\u0000 {"text":"x"', '"}]} \\u0000 {"text":"x"'],
    ['lines', 'first\nsecond\r\n\tthird', 'first second third'],
    [
      'accents',
      'Schäkel für Höhenruder, tôle rapportée, señal ½ µ ± ≤',
      'Schäkel für Höhenruder, tôle rapportée, señal ½ µ ± ≤',
    ],
    ['Polish, Greek, Russian', 'łożysko ślizgowe, ρουλεμάν, подшипник', 'łożysko ślizgowe, ρουλεμάν, подшипник'],
    ['an emoji', 'grease 😀 here', 'grease 😀 here'],
  ])('%s comes out as text', async (_name, name, expected) => {
    // Without blanks: lines of a label may break inside a long run.
    const text = textOf(await print([label({ name })], 'roll-62x100')).replace(/\s+/g, '');
    expect(text).toContain(expected.replace(/\s+/g, ''));
    expect(text).toContain('B105C');
  });

  it('right-to-left comes out with all its letters', async () => {
    const text = textOf(await print([label({ name: 'גלגל זנב' })], 'roll-62x100'));
    for (const letter of 'גלזנב') expect(text).toContain(letter);
  });

  it.each([
    ['one word of 10,000 letters', 'W'.repeat(10_000)],
    ['10,000 letters in words', 'nut and bolt '.repeat(770)],
    ['10,000 brackets', '#['.repeat(5_000)],
  ])('%s is cut, and the code stays', async (_name, name) => {
    const file = await print([label({ name, station: name, registration: name })], 'roll-62x29');
    expect(pageSizes(file)).toHaveLength(1);
    expect(textOf(file)).toMatch(/B105C/);
    expect(textOf(file)).toMatch(/…/);
    expect(await codesIn(await picture(file, 203))).toEqual(['B105C']);
  });

  it('a hostile id is printed as it is and read back from its QR code', async () => {
    const id = '#eval("x")\\";*_[$';
    const file = await print([label({ kind: 'part', id })], 'roll-100x62');
    expect(textOf(file).replace(/\s+/g, '')).toContain(id);
    expect(await codesIn(await picture(file, 203))).toEqual([id]);
  });
});

it.each(['a4-12', 'roll-62x100', 'tag-50x100', 'tag-60x120', 'roll-100x62', 'a4-tags-8'])(
  'a warning of 160 letters stands whole on a hazard tag on %s',
  async (form) => {
    const says =
      'Gas in the strut: a gauge at zero is no proof, a blocked valve also reads zero. First: let the gas out of the starboard leg through the hose, and prove it.';
    const file = await print([label({ kind: 'hazard', id: 'let-gas-out-r', word: 'pressure', says })], form);
    const text = textOf(file).replace(/\s+/g, ' ');
    expect(text).toContain(says);
    expect(text).toMatch(/PRESSURE.*licensed people decide/);
  },
);

describe('the file', () => {
  it('is the same to the byte for the same document, and another for another time', async () => {
    const labels = [label(), label({ kind: 'open', says: 'x' })];
    const [a, b] = [await printer.pdf(document(labels, 'a4-12')), await printer.pdf(document(labels, 'a4-12'))];
    expect(Buffer.from(must(a)).equals(Buffer.from(must(b)))).toBe(true);
    const later = await printer.pdf({ ...document(labels, 'a4-12'), madeAt: '2025-11-19T08:00:00+00:00' });
    expect(Buffer.from(must(a)).equals(Buffer.from(must(later)))).toBe(false);
  });

  it('carries its fonts, ours only', async () => {
    const fonts = poppler('pdffonts', await print([label({ name: 'плита' })], 'roll-62x29'));
    expect(fonts).toMatch(/\+B612-Bold /);
    expect(fonts).toMatch(/\+BarlowCondensed-Bold /);
    expect(fonts).toMatch(/\+DejaVuSansCondensed/);
    expect(fonts).not.toMatch(/Libertinus|Helvetica|Arial/);
    for (const line of fonts.trim().split('\n').slice(2)) expect(line).toMatch(/ yes (yes|no) /);
  });

  it('a document that cannot be set is one Problem', async () => {
    const broken = {
      ...document([label()], 'a4-24'),
      ink: 'black',
      page: { w: 'x', h: 1 },
    } as unknown as PrintDocument;
    const made = await printer.pdf(broken);
    expect(made.ok ? '' : made.problem.code).toBe('PRINT_FAILED');
  });
});
