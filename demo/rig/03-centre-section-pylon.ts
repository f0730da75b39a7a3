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
import { CENTRE, CENTRE_COVER, cadmium, SLING_CENTRE, seal, TRESTLE_CENTRE } from './hull-words.ts';
import { gate, RIGGING, ROOT, SUPPORT, UNITS } from './names.ts';
import { FRONT_SPAR, jointId, PORT_PYLON, type PylonSide, REAR_SPAR, STARBOARD_PYLON } from './pylon-sides.ts';
import { tankBay } from './tank-bay.ts';
import { wingRootJoints } from './wing-root-joints.ts';

const TANK = '03-14';
const [C8, C9] = ['02-01', '02-02'] as const;
const carried = any(done(SLING_CENTRE), done(TRESTLE_CENTRE));
const unloaded = any(carried, off(CENTRE));
/** The engine hangs on the front struts as well as on the spar. */
const engineCarried = any(off('11-01'), done('sling-engine'), done('sling-engine-with-spreader'));
const wing = { disturbs: [RIGGING.wing] };

// Pylon ---------------------------------------------------------------------------------------------------------------

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
      joint(jointId(id), `Back off the pylon bolt, ${where} ${s.word}`, [id, ...ends[i]!], 'bolted', bsf ? 25 : 12, {
        ...wing,
        loss: 'consumable',
        needs: i % 2 === 0 ? all(unloaded, engineCarried) : unloaded,
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
      jointId(s.diagonal, 'a'),
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
      jointId(s.diagonal, 'b'),
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
        jointId(id),
        `Undo the four bolts of the ${where} pylon foot, ${s.word}`,
        [id, n === 1 ? C8 : C9, ROOT],
        'bolted',
        28,
        {
          ...wing,
          asFound: { note: s.end === 'r' && n === 2 ? s.found.foot : s.end === 'r' ? 'sound' : s.found.foot },
          needs: n === 1 ? unloaded : all(unloaded, any(s.bay, off(TANK))),
        },
      ),
      seal(jointId(id, 'c'), `Part the sealing paste under the ${where} pylon foot, ${s.word}`, [id, ROOT], 6, {
        needs: released(jointId(id)),
      }),
    );
  });
  return join(...each);
}

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
    joint(`${jointId(id)}a`, `Undo the clip of centre rib ${n} at the front spar`, [id, FRONT_SPAR], 'bolted', 6, {
      needs: off(CENTRE_COVER),
      ...(split && { asFound: { note: 'split' } }),
    }),
    joint(`${jointId(id)}b`, `Undo the clip of centre rib ${n} at the rear spar`, [id, REAR_SPAR], 'bolted', 6, {
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
  block(CENTRE, UNITS.wingL, 'cracks the root rib: the panel still stands on its lift struts'),
  block(CENTRE, UNITS.wingR, 'cracks the root rib: the panel still stands on its lift struts'),
  block(CENTRE, '11-02', 'folds the pylon: the engine hangs on two struts'),
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

// Looks ---------------------------------------------------------------------------------------------------------------

const seen = join(
  ...[PORT_PYLON, STARBOARD_PYLON].flatMap((s) => [
    look(`${gate(8)}-nuts-${s.end}`, `Gate 8: nuts of the rear pylon foot from inside, ${s.word}`, {
      on: `${s.feet}.2`,
      visible: any(s.bay, off(TANK)),
      whenFitted: [jointId(`${s.feet}.2`)],
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
);

export const centreSectionPylon = join(
  pylon(PORT_PYLON),
  pylon(STARBOARD_PYLON),
  centre,
  pylonStands,
  wingRootJoints,
  tankBay,
  seen,
);
