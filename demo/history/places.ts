/**
 * The places of the invented shop: two racks of shelves against the north wall, one rack of five shelves for each assembly,
 * a caged quarantine shelf, the bench, trestles, the box by the stove, and the shops outside. INVENTED.
 *
 * `WALLS` says where each shelf is on the drawn photographs of the wall; the drawing and the boxes both come from it, so
 * they cannot disagree. Lengths are parts of the picture's width and height.
 */

import { recording } from '../../src/journal/commands.ts';
import type { DataOf } from '../../src/journal/kinds/kinds.ts';
import { ASSEMBLIES, type DemoLine } from '../parts.ts';
import type { By, Recorder } from './act.ts';

export type Box = readonly [left: number, top: number, width: number, height: number];
export type WallId = 'west' | 'east';

export interface Shelf {
  readonly place: string;
  readonly name: string;
  readonly assembly: string;
  readonly wall: WallId;
  readonly box: Box;
}

export const WALL_IDS: readonly WallId[] = ['west', 'east'];
const RACKS_ON_A_WALL = 6;
const SHELVES = 5;
const LEFT = 0.035;
const TOP = 0.12;
const RACK = 0.155;
const HIGH = 0.136;

export const shelfOf = (l: DemoLine): number => (Number(l.id.slice(3)) % SHELVES) + 1;
/** Where the bag of a line lies when nobody has sent it anywhere. */
export const placeOf = (l: DemoLine): string => `rack-${l.assembly}-${shelfOf(l)}`;

export const SHELVES_OF_THE_SHOP: readonly Shelf[] = ASSEMBLIES.flatMap((a, i) =>
  Array.from({ length: SHELVES }, (_, s): Shelf => {
    const column = i % RACKS_ON_A_WALL;
    return {
      place: `rack-${a.id}-${s + 1}`,
      name: `Rack ${a.id}, shelf ${s + 1}`,
      assembly: a.id,
      wall: i < RACKS_ON_A_WALL ? 'west' : 'east',
      box: [round(LEFT + column * RACK), round(TOP + s * HIGH), round(RACK - 0.005), round(HIGH - 0.008)],
    };
  }),
);

/** The caged box under the east racks. */
export const QUARANTINE_BOX: Box = [0.035, 0.845, 0.3, 0.13];
export const BENCH_BOX: Box = [0.36, 0.845, 0.6, 0.13];

function round(n: number): number {
  return Number(n.toFixed(4));
}

export const QUARANTINE = 'quarantine';
export const BENCH = 'bench';
export const STOVE_BOX = 'box-pl-1';

const OUTSIDE: readonly (readonly [place: string, name: string, note: string])[] = [
  ['bright-sable', 'Bright Sable Plating', 'cadmium, smallest lot 7 kg'],
  ['marlpit', 'Marlpit Hard Chrome & Grinding', 'strip, grind, hard chrome'],
  ['fenwright', 'Fenwright Crack Testing', 'magnetic particle, penetrant, eddy current'],
  ['sallow-heath', 'Sallow Heath Propellers', 'the new wooden propeller'],
  ['orrin', 'Orrin Magneto Room', 'magnetos, coils'],
  ['gault', 'Gault Forgework', 'leg forging'],
];

const INSIDE: readonly DataOf<'place-noted'>[] = [
  {
    place: QUARANTINE,
    name: 'Quarantine cage',
    kind: 'quarantine',
    note: 'What is not to be fitted again. Marit has the key.',
  },
  { place: BENCH, name: 'Long bench', kind: 'bench' },
  { place: STOVE_BOX, name: 'Box by the stove', kind: 'box' },
  { place: 'trestles', name: 'Trestles along the slate wall', kind: 'other', note: 'wings, floats, tail surfaces' },
  { place: 'engine-stand', name: 'Engine stand', kind: 'other' },
];

/** Large pieces lie on trestles with their bag tied to them. */
const TRESTLES = new Set(['04', '05']);
export function kindOfPlace(l: DemoLine): string {
  if (l.id === '11-01') return 'engine-stand';
  return TRESTLES.has(l.assembly) && /spar|shell/i.test(l.name) ? 'trestles' : placeOf(l);
}

/** Noted again, with another photograph, whenever the wall has changed: the last one holds. */
export function notePlaces(r: Recorder, by: By, walls: ReadonlyMap<WallId, string>): void {
  const wall = (id: WallId, box: Box) => {
    const photo = walls.get(id);
    return photo === undefined ? {} : { wall: { photo, box: [...box] as [number, number, number, number] } };
  };
  const note = (data: DataOf<'place-noted'>) => r.record(by, recording('place-noted', data), 0);
  for (const s of SHELVES_OF_THE_SHOP) note({ place: s.place, name: s.name, kind: 'shelf', ...wall(s.wall, s.box) });
  for (const p of INSIDE) {
    const box = p.place === QUARANTINE ? QUARANTINE_BOX : p.place === BENCH ? BENCH_BOX : null;
    note({ ...p, ...(box !== null && wall('east', box)) });
  }
  for (const [place, name, words] of OUTSIDE) note({ place, name, kind: 'outside', note: words });
}
