/** Label forms: every named one fits its sheet, measures that cannot be give one Problem, free sheets are read as written. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { must } from '../../domain/result.ts';
import { checkForm, LABEL_FORMS, type LabelForm, readForm } from './label-form.ts';

const codeOf = (words: Parameters<typeof readForm>[0]) => {
  const read = readForm(words);
  return read.ok ? 'taken' : `${read.problem.code} ${read.problem.where}`;
};

describe('named forms', () => {
  it.each(LABEL_FORMS)('$name fits its sheet, the same margin on both sides', (form) => {
    expect(checkForm(form).ok).toBe(true);
    const right = form.page.w - form.margin.x - form.columns * form.label.w - (form.columns - 1) * form.gap.x;
    const below = form.page.h - form.margin.y - form.rows * form.label.h - (form.rows - 1) * form.gap.y;
    expect(right).toBeCloseTo(form.margin.x, 1);
    expect(below).toBeCloseTo(form.margin.y, 1);
  });

  it('sheets are A4: 210 x 297 mm', () => {
    const sheets = LABEL_FORMS.filter((f) => f.name.startsWith('a4-'));
    expect(sheets.length).toBeGreaterThan(2);
    for (const form of sheets) expect(form.page).toEqual({ w: 210, h: 297 }); // ISO 216, A4
  });
});

describe('free measures', () => {
  it.each(['57x32', '57 x 32', '57×32', '57mm x 32mm', '57*32', '57,0x32,0'])('%s is a roll', (form) => {
    expect(must(readForm({ form })).label).toEqual({ w: 57, h: 32 });
  });

  it('a sheet is centred where no margin is said', () => {
    const form = must(readForm({ form: 'sheet', grid: '2x7', label: '90x38', gap: '10x1' }));
    expect(form).toMatchObject({ columns: 2, rows: 7, margin: { x: 10, y: 12.5 }, page: { w: 210, h: 297 } });
  });

  it.each([
    [{ form: 'a4-25' }, 'FORM_UNKNOWN form'],
    [{ form: '' }, 'FORM_UNKNOWN form'],
    [{ form: '62' }, 'FORM_UNKNOWN form'],
    [{ form: '0x29' }, 'FORM_SIZE page'],
    [{ form: '-62x29' }, 'FORM_SIZE page'],
    [{ form: '62x99999' }, 'FORM_SIZE page'],
    [{ form: '6.2.1x29' }, 'FORM_SIZE page'],
    [{ form: 'sheet' }, 'FORM_SIZE label'],
    [{ form: 'sheet', label: '60x30' }, 'FORM_SIZE grid'],
    [{ form: 'sheet', label: '60x30', grid: '0x8' }, 'FORM_SIZE grid'],
    [{ form: 'sheet', label: '60x30', grid: '2.5x8' }, 'FORM_SIZE grid'],
    [{ form: 'sheet', label: '1x1', grid: '200x200' }, 'FORM_SIZE grid'],
    [{ form: 'sheet', label: '60xNaN', grid: '3x8' }, 'FORM_SIZE label'],
    [{ form: 'sheet', label: '60x30', grid: '3x8', gap: '-1x0' }, 'FORM_SIZE gap'],
    [{ form: 'sheet', label: '60x30', grid: '3x8', margin: 'wide' }, 'FORM_SIZE margin'],
    [{ form: 'sheet', label: '80x30', grid: '3x8' }, 'FORM_DOES_NOT_FIT form'],
    [{ form: 'sheet', label: '60x30', grid: '3x8', margin: '40x10' }, 'FORM_DOES_NOT_FIT form'],
    [{ form: 'sheet', label: '60x30', grid: '3x10' }, 'FORM_DOES_NOT_FIT form'],
  ])('%j is refused as %s', (words, code) => {
    expect(codeOf(words)).toBe(code);
  });

  it('whatever is written gives a form that fits, or one Problem', () => {
    const number = fc.oneof({ weight: 30, arbitrary: fc.integer({ min: 0, max: 12 }) }, fc.double());
    const pair = fc.tuple(number, number).map((p) => p.join('x'));
    const any = fc.oneof({ weight: 9, arbitrary: pair }, fc.string());
    let fitted = 0;
    fc.assert(
      fc.property(any, any, any, any, (label, grid, margin, gap) => {
        const read = readForm({ form: 'sheet', label, grid, margin, gap });
        if (!read.ok) {
          expect(read.problem.remedy.length).toBeGreaterThan(10);
          return;
        }
        fitted += 1;
        const form: LabelForm = read.value;
        const reach = form.margin.x + form.columns * form.label.w + (form.columns - 1) * form.gap.x;
        expect(reach).toBeLessThanOrEqual(form.page.w + 0.011);
      }),
      { numRuns: 3_000 },
    );
    expect(fitted).toBeGreaterThan(0);
  });
});
