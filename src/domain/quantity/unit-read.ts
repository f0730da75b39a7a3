/**
 * From a unit as written (`N·m`, `lbf/in`, `mm²`, `ft-lbf`, `″`) to what it can mean.
 *
 * Names come first, then products of names with whole powers and at most one stroke. A unit may have several readings:
 * `ft.lbf` is a torque or an energy, `degC` a temperature or a difference; the kind that is wanted picks, and without
 * one the first reading holds. `lb` beside a length is read as the trade writes it (in-lb, lb/in, lb/ft^2 mean
 * pound-force) but alone it is a mass. Not chosen: prefixes as a rule of grammar, which make `mmin`, `Pft` and `cd` of
 * everything; the few prefixed units in use stand in the table.
 */

import { problem } from '../problem.ts';
import { failed, ok, type Result } from '../result.ts';
import { type Dimension, KINDS, type Kind, kindsOfDimension } from './kinds.ts';
import { power, type Ratio, times } from './ratio.ts';
import { nearestUnits } from './unit-near.ts';
import { AMBIGUOUS_UNITS, NAMED_UNITS, type NamedUnit } from './unit-table.ts';

export interface UnitReading {
  readonly kind: Kind;
  readonly scale: Ratio;
  readonly shift?: Ratio;
}

export interface UnitMeaning {
  /** As we store it: ASCII, `.` for a product, `^` for a power. */
  readonly symbol: string;
  readonly readings: readonly [UnitReading, ...UnitReading[]];
}

const BY_NAME = new Map<string, NamedUnit>(
  NAMED_UNITS.flatMap((u) => [u.symbol, ...u.also].map((name): [string, NamedUnit] => [name, u])),
);

const RAISED = new Map([...'⁰¹²³⁴⁵⁶⁷⁸⁹⁻'].map((c, i): [string, string] => [c, i === 10 ? '-' : String(i)]));

/** The same unit in plain ASCII letters; spaces are kept for the names that have them. */
export function plainUnit(written: string): string {
  return written
    .replace(/[µμ]/g, 'u')
    .replace(/Ω|Ω/g, 'ohm')
    .replace(/[⁰¹²³⁴⁵⁶⁷⁸⁹⁻]+/g, (run) => `^${[...run].map((c) => RAISED.get(c)).join('')}`)
    .replace(/\*\*/g, '^')
    .replace(/[·⋅∙•×*]/g, '.')
    .replace(/℃|°\s?C/g, 'degC')
    .replace(/℉|°\s?F/g, 'degF')
    .replace(/°/g, 'deg')
    .replace(/″|”|“|"|''/g, 'in')
    .replace(/′|’|'/g, 'ft')
    .replace(/\s*([./^])\s*/g, '$1')
    .replace(/\s+/g, ' ')
    .trim();
}

interface Factor {
  readonly unit: NamedUnit;
  readonly exponent: number;
}

const MAX_EXPONENT = 6;

function oneFactor(text: string, sign: 1 | -1): Factor | null {
  const m = /^([A-Za-z%]+)(?:\^?(-?\d))?$/.exec(text);
  const unit = m?.[1] === undefined ? undefined : BY_NAME.get(m[1]);
  const exponent = sign * Number(m?.[2] ?? '1');
  if (!unit || exponent === 0 || Math.abs(exponent) > MAX_EXPONENT) return null;
  // A thermometer scale has no place in a product; a step of it is written with K.
  return unit.shift === undefined ? { unit, exponent } : null;
}

/** `N.m`, `lbf/in`, `kg m^2`, `1/in`, `ft-lbf`; null where a piece is no unit or a second stroke makes it ambiguous. */
function factorsOf(plain: string): readonly Factor[] | null {
  const sides = plain.split('/');
  if (sides.length > 2) return null;
  const found: Factor[] = [];
  for (const [i, side] of sides.entries()) {
    const pieces =
      i === 0 && sides.length === 2 && (side === '1' || side === '') ? [] : side.split(/[. ]|-(?=[A-Za-z])/);
    if (i === 1 && pieces.length > 1) return null;
    for (const piece of pieces) {
      const f = oneFactor(piece, i === 0 ? 1 : -1);
      if (f === null) return null;
      found.push(f);
    }
  }
  return found.length > 0 && found.length <= 5 ? found : null;
}

function dimensionOf(factors: readonly Factor[]): Dimension {
  const sum: [number, number, number, number, number] = [0, 0, 0, 0, 0];
  for (const f of factors)
    for (const i of sum.keys()) sum[i] = (sum[i] ?? 0) + (KINDS[f.unit.kind].dimension[i] ?? 0) * f.exponent;
  return sum;
}

function kindsOfProduct(factors: readonly Factor[]): readonly Kind[] {
  const kinds = kindsOfDimension(dimensionOf(factors));
  if (kinds.includes('number')) return [];
  if (!kinds.includes('torque')) return kinds;
  const has = (...symbols: readonly string[]): boolean => factors.some((f) => symbols.includes(f.unit.symbol));
  if (factors.some((f) => f.unit.kind === 'energy' || f.unit.kind === 'power')) return ['energy'];
  // The SI keeps N.m for torque and J for energy; foot-pounds and kgf.m are in use for both.
  return has('N', 'kN', 'mN', 'daN', 'MN') ? ['torque'] : ['torque', 'energy'];
}

function symbolOf(factors: readonly Factor[]): string {
  const side = (sign: number): string =>
    factors
      .filter((f) => Math.sign(f.exponent) === sign)
      .map((f) => (Math.abs(f.exponent) === 1 ? f.unit.symbol : `${f.unit.symbol}^${Math.abs(f.exponent)}`))
      .join('.');
  const below = factors.filter((f) => f.exponent < 0);
  if (below.length === 0) return side(1);
  if (below.length === 1) return `${side(1) || '1'}/${side(-1)}`;
  // One stroke only: with two units below, powers are written out.
  return factors.map((f) => (f.exponent === 1 ? f.unit.symbol : `${f.unit.symbol}^${f.exponent}`)).join('.');
}

function readingsOf(factors: readonly Factor[]): readonly UnitReading[] {
  const scale = times(...factors.map((f) => power(f.unit.scale, f.exponent)));
  return kindsOfProduct(factors).map((kind) => ({ kind, scale }));
}

const POUND_FORCE = BY_NAME.get('lbf') as NamedUnit;

function productMeaning(plain: string): UnitMeaning | null {
  const factors = factorsOf(plain);
  if (factors === null) return null;
  const asForce = factors.some((f) => f.unit.symbol === 'lb')
    ? readingsOf(factors.map((f) => (f.unit.symbol === 'lb' ? { ...f, unit: POUND_FORCE } : f)))
    : [];
  const [first, ...rest] = [...asForce, ...readingsOf(factors)];
  return first === undefined ? null : { symbol: symbolOf(factors), readings: [first, ...rest] };
}

function namedMeaning(u: NamedUnit): UnitMeaning {
  if (u.kind !== 'temperature') return { symbol: u.symbol, readings: [{ kind: u.kind, scale: u.scale }] };
  const shifted: UnitReading = u.shift
    ? { kind: u.kind, scale: u.scale, shift: u.shift }
    : { kind: u.kind, scale: u.scale };
  return { symbol: u.symbol, readings: [shifted, { kind: 'temperature-difference', scale: u.scale }] };
}

const known = new Map<string, UnitMeaning>();
const KEPT = 500;

/** What a unit as written can mean, or a Problem that names the nearest units of the list. */
export function readUnit(written: string): Result<UnitMeaning> {
  const kept = known.get(written);
  if (kept) return ok(kept);
  const plain = plainUnit(written);
  const choices = AMBIGUOUS_UNITS[plain];
  if (choices && Object.hasOwn(AMBIGUOUS_UNITS, plain)) {
    const list = choices.join(' or ');
    return failed(
      problem('UNIT_AMBIGUOUS', `"${written}" is used for more than one unit.`, `Write ${list}, whichever is meant.`),
    );
  }
  const named = BY_NAME.get(plain);
  const meaning = named ? namedMeaning(named) : productMeaning(plain);
  if (meaning === null) {
    const near = nearestUnits(plain);
    const remedy =
      near.length > 0
        ? `Nearest in the list: ${near.join(', ')}.`
        : 'Write a unit such as mm, in, N, lbf, N.m, MPa, psi or kg.';
    return failed(problem('UNIT_UNKNOWN', `"${written.slice(0, 40)}" is not a unit that is read here.`, remedy));
  }
  // Only a memory of what was read before; bounded so that junk from outside cannot fill it.
  if (known.size < KEPT) known.set(written, meaning);
  return ok(meaning);
}

/** How a stored symbol is printed: `N·m`, `mm²`, `µm`, `°C`. */
export function unitLabel(symbol: string): string {
  const raised = (digits: string): string => [...digits].map((c) => '⁰¹²³⁴⁵⁶⁷⁸⁹'[Number(c)] ?? '⁻').join('');
  return symbol
    .replace(/\^(-?\d+)/g, (_, digits: string) => raised(digits))
    .replace(/\./g, '·')
    .replace(/\bu(?=m\b|in\b)/g, 'µ')
    .replace(/\bdegC\b/, '°C')
    .replace(/\bdegF\b/, '°F')
    .replace(/\bdegR\b/, '°R')
    .replace(/\bdeg\b/, '°')
    .replace(/ohm\b/, 'Ω')
    .replace(/^1$/, '');
}
