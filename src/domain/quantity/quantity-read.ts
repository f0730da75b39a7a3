/**
 * Reads what people write at the bench into a quantity: `12.5 mm`, `3/8 in`, `0.4375 in +/- 0.0005 in`, `12 ± 0.1 mm`,
 * `5 ft 3 in`, `{"value":12.5,"unit":"mm","plusMinus":0.02}`, or a bare figure in the unit that is agreed for it.
 *
 * Whatever cannot be read one way only is a Problem that says both readings. Not chosen: a tolerant reader that takes
 * the likelier one, since a thread cut to a guessed figure cannot be uncut.
 */
import { type Problem, problem } from '../problem.ts';
import { failed, ok, type Result } from '../result.ts';
import type { Kind } from './kinds.ts';
import { ambiguous, type DecimalMark, type LeadingNumber, leadingNumber, plainText } from './number-read.ts';
import { type Quantity, quantityOf, type Reading, readingFor } from './quantity.ts';

export interface Expected<K extends Kind = Kind> {
  readonly kind?: K;
  /** The unit of a bare figure. Its kind is the one wanted where `kind` is absent. */
  readonly unit?: string;
  readonly decimal?: DecimalMark;
  /** Goes into the Problem. */
  readonly where?: string;
}

const LONGEST = 200;
const DOUBT_MARK = / ?(?:±|\+ ?\/ ?-|\+-) ?/;

/** Two units that are written one after the other, larger first. */
const PAIRS: readonly (readonly [RegExp, string, RegExp, string, number])[] = [
  [/^(?:ft|foot|feet|'|′|’)$/, 'ft', /^(?:in\.?|inch|inches|"|″|”|'')$/, 'in', 12],
  [/^lbs?$/, 'lb', /^oz$/, 'oz', 16],
  [/^(?:h|hr|hrs)$/, 'h', /^min$/, 'min', 60],
  [/^min$/, 'min', /^s$/, 's', 60],
  [/^(?:°|deg)$/, 'deg', /^(?:'|′|’|arcmin)$/, 'arcmin', 60],
];

interface Part {
  readonly value: number;
  readonly unit: string;
  readonly figure: LeadingNumber;
}

function unreadable(text: string): Problem {
  return problem(
    'QUANTITY_UNREADABLE',
    `"${text.slice(0, 60)}" is no figure with a unit.`,
    'Write it as 12.5 mm, 3/8 in, 1 1/4 in, or 0.4375 in +/- 0.0005 in.',
  );
}

/** `5 ft 3 1/2 in`, `4 h 10 min`: a second figure in the smaller unit. Null where the text is no such pair. */
function pairOf(first: LeadingNumber, mark: DecimalMark): Result<Part> | null {
  const m = /^([^\d\s]+) ?(\d.*)$/.exec(first.rest);
  const large = m?.[1];
  if (m?.[2] === undefined || large === undefined) return null;
  const second = leadingNumber(m[2], mark);
  if (!second.ok) return null;
  const pair = PAIRS.find(([a, , b]) => a.test(large) && b.test(second.value.rest));
  if (!pair) return null;
  const [, , , smallUnit, count] = pair;
  if (second.value.value >= count || !Number.isInteger(first.value))
    return failed(unreadable(`${first.figure} ${first.rest}`));
  const sign = first.figure.startsWith('-') ? -1 : 1;
  const value = sign * (Math.abs(first.value) * count + second.value.value);
  return ok({ value, unit: smallUnit, figure: first });
}

function partOf(text: string, mark: DecimalMark): Result<Part> {
  const figure = leadingNumber(text, mark);
  if (!figure.ok) return figure;
  const pair = pairOf(figure.value, mark);
  if (pair) return pair;
  return ok({ value: figure.value.value, unit: figure.value.rest.replace(/^-(?=[A-Za-z])/, ''), figure: figure.value });
}

/** A point with three decimals is asked about where such a page would mean thousands: hours run, or a bare text. */
function askAbout(part: Part, unit: string | undefined, kind: Kind | undefined): Problem | null {
  if (!part.figure.pointOfThree) return null;
  const symbol = unit === undefined ? undefined : readingFor(unit);
  const isHours = symbol?.ok === true && symbol.value.symbol === 'h';
  const isBare = unit === undefined && kind === undefined;
  if (!isHours && !isBare) return null;
  const small = part.figure.figure.replace(/^[+-] ?/, '');
  return ambiguous(part.figure.figure, small, small.replace('.', ''));
}

/** Whether a doubt is a share of the figure (`200 mm ± 1 %`); null where it may be that or a doubt in per cent. */
function isShare(main: Part, doubt: Part | null, expected: Expected, bracketed: boolean): boolean | null {
  if (doubt?.unit !== '%' || main.unit === '%' || bracketed || expected.unit === '%') return false;
  const named = main.unit || expected.unit;
  if (named !== undefined && named !== '' && named !== '1') return true;
  return expected.kind === undefined || expected.kind === 'number' ? null : true;
}

function withDoubt<K extends Kind>(
  main: Part,
  doubt: Part | null,
  expected: Expected<K>,
  bracketed: boolean,
): Result<Quantity<K>> {
  const share = isShare(main, doubt, expected, bracketed);
  if (share === null) {
    const figure = `${main.figure.figure} ± ${doubt?.figure.figure ?? ''}`;
    const message = `"${figure} %" can be a doubt of that share, or a figure in per cent.`;
    return failed(
      problem(
        'NUMBER_AMBIGUOUS',
        message,
        `Write (${figure}) % where both are in per cent; else write the doubt as a figure.`,
      ),
    );
  }
  const written = main.unit || (share ? '' : doubt?.unit) || undefined;
  const asked = askAbout(main, written ?? expected.unit, expected.kind);
  if (asked) return failed(asked);
  const unit =
    written ?? expected.unit ?? (expected.kind === 'number' || expected.kind === undefined ? '1' : undefined);
  if (unit === undefined)
    return failed(problem('UNIT_MISSING', `"${main.figure.figure}" has no unit.`, 'Write the unit after the figure.'));
  const kind = wantedKind(expected);
  if (!kind.ok) return kind;
  const value = quantityOf({ value: main.value, unit }, kind.value);
  if (!value.ok || doubt === null) return value;
  const width = share ? (Math.abs(main.value) * doubt.value) / 100 : doubt.value;
  if (share || doubt.unit === '' || doubt.unit === unit)
    return quantityOf({ value: main.value, unit, plusMinus: width }, kind.value);
  return inOwnUnit(value.value, width, doubt.unit);
}

/** The doubt was written in a unit of its own: `12 mm ± 50 um`. */
function inOwnUnit<K extends Kind>(q: Quantity<K>, width: number, unit: string): Result<Quantity<K>> {
  const kind: Kind = q.kind === 'temperature' ? 'temperature-difference' : q.kind;
  const d = quantityOf({ value: 0, unit, plusMinus: width }, kind);
  return d.ok ? ok({ ...q, plusMinus: d.value.plusMinus } as Quantity<K>) : d;
}

/** The kind asked for, or that of the agreed unit. */
function wantedKind<K extends Kind>(expected: Expected<K>): Result<K | undefined> {
  if (expected.kind !== undefined || expected.unit === undefined) return ok(expected.kind);
  const r = readingFor(expected.unit);
  return r.ok ? ok(r.value.reading.kind as K) : r;
}

function fromText<K extends Kind>(text: string, expected: Expected<K>): Result<Quantity<K>> {
  const plain = plainText(text);
  if (plain === '')
    return failed(
      problem('QUANTITY_EMPTY', 'Nothing is written here.', 'Write a figure and its unit, such as 12.5 mm or 3/8 in.'),
    );
  if (plain.length > LONGEST) return failed(unreadable(plain));
  const open = plain.replace(/^\(([^()]*)\) ?/, '$1 ').trim();
  const bracketed = plain.startsWith('(');
  const pieces = open.split(DOUBT_MARK);
  const [mainText, doubtText] = pieces;
  if (mainText === undefined || pieces.length > 2) return failed(unreadable(plain));
  const mark = expected.decimal ?? 'point';
  const main = partOf(mainText, mark);
  if (!main.ok) return main;
  if (doubtText === undefined) return withDoubt(main.value, null, expected, bracketed);
  const doubt = partOf(doubtText, mark);
  return doubt.ok ? withDoubt(main.value, doubt.value, expected, bracketed) : doubt;
}

function fromNumber<K extends Kind>(
  value: number,
  unit: string | undefined,
  plusMinus: number | undefined,
  expected: Expected<K>,
): Result<Quantity<K>> {
  const kind = wantedKind(expected);
  if (!kind.ok) return kind;
  const named = unit ?? expected.unit ?? (expected.kind === 'number' || expected.kind === undefined ? '1' : undefined);
  if (named === undefined)
    return failed(problem('UNIT_MISSING', `${value} has no unit.`, 'Give the unit beside the value.'));
  return quantityOf(plusMinus === undefined ? { value, unit: named } : { value, unit: named, plusMinus }, kind.value);
}

const KEYS = ['value', 'unit', 'plusMinus'];

function fromObject<K extends Kind>(
  given: Readonly<Record<string, unknown>>,
  expected: Expected<K>,
): Result<Quantity<K>> {
  const stray = Object.keys(given).find((k) => !KEYS.includes(k));
  if (stray !== undefined)
    return failed(
      problem(
        'QUANTITY_UNKNOWN_KEY',
        `"${stray.slice(0, 40)}" is not a key of a quantity.`,
        'Use value, unit and plusMinus only.',
      ),
    );
  const { value, unit, plusMinus } = given;
  if (unit !== undefined && typeof unit !== 'string')
    return failed(problem('UNIT_UNKNOWN', 'The unit is not a text.', 'Write the unit as a text such as "mm".'));
  if (plusMinus !== undefined && typeof plusMinus !== 'number')
    return failed(
      problem('QUANTITY_UNREADABLE', 'plusMinus is not a number.', 'Give plusMinus as a number in the same unit.'),
    );
  if (typeof value === 'number') return fromNumber(value, unit, plusMinus, expected);
  if (typeof value !== 'string')
    return failed(
      problem(
        'QUANTITY_UNKNOWN_KEY',
        'The object has no value.',
        'Give it as {"value":12.5,"unit":"mm","plusMinus":0.02}.',
      ),
    );
  // "3/8" as a text beside its unit: read as a figure, which may not bring a unit or a doubt of its own.
  const figure = leadingNumber(plainText(value), expected.decimal ?? 'point');
  if (!figure.ok) return figure;
  if (figure.value.rest !== '') return failed(unreadable(value));
  return fromNumber(figure.value.value, unit, plusMinus, expected);
}

/**
 * Reads a quantity. Refuses QUANTITY_EMPTY, QUANTITY_UNREADABLE, QUANTITY_UNKNOWN_KEY, QUANTITY_WRONG_KIND,
 * QUANTITY_TOO_LARGE, NUMBER_AMBIGUOUS, NUMBER_NOT_FINITE, FRACTION_BY_ZERO, UNIT_MISSING, UNIT_UNKNOWN,
 * UNIT_AMBIGUOUS, DOUBT_NEGATIVE, BELOW_ABSOLUTE_ZERO.
 */
export function parseQuantity<K extends Kind = Kind>(given: unknown, expected: Expected<K> = {}): Result<Quantity<K>> {
  const read =
    typeof given === 'string'
      ? fromText(given, expected)
      : typeof given === 'number'
        ? fromNumber(given, undefined, undefined, expected)
        : typeof given === 'object' && given !== null && !Array.isArray(given)
          ? fromObject(given as Readonly<Record<string, unknown>>, expected)
          : failed(
              problem(
                'QUANTITY_EMPTY',
                'Neither a figure nor a text was given.',
                'Write a figure and its unit, such as 12.5 mm or 3/8 in.',
              ),
            );
  if (read.ok || expected.where === undefined) return read;
  return failed({ ...read.problem, where: expected.where });
}

/** The same, keeping what was written. A number or an object is kept as its JSON text. */
export function parseReading<K extends Kind = Kind>(given: unknown, expected: Expected<K> = {}): Result<Reading<K>> {
  const q = parseQuantity(given, expected);
  return q.ok
    ? ok({ written: typeof given === 'string' ? given : JSON.stringify(given), quantity: q.value } as Reading<K>)
    : q;
}
