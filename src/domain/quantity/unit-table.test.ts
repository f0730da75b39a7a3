/**
 * Factors against published figures and against a general library.
 *
 * Published: NIST SP 811 (2008), appendix B.8 and B.9, "factors for units listed alphabetically" (figures from memory,
 * widely reprinted; those in bold there are exact); BIPM SI brochure, 9th edition, table 8 (from memory). mathjs 15.2 is
 * the oracle where it is right: it does not know ksi, rpm, slug or thou, refuses `1/4 in` and `ft-lbf`, takes `in` after
 * a unit for its conversion operator, and its psi is off by 6e-11 and its kip by 3e-9 (both rounded in its table), so those are compared with the exact products.
 */
import { all, create } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { must } from '../result.ts';
import { KINDS } from './kinds.ts';
import { convertFigure } from './quantity.ts';
import { toNumber } from './ratio.ts';
import { readUnit, unitLabel } from './unit-read.ts';
import { AMBIGUOUS_UNITS, NAMED_UNITS } from './unit-table.ts';

const math = create(all ?? {});

const INCH = 0.0254;
const POUND = 0.45359237;
const G = 9.80665;

describe('units by name', () => {
  it.each([
    // [unit, SI unit, factor, relative tolerance]; tolerance 1e-15 where the figure is exact or a product of exact ones
    ['in', 'm', INCH, 1e-15], // NIST SP 811 B.8: 2.54 E-02, exact
    ['lb', 'kg', POUND, 1e-15], // NIST SP 811 B.8: 4.535 923 7 E-01, exact
    ['lbf', 'N', 4.4482216152605, 1e-15], // NIST SP 811: 4.448 222; exact product
    ['psi', 'Pa', 6894.757293168, 1e-12], // exact product to 13 figures; SP 811: 6.894 757 E+03
    ['ft.lbf', 'N.m', 1.3558179483314, 1e-14], // exact product; SP 811: 1.355 818
    ['lbf.in', 'N.m', 0.1129848290276167, 1e-14], // SP 811: 1.129 848 E-01
    ['slug', 'kg', 14.5939, 1e-6], // SP 811: 1.459 390 E+01
    ['slug/ft^3', 'kg/m^3', 515.3788, 1e-7], // SP 811: 5.153 788 E+02
    ['ksi', 'Pa', 6.894757e6, 1e-7], // SP 811: 6.894 757 E+06
    ['tsi', 'Pa', 15.44426e6, 1e-6], // 1 UK tonf/in^2 = 15.444 3 MPa, BS 350 (from memory); 2240 psi
    ['psf', 'Pa', 47.88026, 1e-7], // SP 811: 4.788 026 E+01
    ['kgf', 'N', 9.80665, 1e-15], // SP 811: 9.806 65, exact
    ['UK tonf', 'N', 9964.016, 1e-7], // SP 811: ton-force (long) is 2240 lbf
    ['oz', 'kg', 0.02834952, 1e-6], // SP 811: 2.834 952 E-02
    ['UK ton', 'kg', 1016.047, 1e-6], // SP 811: 1.016 047 E+03
    ['US gal', 'm^3', 3.785412e-3, 1e-7], // SP 811: 3.785 412 E-03
    ['imp gal', 'm^3', 4.54609e-3, 1e-15], // SP 811: exact
    ['hp', 'W', 745.6999, 1e-7], // SP 811: 550 ft.lbf/s, 7.456 999 E+02
    ['PS', 'W', 735.49875, 1e-9], // SP 811: metric horsepower 7.354 988 E+02; 75 kgf.m/s
    ['mph', 'm/s', 0.44704, 1e-15], // SP 811: exact
    ['kt', 'm/s', 0.5144444, 1e-6], // SP 811: 5.144 444 E-01
    ['inHg', 'Pa', 3386.389, 1e-6], // SP 811: conventional inch of mercury 3.386 389 E+03
    ['mmHg', 'Pa', 133.3224, 1e-6], // SP 811: 1.333 224 E+02
    ['atm', 'Pa', 101325, 1e-15], // SP 811: exact
    ['bar', 'Pa', 1e5, 1e-15], // SI brochure, table 8
    ['deg', 'rad', 0.017453292519943295, 1e-15], // SI brochure: pi/180
    ['arcsec', 'rad', 4.848137e-6, 1e-6], // SP 811: 4.848 137 E-06
    ['rpm', 'rad/s', 0.1047198, 1e-6], // SP 811: 1.047 198 E-01
    ['lbf/in', 'N/m', 175.1268, 1e-6], // SP 811: 1.751 268 E+02
    ['ft/s', 'm/s', 0.3048, 1e-15], // SP 811: exact
    ['thou', 'um', 25.4, 1e-15], // SP 811: mil 2.54 E-05 m, exact
    ['nmi', 'm', 1852, 1e-15], // SI brochure
    ['tpi', '1/m', 1 / INCH, 1e-15],
  ])('1 %s is the published figure in %s', (unit, si, factor, tolerance) => {
    const got = must(convertFigure(1, unit, si));
    expect(Math.abs(got / factor - 1)).toBeLessThanOrEqual(tolerance + 4 * Number.EPSILON);
  });

  it('agrees with products of the three definitions', () => {
    expect(must(convertFigure(1, 'lbf', 'N'))).toBe(POUND * G);
    expect(must(convertFigure(1, 'slug', 'kg'))).toBeCloseTo((POUND * G) / (12 * INCH), 12);
    expect(must(convertFigure(1, 'ft-lbf', 'lbf.in'))).toBe(12);
    expect(must(convertFigure(1, 'kpsi', 'ksi'))).toBe(1);
  });

  // Names that mathjs knows under its own spelling and converts rightly.
  it.each([
    ['in', 'inch', 'm'],
    ['ft', 'ft', 'm'],
    ['yd', 'yard', 'm'],
    ['mi', 'mile', 'm'],
    ['um', 'um', 'm'],
    ['thou', 'mil', 'm'],
    ['lb', 'lbm', 'kg'],
    ['oz', 'oz', 'kg'],
    ['g', 'g', 'kg'],
    ['t', 'tonne', 'kg'],
    ['lbf', 'lbf', 'N'],
    ['kN', 'kN', 'N'],
    ['kgf', 'kgf', 'N'],
    ['bar', 'bar', 'Pa'],
    ['kPa', 'kPa', 'Pa'],
    ['GPa', 'GPa', 'Pa'],
    ['atm', 'atm', 'Pa'],
    ['h', 'hour', 's'],
    ['min', 'minute', 's'],
    ['d', 'day', 's'],
    ['kW', 'kW', 'W'],
    ['kJ', 'kJ', 'J'],
    ['W.h', 'W h', 'J'],
    ['hp', 'hp', 'W'],
    ['deg', 'deg', 'rad'],
    ['arcmin', 'arcmin', 'rad'],
    ['mA', 'mA', 'A'],
    ['kV', 'kV', 'V'],
    ['in^2', 'inch^2', 'm^2'],
    ['in^3', 'inch^3', 'm^3'],
    ['ft.lbf', 'ft lbf', 'N m'],
    ['N/mm^2', 'N/mm^2', 'Pa'],
    ['lbf/in', 'lbf/inch', 'N/m'],
    ['kg/m^3', 'kg/m^3', 'kg/m^3'],
    ['L', 'litre', 'm^3'],
  ])('1 %s is what mathjs gives for %s', (ours, theirs, si) => {
    const oracle = math.unit(1, theirs).toNumber(si);
    const got = must(convertFigure(1, ours, si.replace(' ', '.')));
    // 1e-9: some of the library's factors are rounded at ten figures (its hp is 745.6998715386).
    expect(Math.abs(got / oracle - 1)).toBeLessThan(1e-9);
  });

  it('has thermometers right at the fixed points', () => {
    expect(must(convertFigure(0, 'degC', 'K'))).toBe(273.15);
    expect(must(convertFigure(212, 'degF', 'degC'))).toBeCloseTo(100, 10);
    expect(must(convertFigure(-40, 'degF', 'degC'))).toBeCloseTo(-40, 10);
    expect(must(convertFigure(9, 'degF', 'K', 'temperature-difference'))).toBe(5);
    expect(must(convertFigure(375, 'degF', 'degC'))).toBeCloseTo(math.unit(375, 'degF').toNumber('degC'), 9);
  });

  it('names every unit once, with at least sixty of them', () => {
    const names = NAMED_UNITS.flatMap((u) => [u.symbol, ...u.also]);
    expect(new Set(names).size).toBe(names.length);
    expect(names.filter((n) => Object.hasOwn(AMBIGUOUS_UNITS, n))).toEqual([]);
    expect(NAMED_UNITS.length).toBeGreaterThan(60);
  });

  it('reads every name and every symbol it stores as the same unit, also as printed', () => {
    for (const u of NAMED_UNITS)
      for (const name of [u.symbol, ...u.also, unitLabel(u.symbol) || '1']) {
        const m = must(readUnit(name));
        expect(m.symbol).toBe(u.symbol);
        expect(m.readings[0].kind).toBe(u.kind);
        expect(toNumber(m.readings[0].scale)).toBe(toNumber(u.scale));
      }
  });

  it('has a coherent SI unit for every kind', () => {
    for (const [kind, entry] of Object.entries(KINDS)) {
      const reading = must(readUnit(entry.unit)).readings.find((r) => r.kind === kind);
      expect(reading && toNumber(reading.scale)).toBe(1);
    }
  });

  it('keeps ambiguous names apart and offers only units that it reads', () => {
    for (const [name, choices] of Object.entries(AMBIGUOUS_UNITS)) {
      const r = readUnit(name);
      expect(r.ok ? null : r.problem.code).toBe('UNIT_AMBIGUOUS');
      for (const c of choices) expect(readUnit(c).ok).toBe(true);
    }
  });
});
