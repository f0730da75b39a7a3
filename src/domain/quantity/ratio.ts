/**
 * Exact scale factors: a fraction of two whole numbers times a whole power of pi.
 *
 * A factor such as lbf -> N is a product of definitions (0.45359237 x 9.80665) and is kept exact until it meets a
 * figure, so that psi, ksi or slug/ft^3 carry no rounding of their own. Not chosen: factors as floating numbers, where
 * every derived unit drifts by a last digit, and 25.4 mm may come back as 0.9999999999999999 in.
 */
export interface Ratio {
  readonly n: bigint;
  readonly d: bigint;
  /** Power of pi; angles and turns are the only units that need it. */
  readonly pi: number;
}

function lowest(n: bigint, d: bigint, pi: number): Ratio {
  let a = n < 0n ? -n : n;
  let b = d;
  while (b !== 0n) [a, b] = [b, a % b];
  return a === 0n ? { n: 0n, d: 1n, pi: 0 } : { n: n / a, d: d / a, pi };
}

/** Of a decimal text (`'0.0254'`) or whole numbers, exactly as written. */
export function ratio(text: string, over = '1'): Ratio {
  const part = (t: string): Ratio => {
    const m = /^(-?\d+)(?:\.(\d+))?$/.exec(t);
    if (!m) throw new Error(`internal: "${t}" is no decimal; report it`);
    const decimals = m[2] ?? '';
    return lowest(BigInt(`${m[1]}${decimals}`), 10n ** BigInt(decimals.length), 0);
  };
  return overRatio(part(text), part(over));
}

export const ONE: Ratio = { n: 1n, d: 1n, pi: 0 };
export const PI: Ratio = { n: 1n, d: 1n, pi: 1 };

export function times(...factors: readonly Ratio[]): Ratio {
  return factors.reduce((a, b) => lowest(a.n * b.n, a.d * b.d, a.pi + b.pi), ONE);
}

export function overRatio(a: Ratio, b: Ratio): Ratio {
  if (b.n === 0n) throw new Error('internal: a unit factor is nought; report it');
  const sign = b.n < 0n ? -1n : 1n;
  return lowest(a.n * b.d * sign, a.d * b.n * sign, a.pi - b.pi);
}

export function power(a: Ratio, exponent: number): Ratio {
  const base = exponent < 0 ? overRatio(ONE, a) : a;
  return times(...Array.from({ length: Math.abs(exponent) }, () => base));
}

const EXACT = 1n << 53n;

/** Nearest double of the fraction; 80 bits are kept before the one rounding. */
export function toNumber(r: Ratio): number {
  const size = r.n < 0n ? -r.n : r.n;
  let figure: number;
  if (size < EXACT && r.d < EXACT) figure = Number(r.n) / Number(r.d);
  else {
    const shift = Math.max(0, 80 + r.d.toString(2).length - size.toString(2).length);
    figure = Number((r.n << BigInt(shift)) / r.d) / 2 ** shift;
  }
  return r.pi === 0 ? figure : figure * Math.PI ** r.pi;
}

/**
 * x times the ratio. Multiplying before dividing keeps what is exact exact (0.375 in is 9.525 mm, not nearly); where
 * that leaves the range of doubles, it divides first.
 */
export function scaled(x: number, r: Ratio): number {
  if (r.pi !== 0 || r.n >= EXACT || r.d >= EXACT) return x * toNumber(r);
  const up = x * Number(r.n);
  return Number.isFinite(up) ? up / Number(r.d) : (x / Number(r.d)) * Number(r.n);
}
