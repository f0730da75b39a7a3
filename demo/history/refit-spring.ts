/**
 * February to 14 April 2026: packages out and back, the first parts on again, the bay at C9 starboard. INVENTED.
 *
 * The story of the day: the new diaphragm hangs on skin pins to see whether it fits. It does. Riveted now, it would shut
 * off the rivets of side panel 9 and hide the inner lug, which the inspector has not seen.
 */
import { recording } from '../../src/journal/commands.ts';
import { LINES } from '../parts.ts';
import { lines, type Recorder } from './act.ts';
import type { Bagging } from './bagging.ts';
import { dialOfTheScrew, inApril } from './floor-winter.ts';
import { STOVE_BOX } from './places.ts';
import { CALLUM, JOSS, MARIT, NADIA, PIM, ROSALIND } from './shop.ts';

const PL_1 = [
  '01-04',
  '01-06',
  '01-22',
  '02-07',
  '03-16',
  '03-17',
  '04-15',
  '04-16',
  '04-17',
  '04-18',
  '06-03',
  '06-04',
  '07-12',
  '08-12',
  '07-19',
  '08-19',
  '09-25',
  '10-07',
  '10-10',
  '11-06',
  '12-13',
] as const;

/** Readings at the bench, as written and in SI. Millimetres unless the text says otherwise. */
const READINGS: readonly (readonly [subject: string, aspect: string, text: string, metres: number, tool: string])[] = [
  ['07-05', 'smallest-diameter', '51.905, pits 0.03', 0.051905, 'micrometer 50–75'],
  ['08-05', 'smallest-diameter', '51.78, pits 0.09 at 140–150', 0.05178, 'micrometer 50–75'],
  ['07-13', 'run-out', 'TIR 0.06', 0.00006, 'dial indicator, vee blocks'],
  ['08-13', 'run-out', 'TIR 0.38 at mid', 0.00038, 'dial indicator, vee blocks'],
  ['09-13', 'run-out', 'TIR 0.06', 0.00006, 'dial indicator, vee blocks'],
  ['09-14', 'run-out', 'TIR 0.39 at 220', 0.00039, 'dial indicator, vee blocks'],
  ['09-15', 'axial-play', '0.15', 0.00015, 'dial indicator'],
  ['09-16', 'axial-play', '0.60', 0.0006, 'dial indicator'],
  ['09-27', 'free-length', '61', 0.061, 'vernier'],
  ['09-28', 'free-length', '54', 0.054, 'vernier'],
  ['10-16', 'free-length', '118', 0.118, 'vernier'],
  ['10-17', 'free-length', '131', 0.131, 'vernier'],
  ['10-09', 'bend', '1.8', 0.0018, 'straight edge, feelers'],
  ['01-07', 'smallest-thickness', '1.50 at e3 (grid G-1)', 0.0015, 'ultrasonic gauge'],
  ['02-20', 'bow', '2.6 in 640', 0.0026, 'straight edge, dial'],
  ['06-12', 'end-play', '0.45', 0.00045, 'dial indicator'],
];

function atTheBench(r: Recorder): void {
  r.on('2026-01-27', 9, 0);
  for (const [subject, aspect, text, value, tool] of READINGS) {
    r.record(
      JOSS,
      recording('reading-noted', { subject, aspect, text: `${text} mm`, si: { value, unit: 'm' }, tool }),
      6,
    );
  }
  dialOfTheScrew(r);
  r.on('2026-01-28', 9, 0);
  for (const l of LINES)
    r.record(MARIT, recording('note', { subject: l.id, text: `Decided so far: ${l.decision}` }), 0);
}

function packagesOut(r: Recorder, bags: Bagging): void {
  const out = (by: typeof NADIA, ids: readonly string[], place: string, custodian: string, note: string) =>
    bags.send(by, ids, { place, custodian }, note);
  r.on('2026-01-28', 10, 0);
  out(NADIA, ['11-10', '11-11'], 'orrin', 'Orrin Magneto Room', 'MG-1: sent 12 January, ten weeks promised');
  out(
    NADIA,
    ['11-12'],
    'sallow-heath',
    'Sallow Heath Propellers',
    'PR-1: pattern for the new propeller; promise moved twice',
  );
  r.on('2026-02-05', 14, 0);
  r.settle(MARIT, 'leg-forging-l-crack-tested', 'CT-1: accepted; two indications elsewhere (11-02 lug 4, 03-08 eye)');
  r.on('2026-02-16', 9, 0);
  const pl1 = 'PL-1: 21 lines, 67 positions, 62 pieces, 3.9 kg; four weeks promised';
  out(NADIA, PL_1, 'bright-sable', 'Bright Sable Plating', pl1);
  r.on('2026-03-02', 11, 0);
  out(
    ROSALIND,
    ['07-05', '10-02'],
    'marlpit',
    'Marlpit Hard Chrome & Grinding',
    'HC-1: they ask before grinding 10-02',
  );
}

function firstPartsOn(r: Recorder, bags: Bagging): void {
  const on = (by: typeof PIM, ids: readonly string[], stage: 'loose' | 'final' | 'torqued') => {
    r.refit(by, ids, stage);
    bags.fitted(by, ids);
  };
  r.on('2026-03-05');
  on(PIM, lines('12-20'), 'final');
  r.refit(JOSS, lines('02-21'), 'final');
  bags.madeNew(JOSS, lines('02-21'), 'light alloy, not copper (P-2)');
  r.note(JOSS, '02-21', 'New drain tubes in light alloy, not copper (P-2).');
  r.on('2026-03-12');
  on(MARIT, lines('03-07'), 'torqued');
  r.on('2026-03-16');
  on(PIM, ['06-15', ...lines('06-16')], 'final');
  r.on('2026-03-19');
  on(
    PIM,
    [1, 2, 3, 4, 5, 6, 7, 8].map((n) => `12-14.${n}`),
    'final',
  );
  r.on('2026-03-23', 9, 0);
  bags.send(
    NADIA,
    ['08-01'],
    { place: 'gault', custodian: 'Gault Forgework' },
    'FO-1: sent to be straightened BEFORE its crack test: to be stopped (X-21)',
  );
  on(PIM, ['12-03', '12-05.2', '12-06.2'], 'final');
  r.on('2026-03-26');
  on(ROSALIND, ['12-15', '12-16', '12-18', '12-24'], 'loose');
  on(PIM, ['12-19', '01-18', '01-24'], 'final');
  r.on('2026-03-30');
  on(JOSS, ['02-03', '02-05'], 'loose');
  r.note(JOSS, '02-05', 'Lug plates port hang on their dowels; bolts 02-07 are at the plater.');
}

function thursday(r: Recorder, bags: Bagging): void {
  r.on('2026-04-02', 10, 30);
  r.record(CALLUM, { kind: 'sign-look', look: 'gate-7' }, 25);
  r.record(CALLUM, { kind: 'sign-look', look: 'gate-5-inner-lug' }, 10);
  r.on('2026-04-08').step(
    JOSS,
    'line-up-lugs-r',
    'Bar through both port lugs; run-out of the starboard holes under 0.1',
  );
  r.refit(JOSS, ['02-04', '02-06'], 'loose');
  bags.madeNew(JOSS, ['02-04', '02-06'], 'new plate; the old one stays bagged as the pattern');
  r.on('2026-04-09', 15, 10);
  r.record(
    JOSS,
    recording('look-reopened', {
      look: 'gate-7',
      why: 'Bay opened again to try the bush of the starboard bearing; swarf in the bilge',
    }),
  );
  r.on('2026-04-10', 11, 30);
  bags.send(NADIA, PL_1, { place: STOVE_BOX }, 'back from Bright Sable on 10 April, not yet counted');
}

function theBay(r: Recorder): void {
  r.on('2026-04-13', 14, 0);
  r.record(
    JOSS,
    {
      kind: 'trial-fit',
      action: 'remove:02-12',
      note: 'New diaphragm on skin pins, 22 rivets laid out. It fits.',
    },
    40,
  );
  r.note(
    JOSS,
    '02-09',
    'Rivets of panel 9 not done; flange of C9 waits for its repair. Joss has the bucking bar set out.',
  );
  r.note(MARIT, '02-06', 'Inner lug starboard: new plate, not yet seen by Callum. Next Thursday is the 16th.');
  inApril(r);
  r.on('2026-04-13', 17, 20);
  r.record(
    NADIA,
    recording('stopped-here', {
      subject: '10-07',
      state: 'Retaining nut finger-tight on the leg tube, on the bench. Not wired. No spring inside (SP-1).',
      note: 'Nut taken from box PL-1 before the count: write it on the sheet.',
    }),
  );
  r.on('2026-04-14', 8, 30);
}

export function refitSpring(r: Recorder, bags: Bagging): void {
  atTheBench(r);
  packagesOut(r, bags);
  firstPartsOn(r, bags);
  thursday(r, bags);
  theBay(r);
}
