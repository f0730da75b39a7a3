/**
 * What rests on which point: masses with arms on stands, jacks or wheels, with doubt.
 *
 * Symbols   kg  mass                       kg  >= 0
 *           x, y, z  arm aft, right, up    m   from one datum
 * Gives     load on each point             kg (mass that would weigh as much), half-width at about 95 %
 * Assumes   level ground, rigid body, vertical loads only; points that can push, and would have to pull where a load
 *           comes out below nought
 * Refuses   SUPPORT_NO_POINTS, SUPPORT_NO_WEIGHT, SUPPORT_NOT_FINITE, SUPPORT_NEGATIVE, SUPPORT_POINT_REPEATED,
 *           SUPPORT_POINTS_COINCIDE, SUPPORT_POINTS_IN_LINE
 * Source    equilibrium of forces and moments; equal stiffness where there are more than three points
 * Checked   statics.test.ts: lever and beam examples in print, weighing examples run backwards
 *
 * Kilograms, not newtons, since that is what scales, stands and placards say. It says by how much a point is loaded,
 * never that all is well: a slope, a push on a spanner and a soft floor are not in it.
 */
import { type Problem, problem } from './problem.ts';
import { failed, ok, type Result } from './result.ts';
import type { Figure, Place } from './rig/rig-types.ts';
import {
  addMoments,
  type Centre,
  centreOf,
  type Doubted,
  doubted,
  type Moments,
  momentsOf,
  NO_MOMENTS,
} from './statics-moments.ts';
import {
  besideLine,
  type Edge,
  loadsOn,
  nearestEdge,
  prepareSupport,
  type StaticPoint,
  type Support,
} from './statics-points.ts';

export interface StaticMass {
  readonly name?: string;
  readonly kg: Figure;
  readonly at?: Place;
}

export interface StaticLoad {
  readonly point: string;
  readonly kg: number;
  readonly plusMinus: number;
  readonly limitKg?: number;
  /** Against its limit: under it over the whole doubt, over it within the doubt only, or over it. */
  readonly against?: 'under' | 'within-doubt' | 'over';
}

export interface SupportLoads {
  readonly loads: readonly StaticLoad[];
  readonly total: Doubted;
  readonly cg: Centre;
  /** The point that goes light first: smallest load less its doubt. */
  readonly least: StaticLoad;
  /** How far the centre of gravity lies inside the edge over which it would tip; null on one point. */
  readonly edge: Edge | null;
  readonly warnings: readonly string[];
}

function checkFigure(f: Figure | undefined, where: string): Problem | null {
  const { value, plusMinus } = doubted(f);
  if (!Number.isFinite(value) || !Number.isFinite(plusMinus))
    return problem('SUPPORT_NOT_FINITE', 'The figure is not a finite number.', 'Correct the figure.', where);
  return plusMinus < 0
    ? problem(
        'SUPPORT_NEGATIVE',
        `The doubt ${plusMinus} is below nought.`,
        'Give the half-width as nought or more.',
        where,
      )
    : null;
}

function checkPlace(at: Place | undefined, where: string): Problem | null {
  return (
    checkFigure(at?.x, `${where}.at.x`) ?? checkFigure(at?.y, `${where}.at.y`) ?? checkFigure(at?.z, `${where}.at.z`)
  );
}

function checkMass(m: StaticMass, i: number): Problem | null {
  const where = `masses[${i}]`;
  const bad = checkFigure(m.kg, `${where}.kg`) ?? checkPlace(m.at, where);
  if (bad) return bad;
  const { value } = doubted(m.kg);
  if (value >= 0) return null;
  return problem(
    'SUPPORT_NEGATIVE',
    `The mass ${value} kg is below nought.`,
    'Leave out what was taken off.',
    `${where}.kg`,
  );
}

function checkPoint(p: StaticPoint, i: number, all: readonly StaticPoint[]): Problem | null {
  const where = `points[${i}]`;
  if (all.findIndex((q) => q.id === p.id) !== i)
    return problem('SUPPORT_POINT_REPEATED', `Two points are called "${p.id}".`, 'Name each point once.', where);
  if (p.limitKg !== undefined && !Number.isFinite(p.limitKg))
    return problem(
      'SUPPORT_NOT_FINITE',
      'The limit is not a finite number.',
      'Correct the figure.',
      `${where}.limitKg`,
    );
  if (p.limitKg !== undefined && p.limitKg < 0)
    return problem(
      'SUPPORT_NEGATIVE',
      `The limit ${p.limitKg} kg is below nought.`,
      'Give the limit of the stand.',
      `${where}.limitKg`,
    );
  return checkPlace(p.at, where);
}

function firstBad(masses: readonly StaticMass[], points: readonly StaticPoint[]): Problem | null {
  if (points.length === 0)
    return problem('SUPPORT_NO_POINTS', 'No support point was given.', 'Give at least one point with its arm.');
  for (const [i, m] of masses.entries()) {
    const bad = checkMass(m, i);
    if (bad) return bad;
  }
  for (const [i, p] of points.entries()) {
    const bad = checkPoint(p, i, points);
    if (bad) return bad;
  }
  return null;
}

/** `No y for tail, engine and 3 more; counted as 0.` */
function missingArms(
  named: readonly { readonly name: string; readonly at: Place | undefined }[],
  what: string,
): readonly string[] {
  return (['x', 'y'] as const).flatMap((axis) => {
    const without = named.filter((n) => n.at?.[axis] === undefined).map((n) => n.name);
    if (without.length === 0) return [];
    const shown = without.slice(0, 3).join(', ');
    const more = without.length > 3 ? ` and ${without.length - 3} more` : '';
    return [`No ${axis} for ${what} ${shown}${more}; counted as 0.`];
  });
}

function limited(load: StaticLoad, limitKg: number | undefined): StaticLoad {
  if (limitKg === undefined) return load;
  const against = load.kg > limitKg ? 'over' : load.kg + load.plusMinus > limitKg ? 'within-doubt' : 'under';
  return { ...load, limitKg, against };
}

const kg = (x: number): string => `${x.toFixed(1)} kg`;

function limitWarnings(loads: readonly StaticLoad[]): readonly string[] {
  return loads.flatMap((l) => {
    if (l.against === 'over') return [`${l.point} carries ${kg(l.kg)}, over its limit of ${kg(l.limitKg ?? 0)}.`];
    if (l.against === 'within-doubt')
      return [
        `${l.point} carries ${kg(l.kg)} ± ${kg(l.plusMinus)}: within the doubt that is over its limit of ${kg(l.limitKg ?? 0)}.`,
      ];
    return [];
  });
}

/** Less than this beside the line of the points is not spoken of. */
const BESIDE_M = 0.001;

function isBeside(s: Support, m: Moments): boolean {
  const d = besideLine(s, m);
  return d !== null && d.distance > BESIDE_M && d.distance > d.plusMinus;
}

/** Points on one spot, or in one line with the weight beside it, carry it in no way that can be worked out. */
function degenerate(s: Support, m: Moments): Problem | null {
  const { rank } = s.geometry;
  const n = s.points.length;
  if (rank === 0 && n > 1)
    return problem(
      'SUPPORT_POINTS_COINCIDE',
      `All ${n} points lie on one spot.`,
      'Give the arms (x, and y where they stand left and right) of the points.',
      'points',
    );
  if (rank !== 1 || n < 3 || !isBeside(s, m)) return null;
  const off = besideLine(s, m);
  return problem(
    'SUPPORT_POINTS_IN_LINE',
    `The ${n} points lie in one line and the weight ${(off?.distance ?? 0).toFixed(3)} m beside it.`,
    'Give the sideways arms (y) of the points, or add a point off the line.',
    'points',
  );
}

function shapeWarnings(s: Support, m: Moments, loads: readonly StaticLoad[], edge: Edge | null): readonly string[] {
  const n = s.points.length;
  const off = besideLine(s, m)?.distance.toFixed(3) ?? '';
  const out: string[] = [];
  if (n === 1)
    out.push(`One point alone holds nothing level${isBeside(s, m) ? `: the weight lies ${off} m beside it` : ''}.`);
  if (n === 2)
    out.push(
      `Two points: balanced along the line that joins them${isBeside(s, m) ? `; the weight lies ${off} m beside it` : ''}. Nothing is said sideways.`,
    );
  if (n > 3 || (n === 3 && s.geometry.rank === 1))
    out.push(
      `${n} points${n === 3 ? ' in line' : ''}: shared as by a rigid body on points of equal stiffness; real stands share otherwise.`,
    );
  if (loads.some((l) => l.kg < 0)) {
    const light = loads
      .filter((l) => l.kg < 0)
      .map((l) => l.point)
      .join(', ');
    const tips = edge !== null && edge.distance < 0;
    out.push(
      tips
        ? `The weight lies outside the points: it tips off ${light}.`
        : `${light} lifts off; the other points carry its share.`,
    );
  }
  return out;
}

export function supportLoads(masses: readonly StaticMass[], points: readonly StaticPoint[]): Result<SupportLoads> {
  const bad = firstBad(masses, points);
  if (bad) return failed(bad);
  const sum = masses.reduce((m, mass) => addMoments(m, momentsOf(mass.kg, mass.at)), NO_MOMENTS);
  const cg = centreOf(sum);
  if (!Number.isFinite(sum.uuxx + sum.uuyy + sum.aax + sum.aay + sum.x + sum.y))
    return failed(
      problem(
        'SUPPORT_NOT_FINITE',
        'Masses times arms are too large to be held.',
        'Check the masses and arms.',
        'masses',
      ),
    );
  if (cg === null)
    return failed(
      problem(
        'SUPPORT_NO_WEIGHT',
        'Nothing with a mass rests on the points.',
        'Give the mass and arm of at least the airframe.',
        'masses',
      ),
    );
  const support = prepareSupport(points);
  const cannot = degenerate(support, sum);
  if (cannot) return failed(cannot);
  const loads = loadsOn(support, sum).map((l, i) => limited(l, points[i]?.limitKg));
  const edge = nearestEdge(support, sum);
  const least = loads.reduce((a, b) => (b.kg - b.plusMinus < a.kg - a.plusMinus ? b : a));
  const warnings = [
    ...missingArms(
      masses.map((m, i) => ({ name: m.name ?? `mass ${i + 1}`, at: m.at })),
      'mass',
    ),
    ...missingArms(
      points.map((p) => ({ name: p.id, at: p.at })),
      'point',
    ),
    ...shapeWarnings(support, sum, loads, edge),
    ...limitWarnings(loads),
  ];
  return ok({ loads, total: { value: sum.kg, plusMinus: Math.sqrt(sum.uu) }, cg, least, edge, warnings });
}
