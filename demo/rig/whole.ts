/**
 * Lays the assemblies of the invented rig together and gives the root what is left of the weighed aircraft. INVENTED.
 *
 * Empty without oil and fuel: 1,080 kg, CG 3.55 m aft of datum. Every part says its own mass; the hull structure that is
 * never taken apart (`airframe`) takes the remainder, so that the sum and the CG are exact. All the doubt is put on the
 * root, since that is what nobody can put on a scale: half-widths of 12 kg, and of an arm that moves the rear stand by
 * about 9 kg, which is what 50 mm of CG doubt comes to once engine and tail are off.
 */
import type { Figure, Part, Rig } from '../../src/domain/rig/rig-types.ts';
import { at, type Fragment, join, rigOf } from './author.ts';
import { ROOT } from './names.ts';
import { FRONT_STAND, REAR_STAND } from './support.ts';

export const EMPTY_KG = 1080;
export const EMPTY_CG = 3.55;
export const ROOT_MASS_DOUBT = 12;
export const REAR_STAND_DOUBT_KG = 9;
const STANDS_APART = REAR_STAND - FRONT_STAND;

const plain = (f: Figure | undefined): number => (f === undefined ? 0 : typeof f === 'number' ? f : f.value);

interface Sum {
  readonly kg: number;
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

export function massOf(parts: readonly Part[]): Sum {
  const sum = { kg: 0, x: 0, y: 0, z: 0 };
  for (const p of parts) {
    const kg = plain(p.massKg);
    sum.kg += kg;
    sum.x += kg * plain(p.at?.x);
    sum.y += kg * plain(p.at?.y);
    sum.z += kg * plain(p.at?.z);
  }
  return sum;
}

const round = (value: number, digits: number) => Number(value.toFixed(digits));

function rootPart(parts: readonly Part[]): Part {
  const rest = massOf(parts);
  const kg = round(EMPTY_KG - rest.kg, 6);
  if (kg < 100) throw new Error(`internal: the demo parts weigh ${rest.kg} kg, the root would be ${kg} kg; report it`);
  return {
    id: ROOT,
    name: 'Hull structure, never taken apart',
    hand: 'C',
    massKg: { value: kg, plusMinus: ROOT_MASS_DOUBT },
    at: {
      ...at(0, round(0 - rest.y / kg, 6) + 0, 0.5),
      x: {
        value: round((EMPTY_KG * EMPTY_CG - rest.x) / kg, 6),
        plusMinus: round((REAR_STAND_DOUBT_KG * STANDS_APART) / kg, 3),
      },
    },
  };
}

export function wholeRig(...fragments: readonly Fragment[]): Rig {
  const rest = join(...fragments);
  return rigOf('QX-OLA, O.7 "Correlimos" (invented example)', ROOT, { parts: [rootPart(rest.parts)] }, rest);
}
