/**
 * Branded SI numbers: a `Metre` is a plain number that the compiler will not take for a `Newton`.
 *
 * The brand is erased by arithmetic (metre x metre is a number again), so formulas stay readable and the names stand
 * where they matter, at the doors of a function. Not chosen: unit objects with methods, which are slow in long loops
 * and make formulas unreadable.
 */
declare const si: unique symbol;
type Si<Name extends string> = number & { readonly [si]: Name };

export type Metre = Si<'m'>;
export type SquareMetre = Si<'m^2'>;
export type CubicMetre = Si<'m^3'>;
export type MetreToTheFourth = Si<'m^4'>;
export type PerMetre = Si<'1/m'>;
export type Radian = Si<'rad'>;
export type Second = Si<'s'>;
export type MetrePerSecond = Si<'m/s'>;
export type MetrePerSecondSquared = Si<'m/s^2'>;
export type PerSecond = Si<'1/s'>;
export type Kilogram = Si<'kg'>;
export type KilogramPerCubicMetre = Si<'kg/m^3'>;
export type KilogramPerSquareMetre = Si<'kg/m^2'>;
export type KilogramSquareMetre = Si<'kg.m^2'>;
export type Newton = Si<'N'>;
export type NewtonPerMetre = Si<'N/m'>;
export type Pascal = Si<'Pa'>;
export type NewtonMetre = Si<'N.m'>;
export type Joule = Si<'J'>;
export type Watt = Si<'W'>;
export type Kelvin = Si<'K'>;
export type KelvinDifference = Si<'K difference'>;
export type PerKelvin = Si<'1/K'>;
export type Ampere = Si<'A'>;
export type AmperePerMetre = Si<'A/m'>;
export type Volt = Si<'V'>;
export type Ohm = Si<'ohm'>;
export type Coulomb = Si<'C'>;
export type Plain = Si<'1'>;

export const metre = (x: number): Metre => x as Metre;
export const squareMetre = (x: number): SquareMetre => x as SquareMetre;
export const radian = (x: number): Radian => x as Radian;
export const second = (x: number): Second => x as Second;
export const metrePerSecond = (x: number): MetrePerSecond => x as MetrePerSecond;
export const kilogram = (x: number): Kilogram => x as Kilogram;
export const newton = (x: number): Newton => x as Newton;
export const newtonPerMetre = (x: number): NewtonPerMetre => x as NewtonPerMetre;
export const pascal = (x: number): Pascal => x as Pascal;
export const newtonMetre = (x: number): NewtonMetre => x as NewtonMetre;
export const joule = (x: number): Joule => x as Joule;
export const kelvin = (x: number): Kelvin => x as Kelvin;
