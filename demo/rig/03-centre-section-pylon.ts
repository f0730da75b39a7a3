/**
 * Wing centre section, pylon and fuel tank, assembly 03. INVENTED.
 *
 *   wing panel ═ pin ═ front spar ── ribs ── rear spar ═ pin ═ wing panel          centre section: lifts off whole
 *                  │ heads │  ╲ diagonal      │ heads
 *               front struts    ╲         rear struts
 *               front feet (C8)  ╲____ rear feet (C9)          lift struts run from the same feet out to the panels
 *   ─────────────────────── deck, covers 3 and 4 ──────────────────── roof hatch ──
 *                     tank in its bay, four straps; lifted forward through the hatch
 *
 * The pylon carries everything above it. One strut may come out while the hoist takes the weight; two opposite ones
 * only when the centre section is on trestles or gone. Tank: in before the roof hatch, after the intermediate bearings.
 */
import type { Need } from '../../src/domain/rig/rig-types.ts';
import {
  all,
  any,
  at,
  block,
  caution,
  done,
  type Fragment,
  factOf,
  guard,
  join,
  joint,
  look,
  off,
  operation,
  part,
  positions,
  released,
  stands,
  unit,
} from './author.ts';
import {
  CENTRE,
  CENTRE_COVER,
  cadmium,
  PORT,
  reach,
  type Side,
  SLING_CENTRE,
  STARBOARD,
  seal,
  TRESTLE_CENTRE,
} from './hull-words.ts';
import { DRAIN_FUEL, gate, RIGGING, ROOT, SUPPORT, UNITS } from './names.ts';

const [FRONT_SPAR, REAR_SPAR, TANK, HATCH] = ['03-11', '03-12', '03-14', '01-21'] as const;
const [C8, C9] = ['02-01', '02-02'] as const;
const HOLD_TANK = 'take-weight-of-tank';
const carried = any(done(SLING_CENTRE), done(TRESTLE_CENTRE));
const unloaded = any(carried, off(CENTRE));
const wing = { disturbs: [RIGGING.wing] };

// Pylon ---------------------------------------------------------------------------------------------------------------

interface PylonSide extends Side {
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

const PORT_PYLON: PylonSide = {
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
const STARBOARD_PYLON: PylonSide = {
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

const j = (p: string, tail = '') => `${p.replace('03-', '03-j')}${tail}`;

/** Bolts 1 and 2 are the front and rear foot, 3 and 4 the front and rear head. */
const BOLT_AT = ['front foot', 'rear foot', 'front head', 'rear head'] as const;

function pylon(s: PylonSide): Fragment {
  const foot = (n: 1 | 2) => `${s.feet}.${n}`;
  const ends = [
    [s.front, foot(1)],
    [s.rear, foot(2)],
    [s.front, FRONT_SPAR],
    [s.rear, REAR_SPAR],
  ] as const;
  const bolts = BOLT_AT.map((where, i) => {
    const id = `${s.bolts}.${i + 1}`;
    const bsf = s.end === 'r' && i === 1;
    return join(
      part(id, { massKg: 0.15, minutes: 0, at: at(i % 2 === 0 ? 2.9 : 3.3, s.y * 0.45, i < 2 ? 1.3 : 2.3) }),
      joint(j(id), `Back off the pylon bolt, ${where} ${s.word}`, [id, ...ends[i]!], 'bolted', bsf ? 25 : 12, {
        ...wing,
        loss: 'consumable',
        needs: unloaded,
        ...(i === 0 && { hazards: [cadmium] }),
        ...(bsf && {
          asFound: { thread: '1/2 in BSF, head mark', note: 'FR-1 names two such bolts, one found (E-16)' },
        }),
        note: 'A bolt that still carries weight cuts its hole: draw it only when it turns by hand',
      }),
    );
  });
  return join(
    part(s.front, { massKg: 1.7, minutes: 4, at: at(2.9, s.y * 0.45, 1.8), note: s.found.front ?? '' }),
    part(s.rear, {
      massKg: s.end === 'r' ? 3.6 : 1.7,
      minutes: 4,
      at: at(3.3, s.y * 0.45, 1.8),
      note: s.found.rear ?? '',
    }),
    part(s.diagonal, { massKg: 1.1, minutes: 3, at: at(3.1, s.y * 0.45, 1.8), note: s.found.diagonal ?? '' }),
    ...bolts,
    joint(
      j(s.diagonal, 'a'),
      `Draw the lower pin of the ${s.word} diagonal at the rear foot`,
      [s.diagonal, foot(2)],
      'pinned',
      8,
      {
        ...wing,
        needs: unloaded,
      },
    ),
    joint(
      j(s.diagonal, 'b'),
      `Draw the upper pin of the ${s.word} diagonal at the front spar`,
      [s.diagonal, FRONT_SPAR],
      'pinned',
      8,
      {
        ...wing,
        needs: unloaded,
      },
    ),
    feet(s),
  );
}

/** The nuts of the feet are inside: the front ones above the seats, the rear ones in the tank bay. */
function feet(s: PylonSide): Fragment {
  const each = ([1, 2] as const).map((n) => {
    const id = `${s.feet}.${n}`;
    const where = n === 1 ? 'front' : 'rear';
    return join(
      part(id, { massKg: 1.2, minutes: 3, at: at(n === 1 ? 2.9 : 3.3, s.y * 0.5, 1.3) }),
      joint(
        j(id),
        `Undo the four bolts of the ${where} pylon foot, ${s.word}`,
        [id, n === 1 ? C8 : C9, ROOT],
        'bolted',
        28,
        {
          ...wing,
          asFound: { note: s.end === 'r' && n === 2 ? s.found.foot : s.end === 'r' ? 'sound' : s.found.foot },
          ...(n === 2 && { needs: any(s.bay, off(TANK)) }),
        },
      ),
      seal(j(id, 'c'), `Part the sealing paste under the ${where} pylon foot, ${s.word}`, [id, ROOT], 6, {
        needs: released(j(id)),
      }),
    );
  });
  return join(...each);
}

// Lift struts and wing pins -------------------------------------------------------------------------------------------

function wingJoints(s: PylonSide, pins: string): Fragment {
  const supported = any(done(`trestle-wing-${s.end}`), done(`sling-wing-${s.end}`));
  const strut = (n: 1 | 2) => `${s.lift}.${n}`;
  const lift = ([1, 2] as const).map((n) => {
    const where = n === 1 ? 'front' : 'rear';
    return join(
      part(strut(n), { massKg: 3.1, minutes: 5, at: at(n === 1 ? 2.95 : 3.5, s.y * 1.6, 1.7) }),
      joint(
        j(strut(n), 'a'),
        `Draw the upper bolt of the ${where} lift strut, ${s.word}`,
        [strut(n), n === 1 ? s.wingFront : s.wingRear],
        'bolted',
        12,
        { ...wing, loss: 'consumable', needs: supported },
      ),
      joint(
        j(strut(n), 'b'),
        `Draw the lower bolt of the ${where} lift strut, ${s.word}`,
        [strut(n), `${s.feet}.${n}`],
        'bolted',
        12,
        {
          ...wing,
          loss: 'consumable',
          needs: supported,
          ...(s.end === 'r' &&
            n === 1 && { asFound: { note: 'dent 30 mm, feather barb in the paint (E-23); ES-4 says rear (Q-17)' } }),
        },
      ),
    );
  });
  const pin = (n: 1 | 2) => `${pins}.${n}`;
  const shims = (n: 1 | 2) => (s.end === 'r' ? [] : n === 1 ? ['03-18.1', '03-18.2'] : ['03-18.3']);
  const drawn = ([1, 2] as const).map((n) => {
    const where = n === 1 ? 'front' : 'rear';
    const first = n === 1 ? [] : [released(j(pin(1))), any(done(`fold-wing-${s.end}`), done(`sling-wing-${s.end}`))];
    return join(
      part(pin(n), { massKg: 0.4, minutes: 0, at: at(n === 1 ? 2.9 : 3.6, s.y * 0.75, 2.4) }),
      joint(
        j(pin(n), 's'),
        `Take the split pin out of the ${where} wing pin, ${s.word}`,
        [pin(n), n === 1 ? FRONT_SPAR : REAR_SPAR],
        'pinned',
        2,
        { loss: 'consumable', needs: released(`${(n === 1 ? s.wingFront : s.wingRear).replace('-', '-j')}f`) },
      ),
      joint(
        j(pin(n)),
        `Drift the ${where} wing pin out, ${s.word}`,
        [pin(n), n === 1 ? FRONT_SPAR : REAR_SPAR, n === 1 ? s.wingFront : s.wingRear, ...shims(n)],
        'pinned',
        n === 1 ? 15 : 20,
        {
          ...wing,
          needs: all(released(j(pin(n), 's')), supported, ...first),
          asFound: {
            shims: s.end === 'r' ? 'none fitted; looked, nothing here (03-19)' : n === 1 ? '2 × 0.5' : '1 × 0.2',
          },
          note:
            n === 1
              ? 'Front before rear: the panel hinges on the rear pin'
              : 'Drawn while spread without a sling, the panel twists on one lug and stretches it',
        },
      ),
    );
  });
  return join(...lift, ...drawn);
}

const shims = join(
  positions('03-18', (_p, n) => ({
    massKg: 0.01,
    minutes: 1,
    at: at(n < 3 ? 2.9 : 3.6, -0.75, 2.4),
    needs: done('count-shims-l'),
  })),
  operation('count-shims-l', 'Count and measure the port shims, lug by lug, and bag each stack', 6, {
    only: 'strip',
    needs: any(released('03-j16.1'), released('03-j16.2')),
    note: 'Two of 0.5 at the front lug, one of 0.2 at the rear; starboard has none (03-19)',
  }),
  block('03-18.1', UNITS.wingL, 'the shim is pinched between the lugs and scored'),
  block('03-18.2', UNITS.wingL, 'the shim is pinched between the lugs and scored'),
  block('03-18.3', UNITS.wingL, 'the shim is pinched between the lugs and scored'),
);

// Centre section ------------------------------------------------------------------------------------------------------

const inCentre = (massKg: number, minutes: number, x: number, y = 0) => ({
  within: CENTRE,
  massKg,
  minutes,
  at: at(x, y, 2.4),
});
const RIBS = [1, 2, 3, 4, 5] as const;
const ribJoints = RIBS.flatMap((n) => {
  const id = `03-13.${n}`;
  const split = n === 2 || n === 4;
  return [
    joint(`${j(id)}a`, `Undo the clip of centre rib ${n} at the front spar`, [id, FRONT_SPAR], 'bolted', 6, {
      needs: off(CENTRE_COVER),
      ...(split && { asFound: { note: 'split' } }),
    }),
    joint(`${j(id)}b`, `Undo the clip of centre rib ${n} at the rear spar`, [id, REAR_SPAR], 'bolted', 6, {
      needs: off(CENTRE_COVER),
    }),
  ];
});

const centre = join(
  unit(CENTRE, 'Wing centre section, complete', { hand: 'C', minutes: 30, hold: carried }),
  part(FRONT_SPAR, { ...inCentre(5.4, 10, 2.9), hold: carried }),
  part(REAR_SPAR, inCentre(4.3, 10, 3.5)),
  positions('03-13', (_p, n) => inCentre(0.8, 4, 3.2, (n - 3) * 0.3)),
  unit(CENTRE_COVER, 'Plywood and fabric covering of the centre section', { ...inCentre(3.5, 10, 3.2), hand: 'C' }),
  ...ribJoints,
  joint(
    `${CENTRE_COVER}-glue`,
    'Cut the fabric and lift the plywood off ribs and spars of the centre section',
    [CENTRE_COVER, FRONT_SPAR, REAR_SPAR, ...RIBS.map((n) => `03-13.${n}`)],
    'bonded',
    90,
    {
      loss: 'irreversible',
      hazards: [caution('dope dust', 'Old dope burns and its dust is harmful: wet, no spark, mask')],
    },
  ),
  joint(
    `${CENTRE_COVER}-screws`,
    'Undo the edge screws of the centre covering',
    [CENTRE_COVER, REAR_SPAR],
    'threaded',
    15,
  ),
  operation('open-centre-hand-hole', 'Unlace the hand hole under the centre section', 8, {
    on: CENTRE,
    note: 'Reaches the pulleys and the cable joint, not the ribs',
  }),
  operation(SLING_CENTRE, 'Sling the centre section by both spars, hoist takes the weight', 60, {
    on: CENTRE,
    needs: stands(SUPPORT, 'cradle', 'stands', 'jacks'),
    hazards: [caution('lifting', 'Nobody under the load; hoist and slings rated and looked at')],
  }),
  operation(TRESTLE_CENTRE, 'Set two trestles beside the hull, padded saddles under both spars', 100, {
    on: CENTRE,
    needs: stands(SUPPORT, 'cradle', 'stands', 'jacks'),
    note: 'Feet on the floor, never on the deck',
  }),
  block(CENTRE, UNITS.wingL, 'the root rib cracks: the panel still stands on its lift struts'),
  block(CENTRE, UNITS.wingR, 'the root rib cracks: the panel still stands on its lift struts'),
  block(CENTRE, UNITS.powerUnit, 'the engine hangs on two struts and folds the pylon'),
);

const opposite: readonly (readonly [string, string, string])[] = [
  ['03-01', '03-02', 'the centre section falls forward'],
  ['03-03', '03-04', 'the centre section falls aft'],
  ['03-05', '03-06', 'nothing holds it fore and aft: the pylon folds like a parallelogram'],
  ['03-01', '03-03', 'the centre section falls to port'],
  ['03-02', '03-04', 'the centre section falls to starboard'],
];
const pylonStands = join(
  ...opposite.map(([a, b, harm]) => guard([a, b], harm, any(off(CENTRE), done(TRESTLE_CENTRE)))),
);

// Tank ----------------------------------------------------------------------------------------------------------------

const STRAP_REACH = [reach.tankBayL, reach.tankBayL, reach.tankBayR, reach.tankBayR] as const;
const tank = join(
  part(TANK, { massKg: 17, minutes: 20, at: at(3.25, 0, 1.05), needs: done(DRAIN_FUEL), hold: done(HOLD_TANK) }),
  ...STRAP_REACH.flatMap((needs, i) => {
    const id = `03-15.${i + 1}`;
    const side = i < 2 ? 'port' : 'starboard';
    const where = `${i % 2 === 0 ? 'front' : 'rear'} tank strap, ${side}`;
    return [
      part(id, { massKg: 0.5, minutes: 2, at: at(3.15 + (i % 2) * 0.3, i < 2 ? -0.3 : 0.3, 1.05) }),
      joint(`${j(id)}a`, `Undo the tensioner of the ${where}`, [id, TANK], 'clamped', 7, {
        needs,
        asFound: { note: 'thin at the edge, felt under' },
      }),
      joint(`${j(id)}b`, `Draw the lower pin of the ${where}`, [id, ROOT], 'pinned', 6, { needs: off(TANK) }),
    ];
  }),
  joint('03-j14f', 'Undo the ring of the filler neck at the deck', [TANK, ROOT], 'bolted', 12, {
    hazards: [
      { kind: 'fuel-vapour', clearedBy: done(DRAIN_FUEL), note: 'Drained and vented before the neck is opened' },
    ],
  }),
  joint('03-j14b', 'Undo the bonding lead of the tank', [TANK, ROOT], 'line', 3, {
    needs: any(reach.tankBayL, reach.tankBayR),
    hazards: [
      { kind: 'fuel-vapour', clearedBy: done(DRAIN_FUEL), note: 'The lead is the earth of the tank: drain first' },
    ],
    note: 'Bonded again before the first fuel',
  }),
  operation(HOLD_TANK, 'Take the weight of the empty tank, two people in the bay', 5, { on: TANK }),
  block(TANK, HATCH, 'crushes the filler neck: the tank leaves forward through the roof hatch'),
);

// Looks ---------------------------------------------------------------------------------------------------------------

const FUEL_JOINTS = ['12-j17.1a', '12-j17.1b', '12-j17.5a'];
const STRAPS_TIGHT = [1, 2, 3, 4].map((n) => `03-j15.${n}a`);
const seen = join(
  look(gate(7), 'Gate 7: tank bay before the tank: bearings, shafts, pipes, no swarf', {
    on: ROOT,
    visible: off(TANK),
    people: 1,
    note: '13 checks',
  }),
  look(`${gate(7)}-tank`, 'Gate 7: tank strapped, piped and bonded', {
    on: TANK,
    visible: any(off(HATCH), all(off('02-22.3'), off('02-22.4'))),
    whenFitted: [...STRAPS_TIGHT, '03-j14f', '03-j14b', ...FUEL_JOINTS],
  }),
  look(`${gate(7)}-leak`, 'Gate 7: fuel leak test, every joint dry, before the roof is closed', {
    on: TANK,
    visible: off(HATCH),
    whenFitted: [...STRAPS_TIGHT, '03-j14b', ...FUEL_JOINTS],
    people: 2,
  }),
  ...[PORT_PYLON, STARBOARD_PYLON].flatMap((s) => [
    look(`${gate(8)}-nuts-${s.end}`, `Gate 8: nuts of the rear pylon foot from inside, ${s.word}`, {
      on: `${s.feet}.2`,
      visible: any(s.bay, off(TANK)),
      whenFitted: [j(`${s.feet}.2`)],
    }),
    look(`${gate(8)}-eyes-${s.end}`, `Gate 8: eyes of both pylon feet, ${s.word}, bore measured`, {
      on: `${s.feet}.1`,
      visible: all(off(s.front), off(s.rear)),
    }),
  ]),
  look(gate(8), 'Gate 8: pylon feet, bolts metric, heads forward, split-pinned', {
    on: ROOT,
    visible: all(),
    whenFitted: ['03-j09.1', '03-j09.2', '03-j10.1', '03-j10.2'],
    note: '8 checks',
  }),
  look('look-wing-pin-bores', 'Bores of the centre lugs, both spars', {
    on: FRONT_SPAR,
    visible: all(off(UNITS.wingL), off(UNITS.wingR)),
  }),
  factOf('stretched-foot-eye-settled', 'Stretched foot eye settled: scrap or sleeve (Q-09)'),
  factOf('tank-leak-tested', 'New tank leak-tested on the bench', { note: 'before it goes into the bay' }),
);

export const centreSectionPylon = join(
  pylon(PORT_PYLON),
  pylon(STARBOARD_PYLON),
  wingJoints(PORT_PYLON, '03-16'),
  wingJoints(STARBOARD_PYLON, '03-17'),
  shims,
  centre,
  pylonStands,
  tank,
  seen,
);
