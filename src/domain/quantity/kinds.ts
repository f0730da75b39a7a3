/**
 * Kinds of quantity: what a figure is about, beyond its dimension.
 *
 * Dimension alone cannot tell a torque from an energy, a temperature from a difference of temperatures, or an angle
 * from a bare number; a kind can. Each kind has one coherent SI unit in which it is held. A rotation is held in turns
 * a second (ISO 80000-3: rotational frequency, s^-1), so that rpm needs no pi. Not chosen: a dimension vector as the
 * type, which lets 25 N.m pass where 25 J was wanted.
 */
import type * as Si from './si.ts';

export interface SiOf {
  readonly number: Si.Plain;
  readonly angle: Si.Radian;
  readonly length: Si.Metre;
  readonly area: Si.SquareMetre;
  readonly volume: Si.CubicMetre;
  readonly 'second-moment': Si.MetreToTheFourth;
  readonly 'per-length': Si.PerMetre;
  readonly time: Si.Second;
  readonly speed: Si.MetrePerSecond;
  readonly acceleration: Si.MetrePerSecondSquared;
  readonly rotation: Si.PerSecond;
  readonly mass: Si.Kilogram;
  readonly density: Si.KilogramPerCubicMetre;
  readonly 'areal-density': Si.KilogramPerSquareMetre;
  readonly inertia: Si.KilogramSquareMetre;
  readonly force: Si.Newton;
  readonly stiffness: Si.NewtonPerMetre;
  readonly pressure: Si.Pascal;
  readonly torque: Si.NewtonMetre;
  readonly energy: Si.Joule;
  readonly power: Si.Watt;
  readonly temperature: Si.Kelvin;
  readonly 'temperature-difference': Si.KelvinDifference;
  readonly 'per-temperature': Si.PerKelvin;
  readonly current: Si.Ampere;
  readonly 'current-per-length': Si.AmperePerMetre;
  readonly voltage: Si.Volt;
  readonly resistance: Si.Ohm;
  readonly charge: Si.Coulomb;
}
export type Kind = keyof SiOf;

/** Exponents of length, mass, time, current, temperature. */
export type Dimension = readonly [number, number, number, number, number];

interface KindEntry {
  readonly dimension: Dimension;
  readonly unit: string;
  readonly words: string;
}

export const KINDS: { readonly [K in Kind]: KindEntry } = {
  number: { dimension: [0, 0, 0, 0, 0], unit: '1', words: 'a plain number' },
  angle: { dimension: [0, 0, 0, 0, 0], unit: 'rad', words: 'an angle' },
  length: { dimension: [1, 0, 0, 0, 0], unit: 'm', words: 'a length' },
  area: { dimension: [2, 0, 0, 0, 0], unit: 'm^2', words: 'an area' },
  volume: { dimension: [3, 0, 0, 0, 0], unit: 'm^3', words: 'a volume or section modulus' },
  'second-moment': { dimension: [4, 0, 0, 0, 0], unit: 'm^4', words: 'a second moment of area' },
  'per-length': { dimension: [-1, 0, 0, 0, 0], unit: '1/m', words: 'a count per length' },
  time: { dimension: [0, 0, 1, 0, 0], unit: 's', words: 'a time' },
  speed: { dimension: [1, 0, -1, 0, 0], unit: 'm/s', words: 'a speed' },
  acceleration: { dimension: [1, 0, -2, 0, 0], unit: 'm/s^2', words: 'an acceleration' },
  rotation: { dimension: [0, 0, -1, 0, 0], unit: '1/s', words: 'a rate of turning' },
  mass: { dimension: [0, 1, 0, 0, 0], unit: 'kg', words: 'a mass' },
  density: { dimension: [-3, 1, 0, 0, 0], unit: 'kg/m^3', words: 'a density' },
  'areal-density': { dimension: [-2, 1, 0, 0, 0], unit: 'kg/m^2', words: 'a mass per area' },
  inertia: { dimension: [2, 1, 0, 0, 0], unit: 'kg.m^2', words: 'a moment of inertia' },
  force: { dimension: [1, 1, -2, 0, 0], unit: 'N', words: 'a force' },
  stiffness: { dimension: [0, 1, -2, 0, 0], unit: 'N/m', words: 'a force per length' },
  pressure: { dimension: [-1, 1, -2, 0, 0], unit: 'Pa', words: 'a pressure or stress' },
  torque: { dimension: [2, 1, -2, 0, 0], unit: 'N.m', words: 'a torque' },
  energy: { dimension: [2, 1, -2, 0, 0], unit: 'J', words: 'an energy' },
  power: { dimension: [2, 1, -3, 0, 0], unit: 'W', words: 'a power' },
  temperature: { dimension: [0, 0, 0, 0, 1], unit: 'K', words: 'a temperature' },
  'temperature-difference': { dimension: [0, 0, 0, 0, 1], unit: 'K', words: 'a difference of temperatures' },
  'per-temperature': { dimension: [0, 0, 0, 0, -1], unit: '1/K', words: 'a change per degree' },
  current: { dimension: [0, 0, 0, 1, 0], unit: 'A', words: 'a current' },
  'current-per-length': { dimension: [-1, 0, 0, 1, 0], unit: 'A/m', words: 'a current per length' },
  voltage: { dimension: [2, 1, -3, -1, 0], unit: 'V', words: 'a voltage' },
  resistance: { dimension: [2, 1, -3, -2, 0], unit: 'ohm', words: 'a resistance' },
  charge: { dimension: [0, 0, 1, 1, 0], unit: 'A.s', words: 'an electric charge' },
};

export const ALL_KINDS = Object.keys(KINDS) as readonly Kind[];

export function kindsOfDimension(d: Dimension): readonly Kind[] {
  return ALL_KINDS.filter((k) => KINDS[k].dimension.every((e, i) => e === d[i]));
}
