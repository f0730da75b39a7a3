/**
 * What the bench must read. The list of tokens is the contract of the bench (its "unit tokens read"); exact figures are
 * products of the definitions of inch, pound and standard gravity.
 */
import { describe, expect, it } from 'vitest';
import { must } from '../result.ts';
import type { Kind } from './kinds.ts';
import { figuresIn } from './quantity.ts';
import { parseQuantity, parseReading } from './quantity-read.ts';

describe('every unit token of the bench', () => {
  it.each<[string, Kind, number]>([
    ['1 mm', 'length', 0.001],
    ['1 cm', 'length', 0.01],
    ['1 m', 'length', 1],
    ['1 µm', 'length', 1e-6],
    ['1 μm', 'length', 1e-6],
    ['1 um', 'length', 1e-6],
    ['1 in', 'length', 0.0254],
    ['1 thou', 'length', 0.0000254],
    ['1 ft', 'length', 0.3048],
    ['1 N', 'force', 1],
    ['1 kN', 'force', 1000],
    ['1 kgf', 'force', 9.80665],
    ['1 lbf', 'force', 4.4482216152605],
    ['1 Pa', 'pressure', 1],
    ['1 kPa', 'pressure', 1e3],
    ['1 MPa', 'pressure', 1e6],
    ['1 GPa', 'pressure', 1e9],
    ['1 bar', 'pressure', 1e5],
    ['1 psi', 'pressure', 6894.757293168361],
    ['1 ksi', 'pressure', 6894757.293168361],
    ['1 kpsi', 'pressure', 6894757.293168361],
    ['1 N/mm^2', 'pressure', 1e6],
    ['1 N/mm²', 'pressure', 1e6],
    ['1 N/mm2', 'pressure', 1e6],
    ['1 N.m', 'torque', 1],
    ['1 N·m', 'torque', 1],
    ['1 N m', 'torque', 1],
    ['1 N.mm', 'torque', 1e-3],
    ['1 lbf.in', 'torque', 0.1129848290276167],
    ['1 in-lb', 'torque', 0.1129848290276167],
    ['1 ft-lbf', 'torque', 1.3558179483314003],
    ['1 ft·lbf', 'torque', 1.3558179483314003],
    ['1 N/mm', 'stiffness', 1000],
    ['1 N/m', 'stiffness', 1],
    ['1 lbf/in', 'stiffness', 175.1268352464764],
    ['1 J', 'energy', 1],
    ['1 kg', 'mass', 1],
    ['1 g', 'mass', 0.001],
    ['1 lb', 'mass', 0.45359237],
    ['1 slug', 'mass', 14.593902937206366],
    ['1 kg/m^3', 'density', 1],
    ['1 slug/ft^3', 'density', 515.3788183931961],
    ['180 deg', 'angle', Math.PI],
    ['180°', 'angle', Math.PI],
    ['1 rad', 'angle', 1],
    ['60 rpm', 'rotation', 1],
    ['60 1/min', 'rotation', 1],
    ['1 ft/s', 'speed', 0.3048],
    ['1 m/s', 'speed', 1],
    ['1 lbf/ft^2', 'pressure', 47.88025898033584],
    ['20 degC', 'temperature', 293.15],
    ['68 degF', 'temperature', 293.15],
    ['20 °C', 'temperature', 293.15],
    ['1 mm^2', 'area', 1e-6],
    ['1 in^2', 'area', 0.00064516],
    ['1 in²', 'area', 0.00064516],
    ['1 mm^4', 'second-moment', 1e-12],
    ['1 in^3', 'volume', 0.000016387064],
    ['1 1/in', 'per-length', 1 / 0.0254],
    ['28 tpi', 'per-length', 28 / 0.0254],
    ['1 A', 'current', 1],
    ['1 V', 'voltage', 1],
    ['1 h', 'time', 3600],
    ['1 min', 'time', 60],
    ['1 s', 'time', 1],
    ['300 A/in', 'current-per-length', 300 / 0.0254],
    ['1 kg.m^2', 'inertia', 1],
    ['32.174 ft/s^2', 'acceleration', 32.174 * 0.3048],
    ['40 lb/ft2', 'pressure', 40 * 47.88025898033584],
    ['1 lb/in', 'stiffness', 175.1268352464764],
  ])('%s is a %s', (text, kind, si) => {
    const q = must(parseQuantity(text));
    expect(q.kind).toBe(kind);
    expect(Math.abs(q.si / si - 1)).toBeLessThan(1e-14);
  });

  it('keeps torque and energy apart', () => {
    expect(must(parseQuantity('25 ft·lbf', { kind: 'energy' })).si).toBeCloseTo(33.895448708, 8);
    const r = parseQuantity('25 N.m', { kind: 'energy' });
    expect(r.ok ? null : r.problem.code).toBe('QUANTITY_WRONG_KIND');
    expect(r.ok ? '' : r.problem.remedy).toContain('write J');
    expect(parseQuantity('25 J', { kind: 'torque' }).ok).toBe(false);
    expect(parseQuantity('25 kN.mm', { kind: 'energy' }).ok).toBe(false);
    expect(must(parseQuantity('2 kgf.m', { kind: 'energy' })).si).toBeCloseTo(19.6133, 10);
    expect(must(parseQuantity('2 W.s')).kind).toBe('energy');
  });

  it('keeps temperatures and their differences apart', () => {
    expect(must(parseQuantity('10 degC', { kind: 'temperature-difference' })).si).toBe(10);
    expect(must(parseQuantity('20 degC ± 2 K')).plusMinus).toBe(2);
    expect(must(parseQuantity('68 ± 9 degF')).plusMinus).toBe(5);
  });
});

describe('figures as people write them', () => {
  it.each<[string, number]>([
    ['12.5 mm', 12.5],
    ['3/8 in', 9.525],
    ['1 1/4 in', 31.75],
    ['1-1/4 in', 31.75],
    ['1¼ in', 31.75],
    ['½″', 12.7],
    ['3/8"', 9.525],
    ['3⁄8 in', 9.525],
    ['.5 in', 12.7],
    ['12,5 mm', 12.5],
    ['0,125 mm', 0.125],
    ['1 080 mm', 1080],
    ['12\u2009345.5 mm', 12345.5],
    ['1,080.5 mm', 1080.5],
    ['1.080,5 mm', 1080.5],
    ['1,234,567 mm', 1234567],
    ['1.234.567 mm', 1234567],
    ['1.2e1 mm', 12],
    ['1.2×10^1 mm', 12],
    ['120·10⁻¹ mm', 12],
    ['−3/8 in', -9.525],
    ['-1 1/4 in', -31.75],
    ['12.5mm', 12.5],
    ['5 ft 3 in', 1600.2],
    ['5′ 3 1/2″', 1612.9],
    ['3.406 mm', 3.406],
    ['+12.5 mm', 12.5],
    ['12.5  millimetres', 12.5],
    ['1/64 in', 0.396875],
    ['3/8-in', 9.525],
  ])('%s', (text, mm) => {
    const q = must(parseQuantity(text, { kind: 'length' }));
    expect(must(figuresIn(q, 'mm')).value).toBeCloseTo(mm, 10);
  });

  it('gives the nearest double to the exact metres for inch fractions', () => {
    for (let n = 1; n <= 64; n++) expect(must(parseQuantity(`${n}/64 in`)).si).toBe((n * 396875) / 1e9);
  });

  it.each<[string, number, number]>([
    ['0.4375 in +/- 0.0005 in', 11.1125, 0.0127],
    ['12 ± 0.1 mm', 12, 0.1],
    ['12 mm ± 0.1 mm', 12, 0.1],
    ['12 mm ± 0.1', 12, 0.1],
    ['12 mm ± 50 µm', 12, 0.05],
    ['(12 ± 0.1) mm', 12, 0.1],
    ['12+-0.1mm', 12, 0.1],
    ['1 1/4 in ± 1/64 in', 31.75, 0.396875],
    ['200 mm ± 1 %', 200, 2],
    ['−12 mm ± 1 %', -12, 0.12],
    ['12 ± 0 mm', 12, 0],
  ])('%s carries its doubt', (text, mm, doubt) => {
    const f = must(figuresIn(must(parseQuantity(text)), 'mm'));
    expect(f.value).toBeCloseTo(mm, 10);
    expect(f.plusMinus).toBeCloseTo(doubt, 10);
  });

  it('reads objects and bare figures in the unit that is agreed', () => {
    expect(must(parseQuantity({ value: 12.5, unit: 'mm', plusMinus: 0.02 }))).toEqual({
      kind: 'length',
      si: 0.0125,
      unit: 'mm',
      plusMinus: 0.00002,
    });
    expect(must(parseQuantity({ value: '3/8', unit: 'in' })).si).toBe(0.009525);
    expect(must(parseQuantity(12.5, { unit: 'mm' }))).toEqual({ kind: 'length', si: 0.0125, unit: 'mm' });
    expect(must(parseQuantity('12.5', { unit: 'mm', kind: 'length' })).unit).toBe('mm');
    expect(must(parseQuantity('12.5 ± 0.5', { unit: 'mm' })).plusMinus).toBe(0.0005);
    expect(must(parseQuantity('0.5 in', { unit: 'mm' })).si).toBe(0.0127);
    expect(must(parseQuantity(0.3, { kind: 'number' })).unit).toBe('1');
    expect(must(parseQuantity('35° 30′', { kind: 'angle' })).si).toBeCloseTo((35.5 * Math.PI) / 180, 12);
    expect(must(parseQuantity('4 h 10 min')).si).toBe(15000);
  });

  it('keeps the text as written beside SI', () => {
    const r = must(parseReading(' 3/8 in ', { kind: 'length' }));
    expect(r.written).toBe(' 3/8 in ');
    expect(r.quantity.si).toBe(0.009525);
  });
});

describe('marks are never guessed', () => {
  it('asks where a comma can be either', () => {
    const r = parseQuantity('1,080 kg');
    expect(r.ok ? null : r.problem).toEqual({
      code: 'NUMBER_AMBIGUOUS',
      message: '"1,080" can be 1.080 or 1080.',
      remedy: 'Write 1080 for the large reading, or 1.0800 for the small one.',
    });
    expect(must(parseQuantity('1.0800 kg')).si).toBe(1.08);
  });

  it('asks about hours run such as the German 3.406', () => {
    const r = parseQuantity('3.406 h');
    expect(r.ok ? null : r.problem.code).toBe('NUMBER_AMBIGUOUS');
    expect(r.ok ? '' : r.problem.message).toContain('3406');
    expect(parseQuantity('3.406', { unit: 'h' }).ok).toBe(false);
    expect(parseQuantity('3.406').ok).toBe(false);
    expect(must(parseQuantity('3.406 h', { decimal: 'comma' })).si).toBe(3406 * 3600);
    expect(must(parseQuantity('3406 h')).si).toBe(3406 * 3600);
    expect(must(parseQuantity('3.5 h')).si).toBe(3.5 * 3600);
    expect(must(parseQuantity('3,406 mm', { decimal: 'comma' })).si).toBeCloseTo(0.003406, 15);
    expect(parseQuantity('3.406 mm', { decimal: 'ask' }).ok).toBe(false);
  });
});

describe('bad input gets one clear Problem', () => {
  it.each<[unknown, Kind | undefined, string]>([
    ['', undefined, 'QUANTITY_EMPTY'],
    ['   ', undefined, 'QUANTITY_EMPTY'],
    [null, undefined, 'QUANTITY_EMPTY'],
    [undefined, undefined, 'QUANTITY_EMPTY'],
    [[1], undefined, 'QUANTITY_EMPTY'],
    [true, undefined, 'QUANTITY_EMPTY'],
    ['mm', undefined, 'QUANTITY_UNREADABLE'],
    ['about 12 mm', undefined, 'QUANTITY_UNREADABLE'],
    ['1.2.3 mm', undefined, 'QUANTITY_UNREADABLE'],
    ['1,08,5.2 mm', undefined, 'QUANTITY_UNREADABLE'],
    ['12 ± 1 ± 2 mm', undefined, 'QUANTITY_UNREADABLE'],
    ['12 ± mm', undefined, 'QUANTITY_UNREADABLE'],
    ['9'.repeat(300), undefined, 'QUANTITY_UNREADABLE'],
    ['5 ft 13 in', undefined, 'QUANTITY_UNREADABLE'],
    ['5.5 ft 3 in', undefined, 'QUANTITY_UNREADABLE'],
    [{ value: '3/8 in', unit: 'in' }, undefined, 'QUANTITY_UNREADABLE'],
    [{ value: 1, unit: 'mm', plusMinus: '1' }, undefined, 'QUANTITY_UNREADABLE'],
    [{ value: 1, unit: 'mm', doubt: 2 }, undefined, 'QUANTITY_UNKNOWN_KEY'],
    [{ unit: 'mm' }, undefined, 'QUANTITY_UNKNOWN_KEY'],
    ['1/0 in', undefined, 'FRACTION_BY_ZERO'],
    ['1 1/0 in', undefined, 'FRACTION_BY_ZERO'],
    ['12 furlongs', undefined, 'UNIT_UNKNOWN'],
    ['12 N/m/s', undefined, 'UNIT_UNKNOWN'],
    ['12 N/m.s', undefined, 'UNIT_UNKNOWN'],
    ['12 mm^9', undefined, 'UNIT_UNKNOWN'],
    ['12 degC/m', undefined, 'UNIT_UNKNOWN'],
    ['12 constructor', undefined, 'UNIT_UNKNOWN'],
    ['12 kg.kg', undefined, 'UNIT_UNKNOWN'],
    [{ value: 1, unit: 7 }, undefined, 'UNIT_UNKNOWN'],
    ['5 gal', undefined, 'UNIT_AMBIGUOUS'],
    ['3 mil', undefined, 'UNIT_AMBIGUOUS'],
    ['12', 'length', 'UNIT_MISSING'],
    [12, 'length', 'UNIT_MISSING'],
    ['12 ± 1 %', 'length', 'UNIT_MISSING'],
    ['12 N', 'length', 'QUANTITY_WRONG_KIND'],
    ['12 lb', 'force', 'QUANTITY_WRONG_KIND'],
    ['12 mm ± 1 N', 'length', 'QUANTITY_WRONG_KIND'],
    ['12 kgf', 'mass', 'QUANTITY_WRONG_KIND'],
    [Number.NaN, 'number', 'NUMBER_NOT_FINITE'],
    [Number.POSITIVE_INFINITY, 'number', 'NUMBER_NOT_FINITE'],
    ['NaN mm', undefined, 'NUMBER_NOT_FINITE'],
    ['-Infinity mm', undefined, 'NUMBER_NOT_FINITE'],
    ['1e999 mm', undefined, 'NUMBER_NOT_FINITE'],
    ['1e-999 mm', undefined, 'NUMBER_NOT_FINITE'],
    [{ value: 1, unit: 'mm', plusMinus: Number.NaN }, undefined, 'NUMBER_NOT_FINITE'],
    ['1e308 km', undefined, 'QUANTITY_TOO_LARGE'],
    ['1e308 GPa', undefined, 'QUANTITY_TOO_LARGE'],
    ['1 ± 1e308 km', undefined, 'QUANTITY_TOO_LARGE'],
    ['12 ± -0.1 mm', undefined, 'DOUBT_NEGATIVE'],
    [{ value: 1, unit: 'mm', plusMinus: -1 }, undefined, 'DOUBT_NEGATIVE'],
    ['-300 degC', undefined, 'BELOW_ABSOLUTE_ZERO'],
    ['1,080 kg', undefined, 'NUMBER_AMBIGUOUS'],
    ['50 ± 2 %', 'number', 'NUMBER_AMBIGUOUS'],
  ])('%s (%s): %s', (given, kind, code) => {
    const r = parseQuantity(given, { ...(kind ? { kind } : {}), where: 'inputs.d' });
    expect(r.ok ? r.value : r.problem.code).toBe(code);
    if (r.ok) return;
    expect(r.problem.where).toBe('inputs.d');
    expect(r.problem.message.length).toBeGreaterThan(10);
    expect(r.problem.remedy.length).toBeGreaterThan(10);
    expect(`${r.problem.message} ${r.problem.remedy}`).not.toMatch(/\b(error|invalid|please|safe)\b/i);
  });

  it('names the nearest units', () => {
    const near = (text: string): string => {
      const r = parseQuantity(text);
      return r.ok ? '' : r.problem.remedy;
    };
    expect(near('12 mmm')).toMatch(/^Nearest in the list: mm/);
    expect(near('12 Mm')).toContain('mm');
    expect(near('12 KN')).toMatch(/: kN/);
    expect(near('12 lbfin')).toContain('lbf.in');
    expect(near('12 sluggs')).toContain('slug');
  });

  it('1e308 mm is large but can be held', () => {
    expect(must(parseQuantity('1e308 mm')).si).toBeCloseTo(1e305, -292);
  });
});
