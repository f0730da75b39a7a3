/**
 * What was caught on the floor from 1 September to 17 November 2025: the walk round, datums before the strip, places, bag
 * numbers, tags, sets, voice notes, tools counted in and out, what was stuck and what was tried. INVENTED.
 */
import { bagCode } from '../../src/domain/bag-code.ts';
import { recording } from '../../src/journal/commands.ts';
import type { DataOf } from '../../src/journal/kinds/kinds.ts';
import { line } from '../parts.ts';
import { G1 } from '../photographs/keel-grid.ts';
import { KEEL_CORNERS, SIDE_WORDS } from '../photographs/shop-pictures.ts';
import { type By, lines, type Recorder } from './act.ts';
import { bagsOnWall } from './bagging.ts';
import { notePlaces, QUARANTINE, WALL_IDS, type WallId } from './places.ts';
import { HERE, oneBoltBack, rob } from './robbed.ts';
import { JOSS, MARIT, NADIA, PIM, ROSALIND } from './shop.ts';
import { keepSound } from './sounds.ts';

const mm = (text: string, value: number) => ({ text: `${text} mm`, si: { value: value / 1000, unit: 'm' } });
const deg = (text: string, value: number) => ({
  text: `${text}°`,
  si: { value: (value * Math.PI) / 180, unit: 'rad' },
});

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

export function setAside(r: Recorder, from: number, to: number, whose: string, roll: boolean): void {
  r.record(MARIT, recording('bags-set-aside', { from, to, for: whose, ...(roll && { roll: true }) }), 0);
}

export function tag(r: Recorder, by: By, subject: string, word: DataOf<'tagged'>['tag'], says: string): void {
  r.record(by, recording('tagged', { subject, tag: word, says }), 0);
}

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

/** A new photograph of each wall, with the boxes of its shelves. */
export function wallNow(r: Recorder, by: By, when: string): void {
  const photos = new Map<WallId, string>();
  for (const wall of WALL_IDS) {
    const picture = { show: 'wall', wall, bags: bagsOnWall(r, wall) } as const;
    const hash = r.photo(by, `wall-${wall}-${when}`, picture, ['job'], `The ${wall} racks`);
    if (hash !== undefined) photos.set(wall, hash);
  }
  if (photos.size > 0) notePlaces(r, by, photos);
}

export function measured(
  r: Recorder,
  by: By,
  subject: string,
  aspect: string,
  texts: readonly string[],
  instrument: string,
  note: string,
): void {
  const readings = texts.map((t) => mm(t, Number(t)));
  r.record(by, recording('measured', { subject, aspect, readings, instrument, temperature: '14 °C', note }), 8);
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

type Aspects = DataOf<'joint-noted'>['aspects'];
const value = (text: string) => ({ is: 'value', text }) as const;
const NONE = { is: 'none' } as const;
const NOT_LOOKED = { is: 'not-looked' } as const;
const NOT_NOTED = { is: 'not-noted' } as const;

/** As found at the joints of the tail-wheel, looked at before the strip. */
const TAIL_JOINTS: readonly (readonly [joint: string, aspects: Aspects, note: string])[] = [
  [
    '10-j09',
    {
      'head-direction': value('heads aft'),
      'washer-stack': value('head · plate · C19 · plate · nut'),
      safetying: value('split pin, 2 of 4'),
      'threads-showing': value('2, 2, 1, 3'),
    },
    'rear flange of C19 lies over two heads',
  ],
  [
    '10-j10',
    {
      'head-direction': value('head outboard'),
      safetying: value('split pin'),
      clocking: value('flat up'),
      'match-mark-old': value('one dot'),
    },
    '',
  ],
  [
    '10-j11',
    {
      'head-direction': value('head inboard, other way than port'),
      safetying: value('wire round the shank'),
      clocking: NOT_NOTED,
      'match-mark-old': value('two dots'),
    },
    'bent: will not turn',
  ],
  [
    '10-j12p',
    {
      'head-direction': value('large end to port'),
      safetying: NONE,
      'match-mark-ours': value('paint pen, white line'),
    },
    '',
  ],
  [
    '10-j13',
    {
      'head-direction': value('head to port'),
      'washer-stack': value('head · thin · hub · thin · thick · nut'),
      safetying: value('split pins, both ends'),
      'threads-showing': value('1'),
    },
    '',
  ],
  ['10-j16a', { 'spring-length': value('about 150 hooked, eased 118'), clocking: value('hook open upward') }, ''],
  [
    '10-j17a',
    { 'spring-length': value('about 150 hooked, eased 131'), clocking: value('hook open downward') },
    'not as port (Q-13)',
  ],
  [
    '10-j19',
    {
      'head-direction': value('head forward'),
      safetying: value('tab washer, one tab broken'),
      'threads-showing': value('2'),
    },
    '',
  ],
  [
    '10-j06',
    { thread: value('M14'), 'thread-hand': { is: 'unknown' }, safetying: NONE, 'threads-showing': NOT_LOOKED },
    'a tool bolt in its place',
  ],
];

function tailJoints(r: Recorder): void {
  for (const [subject, aspects, note] of TAIL_JOINTS) {
    r.record(JOSS, recording('joint-noted', { subject, aspects, ...(note !== '' && { note }) }), 4);
  }
  for (const id of ['10-09', '10-13', '10-19']) {
    r.photo(
      JOSS,
      `place-${id}`,
      { show: 'in-place', line: id },
      [id],
      'Where it sits, drawn apart so that it can be seen',
    );
  }
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
