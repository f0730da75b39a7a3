/**
 * Units by name, each as a product of exact definitions; nothing here is a rounded factor.
 *
 * Definitions: inch 0.0254 m, pound 0.45359237 kg (international yard and pound agreement, 1959), standard gravity
 * 9.80665 m/s^2 (3rd CGPM, 1901), US gallon 231 in^3, imperial gallon 4.54609 L, bar 1e5 Pa, atmosphere 101325 Pa,
 * conventional millimetre of mercury 13.5951 x 9.80665 Pa, horsepower 550 ft.lbf/s, metric horsepower 75 kgf.m/s, UK
 * ton 2240 lb (British tables give stresses in tonf/in^2), nautical mile 1852 m. The list: NIST SP 811, appendix B
 * (from memory; `unit-table.test.ts` compares factor by factor with published figures).
 * Products and quotients (N/mm^2, slug/ft^3) are not listed: `unit-read.ts` builds them from these.
 */
import type { Kind } from './kinds.ts';
import { ONE, overRatio, PI, power, type Ratio, ratio, times } from './ratio.ts';

export interface NamedUnit {
  /** The one way in which we store it: plain ASCII. */
  readonly symbol: string;
  /** Other ways of writing it that are read. */
  readonly also: readonly string[];
  readonly kind: Kind;
  readonly scale: Ratio;
  /** Added before scaling; only thermometers have it. */
  readonly shift?: Ratio;
}

const INCH = ratio('0.0254');
const FOOT = times(INCH, ratio('12'));
const POUND = ratio('0.45359237');
const GRAVITY = ratio('9.80665');
const LBF = times(POUND, GRAVITY);
const PSI = overRatio(LBF, power(INCH, 2));
const MERCURY_MM = times(ratio('13.5951'), GRAVITY);
const MINUTE = ratio('60');
const HOUR = ratio('3600');
const UK_TON = times(POUND, ratio('2240'));
const US_GALLON = times(power(INCH, 3), ratio('231'));
const DEGREE = overRatio(PI, ratio('180'));
const TURN = times(PI, ratio('2'));
const thousandths = (r: Ratio): Ratio => overRatio(r, ratio('1000'));
const thousands = (r: Ratio): Ratio => times(r, ratio('1000'));
const millions = (r: Ratio): Ratio => times(r, ratio('1000000'));

function unit(kind: Kind, symbol: string, scale: Ratio, also = '', shift?: Ratio): NamedUnit {
  const words = also === '' ? [] : also.split('|');
  return shift === undefined ? { symbol, also: words, kind, scale } : { symbol, also: words, kind, scale, shift };
}

export const NAMED_UNITS: readonly NamedUnit[] = [
  unit('length', 'm', ONE, 'metre|metres|meter|meters'),
  unit('length', 'km', ratio('1000')),
  unit('length', 'dm', ratio('0.1')),
  unit('length', 'cm', ratio('0.01')),
  unit('length', 'mm', ratio('0.001'), 'millimetre|millimetres|millimeter|millimeters'),
  unit('length', 'um', ratio('0.000001'), 'micron|microns|micrometre|micrometer'),
  unit('length', 'nm', ratio('0.000000001')),
  unit('length', 'in', INCH, 'in.|inch|inches|IN'),
  unit('length', 'thou', thousandths(INCH), 'thousandths'),
  unit('length', 'uin', times(INCH, ratio('0.000001')), 'microinch'),
  unit('length', 'ft', FOOT, 'ft.|foot|feet|FT'),
  unit('length', 'yd', times(FOOT, ratio('3')), 'yard|yards'),
  unit('length', 'mi', times(FOOT, ratio('5280')), 'mile|miles'),
  unit('length', 'nmi', ratio('1852')),
  unit('volume', 'L', ratio('0.001'), 'l|litre|litres|liter|liters'),
  unit('volume', 'mL', ratio('0.000001'), 'ml|cc'),
  unit('volume', 'US gal', US_GALLON, 'USgal|gal US|US gallon|US gallons'),
  unit('volume', 'US qt', overRatio(US_GALLON, ratio('4')), 'USqt|US quart|US quarts'),
  unit('volume', 'imp gal', ratio('0.00454609'), 'UK gal|impgal|imperial gallon|imperial gallons'),
  unit('angle', 'rad', ONE, 'radian|radians'),
  unit('angle', 'mrad', ratio('0.001')),
  unit('angle', 'deg', DEGREE, 'degree|degrees'),
  unit('angle', 'arcmin', overRatio(DEGREE, ratio('60'))),
  unit('angle', 'arcsec', overRatio(DEGREE, ratio('3600'))),
  unit('time', 's', ONE, 'sec|second|seconds'),
  unit('time', 'ms', ratio('0.001')),
  unit('time', 'min', MINUTE, 'minute|minutes'),
  unit('time', 'h', HOUR, 'hr|hrs|hour|hours'),
  unit('time', 'd', times(HOUR, ratio('24')), 'day|days'),
  unit('speed', 'mph', overRatio(times(FOOT, ratio('5280')), HOUR)),
  unit('speed', 'kt', overRatio(ratio('1852'), HOUR), 'knot|knots'),
  unit('rotation', 'Hz', ONE),
  unit('rotation', 'rpm', overRatio(ONE, MINUTE), 'RPM|r/min|rev/min|turns/min'),
  unit('rotation', 'rad/s', overRatio(ONE, TURN)),
  unit('rotation', 'deg/s', ratio('1', '360')),
  unit('mass', 'kg', ONE, 'kilogram|kilograms'),
  unit('mass', 'g', ratio('0.001'), 'gram|grams'),
  unit('mass', 'mg', ratio('0.000001')),
  unit('mass', 't', ratio('1000'), 'tonne|tonnes'),
  unit('mass', 'lb', POUND, 'lbs|lbm|pound|pounds|LB'),
  unit('mass', 'oz', overRatio(POUND, ratio('16')), 'ounce|ounces'),
  unit('mass', 'slug', overRatio(LBF, FOOT), 'slugs'),
  unit('mass', 'UK ton', UK_TON, 'long ton|long tons'),
  unit('force', 'N', ONE, 'newton|newtons'),
  unit('force', 'mN', ratio('0.001')),
  unit('force', 'daN', ratio('10')),
  unit('force', 'kN', ratio('1000')),
  unit('force', 'MN', ratio('1000000')),
  unit('force', 'gf', thousandths(GRAVITY)),
  unit('force', 'kgf', GRAVITY, 'kp'),
  unit('force', 'ozf', overRatio(LBF, ratio('16'))),
  unit('force', 'lbf', LBF, 'LBF'),
  unit('force', 'kip', thousands(LBF), 'kips|kipf'),
  unit('force', 'UK tonf', times(UK_TON, GRAVITY), 'long tonf'),
  unit('pressure', 'Pa', ONE),
  unit('pressure', 'hPa', ratio('100')),
  unit('pressure', 'kPa', ratio('1000')),
  unit('pressure', 'MPa', ratio('1000000')),
  unit('pressure', 'GPa', ratio('1000000000')),
  unit('pressure', 'mbar', ratio('100')),
  unit('pressure', 'bar', ratio('100000')),
  unit('pressure', 'atm', ratio('101325')),
  unit('pressure', 'mmHg', MERCURY_MM),
  unit('pressure', 'inHg', times(MERCURY_MM, ratio('25.4'))),
  unit('pressure', 'psi', PSI, 'PSI|lb/in^2|lbs/in^2'),
  unit('pressure', 'ksi', thousands(PSI), 'KSI|kpsi'),
  unit('pressure', 'Mpsi', millions(PSI), 'Msi'),
  unit('pressure', 'psf', overRatio(LBF, power(FOOT, 2))),
  unit('pressure', 'tsi', overRatio(times(UK_TON, GRAVITY), power(INCH, 2))),
  unit('torque', 'N.m', ONE, 'Nm'),
  unit('torque', 'N.mm', ratio('0.001'), 'Nmm'),
  unit('torque', 'kN.m', ratio('1000'), 'kNm'),
  unit('energy', 'J', ONE, 'joule|joules'),
  unit('energy', 'mJ', ratio('0.001')),
  unit('energy', 'kJ', ratio('1000')),
  unit('energy', 'MJ', ratio('1000000')),
  unit('energy', 'W.h', HOUR, 'Wh'),
  unit('energy', 'kW.h', thousands(HOUR), 'kWh'),
  unit('power', 'W', ONE, 'watt|watts'),
  unit('power', 'kW', ratio('1000')),
  unit('power', 'hp', times(FOOT, LBF, ratio('550')), 'HP'),
  unit('power', 'PS', times(GRAVITY, ratio('75')), 'cv|ch'),
  unit('temperature', 'K', ONE, 'kelvin'),
  unit('temperature', 'degC', ONE, 'celsius|Celsius', ratio('273.15')),
  unit('temperature', 'degF', ratio('5', '9'), 'fahrenheit|Fahrenheit', ratio('459.67')),
  unit('temperature', 'degR', ratio('5', '9')),
  unit('current', 'A', ONE, 'amp|amps|ampere|amperes'),
  unit('current', 'mA', ratio('0.001')),
  unit('voltage', 'V', ONE, 'volt|volts'),
  unit('voltage', 'mV', ratio('0.001')),
  unit('voltage', 'kV', ratio('1000')),
  unit('resistance', 'ohm', ONE, 'ohms'),
  unit('resistance', 'mohm', ratio('0.001')),
  unit('charge', 'A.s', ONE),
  unit('charge', 'A.h', HOUR, 'Ah'),
  unit('per-length', 'tpi', overRatio(ONE, INCH), 'TPI|threads/in'),
  unit('number', '1', ONE, '-'),
  unit('number', '%', ratio('0.01'), 'percent'),
  unit('number', 'ppm', ratio('0.000001')),
  unit('number', 'turn', ONE, 'turns|rev|revs'),
];

/** Names that mean two things: never guessed, always asked. */
export const AMBIGUOUS_UNITS: Readonly<Record<string, readonly string[]>> = {
  gal: ['US gal', 'imp gal'],
  gallon: ['US gal', 'imp gal'],
  gallons: ['US gal', 'imp gal'],
  qt: ['US qt', 'L'],
  ton: ['UK ton', 't', 'lb'],
  tons: ['UK ton', 't', 'lb'],
  tonf: ['UK tonf', 'kN', 'lbf'],
  mil: ['thou', 'mm'],
  mils: ['thou', 'mm'],
  kn: ['kN', 'kt'],
  C: ['degC', 'A.s'],
  F: ['degF'],
};
