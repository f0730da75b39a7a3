/** What stands on a label and where, without a typesetter: inside its edges, the code at 6 mm, the QR code apart from ink. */
import { describe, expect, it } from 'vitest';
import { must } from '../../domain/result.ts';
import { drawLabel } from './draw-label.ts';
import { type Label, onOneLine, STICKER_KINDS, TAG_KINDS } from './label.ts';
import { LABEL_FORMS, readForm } from './label-form.ts';
import { placeLabels } from './place-labels.ts';
import type { Box, Mark } from './print-document.ts';

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
const KINDS = [...STICKER_KINDS, ...TAG_KINDS];
const madeAt = '2025-11-18T16:20:00+00:00';

function overlap(a: Box, b: Box): boolean {
  return a.x + a.w > b.x + 0.01 && b.x + b.w > a.x + 0.01 && a.y + a.h > b.y + 0.01 && b.y + b.h > a.y + 0.01;
}

describe('every kind on every form', () => {
  const cases = LABEL_FORMS.flatMap((form) => KINDS.map((kind) => ({ form, kind, name: `${kind} on ${form.name}` })));

  it.each(cases)('$name stays inside its edges, nothing lies on the QR code', ({ form, kind }) => {
    for (const hand of ['L', 'R', 'C', undefined] as const) {
      const { hand: _hand, ...one } = label({ kind, says: 'Finger-tight', who: 'Nadia', when: '18 Nov 2025' });
      const drawn = drawLabel(hand === undefined ? one : { ...one, hand }, { ...form.label, hole: form.hole });
      if (!drawn.ok) {
        const least = kind === 'hazard' ? 40 : 29;
        expect([drawn.problem.code, form.label.h < least]).toEqual(['LABEL_TOO_SMALL', true]);
        continue;
      }
      for (const m of drawn.value) {
        expect(m.x).toBeGreaterThanOrEqual(0);
        expect(m.y).toBeGreaterThanOrEqual(-0.01);
        expect(m.x + m.w, JSON.stringify(m)).toBeLessThanOrEqual(form.label.w + 0.01);
        expect(m.y + m.h, JSON.stringify(m)).toBeLessThanOrEqual(form.label.h + 0.01);
      }
      const qr = drawn.value.find((m) => m.kind === 'qr');
      expect(qr).toBeDefined();
      // Four of 29 modules are the quiet zone; other ink may touch the outer half of it and no more.
      const dark = inner(qr as Mark, (qr as Mark).w * (2 / 29));
      const others = drawn.value.filter((m) => m.kind !== 'qr' && overlap(m, dark));
      expect(others).toEqual([]);
    }
  });

  function inner(b: Box, by: number): Box {
    return { x: b.x + by, y: b.y + by, w: b.w - 2 * by, h: b.h - 2 * by };
  }
});

describe('a bag label', () => {
  it('has the code at 6 mm or more, the hand as a shape of 6 mm or more, the QR code of the id only', () => {
    for (const name of ['a4-24', 'roll-62x29', 'roll-62x100', 'tag-50x100', 'a4-12']) {
      const form = must(readForm({ form: name }));
      const marks = must(drawLabel(label(), { ...form.label, hole: form.hole }));
      const code = marks.find((m) => m.kind === 'text' && m.text === 'B105C');
      expect(code).toMatchObject({ face: 'num' });
      if (code?.kind === 'text') expect(Math.min(code.most, code.least)).toBeGreaterThanOrEqual(6);
      const hand = marks.find((m) => m.kind === 'hand');
      expect(Math.min(hand?.w ?? 0, hand?.h ?? 0)).toBeGreaterThanOrEqual(6);
      expect(marks.filter((m) => m.kind === 'qr').map((m) => (m as { text: string }).text)).toEqual(['B105C']);
      expect(marks.flatMap((m) => (m.kind === 'text' ? [m.text] : [])).join(' | ')).toContain('Invented example');
    }
  });

  it.each([
    ['20x10', 'LABEL_TOO_SMALL'],
    ['12x80', 'LABEL_TOO_SMALL'],
    ['40x12', 'LABEL_TOO_SMALL'],
  ])('on %s is refused rather than printed small', (form, code) => {
    const size = must(readForm({ form })).label;
    const drawn = drawLabel(label(), { ...size, hole: false });
    expect(drawn.ok ? 'drawn' : drawn.problem.code).toBe(code);
  });

  it('says nothing of an invention where the job is a real one, and shows no hand where none is known', () => {
    const { hand: _none, ...rest } = label({ invented: false });
    const marks = must(drawLabel(rest, { w: 62, h: 29, hole: false }));
    expect(marks.some((m) => m.kind === 'hand')).toBe(false);
    expect(JSON.stringify(marks)).not.toMatch(/Invented|STARBOARD|PORT/);
  });
});

describe('on sheets', () => {
  const form = must(readForm({ form: 'a4-24' }));
  const codes = Array.from({ length: 30 }, (_, i) => label({ id: `B${200 + i}X`.slice(0, 5) }));

  it('goes on after the labels that are used up, and to the next sheet', () => {
    const document = must(placeLabels(codes, form, { title: 't', madeAt, start: 6 }));
    expect(document.pages.map((p) => p.length)).toEqual([19, 11]);
    expect(document.pages[0]?.[0]).toMatchObject({ x: 7.25 + 2 * 66, y: 12.9 + 33.9 });
    expect(document.pages[1]?.[0]).toMatchObject({ x: 7.25, y: 12.9 });
  });

  it('labels of a sheet do not overlap', () => {
    const page = must(placeLabels(codes.slice(0, 24), form, { title: 't', madeAt })).pages[0] ?? [];
    const clashes = page.flatMap((a, i) => page.slice(i + 1).filter((b) => overlap(a, b)));
    expect([page.length, clashes]).toEqual([24, []]);
  });

  it.each([
    [0, 'LABEL_START'],
    [25, 'LABEL_START'],
    [1.5, 'LABEL_START'],
    [Number.NaN, 'LABEL_START'],
  ])('start %s is refused', (start, code) => {
    const placed = placeLabels(codes, form, { title: 't', madeAt, start });
    expect(placed.ok ? '' : placed.problem.code).toBe(code);
  });

  it('no label, or more than a print takes, is refused', () => {
    const none = placeLabels([], form, { title: 't', madeAt });
    const many = placeLabels(
      Array.from({ length: 501 }, () => label()),
      form,
      { title: 't', madeAt },
    );
    expect([none, many].map((p) => (p.ok ? '' : p.problem.code))).toEqual(['LABELS_NONE', 'LABELS_TOO_MANY']);
  });
});

it('control characters and marks that turn the reading direction do not reach a label', () => {
  expect(onOneLine('nut\u0000\n\tand\u202ebolt \u2067x\u2069')).toBe('nut andbolt x');
  expect([...onOneLine('x'.repeat(10_000))]).toHaveLength(400);
});
