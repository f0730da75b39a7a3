/**
 * September to the morning of 18 November 2025: as it came, engine, floats, tail unit. INVENTED.
 *
 * The engine goes before the tail (order B of the support plan), so the rear stand keeps its load.
 */
import { recording } from '../../src/journal/commands.ts';
import { assembly, type By, lines, type Recorder } from './act.ts';
import { asItStood } from './as-it-stood.ts';
import type { Bagging } from './bagging.ts';
import { beforeTheSpring, behindC14, setsNoted, triedOnThePost } from './floor-autumn.ts';
import { BENEDIKT, JOSS, MARIT, NADIA, PIM, ROSALIND, TOMAS } from './shop.ts';
import { EVIDENCE, LOG_LINES } from './sources.ts';

/** The starboard leg was out when the trust bought the aircraft: told, not done by us, and against the rig. */
function asItCame(r: Recorder): void {
  r.on('2025-09-15', 9, 10);
  r.step(MARIT, 'set:support=cradle', 'As it came from the boathouse: hull on a cradle, tail on its own wheel');
  const told = 'Told by a neighbour: about 2004 somebody took the starboard leg out by force (H13). Not done by us.';
  r.force(
    MARIT,
    '09-j18',
    'jack tube kinked at 210 mm, torque shaft twisted 4° with the screw still engaged (E-13)',
    told,
  );
  r.force(MARIT, '08-j02k', null, told);
  r.force(
    MARIT,
    '08-j02',
    'pin sawn through; outer lug bent 6 mm, hole oval; inner lug cracked; panel 9 torn 140 mm',
    told,
  );
  r.force(MARIT, 'remove:leg-r', 'pull marks of a chain on the forging, bend 3 mm (E-20)', told);
  r.strip(MARIT, ['08-02']);
  r.settle(NADIA, 'placards-photographed', 'Six placards photographed in place, wording copied by Tomás');
}

const MISSING: readonly (readonly [target: string, words: string])[] = [
  ['02-25', 'Gear bay fairing starboard: not found (Q-02)'],
  ['08-20', 'Leg fairing starboard: missing'],
  ['08-12.3', 'Scissors pin: missing; a foreign bolt in the next hole'],
  ['10-06', 'Long release bolt: not on the aircraft, a tool bolt'],
  ['10-08', 'Lock wire of the retaining nut: none, and no mark of one'],
  ['10-21', 'Dust boot: gone'],
  ['12-26', 'Compass: missing, four holes and a ghost ring (Q-05)'],
  ...[7, 8, 9].map((n) => [`12-27.${n}`, 'Placard: missing, two holes'] as const),
  ...[4, 9, 12].map((n) => [`11-06.${n}`, 'Cowl clip: missing'] as const),
  ['02-23.17', 'Cover screw: missing'],
  ...[31, 32, 33, 34, 35, 36, 49, 50, 51, 52, 53, 54].map(
    (n) => [`02-23.${n}`, 'Cover screw: missing with its cover'] as const,
  ),
  ['02-22.6', 'Inspection cover at C13 starboard: missing'],
  ['02-22.9', 'Inspection cover at the stern: missing'],
];

function notThere(r: Recorder, bags: Bagging): void {
  r.on('2025-09-16', 9, 0);
  for (const [target, words] of MISSING) r.nothingHere(NADIA, target, words);
  r.nothingHere(NADIA, '12-02', 'Control wheel starboard: missing; throw-over type? (Q-04)');
  r.nothingHere(NADIA, '02-08.6', 'Lug bolt starboard, sixth hole: empty, seen through the tear');
  r.nothingHere(NADIA, '08-17.2', 'Brake return spring: one only');
  r.nothingHere(NADIA, '08-12.2', 'No scissors pin of ours: a foreign bolt in its place');
  r.strip(ROSALIND, ['battery-off']);
  r.strip(
    NADIA,
    MISSING.map(([target]) => target),
  );
  bags.now(NADIA);
}

/** What could be seen before a bolt was turned; the other cards come when the part is off. */
const SEEN_FIRST = ['E-01', 'E-02', 'E-03', 'E-04', 'E-05', 'E-07', 'E-09', 'E-20', 'E-22'];

export function writeEvidence(r: Recorder, by: By, wanted: (id: string) => boolean): void {
  for (const card of EVIDENCE.filter((e) => wanted(e.id))) {
    for (const subject of card.where) r.note(by, subject, `${card.id}: ${card.fact}`);
  }
}

/** The logbook, line by line: the original, the plain English, and what is doubtful in the reading. */
function logbook(r: Recorder): void {
  r.on('2025-11-06', 20, 0);
  for (const l of LOG_LINES) {
    const doubt = l.doubt === undefined ? '' : ` Doubt: ${l.doubt}.`;
    r.record(
      TOMAS,
      recording('note', { subject: 'job', text: `${l.id}, ${l.date}: ${l.original} [${l.english}]${doubt}` }),
      0,
    );
  }
}

function engine(r: Recorder, bags: Bagging): void {
  r.on('2025-09-18', 10, 0).strip(ROSALIND, ['drain-fuel']);
  r.on('2025-09-22').strip(ROSALIND, ['make-engine-dead', '11-15', ...lines('11-14'), '11-12', '11-13']);
  r.note(ROSALIND, '11-12', 'Glue lines open along both blades. Keep as a pattern.');
  bags.now(ROSALIND);
  r.on('2025-09-24').strip(ROSALIND, [...lines('11-06'), '11-05', 'drain-oil', ...lines('11-08'), '11-07']);
  bags.now(ROSALIND);
  r.on('2025-10-01').strip(ROSALIND, ['11-j04t', '11-10', '11-11', '11-09', 'sling-engine', 'power-unit']);
  r.note(ROSALIND, '11-01', 'Shaft run-out 0.05 at the cone. DE-3 says it stopped dead: crankshaft open (Q-16).');
  bags.now(ROSALIND);
}

function floats(r: Recorder, bags: Bagging): void {
  r.on('2025-10-06');
  for (const end of ['l', 'r']) {
    r.strip(PIM, [
      end === 'l' ? '05-11' : '05-12',
      `drain-float-${end}`,
      `slacken-float-wires-${end}`,
      `trolley-under-float-${end}`,
    ]);
    r.strip(PIM, lines(...(end === 'l' ? ['05-09', '05-05', '05-07'] : ['05-10', '05-06', '05-08'])));
    r.strip(PIM, [`float-${end}`]);
  }
  r.note(PIM, '05-12', 'The starboard drain cap is a cork.');
  bags.now(NADIA);
}

function tail(r: Recorder, bags: Bagging): void {
  r.on('2025-10-20').strip(BENEDIKT, ['slacken-rudder-cables', '06-04']);
  r.record(
    BENEDIKT,
    recording('stuck', { action: '06-j15b', note: 'Lower bearing of the water-rudder post: soaking over night' }),
  );
  const freed = triedOnThePost(r);
  r.on('2025-10-21').strip(BENEDIKT, ['02-22.8', ...[43, 44, 45, 46, 47, 48].map((n) => `02-23.${n}`)]);
  behindC14(r);
  bags.now(BENEDIKT);
  r.strip(BENEDIKT, ['slacken-elevator-cables', '06-09', '06-10', ...lines('06-03'), '06-02', '06-11']);
  r.on('2025-10-27').strip(BENEDIKT, [
    'prop-tailplane-l',
    'prop-tailplane-r',
    'run-trim-down-and-prop',
    '06-05',
    ...lines('06-07'),
    '06-06',
    ...lines('06-08'),
  ]);
  r.record(
    BENEDIKT,
    recording('our-damage', {
      subject: '06-06',
      what: 'Fabric torn 40 mm at the second rib by the strap of the prop',
      step: 'prop-tailplane-r',
    }),
  );
  r.strip(BENEDIKT, ['06-13', '06-12']);
  r.note(BENEDIKT, '06-12', 'End play of the trim screw 0.45; allowed play not known (Q-12).');
  r.on('2025-11-03').strip(BENEDIKT, ['06-14', '06-15', '06-01', ...assembly('06')]);
  freed();
  bags.now(BENEDIKT);
}

function small(r: Recorder, bags: Bagging): void {
  r.on('2025-11-05').strip(PIM, ['01-19', '01-20']);
  r.strip(JOSS, ['02-24']);
  bags.now(NADIA);
  logbook(r);
  r.on('2025-11-10', 10, 0);
  r.note(
    TOMAS,
    '10-03',
    'FR-2 (1949): tail-wheel spring broken, a car spring fitted, to be replaced. ES-5 (1941) names the maker’s 7-441 (or 7-447).',
  );
  r.note(
    MARIT,
    '10-07',
    'Thread M42 × 1.5. Release bolt gives 65 mm of travel. Free length of the fitted spring not known: press, not bolt.',
  );
  r.record(
    JOSS,
    recording('joint-noted', {
      subject: '10-j20',
      aspects: {
        safetying: { is: 'none' },
        material: { is: 'value', text: 'steel nail 4 mm in place of the brass pin' },
      },
      note: 'E-06c. Keep it, bag it, do not copy.',
    }),
  );
  r.record(
    JOSS,
    recording('joint-noted', {
      subject: '10-j07',
      aspects: {
        thread: { is: 'value', text: 'M42 × 1.5' },
        'thread-hand': { is: 'value', text: 'right' },
        safetying: { is: 'none' },
        'threads-showing': { is: 'not-looked' },
      },
    }),
  );
  beforeTheSpring(r);
  r.on('2025-11-17', 16, 50);
  r.record(
    PIM,
    recording('stopped-here', {
      subject: '01-21',
      state: 'Roof hatch: catches turned, hinge pins drawn 5 mm, not out. Do not lean on it.',
      note: 'Light gone; Pim carries on on Thursday.',
    }),
  );
}

export const isSeenFirst = (id: string): boolean => SEEN_FIRST.includes(id);

export function stripAutumn(r: Recorder, bags: Bagging): void {
  asItStood(r);
  asItCame(r);
  notThere(r, bags);
  setsNoted(r);
  writeEvidence(r, MARIT, (id) => SEEN_FIRST.includes(id));
  engine(r, bags);
  floats(r, bags);
  tail(r, bags);
  small(r, bags);
  r.on('2025-11-18', 8, 30);
}
