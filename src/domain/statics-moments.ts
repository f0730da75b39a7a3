/**
 * Sums over masses from which every load, the centre of gravity and every doubt follow.
 *
 * Any of these answers is, to first order, a sum over masses m of  m (a + b x + c y)  with a, b, c set by the supports.
 * Its variance is a quadratic form in (a, b, c) whose coefficients are sums over the masses alone. So a few additive
 * numbers carry it all: taking a part off is a subtraction, changing the stands changes nothing here, and loads that
 * share a doubtful mass are correlated as they should be, since each is worked out from the same sums. Not chosen:
 * adding up the doubts of single loads, which forgets that one heavy engine moves all of them together.
 *
 * Doubts are half-widths at about 95 %, combined as independent (GUM, JCGM 100:2008, 5.1.2, first order).
 */
import type { Figure, Place } from './rig/rig-types.ts';

/** All additive. `u` is the doubt of a mass, `a` mass times the doubt of its arm. */
export interface Moments {
  readonly kg: number;
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly uu: number;
  readonly uux: number;
  readonly uuy: number;
  readonly uuz: number;
  readonly uuxx: number;
  readonly uuxy: number;
  readonly uuyy: number;
  readonly uuzz: number;
  readonly aax: number;
  readonly aay: number;
  readonly aaz: number;
}

export const NO_MOMENTS: Moments = {
  kg: 0,
  x: 0,
  y: 0,
  z: 0,
  uu: 0,
  uux: 0,
  uuy: 0,
  uuz: 0,
  uuxx: 0,
  uuxy: 0,
  uuyy: 0,
  uuzz: 0,
  aax: 0,
  aay: 0,
  aaz: 0,
};

export interface Doubted {
  readonly value: number;
  readonly plusMinus: number;
}

export function doubted(figure: Figure | undefined): Doubted {
  if (figure === undefined) return { value: 0, plusMinus: 0 };
  return typeof figure === 'number' ? { value: figure, plusMinus: 0 } : figure;
}

export function momentsOf(mass: Figure, at: Place | undefined): Moments {
  const { value: m, plusMinus: u } = doubted(mass);
  const [x, y, z] = [doubted(at?.x), doubted(at?.y), doubted(at?.z)];
  const uu = u * u;
  return {
    kg: m,
    x: m * x.value,
    y: m * y.value,
    z: m * z.value,
    uu,
    uux: uu * x.value,
    uuy: uu * y.value,
    uuz: uu * z.value,
    uuxx: uu * x.value ** 2,
    uuxy: uu * x.value * y.value,
    uuyy: uu * y.value ** 2,
    uuzz: uu * z.value ** 2,
    aax: (m * x.plusMinus) ** 2,
    aay: (m * y.plusMinus) ** 2,
    aaz: (m * z.plusMinus) ** 2,
  };
}

function combine(a: Moments, b: Moments, s: 1 | -1): Moments {
  return {
    kg: a.kg + s * b.kg,
    x: a.x + s * b.x,
    y: a.y + s * b.y,
    z: a.z + s * b.z,
    uu: a.uu + s * b.uu,
    uux: a.uux + s * b.uux,
    uuy: a.uuy + s * b.uuy,
    uuz: a.uuz + s * b.uuz,
    uuxx: a.uuxx + s * b.uuxx,
    uuxy: a.uuxy + s * b.uuxy,
    uuyy: a.uuyy + s * b.uuyy,
    uuzz: a.uuzz + s * b.uuzz,
    aax: a.aax + s * b.aax,
    aay: a.aay + s * b.aay,
    aaz: a.aaz + s * b.aaz,
  };
}

export function addMoments(a: Moments, b: Moments): Moments {
  return combine(a, b, 1);
}

export function lessMoments(a: Moments, b: Moments): Moments {
  return combine(a, b, -1);
}

/** Variance (half-width squared) of  sum m (a + b x + c y). Rounding may leave it a hair below nought. */
export function varianceOf(m: Moments, a: number, b: number, c: number): number {
  const ofMasses =
    a * a * m.uu + b * b * m.uuxx + c * c * m.uuyy + 2 * (a * b * m.uux + a * c * m.uuy + b * c * m.uuxy);
  return Math.max(0, ofMasses + b * b * m.aax + c * c * m.aay);
}

export interface Centre {
  readonly x: Doubted;
  readonly y: Doubted;
  readonly z: Doubted;
}

/** Centre of gravity with its doubt; null where there is no weight. */
export function centreOf(m: Moments): Centre | null {
  if (!(m.kg > 0)) return null;
  const [x, y, z] = [m.x / m.kg, m.y / m.kg, m.z / m.kg];
  const vertical = Math.max(0, z * z * m.uu - 2 * z * m.uuz + m.uuzz + m.aaz);
  return {
    x: { value: x, plusMinus: Math.sqrt(varianceOf(m, -x / m.kg, 1 / m.kg, 0)) },
    y: { value: y, plusMinus: Math.sqrt(varianceOf(m, -y / m.kg, 0, 1 / m.kg)) },
    z: { value: z, plusMinus: Math.sqrt(vertical) / m.kg },
  };
}
