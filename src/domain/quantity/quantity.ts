/**
 * A quantity: how much of what, with its doubt. Held in the SI unit of its kind; `unit` remembers how it was written.
 *
 * The doubt is a half-width at about 95 %. Doubt of a temperature is a difference, so it is scaled and never shifted.
 * Invariants: `si` is finite, `plusMinus` is finite and not below nought, `unit` is a symbol that `readUnit` gives and
 * that can mean `kind`. Not chosen: value and unit as stored form with SI worked out on demand, where two equal
 * lengths would not be equal.
 */
import { type Problem, problem } from '../problem.ts';
import { failed, must, ok, type Result } from '../result.ts';
import { KINDS, type Kind, type SiOf } from './kinds.ts';
import { ONE, overRatio, scaled, toNumber } from './ratio.ts';
import { readUnit, type UnitReading } from './unit-read.ts';

export interface QuantityOf<K extends Kind> {
  readonly kind: K;
  readonly si: SiOf[K];
  /** Half-width in the same SI unit; absent where no doubt was given, which is not the same as none. */
  readonly plusMinus?: SiOf[K];
  readonly unit: string;
}
export type Quantity<K extends Kind = Kind> = K extends Kind ? QuantityOf<K> : never;

/** A quantity beside the text from which it was read; the text is never thrown away. */
export interface Reading<K extends Kind = Kind> {
  readonly written: string;
  readonly quantity: Quantity<K>;
}

/** A quantity as figures in one unit. */
export interface Figures {
  readonly value: number;
  readonly unit: string;
  readonly plusMinus?: number;
}

export function toSi(value: number, r: UnitReading): number {
  // Adding nought turns -0, which would print and compare oddly, into 0.
  return scaled(r.shift ? value + toNumber(r.shift) : value, r.scale) + 0;
}

export function fromSi(si: number, r: UnitReading): number {
  const value = scaled(si, overRatio(ONE, r.scale));
  return r.shift ? value - toNumber(r.shift) : value;
}

export function wrongKind(written: string, is: readonly Kind[], wanted: Kind): Problem {
  const has = is.map((k) => KINDS[k].words).join(' or ');
  const hint =
    written === 'lb' && wanted === 'force'
      ? ' For a force write lbf.'
      : wanted === 'energy' && is.includes('torque')
        ? ' For an energy write J.'
        : wanted === 'mass' && is.includes('force')
          ? ' For a mass write kg or lb.'
          : '';
  return problem(
    'QUANTITY_WRONG_KIND',
    `"${written}" is a unit for ${has}; ${KINDS[wanted].words} is wanted.`,
    `Give it in a unit such as ${KINDS[wanted].unit}.${hint}`,
  );
}

/** The reading of a unit that is of the kind wanted; without a kind, its first. */
export function readingFor<K extends Kind>(
  unit: string,
  kind?: K,
): Result<{ readonly symbol: string; readonly reading: UnitReading }> {
  const meaning = readUnit(unit);
  if (!meaning.ok) return meaning;
  const { symbol, readings } = meaning.value;
  const reading = kind === undefined ? readings[0] : readings.find((r) => r.kind === kind);
  if (reading) return ok({ symbol, reading });
  return failed(
    wrongKind(
      unit,
      readings.map((r) => r.kind),
      kind as Kind,
    ),
  );
}

/** From figures in a unit to a quantity. */
export function quantityOf<K extends Kind>(figures: Figures, kind?: K): Result<Quantity<K>> {
  const found = readingFor(figures.unit, kind);
  if (!found.ok) return found;
  const { symbol, reading } = found.value;
  const given = `${figures.value} ${figures.unit}`;
  if (!Number.isFinite(figures.value) || (figures.plusMinus !== undefined && !Number.isFinite(figures.plusMinus)))
    return failed(
      problem('NUMBER_NOT_FINITE', `"${given}" is no finite number that can be held.`, 'Give a finite figure.'),
    );
  if (figures.plusMinus !== undefined && figures.plusMinus < 0)
    return failed(
      problem(
        'DOUBT_NEGATIVE',
        `The doubt ${figures.plusMinus} ${figures.unit} is below nought.`,
        'Give the doubt as a half-width that is nought or more.',
      ),
    );
  const si = toSi(figures.value, reading);
  const plusMinus = figures.plusMinus === undefined ? undefined : scaled(figures.plusMinus, reading.scale);
  if (!Number.isFinite(si) || (plusMinus !== undefined && !Number.isFinite(plusMinus)))
    return failed(
      problem(
        'QUANTITY_TOO_LARGE',
        `${given} is beyond what can be held in ${KINDS[reading.kind].unit}.`,
        'Check the exponent and the unit.',
      ),
    );
  if (reading.kind === 'temperature' && si < 0)
    return failed(problem('BELOW_ABSOLUTE_ZERO', `${given} is below absolute zero.`, 'Check the sign and the scale.'));
  const bare = { kind: reading.kind, si, unit: symbol };
  return ok((plusMinus === undefined ? bare : { ...bare, plusMinus }) as Quantity<K>);
}

/** The figures of a quantity in a unit of its kind (its own where none is named). */
export function figuresIn(q: Quantity, unit: string = q.unit): Result<Figures> {
  const found = readingFor(unit, q.kind);
  if (!found.ok) return found;
  const { symbol, reading } = found.value;
  const value = fromSi(q.si, reading);
  const plusMinus = q.plusMinus === undefined ? undefined : scaled(q.plusMinus, overRatio(ONE, reading.scale));
  if (!Number.isFinite(value) || (plusMinus !== undefined && !Number.isFinite(plusMinus)))
    return failed(
      problem('QUANTITY_TOO_LARGE', `The figure is beyond what can be held in ${symbol}.`, 'Choose a larger unit.'),
    );
  return ok(plusMinus === undefined ? { value, unit: symbol } : { value, unit: symbol, plusMinus });
}

/** The same quantity, to be shown in another unit of its kind. */
export function convert<K extends Kind>(q: Quantity<K>, unit: string): Result<Quantity<K>> {
  const found = readingFor(unit, q.kind);
  return found.ok ? ok({ ...q, unit: found.value.symbol }) : found;
}

/** A bare figure from one unit to another of the same kind: 1 in -> 25.4 mm. */
export function convertFigure(value: number, from: string, to: string, kind?: Kind): Result<number> {
  const q = quantityOf({ value, unit: from }, kind);
  if (!q.ok) return q;
  const out = figuresIn(q.value, to);
  return out.ok ? ok(out.value.value) : out;
}

/** For figures that are already in the SI unit of the kind: results of a calculation. */
export function inSi<K extends Kind>(kind: K, si: number, plusMinus?: number): Quantity<K> {
  return must(
    quantityOf(
      plusMinus === undefined
        ? { value: si, unit: KINDS[kind].unit }
        : { value: si, unit: KINDS[kind].unit, plusMinus },
      kind,
    ),
  );
}
