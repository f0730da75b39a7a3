/**
 * Label forms: what the printer holds, by millimetres. A sheet of rows and columns, or a roll with one label to a page.
 * Named forms are a convenience; any stock can be given by its measures. Sizes of the named ones are common on the
 * market (common practice, no source).
 */
import { failed, ok, type Result } from '../../domain/result.ts';
import { labelProblem } from './label-problems.ts';
import type { Ink } from './print-document.ts';

export interface LabelForm {
  readonly name: string;
  readonly page: { readonly w: number; readonly h: number };
  readonly label: { readonly w: number; readonly h: number };
  readonly columns: number;
  readonly rows: number;
  /** From the left and upper edge of the page to the first label. */
  readonly margin: { readonly x: number; readonly y: number };
  readonly gap: { readonly x: number; readonly y: number };
  readonly ink: Ink;
  /** Stock for wire-on tags: room is left for the hole. */
  readonly hole: boolean;
}

/** A form as it comes from a person or a request; every field a text or number as given. */
export interface FormWords {
  readonly form: string;
  /** These belong to `sheet`: page 210x297, label 63.5x33.9, grid columns x rows 3x8, margin and gap x by y. */
  readonly page?: string;
  readonly label?: string;
  readonly grid?: string;
  readonly margin?: string;
  readonly gap?: string;
}

export const LARGEST_SIDE = 1_200;
export const MOST_ON_A_SHEET = 400;
const A4 = { w: 210, h: 297 };

function sheet(
  name: string,
  columns: number,
  rows: number,
  w: number,
  h: number,
  gapX: number,
  gapY: number,
): LabelForm {
  const margin = {
    x: tenth((A4.w - columns * w - (columns - 1) * gapX) / 2),
    y: tenth((A4.h - rows * h - (rows - 1) * gapY) / 2),
  };
  const gap = { x: gapX, y: gapY };
  return { name, page: A4, label: { w, h }, columns, rows, margin, gap, ink: 'colour', hole: false };
}

function roll(name: string, w: number, h: number, hole = false): LabelForm {
  const size = { w, h };
  const none = { x: 0, y: 0 };
  return { name, page: size, label: size, columns: 1, rows: 1, margin: none, gap: none, ink: 'black', hole };
}

function tenth(mm: number): number {
  return Math.round(mm * 100) / 100;
}

export const LABEL_FORMS: readonly LabelForm[] = [
  sheet('a4-24', 3, 8, 63.5, 33.9, 2.5, 0),
  sheet('a4-12', 2, 6, 99, 44, 3, 0),
  sheet('a4-4', 2, 2, 99, 139, 3, 3),
  { ...sheet('a4-tags-8', 4, 2, 48, 136, 2, 4), hole: true },
  roll('roll-50x25', 50, 25),
  roll('roll-62x29', 62, 29),
  roll('roll-62x100', 62, 100),
  roll('roll-100x62', 100, 62),
  roll('tag-50x100', 50, 100, true),
  roll('tag-60x120', 60, 120, true),
];

/** A named form, a size as `62x29` (a roll), or `sheet` with its measures. */
export function readForm(words: FormWords): Result<LabelForm> {
  const named = LABEL_FORMS.find((f) => f.name === words.form);
  if (named !== undefined) return ok(named);
  if (words.form === 'sheet') return readSheet(words);
  const size = readPair(words.form, 'form');
  if (size === null) {
    const names = LABEL_FORMS.map((f) => f.name).join(', ');
    return failed(labelProblem('FORM_UNKNOWN', `"${words.form.slice(0, 60)}" is none of ${names}, sheet`, 'form'));
  }
  return checkForm(roll(words.form, size[0], size[1]));
}

function readSheet(words: FormWords): Result<LabelForm> {
  const read = (key: 'page' | 'label' | 'grid' | 'margin' | 'gap', missing: string): readonly [number, number] =>
    readPair(words[key] ?? missing, key) ?? [Number.NaN, Number.NaN];
  const page = read('page', '210x297');
  const label = read('label', '');
  const grid = read('grid', '');
  const gap = read('gap', '0x0');
  const [columns, rows] = grid;
  const middle = (side: number, n: number, size: number, between: number) => (side - n * size - (n - 1) * between) / 2;
  const margin =
    words.margin === undefined
      ? ([middle(page[0], columns, label[0], gap[0]), middle(page[1], rows, label[1], gap[1])] as const)
      : read('margin', '');
  return checkForm({
    name: 'sheet',
    page: { w: page[0], h: page[1] },
    label: { w: label[0], h: label[1] },
    columns,
    rows,
    margin: { x: margin[0], y: margin[1] },
    gap: { x: gap[0], y: gap[1] },
    ink: 'colour',
    hole: false,
  });
}

/** `62x29`, also with a comma or a cross; null for what is no pair of numbers. */
function readPair(text: string, _where: string): readonly [number, number] | null {
  const hit = /^\s*(-?[\d.,]+)\s*(?:mm)?\s*[x×*]\s*(-?[\d.,]+)\s*(?:mm)?\s*$/i.exec(text);
  if (hit === null) return null;
  return [Number(hit[1]?.replace(',', '.')), Number(hit[2]?.replace(',', '.'))];
}

/** Refuses every measure that cannot be: one Problem, with the measure named. */
export function checkForm(form: LabelForm): Result<LabelForm> {
  const sizes = { page: form.page, label: form.label };
  for (const [where, size] of Object.entries(sizes)) {
    if (!isSide(size.w) || !isSide(size.h)) return badSize(where, `${size.w} x ${size.h} mm`);
  }
  if (![form.columns, form.rows].every((n) => Number.isInteger(n) && n >= 1))
    return badSize('grid', `${form.columns} columns x ${form.rows} rows`);
  if (form.columns * form.rows > MOST_ON_A_SHEET)
    return badSize('grid', `${form.columns * form.rows} labels on a sheet, at most ${MOST_ON_A_SHEET}`);
  const spaces = { gap: form.gap };
  for (const [where, s] of Object.entries(spaces))
    if (!isSpace(s.x) || !isSpace(s.y)) return badSize(where, `${s.x} x ${s.y} mm`);
  if (!Number.isFinite(form.margin.x) || !Number.isFinite(form.margin.y))
    return badSize('margin', `${form.margin.x} x ${form.margin.y} mm`);
  const needs = { w: reach(form, 'x'), h: reach(form, 'y') };
  if (form.margin.x < 0 || form.margin.y < 0 || needs.w > form.page.w + 0.01 || needs.h > form.page.h + 0.01) {
    const grid = `${form.columns} x ${form.rows} labels of ${mm(form.label.w)} x ${mm(form.label.h)} mm`;
    const sheetSize = `${mm(form.page.w)} x ${mm(form.page.h)} mm`;
    return failed(labelProblem('FORM_DOES_NOT_FIT', `${grid} do not fit on a sheet of ${sheetSize}`, 'form'));
  }
  return ok(form);
}

function reach(form: LabelForm, axis: 'x' | 'y'): number {
  const [n, size] = axis === 'x' ? [form.columns, form.label.w] : [form.rows, form.label.h];
  return form.margin[axis] + n * size + (n - 1) * form.gap[axis];
}

function isSide(mm: number): boolean {
  return Number.isFinite(mm) && mm > 0 && mm <= LARGEST_SIDE;
}

function isSpace(mm: number): boolean {
  return Number.isFinite(mm) && mm >= 0 && mm <= LARGEST_SIDE;
}

function mm(n: number): string {
  return String(tenth(n));
}

function badSize(where: string, found: string): Result<LabelForm> {
  return failed(labelProblem('FORM_SIZE', `${where} of the label form: ${found} cannot be printed`, where));
}
