import { readFileSync } from 'node:fs';
import { strToU8 } from 'fflate';
import { describe, expect, it } from 'vitest';
import { must } from '../domain/result.ts';
import { MOST_TABLE_BYTES, readTable } from './table-reading.ts';
import { packWorkbook, sheetXml, workbook, workbookFiles } from './testing/workbook.ts';

const parts = [
  ['Nr', 'Benennung', 'Stk'],
  ['7-01', 'Bolt & nut <b>', 2],
  ['7-02', '  Shim', null],
];

describe('a workbook', () => {
  it('becomes rows of text, sheet by name; empty sheets are not counted', async () => {
    const bytes = workbook({ Notes: [['hello']], Leer: [], Parts: parts });
    const first = must(await readTable(bytes));
    expect([first.kind, first.sheets, first.sheet, first.rows]).toEqual([
      'xlsx',
      ['Notes', 'Parts'],
      'Notes',
      [['hello']],
    ]);
    const named = must(await readTable(bytes, 'Parts'));
    expect(named.rows).toEqual([
      ['Nr', 'Benennung', 'Stk'],
      ['7-01', 'Bolt & nut <b>', '2'],
      ['7-02', 'Shim', ''],
    ]);
    expect(await readTable(bytes, 'parts')).toMatchObject({ problem: { code: 'SHEET_UNKNOWN' } });
    expect(await readTable(workbook({ A: [] }))).toMatchObject({ problem: { code: 'SHEET_UNKNOWN' } });
  });

  it('gives the digits of the file, dates and formulas as text, and says so', async () => {
    const bytes = workbook({
      A: [
        [7.1, { xml: '<c><v>7.0999999999999996</v></c>' }, { xml: '<c><v>1234567890123</v></c>' }],
        // 45915 days after the 1900 epoch is 15 September 2025 (ECMA-376 18.17.4.1, worked by hand)
        [{ xml: '<c s="1"><v>45915</v></c>' }, { xml: '<c t="b"><v>1</v></c>' }],
        [{ xml: '<c t="str"><f>HYPERLINK("http://x","go")</f><v>go</v></c>' }, { xml: '<c><f>1+1</f><v>2</v></c>' }],
        ['=1+1', '<script>1</script>'],
      ],
    });
    const read = must(await readTable(bytes));
    expect(read.rows).toEqual([
      ['7.1', '7.1', '1234567890123'],
      ['2025-09-15', 'TRUE', ''],
      ['go', '2', ''],
      ['=1+1', '<script>1</script>', ''],
    ]);
    expect(read.notes).toEqual([
      expect.stringMatching(/^formulas in 2 cells/),
      expect.stringMatching(/numbers: zeros/),
      expect.stringMatching(/dates/),
    ]);
  });

  it('keeps blank rows in the count', async () => {
    expect(must(await readTable(workbook({ A: [['id'], [], ['a']] }))).rows).toEqual([['id'], [''], ['a']]);
  });

  it.each<[string, (f: Record<string, string>) => Record<string, string>, string]>([
    [
      'outside entities',
      (f) => ({
        ...f,
        'xl/worksheets/sheet1.xml': `<?xml version="1.0"?><!DOCTYPE x [<!ENTITY e SYSTEM "file:///etc/passwd">]>${sheetXml([['a']]).slice(21)}`,
      }),
      'WORKBOOK_UNREADABLE',
    ],
    [
      'a list of sheets with entities that grow',
      (f) => ({ ...f, 'xl/workbook.xml': f['xl/workbook.xml']!.replace('?>', '?><!DOCTYPE x [<!ENTITY a "aaaa">]>') }),
      'WORKBOOK_UNREADABLE',
    ],
    [
      'a cell at the far end of the sheet',
      (f) => ({ ...f, 'xl/worksheets/sheet1.xml': sheetXml([['a']]).replace('r="A1"', 'r="XFD1048576"') }),
      'TABLE_TOO_LARGE',
    ],
    [
      'a far cell in a sheet that is kept under another name',
      (f) => ({
        ...f,
        'xl/_rels/workbook.xml.rels': f['xl/_rels/workbook.xml.rels']!.replace('worksheets/sheet1.xml', 'other.xml'),
        'xl/other.xml': sheetXml([['a']]).replace('r="A1"', 'r="A1048576"'),
      }),
      'TABLE_TOO_LARGE',
    ],
    [
      'a place that is no place',
      (f) => ({ ...f, 'xl/worksheets/sheet1.xml': sheetXml([['a']]).replace('r="A1"', 'r="&#65;1"') }),
      'WORKBOOK_UNREADABLE',
    ],
    ['no list of sheets', ({ 'xl/workbook.xml': _gone, ...f }) => f, 'WORKBOOK_UNREADABLE'],
    [
      'XML that is cut',
      (f) => ({ ...f, 'xl/workbook.xml': f['xl/workbook.xml']!.slice(0, 80) }),
      'WORKBOOK_UNREADABLE',
    ],
    [
      'a part that grows a thousand times',
      (f) => ({ ...f, 'xl/worksheets/sheet1.xml': sheetXml([['a']]) + ' '.repeat(40 * 1024 * 1024) }),
      'ZIP_ENTRY_LARGE',
    ],
  ])('with %s is refused', async (_what, change, code) => {
    const bytes = packWorkbook(change(workbookFiles({ A: [['a']] })));
    expect(await readTable(bytes)).toMatchObject({ ok: false, problem: { code } });
  });

  it('with more than a parts list has is refused', async () => {
    const long = workbook({ A: Array.from({ length: 20_001 }, (_, i) => [i]) });
    expect(await readTable(long)).toMatchObject({ problem: { code: 'TABLE_TOO_LARGE' } });
    expect(await readTable(new Uint8Array(MOST_TABLE_BYTES + 1))).toMatchObject({
      problem: { code: 'TABLE_TOO_LARGE' },
    });
  });
});

describe('a workbook by another program', () => {
  const read = async (name: string) =>
    must(await readTable(readFileSync(new URL(`./testing/${name}`, import.meta.url))));

  it('XlsxWriter 3.2.9 (shared strings, a rich text, a formula, a date, a link)', async () => {
    const table = await read('parts-by-xlsxwriter.xlsx');
    expect([table.sheets, table.rows, table.notes.length]).toEqual([
      ['Parts list'],
      [
        ['Nr', 'Benennung', 'Stk', 'Werkstoff'],
        ['7-01', 'Bolt Größe', '2', 'steel'],
        ['7-02', 'Nut bold', '2', ''],
        ['2025-09-15', 'Date as id', '', ''],
        ['7.1', 'Link', '', ''],
      ],
      3,
    ]);
  });

  it('ExcelJS 4.4.0', async () => {
    expect((await read('parts-by-exceljs.xlsx')).rows).toEqual([
      ['Nr', 'Benennung', 'Stk'],
      ['7-01', 'Bolt Größe', '2'],
      ['7-02', 'Nut bold', '2'],
      ['7.1', 'date', '2025-09-15'],
    ]);
  });
});

describe('a text', () => {
  it('is read as what its bytes are', async () => {
    const of = async (bytes: Uint8Array) => must(await readTable(bytes));
    expect((await of(strToU8('id;Größe\n'))).text).toBe('id;Größe\n');
    expect((await of(Buffer.from('\ufeffid\tname\n', 'utf16le'))).text).toBe('id\tname\n');
    const old = await of(Buffer.from('id;Gr\xf6\xdfe\n', 'latin1'));
    expect([old.text, old.notes.length]).toEqual(['id;Größe\n', 1]);
  });

  it.each([
    ['nothing', new Uint8Array()],
    ['bytes that are no text', Buffer.from([1, 0, 2, 0, 3])],
    ['a workbook of the old form', Buffer.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1])],
  ])('%s gives TABLE_KIND', async (_what, bytes) => {
    expect(await readTable(bytes)).toMatchObject({ ok: false, problem: { code: 'TABLE_KIND' } });
  });
});
