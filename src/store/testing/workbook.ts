/**
 * For tests: a small XLSX workbook written by hand (ECMA-376 part 1, sections 18.2 to 18.4; part 2 for the package, from
 * memory), so that what is in it is known to the byte.
 */
import { strToU8, type Zippable, zipSync } from 'fflate';

export type Cell = string | number | null | { readonly xml: string };

export const TEXT_OF = {
  contentTypes:
    '<?xml version="1.0"?><Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="xml" ContentType="application/xml"/></Types>',
  rels: '<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>',
  styles:
    '<?xml version="1.0"?><styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><cellXfs count="2"><xf numFmtId="0"/><xf numFmtId="14" applyNumberFormat="1"/></cellXfs></styleSheet>',
} as const;

const escaped = (text: string): string =>
  text.replace(/[&<>]/g, (c) => (c === '&' ? '&amp;' : c === '<' ? '&lt;' : '&gt;'));

function cellXml(cell: Cell, place: string): string {
  if (cell === null) return '';
  if (typeof cell === 'object') return cell.xml.replace('<c', `<c r="${place}"`);
  if (typeof cell === 'number') return `<c r="${place}"><v>${cell}</v></c>`;
  return `<c r="${place}" t="inlineStr"><is><t xml:space="preserve">${escaped(cell)}</t></is></c>`;
}

export function sheetXml(rows: readonly (readonly Cell[])[]): string {
  const body = rows
    .map((row, r) => {
      const cells = row.map((cell, c) => cellXml(cell, `${String.fromCharCode(65 + c)}${r + 1}`)).join('');
      return `<row r="${r + 1}">${cells}</row>`;
    })
    .join('');
  return `<?xml version="1.0"?><worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>${body}</sheetData></worksheet>`;
}

export function workbookFiles(sheets: Readonly<Record<string, readonly (readonly Cell[])[]>>): Record<string, string> {
  const names = Object.keys(sheets);
  const list = names.map((n, i) => `<sheet name="${escaped(n)}" sheetId="${i + 1}" r:id="rId${i + 1}"/>`).join('');
  const type = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
  const rels = names
    .map((_, i) => `<Relationship Id="rId${i + 1}" Type="${type}/worksheet" Target="worksheets/sheet${i + 1}.xml"/>`)
    .join('');
  return {
    '[Content_Types].xml': TEXT_OF.contentTypes,
    '_rels/.rels': TEXT_OF.rels,
    'xl/workbook.xml': `<?xml version="1.0"?><workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="${type}"><sheets>${list}</sheets></workbook>`,
    'xl/_rels/workbook.xml.rels': `<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${rels}<Relationship Id="rId99" Type="${type}/styles" Target="styles.xml"/></Relationships>`,
    'xl/styles.xml': TEXT_OF.styles,
    ...Object.fromEntries(names.map((n, i) => [`xl/worksheets/sheet${i + 1}.xml`, sheetXml(sheets[n] ?? [])])),
  };
}

export function packWorkbook(files: Readonly<Record<string, string>>): Uint8Array {
  const parts: Zippable = {};
  for (const [name, text] of Object.entries(files)) parts[name] = strToU8(text);
  return zipSync(parts);
}

export function workbook(sheets: Readonly<Record<string, readonly (readonly Cell[])[]>>): Uint8Array {
  return packWorkbook(workbookFiles(sheets));
}
