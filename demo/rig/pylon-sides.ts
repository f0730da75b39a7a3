/**
 * The two sides of the pylon and what sits on them: which strut, foot, bolt and wing spar belongs where, and how each was
 * found. Shared by the pylon (03) and the joints at the wing root. INVENTED.
 */
import type { Need } from '../../src/domain/rig/rig-types.ts';
import { PORT, reach, type Side, STARBOARD } from './hull-words.ts';
import { UNITS } from './names.ts';

export const FRONT_SPAR = '03-11';
export const REAR_SPAR = '03-12';

export interface PylonSide extends Side {
  readonly front: string;
  readonly rear: string;
  readonly diagonal: string;
  readonly feet: string;
  readonly bolts: string;
  readonly lift: string;
  readonly wing: string;
  readonly wingFront: string;
  readonly wingRear: string;
  readonly bay: Need;
  readonly found: Readonly<Record<string, string>>;
}

export const PORT_PYLON: PylonSide = {
  ...PORT,
  front: '03-01',
  rear: '03-03',
  diagonal: '03-05',
  feet: '03-07',
  bolts: '03-09',
  lift: '03-20',
  wing: UNITS.wingL,
  wingFront: '04-01',
  wingRear: '04-03',
  bay: reach.tankBayL,
  found: { front: 'sound, light rust in the end', rear: 'sound', diagonal: 'sound', foot: 'rust, threads good' },
};
export const STARBOARD_PYLON: PylonSide = {
  ...STARBOARD,
  front: '03-02',
  rear: '03-04',
  diagonal: '03-06',
  feet: '03-08',
  bolts: '03-10',
  lift: '03-21',
  wing: UNITS.wingR,
  wingFront: '04-02',
  wingRear: '04-04',
  bay: reach.tankBayR,
  found: {
    front: 'dent 3.4 deep × 22 long, mid third (U-1)',
    rear: 'water pipe 42.4 × 3.25, butt-welded 1952; never fit again (E-06)',
    diagonal: 'bow 4 mm',
    foot: 'one stretched eye (Q-09)',
  },
};

/** `03-09.1` is held by `03-j09.1`. */
export const jointId = (p: string, tail = '') => `${p.replace('03-', '03-j')}${tail}`;
