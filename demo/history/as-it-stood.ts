/** 1 to 3 September 2025: the walk round, datums before the strip, places, bag numbers, the first tags. INVENTED. */
import { recording } from '../../src/journal/commands.ts';
import type { DataOf } from '../../src/journal/kinds/kinds.ts';
import { SIDE_WORDS } from '../photographs/shop-pictures.ts';
import type { Recorder } from './act.ts';
import { deg, mm, tag } from './floor-words.ts';
import { notePlaces } from './places.ts';
import { MARIT } from './shop.ts';

type DatumRow = readonly [
  datum: string,
  sort: DataOf<'datum-read'>['sort'],
  readings: DataOf<'datum-read'>['readings'],
  instrument: string,
];
/** 1 September, before anything was moved; two readings each where there was time. */
const DATUMS: readonly DatumRow[] = [
  [
    'level-along',
    'level',
    [deg('0.3 nose down', 0.3), deg('0.35 nose down', 0.35)],
    'clinometer on the cabin floor rails, C6–C8',
  ],
  [
    'level-across',
    'level',
    [deg('0.1 port down', 0.1), deg('0.1 port down', 0.1)],
    'clinometer on the front spar, centre',
  ],
  ['droop-port', 'droop', [mm('41', 41), mm('40', 40)], 'water tube, root to rib 14'],
  ['droop-starboard', 'droop', [mm('58', 58), mm('57', 57)], 'water tube, root to rib 14'],
  ['diagonal-port', 'diagonal', [mm('5 212', 5212), mm('5 213', 5213)], 'steel tape, tip front spar to stern post'],
  [
    'diagonal-starboard',
    'diagonal',
    [mm('5 226', 5226), mm('5 225', 5225)],
    'steel tape, tip front spar to stern post',
  ],
  ['pylon-cross-front', 'diagonal', [mm('1 148', 1148), mm('1 149', 1149)], 'trammel, foot to opposite eye'],
  ['pylon-cross-rear', 'diagonal', [mm('1 163', 1163)], 'trammel, foot to opposite eye'],
  ['incidence-port', 'incidence', [deg('3.2', 3.2), deg('3.3', 3.3)], 'clinometer on the rib board, rib 3'],
  ['incidence-starboard', 'incidence', [deg('2.9', 2.9), deg('2.9', 2.9)], 'clinometer on the rib board, rib 3'],
  ['gap-aileron-port', 'gap', [mm('6.5', 6.5), mm('6.0', 6)], 'feelers and rule, inboard end'],
];

/** Photographed where they sit, on the second walk round. */
const IN_PLACE: readonly (readonly [line: string, words: string])[] = [
  ['01-25', 'Data plate'],
  ['02-04', 'Outer lug starboard'],
  ['05-12', 'Cork in the starboard drain'],
  ['06-14', 'Water rudder blade'],
  ['07-09', 'Filler and air valve, port'],
  ['09-23', 'Position indicator drum'],
  ['10-03', 'Main spring in its tube'],
  ['10-07', 'Retaining nut, no lock wire'],
  ['11-05', 'Cowl ring, halves 19 and 23'],
  ['11-12', 'Propeller'],
];

/** Before anything is moved. */
export function asItStood(r: Recorder): void {
  r.on('2025-09-01', 10, 0);
  SIDE_WORDS.forEach((words, i) => {
    r.photo(MARIT, `round-${i + 1}`, { show: 'round', side: i + 1 }, ['job'], `Walk round, ${i + 1} of 8: ${words}`);
  });
  r.on('2025-09-01', 13, 30);
  for (const [datum, sort, readings, instrument] of DATUMS) {
    r.record(MARIT, recording('datum-read', { datum, sort, when: 'before', readings: [...readings], instrument }), 4);
  }
  r.on('2025-09-02', 9, 0);
  setAside(r, 101, 351, 'shared-tablet', false);
  setAside(r, 352, 401, 'joss-tablet', false);
  setAside(r, 402, 451, 'rosalind-phone', false);
  setAside(r, 452, 651, 'roll-1', true);
  notePlaces(r, MARIT, new Map());
  r.on('2025-09-03', 9, 0);
  tag(r, MARIT, '01-25', 'do-not-clean', 'Data plate: two rivets of four are not original (E-01, Q-01)');
  tag(r, MARIT, '09-23', 'do-not-clean', 'Scale in Spanish, old paint in the figures');
  tag(r, MARIT, '02-11', 'do-not-clean', 'Pencil "23 izq." on the diaphragm (E-12)');
  tag(r, MARIT, '01-10', 'quarantine', 'Patch of 1952, soft aluminium. A pattern only, never to be fitted (E-04)');
  tag(r, MARIT, '10-03', 'hazard', 'Loaded spring behind the nut, about 2 kN. Captive press only. Keep out of line');
  tag(r, MARIT, '07-09', 'hazard', 'Port oleo still holds 0.3 MPa. Let the gas out, then prove it');
  tag(r, MARIT, '08-09', 'hazard', 'Gauge reads 0 and the valve is varnished up: not proved empty (E-21)');
  for (const [id, words] of IN_PLACE) {
    r.photo(
      MARIT,
      `place-${id}`,
      { show: 'in-place', line: id },
      [id],
      `${words}: where it sits, drawn apart so that it can be seen`,
    );
  }
  r.photo(MARIT, 'tear', { show: 'tear' }, ['02-09', '02-02'], 'Side panel 9 starboard, torn from the lug (T-1)');
}

function setAside(r: Recorder, from: number, to: number, whose: string, roll: boolean): void {
  r.record(MARIT, recording('bags-set-aside', { from, to, for: whose, ...(roll && { roll: true }) }), 0);
}
