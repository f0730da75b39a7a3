/**
 * A table of somebody else's making as rows of text: an XLSX workbook or a text with separators, by its content.
 *
 * A workbook is a ZIP of XML. It is opened by our own reader with its limits, looked through for what a table has no need
 * of (outside entities, cells a million rows down, which would be filled up with empty ones), and only then given, as a
 * fresh archive of just those parts, to the library, so that the two cannot see different contents. Nothing is worked
 * out: of a formula the value counts that was there when the workbook was saved. Numbers keep the digits of the file.
 */
import { zipSync } from 'fflate';
import { failed, ok, type Result } from '../domain/result.ts';
import { intakeProblem } from './intake-problems.ts';
import { bytesInMemory, openZip, type ZipLimits } from './zip-reading.ts';

export const MOST_TABLE_BYTES = 20 * 1024 * 1024;
const MOST_ROWS = 20_000;
const MOST_COLUMNS = 200;
const WORKBOOK_LIMITS: ZipLimits = {
  entries: 2_000,
  total: 128 * 1024 * 1024,
  each: 48 * 1024 * 1024,
  ratio: 400,
};

export interface TableRead {
  readonly kind: 'csv' | 'xlsx';
  /** Sheets with something in them. Empty for a CSV. */
  readonly sheets: readonly string[];
  readonly sheet: string | null;
  /** For a workbook. */
  readonly rows: readonly (readonly string[])[] | null;
  /** For a CSV, which is parted in the pure core. */
  readonly text: string | null;
  readonly notes: readonly string[];
}

export async function readTable(bytes: Uint8Array, sheet?: string): Promise<Result<TableRead>> {
  if (bytes.length > MOST_TABLE_BYTES)
    return failed(
      intakeProblem(
        'TABLE_TOO_LARGE',
        `the table has ${(bytes.length / 1048576).toFixed(0)} MB; at most 20 are taken in`,
      ),
    );
  const start = Buffer.from(bytes.subarray(0, 8)).toString('latin1');
  if (start.startsWith('PK\x03\x04')) return readXlsx(bytes, sheet);
  if (start.startsWith('\xd0\xcf\x11\xe0'))
    return failed(
      intakeProblem('TABLE_KIND', 'it is a workbook of the old form, or one that is locked with a password'),
    );
  return readText(bytes);
}

function readText(bytes: Uint8Array): Result<TableRead> {
  const { text, note } = decodeText(bytes);
  if (text.trim() === '' || text.includes('\0'))
    return failed(intakeProblem('TABLE_KIND', text.trim() === '' ? 'the file is empty' : 'the content is not text'));
  const lines = text.split('\n').length;
  if (lines > MOST_ROWS * 4)
    return failed(
      intakeProblem('TABLE_TOO_LARGE', `the file has ${lines} lines; at most ${MOST_ROWS} rows are taken in`),
    );
  return ok({ kind: 'csv', sheets: [], sheet: null, rows: null, text, notes: note === null ? [] : [note] });
}

function decodeText(bytes: Uint8Array): { readonly text: string; readonly note: string | null } {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return { text: new TextDecoder('utf-16le').decode(bytes), note: null };
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return { text: new TextDecoder('utf-16be').decode(bytes), note: null };
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), note: null };
  } catch {
    const note = 'the file is not UTF-8; it was read as Windows-1252: look at letters with accents';
    return { text: new TextDecoder('windows-1252').decode(bytes), note };
  }
}

interface Parts {
  readonly files: Record<string, Uint8Array>;
  readonly formulas: number;
}

async function readXlsx(bytes: Uint8Array, wanted: string | undefined): Promise<Result<TableRead>> {
  const parts = workbookParts(bytes);
  if (!parts.ok) return parts;
  // The library reads every cell of every sheet; a number comes as a box, so that it can be told from text afterwards.
  const marks = { numbers: false, dates: false };
  try {
    // Only now: nothing else needs the library, and every command would wait for it.
    const { default: readWorkbook } = await import('read-excel-file/node');
    const read = await readWorkbook(Buffer.from(zipSync(parts.value.files, { level: 0 })), {
      parseNumber: (text: string) => new WrittenNumber(text),
    });
    const filled = read
      .map((s) => ({ name: s.sheet, rows: s.data }))
      .filter((s) => s.rows.some((r) => r.some((c) => c !== null)));
    const names = filled.map((s) => s.name);
    const chosen = wanted === undefined ? filled[0] : filled.find((s) => s.name === wanted);
    if (chosen === undefined) {
      const has = names.length === 0 ? 'no sheet with anything in it' : `the sheets ${names.join(', ')}`;
      return failed(
        intakeProblem('SHEET_UNKNOWN', `there is no sheet "${wanted ?? ''}"; the workbook has ${has}`, 'sheet'),
      );
    }
    const rows = chosen.rows.map((row) => row.map((cell) => cellText(cell, marks)));
    const notes = workbookNotes(parts.value.formulas, marks);
    return ok({ kind: 'xlsx', sheets: names, sheet: chosen.name, rows, text: null, notes });
  } catch (thrown) {
    const detail = thrown instanceof Error ? thrown.message.split('\n')[0] : String(thrown);
    return failed(
      intakeProblem('WORKBOOK_UNREADABLE', `the workbook cannot be read (${(detail ?? '').slice(0, 120)})`),
    );
  }
}

class WrittenNumber {
  constructor(readonly text: string) {}
}

function cellText(cell: unknown, marks: { numbers: boolean; dates: boolean }): string {
  if (cell === null || cell === undefined) return '';
  if (cell instanceof WrittenNumber) {
    marks.numbers = true;
    return tidyNumber(cell.text);
  }
  if (cell instanceof Date) {
    marks.dates = true;
    const iso = cell.toISOString();
    return iso.endsWith('T00:00:00.000Z') ? iso.slice(0, 10) : iso.slice(0, 16).replace('T', ' ');
  }
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  return String(cell);
}

/** Spreadsheets store 7.1 as 7.0999999999999996: fifteen figures are all that such a number carries. */
function tidyNumber(text: string): string {
  const n = Number(text);
  if (!Number.isFinite(n) || !/^-?\d+\.\d{9,}$|e/i.test(text)) return text;
  return String(Number(n.toPrecision(15)));
}

function workbookNotes(formulas: number, marks: { numbers: boolean; dates: boolean }): readonly string[] {
  return [
    ...(formulas > 0
      ? [
          `formulas in ${formulas} ${formulas === 1 ? 'cell' : 'cells'}: the value that stood there when it was saved is taken, nothing is worked out`,
        ]
      : []),
    ...(marks.numbers
      ? ['some cells are numbers: zeros that the sheet only shows (007, 7.10) are not in the file']
      : []),
    ...(marks.dates
      ? ['some cells are dates and are taken as text (2025-09-15); a part number may have become one']
      : []),
  ];
}

const UNREADABLE = (why: string) => failed(intakeProblem('WORKBOOK_UNREADABLE', `the workbook ${why}`));

/** The XML parts of the workbook, looked through. Pictures, macros and whatever else is in it are not unpacked. */
function workbookParts(bytes: Uint8Array): Result<Parts> {
  const zip = openZip(bytesInMemory(bytes), WORKBOOK_LIMITS);
  if (!zip.ok) return zip;
  const files: Record<string, Uint8Array> = Object.create(null) as Record<string, Uint8Array>;
  let formulas = 0;
  for (const entry of zip.value.entries) {
    if (!/^(xl\/.*\.(xml|xml\.rels)|\[Content_Types\]\.xml|_rels\/\.rels)$/.test(entry.shown)) continue;
    if (entry.notices.length > 0 || entry.shown in files)
      return UNREADABLE(`has a part with a strange or doubled name`);
    const got = zip.value.unpack(entry);
    if (!got.ok) return got;
    const text = Buffer.from(got.value.buffer, got.value.byteOffset, got.value.byteLength).toString('latin1');
    if (/<!(DOCTYPE|ENTITY)/i.test(text)) return UNREADABLE(`defines entities in ${entry.shown}`);
    // By content: a workbook may keep its sheets under any name.
    if (/<(\w+:)?sheetData/.test(text)) {
      const far = farthest(text);
      if (far === null) return UNREADABLE(`has cells whose places cannot be read in ${entry.shown}`);
      if (far.row > MOST_ROWS || far.column > MOST_COLUMNS)
        return failed(
          intakeProblem(
            'TABLE_TOO_LARGE',
            `a sheet reaches to row ${far.row} and column ${far.column}; at most ${MOST_ROWS} rows and ${MOST_COLUMNS} columns are read`,
          ),
        );
      formulas += text.match(/<(\w+:)?f[\s/>]/g)?.length ?? 0;
    }
    files[entry.shown] = got.value;
  }
  return 'xl/workbook.xml' in files ? ok({ files: { ...files }, formulas }) : UNREADABLE('has no list of sheets');
}

/** How far the cells of a sheet reach: one cell at XFD1048576 would be filled up to 17 thousand million. */
function farthest(xml: string): { readonly row: number; readonly column: number } | null {
  let row = 0;
  let column = 0;
  for (const [, place = ''] of xml.matchAll(/[\s"']r\s*=\s*["']([^"']*)["']/g)) {
    const [, letters, digits] = /^([A-Z]{0,3})(\d{1,7})$/.exec(place) ?? [];
    if (letters === undefined || digits === undefined) return null;
    row = Math.max(row, Number(digits));
    let n = 0;
    for (const letter of letters) n = n * 26 + letter.charCodeAt(0) - 64;
    column = Math.max(column, n);
  }
  const rows = xml.match(/<(\w+:)?row[\s/>]/g)?.length ?? 0;
  return { row: Math.max(row, rows), column };
}
