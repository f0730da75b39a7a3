/**
 * What was caught on the floor from 16 September to 17 November 2025: sets, voice notes, tools counted in and out, what was
 * stuck and what was tried, what was measured. INVENTED.
 */
import { bagCode } from '../../src/domain/bag-code.ts';
import { recording } from '../../src/journal/commands.ts';
import type { DataOf } from '../../src/journal/kinds/kinds.ts';
import { line } from '../parts.ts';
import { G1 } from '../photographs/keel-grid.ts';
import { KEEL_CORNERS } from '../photographs/shop-pictures.ts';
import { lines, type Recorder } from './act.ts';
import { measured, tag, wallNow } from './floor-words.ts';
import { QUARANTINE } from './places.ts';
import { HERE, oneBoltBack, rob } from './robbed.ts';
import { JOSS, MARIT, NADIA, PIM, ROSALIND } from './shop.ts';
import { keepSound } from './sounds.ts';
import { tailJoints } from './tail-joints.ts';

/** The first of the pre-printed roll. */
const FOREIGN_BAG = bagCode(452);

/** The foreign bolt of the scissors: a bag of its own, in the cage. */
export function foreignBolt(r: Recorder): void {
  r.record(
    NADIA,
    recording('piece-noted', {
      piece: 'F-08-12',
      name: 'Bolt, foreign, 5/16 inch',
      position: '08-12.2',
      note: 'sat where a scissors pin belongs',
    }),
    0,
  );
  r.record(
    NADIA,
    recording('bagged', {
      bag: FOREIGN_BAG,
      opens: true,
      of: ['08-12.2'],
      things: ['F-08-12'],
      hand: 'R',
      place: QUARANTINE,
    }),
    0,
  );
  tag(r, NADIA, FOREIGN_BAG, 'quarantine', 'Foreign bolt. Keep; do not fit, do not copy');
}

/** Things kept together, whatever else is sorted. */
const SETS: readonly (readonly [members: readonly string[], why: string])[] = [
  [['07-04', '07-05', '07-06', '07-07'], 'one cylinder with its rod, nut and packing, port'],
  [['08-04', '08-05', '08-06', '08-07'], 'one cylinder with its rod, nut and packing, starboard'],
  [['09-13', '09-15'], 'jack screw and nut run together, left-hand'],
  [['09-14', '09-16'], 'jack screw and nut run together, right-hand'],
  [['09-03', '09-04'], 'worm and wheel, contact pattern'],
  [[...lines('03-16'), ...lines('03-18')], 'port wing pins with their shims: two of 0.5, one of 0.2'],
  [['11-12', '11-13', ...lines('11-14')], 'blades, hub and the bolts in the order they came out'],
  [['10-16', '10-17'], 'centring springs, 118 and 131: which is right is open (Q-13)'],
];

export function setsNoted(r: Recorder): void {
  r.on('2025-09-16', 16, 0);
  foreignBolt(r);
  for (const [members, why] of SETS) r.record(ROSALIND, recording('goes-with', { members: [...members], why }), 0);
}

/** Behind C14, through the cover, on 21 October: one rag did not come out again. */
export function behindC14(r: Recorder): void {
  const inside = (way: 'in' | 'out', items: readonly (readonly [string, number])[], note: string) =>
    r.record(
      NADIA,
      recording('counted-inside', {
        zone: 'Behind C14',
        way,
        items: items.map(([what, count]) => ({ what, count })),
        note,
      }),
      5,
    );
  inside(
    'in',
    [
      ['rag', 2],
      ['inspection lamp', 1],
      ['mirror', 1],
    ],
    'through the cover at C14 starboard',
  );
  inside(
    'out',
    [
      ['rag', 1],
      ['inspection lamp', 1],
      ['mirror', 1],
    ],
    'Second rag not found; cable guard in the way. Cover stays off.',
  );
}

/** The lower bearing of the water-rudder post: what was tried, and what let it go. Called right after "stuck". */
export function triedOnThePost(r: Recorder): () => void {
  const stuck = r.last;
  const tried = (method: string, helped: DataOf<'tried'>['helped'], note: string) =>
    r.record({ by: 'benedikt', device: 'shared-tablet' }, recording('tried', { stuck, method, helped, note }), 5);
  tried('penetrating oil, over night', 'no', 'from above; it does not reach the lower collar');
  tried('warm air, hand-warm plus a little', 'not-yet-known', 'boot and fabric kept away');
  tried('turned to and fro by a strap, not by the blade', 'yes', 'a quarter turn, then free');
  return () => {
    r.record(
      { by: 'benedikt', device: 'shared-tablet' },
      recording('freed', { stuck, note: 'came with the strap' }),
      0,
    );
  };
}

/** The last days before 18 November: measured, looked at, said aloud. */
export function beforeTheSpring(r: Recorder): void {
  r.on('2025-11-11', 9, 0);
  const keel = r.photo(JOSS, 'keel', { show: 'keel' }, ['01-07'], 'Keel fore, grid G-1 chalked on, squares of 20 mm');
  r.record(
    JOSS,
    recording('thickness-noted', {
      subject: '01-07',
      ...(keel !== undefined && { photo: keel, corners: KEEL_CORNERS.map(([x, y]) => [x, y] as [number, number]) }),
      step: '20 mm',
      unit: 'mm',
      nominal: '2.00',
      readings: G1.map((row) => [...row]),
      instrument: 'ultrasonic gauge, dural block 2.00 before and after',
      note: 'G-1: rows 1 to 4 from port, columns a to h aft',
    }),
    40,
  );
  keepSound(
    r,
    JOSS,
    'joss-keel',
    ['01-07'],
    9,
    'Keel is thin at e three, one and a half. Not through. Somebody decide before I order sheet.',
  );
  measured(
    r,
    ROSALIND,
    '11-13',
    'run-out',
    ['0.04', '0.05', '0.05'],
    'dial indicator, cone dressed',
    'three turns of the shaft',
  );
  dialOfTheHub(r);
  measured(
    r,
    JOSS,
    '06-12',
    'end-play',
    ['0.45', '0.44', '0.46'],
    'dial indicator, axial',
    'allowed play is not known (Q-12)',
  );
  r.on('2025-11-12', 9, 30);
  tailJoints(r);
  stuckTrunnion(r);
  r.on('2025-11-13', 11, 30);
  rob(r, ROSALIND, HERE);
  r.on('2025-11-13', 14, 0);
  oilPipes(r);
  keepSound(
    r,
    JOSS,
    'joss-c9',
    ['02-09', '02-02'],
    14,
    'Panel nine. Torn faces are bright, no paint on them. So it tore after the last coat. Leave the flange alone.',
  );
  r.on('2025-11-14', 11, 0);
  oneBoltBack(r, ROSALIND, HERE);
  r.on('2025-11-17', 11, 0);
  r.record(
    JOSS,
    recording('moved', {
      what: line('06-14').bag,
      to: { custodian: 'joss', place: 'bench' },
      note: 'template for the new blade',
    }),
    0,
  );
  wallNow(r, MARIT, 'november');
}

function dialOfTheHub(r: Recorder): void {
  r.record(
    ROSALIND,
    recording('dial-noted', {
      subject: '11-01',
      stations: ['cone, rear', 'cone, front'],
      angles: [0, 90, 180, 270],
      unit: '0.01 mm',
      readings: [
        ['0', '1', '2', '1'],
        ['0', '3', '5', '2'],
      ],
      supports: ['shaft in its own bearings'],
      instrument: 'dial indicator',
      note: 'TIR 0.05 at the front of the cone; DE-3 says it stopped dead (Q-16)',
    }),
    20,
  );
}

/** The port trunnion pin does not move: nobody knows yet of the flat that lets it out at 35° only. Not done, so not freed. */
function stuckTrunnion(r: Recorder): void {
  r.record(
    JOSS,
    recording('stuck', { action: '07-j02', note: 'Port trunnion pin turns a little and does not draw' }),
    10,
  );
  const stuck = r.last;
  const tried = (method: string, helped: DataOf<'tried'>['helped'], note: string) =>
    r.record(JOSS, recording('tried', { stuck, method, helped, note }), 15);
  tried('penetrating oil, two days', 'no', 'turns no easier');
  tried('soft drift, light blows, weight of the leg taken', 'no', 'stops dead, as against a shoulder');
  tried('warm air on the lug, pin left cold', 'not-yet-known', 'looked for a hidden keeper with the mirror: none seen');
  keepSound(
    r,
    JOSS,
    'joss-trunnion',
    ['07-02'],
    11,
    'Trunnion pin port. It stops like there is a step in it. I am not hitting it harder.',
  );
}

/** Five oil pipes came off; four were counted. The difference stands open on the 18th. */
function oilPipes(r: Recorder): void {
  r.record(NADIA, recording('counted', { lot: 'L-11-08', count: 4, how: 'by-hand', note: 'list says five' }), 5);
  r.record(
    PIM,
    recording('note', { subject: '11-08', text: 'Rosalind may have one at the bench as a pattern: ask.' }),
    0,
  );
}
