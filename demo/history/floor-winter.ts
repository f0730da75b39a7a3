/** What was caught on the floor from 18 November 2025 on: tags that come off, stuck things freed, tables read. INVENTED. */
import { recording } from '../../src/journal/commands.ts';
import { line } from '../parts.ts';
import type { By, Recorder } from './act.ts';
import { measured, tag, wallNow } from './floor-words.ts';
import { QUARANTINE } from './places.ts';
import { JOSS, MARIT, NADIA, PIM, ROSALIND } from './shop.ts';
import { keepSound } from './sounds.ts';

function tagOff(r: Recorder, by: By, subject: string, note: string): void {
  for (const t of r.now.tags.values()) {
    if (t.subject === subject && t.off === undefined) r.record(by, recording('tag-taken-off', { tag: t.id, note }), 0);
  }
}

function toTheCage(r: Recorder, by: By, lineId: string, says: string): void {
  const { bag } = line(lineId);
  r.record(by, recording('moved', { what: bag, to: { place: QUARANTINE } }), 0);
  tag(r, by, bag, 'quarantine', says);
}

/** Right after the tail-wheel has come apart. */
export function afterTheSpring(r: Recorder): void {
  tagOff(r, NADIA, '10-03', 'Spring is out, 285 mm, no load on it');
  toTheCage(r, JOSS, '10-20', 'Steel nail as shear pin. Keep, do not fit, do not copy (E-06c)');
  toTheCage(r, JOSS, '10-05', 'Washer stack as spring seat. Not original, do not copy (E-06b)');
  measured(r, NADIA, '10-16', 'free-length', ['118.0', '118.5', '118.0'], 'vernier 300', 'hooks not counted');
  measured(
    r,
    NADIA,
    '10-17',
    'free-length',
    ['131.0', '130.5', '131.0'],
    'vernier 300',
    'hooks not counted; which is right is open (Q-13)',
  );
  keepSound(
    r,
    JOSS,
    'joss-nail',
    ['10-20'],
    7,
    'Somebody put a nail in the shear pin. It would not have sheared. Bag it and lock it up.',
  );
}

/** The fifth oil pipe was at the bench. */
export function pipeFound(r: Recorder): void {
  for (const d of [...r.now.differences.values()].filter((x) => x.explained === undefined)) {
    r.record(
      ROSALIND,
      recording('difference-explained', {
        difference: d.id,
        what: 'One was at my bench as a pattern; back in the bag',
      }),
      0,
    );
    r.record(PIM, recording('counted', { lot: d.lot, count: 5, how: 'by-hand' }), 0);
    const again = r.last;
    r.record(PIM, recording('difference-explained', { difference: again, what: 'the pattern is back' }), 0);
  }
}

/** The leg was swung to 35° and the pin came by hand. */
export function trunnionFreed(r: Recorder): void {
  for (const s of r.now.stuck.get('07-j02') ?? []) {
    r.record(
      JOSS,
      recording('freed', { stuck: s.said.entry, note: 'a flat on the pin: it clears the frame at 35° only (X-1)' }),
      0,
    );
  }
  tagOff(r, JOSS, '07-09', 'Gas let out, rod moved by hand both ways');
}

export function januaryAtTheBench(r: Recorder): void {
  r.on('2026-01-26', 14, 0);
  r.record(
    PIM,
    recording('counted-inside', {
      zone: 'Behind C14',
      way: 'out',
      items: [{ what: 'rag', count: 1 }],
      note: 'hung on the cable guard',
    }),
    2,
  );
  toTheCage(r, MARIT, '01-10', 'Patch of 1952. A pattern only (E-04)');
  toTheCage(r, MARIT, '03-04', 'Water pipe, butt-welded. Never to be fitted (E-06)');
}

const ANGLES = [0, 45, 90, 135, 180, 225, 270, 315];
/** the starboard jack screw between vee blocks at 20 and 420 mm; 0.01 mm, zero at 0°. */
const R1: readonly (readonly [station: string, readings: string])[] = [
  ['20 mm', '0 0 0 0 0 0 0 -1'],
  ['70 mm', '0 7 9 9 5 -1 -6 -6'],
  ['120 mm', '0 11 18 17 11 -1 -10 -9'],
  ['170 mm', '0 15 25 24 15 -1 -11 -11'],
  ['220 mm', '0 16 26 25 15 -2 -13 -13'],
  ['270 mm', '0 16 24 24 14 0 -11 -12'],
  ['320 mm', '0 12 19 18 10 -1 -10 -9'],
  ['370 mm', '0 6 10 8 6 -1 -6 -5'],
  ['420 mm', '0 0 -1 -2 0 0 -1 -2'],
];

export function dialOfTheScrew(r: Recorder): void {
  r.record(
    JOSS,
    recording('dial-noted', {
      subject: '09-14',
      stations: R1.map(([s]) => s),
      angles: ANGLES,
      unit: '0.01 mm',
      readings: R1.map(([, row]) => row.split(' ')),
      supports: ['vee block at 20 mm', 'vee block at 420 mm'],
      instrument: 'dial indicator, 0.01',
      note: 'R-1, zero at 0°',
    }),
    45,
  );
  measured(
    r,
    JOSS,
    '08-05',
    'smallest-diameter',
    ['51.78', '51.79', '51.78'],
    'micrometer 50–75',
    'pits 0.09 at 140–150 mm',
  );
  measured(r, JOSS, '07-05', 'smallest-diameter', ['51.905', '51.910', '51.905'], 'micrometer 50–75', 'pits 0.03');
}

export function inApril(r: Recorder): void {
  wallNow(r, MARIT, 'april');
  keepSound(
    r,
    JOSS,
    'joss-diaphragm',
    ['02-12'],
    10,
    'Diaphragm fits on pins. I am not closing it till Callum has looked behind.',
  );
}
