/**
 * Quantities for the eye and for the file.
 *
 * For the eye: figure, thin space, unit; the doubt decides how many digits are shown, one digit of it, two where it
 * begins with a 1 (so that rounding never changes it by more than about a quarter). For the file: the shortest decimal
 * that reads back to exactly the same SI figure. Not chosen: a fixed count of decimals, which claims microns for a
 * tape measure.
 */
import { must } from '../result.ts';
import { KINDS } from './kinds.ts';
import { type Figures, figuresIn, fromSi, type Quantity, readingFor, toSi } from './quantity.ts';
import { ONE, overRatio, scaled } from './ratio.ts';
import { unitLabel } from './unit-read.ts';

export const THIN_SPACE = '\u2009';

export interface FormatOptions {
  /** Shown in this unit of the same kind; absent: the unit in which it was written. */
  readonly unit?: string;
  /** Significant digits where there is no doubt to decide; 4 where nothing is said. */
  readonly digits?: number;
  /** Plain ASCII for files and terminals that cannot show more. */
  readonly ascii?: boolean;
}

/** Decimals that a doubt allows: 0.0005 -> 4, 0.14 -> 2, 9 -> 0, 120 -> -1. */
export function decimalsFor(plusMinus: number): number {
  const [mantissa = '1', exponent = '0'] = plusMinus.toExponential(1).split('e');
  return -Number(exponent) + (mantissa.startsWith('1') ? 1 : 0);
}

function roundedTo(value: number, decimals: number): string {
  if (decimals > 20) return value.toExponential(3);
  if (decimals >= 0) return value.toFixed(decimals);
  const step = 10 ** -decimals;
  return (Math.round(value / step) * step).toFixed(0);
}

/** Thousands by thin spaces from five digits on; a mark could be taken for a decimal. */
function grouped(figure: string, ascii: boolean): string {
  if (ascii || figure.includes('e')) return figure;
  const [whole = '', ...decimals] = figure.split('.');
  const digits = whole.replace('-', '');
  const spaced = digits.length < 5 ? whole : whole.replace(/\B(?=(\d{3})+$)/g, THIN_SPACE);
  return [spaced, ...decimals].join('.');
}

function minus(figure: string, ascii: boolean): string {
  const zero = /^-0(?:\.0*)?$/.test(figure);
  return zero ? figure.slice(1) : ascii ? figure : figure.replace(/^-/, '\u2212');
}

/** A figure alone: `12.50`, `1 080`, `−29.4`. */
export function formatFigure(
  value: number,
  options: { readonly decimals?: number; readonly digits?: number; readonly ascii?: boolean } = {},
): string {
  const ascii = options.ascii ?? false;
  const size = Math.abs(value);
  if (options.decimals !== undefined && size < 1e15)
    return minus(grouped(roundedTo(value, options.decimals), ascii), ascii);
  const digits = options.digits ?? 4;
  const short = Number(value.toPrecision(digits));
  const far = short !== 0 && (Math.abs(short) >= 1e7 || Math.abs(short) < 1e-4);
  return minus(grouped(far ? short.toExponential() : String(short), ascii), ascii);
}

function labelled(figure: string, symbol: string, ascii: boolean): string {
  const label = ascii ? (symbol === '1' ? '' : symbol) : unitLabel(symbol);
  if (label === '') return figure;
  // The degree sign of an angle stands close; every other unit after a thin space.
  return label === '°' ? `${figure}°` : `${figure}${ascii ? ' ' : THIN_SPACE}${label}`;
}

/** `50 ± 2 %` could be two hundredths of fifty; in brackets the unit is that of both. */
function isShared(symbol: string): boolean {
  return symbol === '%';
}

/** For people: `12.50 ± 0.02 mm`, `9 ± 3°`, `1 080 kg`. */
export function formatQuantity(q: Quantity, options: FormatOptions = {}): string {
  const ascii = options.ascii ?? false;
  const f: Figures = must(figuresIn(q, options.unit));
  if (f.plusMinus === undefined || f.plusMinus === 0) {
    const figure = formatFigure(f.value, options.digits === undefined ? { ascii } : { digits: options.digits, ascii });
    return labelled(figure, f.unit, ascii);
  }
  const decimals = decimalsFor(f.plusMinus);
  const figure = formatFigure(f.value, { decimals, ascii });
  const doubt = formatFigure(f.plusMinus, { decimals, ascii });
  const both = `${figure} ${ascii ? '+/-' : '±'} ${doubt}`;
  return labelled(isShared(f.unit) ? `(${both})` : both, f.unit, ascii);
}

/** A figure in `unit` that reads back to exactly this SI figure, or null where no double nearby does. */
function exactFigure(si: number, value: number, back: (x: number) => number): number | null {
  if (back(value) === si) return value;
  const step = Math.max(Math.abs(value), Number.MIN_VALUE) * Number.EPSILON;
  for (let i = 1; i <= 8; i++)
    for (const near of [value + (i * step) / 2, value - (i * step) / 2]) if (back(near) === si) return near;
  return null;
}

/** For the file: `parseQuantity(printQuantity(q))` is q to the last bit (in the SI unit where its own cannot say it). */
export function printQuantity(q: Quantity): string {
  const text = (unit: string): string | null => {
    const { symbol, reading } = must(readingFor(unit, q.kind));
    const value = exactFigure(q.si, fromSi(q.si, reading), (x) => toSi(x, reading));
    const down = overRatio(ONE, reading.scale);
    const doubt =
      q.plusMinus === undefined
        ? undefined
        : exactFigure(q.plusMinus, scaled(q.plusMinus, down), (x) => scaled(x, reading.scale));
    if (value === null || doubt === null) return null;
    const tail = symbol === '1' ? '' : ` ${symbol}`;
    const figures = `${value}${doubt === undefined ? '' : ` +/- ${doubt}`}`;
    return `${doubt !== undefined && isShared(symbol) ? `(${figures})` : figures}${tail}`;
  };
  return (
    text(q.unit) ??
    text(KINDS[q.kind].unit) ??
    must<string>({
      ok: false,
      problem: { code: 'QUANTITY_UNREADABLE', message: `${q.si} ${q.kind} cannot be printed`, remedy: '' },
    })
  );
}
