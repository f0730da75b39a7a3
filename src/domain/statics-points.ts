/**
 * Support points, and how a rigid body shares its weight among them.
 *
 * With equal stiffness under every point the loads are an affine function of the place of the point, so
 *   R_i = M/n + (p_i - p0)' S+ (moment about p0),   S = sum (p_i - p0)(p_i - p0)',  p0 their mean
 * For two points (along the line that joins them) and for three not in line this is plain equilibrium and exact; for
 * more it is the solution of least norm, of which equilibrium alone leaves infinitely many. Not chosen: a contact
 * solver that lets points lift off. A load that comes out below nought says that the point goes light, and the polygon
 * of the points says whether the whole thing tips.
 */

import type { Figure, Place } from './rig/rig-types.ts';
import { doubted, type Moments, varianceOf } from './statics-moments.ts';

export interface StaticPoint {
  readonly id: string;
  readonly at?: Place;
  readonly limitKg?: number;
}

interface Spot {
  readonly x: number;
  readonly y: number;
}

interface Geometry {
  readonly spots: readonly Spot[];
  readonly mean: Spot;
  /** Pseudo-inverse of S. */
  readonly xx: number;
  readonly xy: number;
  readonly yy: number;
  /** 0 all on one spot, 1 in line, 2 spread. */
  readonly rank: 0 | 1 | 2;
  /** Unit vector along the line of the points, or along their longest spread. */
  readonly along: Spot;
}

export interface Support {
  readonly points: readonly StaticPoint[];
  readonly geometry: Geometry;
  /** The same points with one doubtful arm moved up and down by its doubt. */
  readonly moved: readonly (readonly [Geometry, Geometry])[];
}

/** Narrower than this share of its length, a row of points is a line. */
const IN_LINE = 1e-6;

function geometryOf(spots: readonly Spot[]): Geometry {
  const n = spots.length;
  const mean = { x: spots.reduce((s, p) => s + p.x, 0) / n, y: spots.reduce((s, p) => s + p.y, 0) / n };
  let [a, b, c] = [0, 0, 0];
  for (const p of spots) {
    a += (p.x - mean.x) ** 2;
    b += (p.x - mean.x) * (p.y - mean.y);
    c += (p.y - mean.y) ** 2;
  }
  const spread = Math.hypot((a - c) / 2, b);
  const large = (a + c) / 2 + spread;
  const turn = Math.atan2(2 * b, a - c) / 2;
  const along = { x: Math.cos(turn), y: Math.sin(turn) };
  // Nanometres apart is one spot.
  if (large < 1e-18 * n) return { spots, mean, xx: 0, xy: 0, yy: 0, rank: 0, along };
  const width = spots.reduce((s, p) => s + ((p.y - mean.y) * along.x - (p.x - mean.x) * along.y) ** 2, 0);
  if (width <= IN_LINE * IN_LINE * large) {
    return {
      spots,
      mean,
      xx: along.x ** 2 / large,
      xy: (along.x * along.y) / large,
      yy: along.y ** 2 / large,
      rank: 1,
      along,
    };
  }
  const det = large * width;
  return { spots, mean, xx: c / det, xy: -b / det, yy: a / det, rank: 2, along };
}

const spotOf = (at: Place | undefined): Spot => ({ x: doubted(at?.x).value, y: doubted(at?.y).value });

export function prepareSupport(points: readonly StaticPoint[]): Support {
  const spots = points.map((p) => spotOf(p.at));
  const moved = points.flatMap((p, i) => {
    const shifted = (dx: number, dy: number): Geometry =>
      geometryOf(spots.map((s, k) => (k === i ? { x: s.x + dx, y: s.y + dy } : s)));
    const both = (f: Figure | undefined, dx: 0 | 1, dy: 0 | 1): readonly (readonly [Geometry, Geometry])[] => {
      const u = doubted(f).plusMinus;
      return u > 0 ? [[shifted(dx * u, dy * u), shifted(-dx * u, -dy * u)]] : [];
    };
    return [...both(p.at?.x, 1, 0), ...both(p.at?.y, 0, 1)];
  });
  return { points, geometry: geometryOf(spots), moved };
}

/** Load on point i is the sum over masses of  m (a + b x + c y). */
function influence(g: Geometry, i: number): readonly [number, number, number] {
  const p = g.spots[i] ?? g.mean;
  const [dx, dy] = [p.x - g.mean.x, p.y - g.mean.y];
  const b = g.xx * dx + g.xy * dy;
  const c = g.xy * dx + g.yy * dy;
  return [1 / g.spots.length - b * g.mean.x - c * g.mean.y, b, c];
}

function loadAt(g: Geometry, i: number, m: Moments): number {
  const [a, b, c] = influence(g, i);
  return a * m.kg + b * m.x + c * m.y;
}

/** One mass is in all loads at once: each load and its doubt is worked out from the same sums. */
export function loadsOn(
  s: Support,
  m: Moments,
): readonly { readonly point: string; readonly kg: number; readonly plusMinus: number }[] {
  return s.points.map(({ id }, i) => {
    const [a, b, c] = influence(s.geometry, i);
    const ofPoints = s.moved.reduce((sum, [up, down]) => sum + ((loadAt(up, i, m) - loadAt(down, i, m)) / 2) ** 2, 0);
    return { point: id, kg: a * m.kg + b * m.x + c * m.y, plusMinus: Math.sqrt(varianceOf(m, a, b, c) + ofPoints) };
  });
}

export interface Edge {
  readonly between: readonly string[];
  /** Distance of the centre of gravity inside this edge, metres; below nought it lies outside and the body tips. */
  readonly distance: number;
  readonly plusMinus: number;
}

function hullOf(spots: readonly Spot[]): readonly number[] {
  const order = spots
    .map((_, i) => i)
    .sort((i, j) => (spots[i]?.x ?? 0) - (spots[j]?.x ?? 0) || (spots[i]?.y ?? 0) - (spots[j]?.y ?? 0));
  const at = (i: number): Spot => spots[i] as Spot;
  const half = (ids: readonly number[]): number[] => {
    const chain: number[] = [];
    for (const k of ids) {
      for (let l = chain.length; l >= 2; l = chain.length) {
        const [o, a, p] = [at(chain[l - 2] as number), at(chain[l - 1] as number), at(k)];
        if ((a.x - o.x) * (p.y - o.y) - (a.y - o.y) * (p.x - o.x) > 0) break;
        chain.pop();
      }
      chain.push(k);
    }
    return chain.slice(0, -1);
  };
  return [...half(order), ...half([...order].reverse())];
}

/** Distance of the centre of gravity from the line through `from` with unit normal `n` that points inwards. */
function inside(m: Moments, from: Spot, n: Spot): Omit<Edge, 'between'> {
  const [x, y] = [m.x / m.kg, m.y / m.kg];
  const distance = (x - from.x) * n.x + (y - from.y) * n.y;
  const a = -(x * n.x + y * n.y) / m.kg;
  return { distance, plusMinus: Math.sqrt(varianceOf(m, a, n.x / m.kg, n.y / m.kg)) };
}

/** The edge over which it would tip first: of the polygon of the points, or an end of their line. */
export function nearestEdge(s: Support, m: Moments): Edge | null {
  const { spots, rank, along, mean } = s.geometry;
  const id = (i: number | undefined): string => s.points[i ?? -1]?.id ?? '';
  if (rank === 0 || !(m.kg > 0)) return null;
  const edges: Edge[] = [];
  if (rank === 1) {
    const t = (p: Spot): number => (p.x - mean.x) * along.x + (p.y - mean.y) * along.y;
    const order = spots.map((_, i) => i).sort((i, j) => t(spots[i] as Spot) - t(spots[j] as Spot));
    const [first, last] = [order[0] as number, order.at(-1) as number];
    edges.push({ between: [id(first)], ...inside(m, spots[first] as Spot, along) });
    edges.push({ between: [id(last)], ...inside(m, spots[last] as Spot, { x: -along.x, y: -along.y }) });
  } else {
    const hull = hullOf(spots);
    for (const [k, i] of hull.entries()) {
      const j = hull[(k + 1) % hull.length] as number;
      const [p, q] = [spots[i] as Spot, spots[j] as Spot];
      const length = Math.hypot(q.x - p.x, q.y - p.y);
      edges.push({ between: [id(i), id(j)], ...inside(m, p, { x: -(q.y - p.y) / length, y: (q.x - p.x) / length }) });
    }
  }
  return edges.reduce((least, e) => (e.distance - e.plusMinus < least.distance - least.plusMinus ? e : least));
}

/** How far the weight lies beside the line of points; null where the points are spread. */
export function besideLine(s: Support, m: Moments): Omit<Edge, 'between'> | null {
  const { rank, mean, along } = s.geometry;
  if (rank === 2 || !(m.kg > 0)) return null;
  if (rank === 1) {
    const d = inside(m, mean, { x: -along.y, y: along.x });
    return { distance: Math.abs(d.distance), plusMinus: d.plusMinus };
  }
  const [dx, dy] = [inside(m, mean, { x: 1, y: 0 }), inside(m, mean, { x: 0, y: 1 })];
  return { distance: Math.hypot(dx.distance, dy.distance), plusMinus: Math.hypot(dx.plusMinus, dy.plusMinus) };
}
