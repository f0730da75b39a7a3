/**
 * Hull fore, assembly 01 (bow to frame C8). INVENTED.
 *
 *   bow cap ── C4 ── C5 ── C6 ── C8        side view; pedals stand on C4 and C5, cabin floor over C4–C8
 *     ╲ chine angle laps over the edge of plank 1
 *      ╲ plank 1 (with the 1952 patch to starboard) on stringers S1–S4
 *       keel plate fore, bilge plugs
 *
 * The frames are dressed on the form block and riveted from below, so they go in before the planks, the planks before
 * the chine angles. Rows near the keel can be reached through the cabin floor or, forward, through the mooring hatch.
 */
import {
  all,
  any,
  at,
  block,
  caution,
  done,
  type Fragment,
  fact,
  factOf,
  fasteners,
  guard,
  join,
  joint,
  look,
  off,
  operation,
  part,
  positions,
  released,
} from './author.ts';
import { cover, OPEN_MOORING_HATCH, PORT, reach, rivets, type Side, STARBOARD, seal } from './hull-words.ts';
import { gate, OPEN_CABIN_FLOOR, ROOT } from './names.ts';

const [CAP, KEEL, BOARD, FRAME, HATCH, MOORING] = ['01-01', '01-07', '01-24', '01-18', '01-21', '01-03'] as const;
const FLOORS = [
  ['01-11', 'C4', 1.3],
  ['01-12', 'C5', 1.7],
  ['01-13', 'C6', 2.1],
] as const;
const SHORE_FORE = 'shore-hull-fore';
const hatchOpen = any(done(OPEN_MOORING_HATCH), off(MOORING));
const bowInside = any(hatchOpen, reach.bilgeFore);

// Bow and mooring -----------------------------------------------------------------------------------------------------

const bow = join(
  part(CAP, { massKg: 1.3, minutes: 4, at: at(0.1, 0, 0.5) }),
  rivets('01-j01p', 'Drill out the bow cap from both planks', [CAP, '01-08', '01-09'], 45, {
    needs: hatchOpen,
    asFound: { note: 'filler 4 mm thick hides a dent of 60 mm, blue paint inside it (E-05)' },
  }),
  rivets('01-j01d', 'Drill out the bow cap from deck and sides', [CAP, ROOT], 40, { needs: hatchOpen }),
  rivets('01-j01k', 'Drill out the bow cap from the keel plate', [CAP, KEEL], 12, { needs: hatchOpen }),
  seal('01-j01c', 'Cut the sealing compound behind the bow cap', [CAP, ROOT], 15),

  part('01-02', { massKg: 1.6, minutes: 2, at: at(0.5, 0, 0.9) }),
  joint('01-j02', 'Undo the four bolts of the mooring bitt from inside', ['01-02', ROOT], 'bolted', 18, {
    needs: hatchOpen,
    asFound: { note: 'sound, old rope wear' },
  }),
  seal('01-j02c', 'Part the sealing paste under the mooring bitt', ['01-02', ROOT], 4, { needs: released('01-j02') }),

  part(MOORING, { massKg: 1.2, minutes: 2, at: at(0.9, 0, 0.9) }),
  part('01-04', { massKg: 0.1, minutes: 1, at: at(0.9, -0.2, 0.9) }),
  part('01-05', { massKg: 0.1, minutes: 1, at: at(0.9, 0.2, 0.9) }),
  joint('01-j03', 'Unhook the stay of the mooring hatch', [MOORING, ROOT], 'other', 1, {
    needs: done(OPEN_MOORING_HATCH),
    asFound: { note: 'hinge line cracked 30 mm' },
  }),
  fasteners('01-06', {
    release: 'Undo the 4 mm screw of the port hatch hinge',
    joins: (_p, n) => (n <= 2 ? ['01-04', ROOT] : ['01-04', MOORING]),
    kind: 'threaded',
    minutes: 3,
    joint: (_p, n) => ({
      needs: hatchOpen,
      ...(n % 2 === 0 && { loss: 'consumable', asFound: { note: 'head sheared: drilled and drawn' } }),
    }),
    part: { massKg: 0 },
  }),
  joint('01-j05a', 'Draw the odd wood screws of the starboard hinge at the hatch', ['01-05', MOORING], 'threaded', 4, {
    needs: hatchOpen,
    asFound: { note: 'brass hinge, slotted wood screws, not original (E-17, P-3)' },
  }),
  joint('01-j05b', 'Draw the odd wood screws of the starboard hinge at the deck', ['01-05', ROOT], 'threaded', 4, {
    needs: hatchOpen,
  }),
  operation(OPEN_MOORING_HATCH, 'Open the mooring hatch and hook its stay', 1, { on: MOORING }),
);

// Bottom --------------------------------------------------------------------------------------------------------------

interface BottomSide extends Side {
  readonly plank: string;
  readonly chine: string;
  readonly stringers: string;
  readonly dished: string;
}
const LEFT: BottomSide = { ...PORT, plank: '01-08', chine: '01-14', stringers: '01-16', dished: 'dished 7 mm' };
const RIGHT: BottomSide = { ...STARBOARD, plank: '01-09', chine: '01-15', stringers: '01-17', dished: 'dished 9 mm' };
const j = (p: string, tail = '') => `${p.replace('01-', '01-j')}${tail}`;

function bottom(s: BottomSide): Fragment {
  const stringers = [1, 2, 3, 4].map((n) => {
    const id = `${s.stringers}.${n}`;
    const bent = n <= (s.end === 'l' ? 2 : 3);
    const name = `stringer S${n}, ${s.word}`;
    return join(
      part(id, { massKg: 0.6, minutes: 2, at: at(1.7, s.y * (0.1 + n * 0.12), 0.1) }),
      rivets(`${j(id)}p`, `Drill out plank 1 from ${name}`, [id, s.plank], 35, { needs: bowInside }),
      rivets(`${j(id)}f`, `Drill out the clips of ${name} at C4, C5 and C6`, [id, '01-11', '01-12', '01-13'], 15, {
        needs: any(off(s.plank), reach.bilgeFore),
        ...(bent && { asFound: { note: 'bent between C4 and C6' } }),
      }),
      joint(`${j(id)}e`, `Undo the end clip of ${name} at C8`, [id, '02-01'], 'bolted', 4, {
        needs: any(off(s.plank), reach.bilgeFore),
      }),
    );
  });
  return join(
    part(s.plank, { massKg: 4.3, minutes: 8, at: at(1.6, s.y * 0.35, 0.1), hold: done(SHORE_FORE) }),
    part(s.chine, { massKg: 1.8, minutes: 4, at: at(1.6, s.y * 0.65, 0.3) }),
    ...stringers,
    rivets(j(s.plank, 'k'), `Drill out the keel row of plank 1, ${s.word}`, [s.plank, KEEL], 75, {
      needs: bowInside,
      asFound: { note: `${s.dished} between C4 and C6, rivet lines high (E-03)` },
    }),
    ...FLOORS.map(([id, name]) =>
      rivets(j(s.plank, name.toLowerCase()), `Drill out plank 1, ${s.word}, at frame ${name}`, [s.plank, id], 18, {
        needs: bowInside,
      }),
    ),
    rivets(j(s.plank, 'a'), `Drill out plank 1, ${s.word}, at frame C8`, [s.plank, '02-01'], 25, {
      needs: reach.bilgeFore,
    }),
    rivets(j(s.chine, 's'), `Drill out the side row of the ${s.word} chine angle`, [s.chine, ROOT], 60, {
      needs: bowInside,
    }),
    rivets(j(s.chine, 'p'), `Drill out the plank row of the ${s.word} chine angle`, [s.chine, s.plank, ROOT], 60, {
      needs: bowInside,
      asFound: { note: s.end === 'l' ? 'white powder behind, over 300 mm' : 'sound' },
    }),
    seal(j(s.chine, 'c'), `Cut the sealing compound along the ${s.word} chine`, [s.chine, s.plank], 20),
    block(s.plank, s.chine, 'tears the edge of the plank: the chine angle lies over it'),
    block(s.plank, CAP, 'curls the fore end of the plank, which sits under the bow cap', released('01-j01p')),
  );
}

const patch = join(
  part('01-10', { within: '01-09', massKg: 0.5, minutes: 2, at: at(1.2, 0.4, 0.1) }),
  joint('01-j10', 'Drill out the domed rivets of the 1952 patch', ['01-10', '01-09'], 'riveted', 30, {
    loss: 'consumable',
    asFound: { note: 'soft rivets 4.0 at 32 mm, edge 5 mm (E-04)' },
    note: 'Pattern only: kept, never fitted again',
  }),
  seal('01-j10c', 'Part the tar behind the 1952 patch with warm water', ['01-10', '01-09'], 15, {
    needs: released('01-j10'),
    note: 'No flame and no hot air near the bilge',
  }),
);

const keel = join(
  part(KEEL, { massKg: 4.6, minutes: 12, at: at(1.5, 0, 0), hold: done(SHORE_FORE) }),
  ...FLOORS.flatMap(([id, name, x]) => {
    const jf = j(id);
    const found = { '01-11': 'flange buckled', '01-12': 'flange buckled, 3 cracks', '01-13': 'rivets smoked' }[id];
    return [
      part(id, { massKg: 1.1, minutes: 5, at: at(x, 0, 0.2) }),
      rivets(`${jf}k`, `Drill out the floor of frame ${name} from the keel plate`, [id, KEEL], 20, {
        needs: any(reach.bilgeFore, all(off('01-08'), off('01-09'))),
        asFound: { note: found },
      }),
      joint(`${jf}g`, `Undo the gussets of frame ${name} at the sides`, [id, ROOT], 'bolted', 24, {
        needs: reach.bilgeFore,
      }),
      block(id, '01-08', 'kinks the flange: the floor spans both sides and leaves downwards'),
      block(id, '01-09', 'kinks the flange: the floor spans both sides and leaves downwards'),
    ];
  }),
  positions('01-23', (_p, n) => ({ massKg: 0.2, minutes: 0, at: at(n === 1 ? 1.9 : 2.7, 0, 0) })),
  ...[1, 2].flatMap((n) => [
    joint(`01-j23.${n}`, `Unscrew bilge plug ${n}`, [`01-23.${n}`, KEEL], 'threaded', n === 1 ? 12 : 4, {
      needs: released(`01-j23.${n}w`),
      ...(n === 1 && { asFound: { thread: '1/2 in BSF in a metric boss', note: 'cut its own thread (Q-06)' } }),
    }),
    joint(`01-j23.${n}w`, `Cut the lock wire of bilge plug ${n}`, [`01-23.${n}`, KEEL], 'lashed', 1, {
      loss: 'consumable',
    }),
  ]),
  guard(['01-11', '01-12'], 'the bottom closes up: the form block no longer fits', done(SHORE_FORE)),
  guard(['01-08', '01-09'], 'the bow spreads when both planks are off', done(SHORE_FORE)),
  operation(SHORE_FORE, 'Shore the bow with padded beams under C4 and C8, sides strapped', 60, {
    note: 'Measure across the chines before and after',
  }),
);

// Cabin ---------------------------------------------------------------------------------------------------------------

const windscreen = join(
  part(FRAME, { massKg: 4.4, minutes: 8, at: at(2.2, 0, 1.4) }),
  joint('01-j18f', 'Undo the foot bolts of the windscreen frame', [FRAME, ROOT], 'bolted', 22, {
    needs: any(off(BOARD), done('lie-under-the-board')),
    asFound: { note: 'rust inside the lower corner' },
  }),
  joint('01-j18r', 'Undo the windscreen frame at the roof edge', [FRAME, ROOT], 'bolted', 14),
  operation('lie-under-the-board', 'Reach the foot bolts lying under the instrument board, mirror and long socket', 25),
  ...(['19', '20'] as const).flatMap((n) => {
    const id = `01-${n}`;
    const side = n === '19' ? 'port' : 'starboard';
    return [
      part(id, { within: FRAME, massKg: 0.9, minutes: 3, at: at(2.2, n === '19' ? -0.35 : 0.35, 1.4) }),
      joint(`01-j${n}b`, `Undo the bead strips of the ${side} windscreen pane`, [id, FRAME], 'clamped', 18, {
        asFound: { note: n === '19' ? 'celluloid, yellow, crazed; burns easily' : 'acrylic, 1957' },
      }),
      seal(`01-j${n}p`, `Cut the putty of the ${side} windscreen pane`, [id, FRAME], 12, {
        needs: released(`01-j${n}b`),
        hazards: n === '19' ? [caution('celluloid', 'Burns like paper soaked in petrol: no heat gun, no spark')] : [],
      }),
    ];
  }),
);

const roof = join(
  part(HATCH, { massKg: 2.6, minutes: 3, at: at(3.0, 0, 1.5) }),
  joint('01-j21h', 'Draw the hinge pins of the cabin roof hatch', [HATCH, ROOT], 'pinned', 5, {
    asFound: { note: 'plywood delaminated' },
  }),
  joint('01-j21f', 'Undo the eight screws of the hatch frame', [HATCH, ROOT], 'threaded', 12, {
    note: 'Not closed again until the tank is in, dry and bonded',
  }),
  seal('01-j21c', 'Cut the rubber strip of the hatch frame', [HATCH, ROOT], 6),
  ...[1, 2].flatMap((n) => {
    const id = `01-22.${n}`;
    const side = n === 1 ? 'port' : 'starboard';
    return [
      part(id, { within: HATCH, massKg: 0.1, minutes: 1, at: at(3.0, n === 1 ? -0.3 : 0.3, 1.5) }),
      joint(`01-j22.${n}s`, `Undo the two screws of the ${side} hatch catch`, [id, HATCH], 'threaded', 3, {
        asFound: { note: 'worn' },
      }),
      joint(`01-j22.${n}`, `Turn the ${side} hatch catch out of its keeper`, [id, ROOT], 'other', 1),
    ];
  }),
);

const board = join(
  part(BOARD, { massKg: 2.1, minutes: 5, at: at(2.2, 0, 1.0) }),
  joint('01-j24s', 'Undo the side screws of the instrument board', [BOARD, ROOT], 'threaded', 8, {
    asFound: { note: '12 holes, 3 plugged; pale square of 80 mm (E-19)' },
  }),
  joint('01-j24m', 'Undo the rubber mounts of the instrument board', [BOARD, ROOT], 'bolted', 10),
  block(BOARD, '12-01', 'cracks the wheel rim: the board comes out aft, over the column'),
  block(BOARD, '09-23', 'bends the pointer of the indicator drum', released('09-j23')),
  part('01-25', { massKg: 0.05, minutes: 1, at: at(2.4, -0.5, 0.9) }),
  joint('01-j25a', 'Drill the two original rivets of the data plate', ['01-25', ROOT], 'riveted', 6, {
    loss: 'irreversible',
    needs: fact('data-plate-recorded'),
    asFound: { note: 'plate "O.7 N.º 23" (E-01); do not clean' },
  }),
  joint('01-j25b', 'Drill the two dome-headed rivets of the data plate', ['01-25', ROOT], 'riveted', 6, {
    loss: 'consumable',
    needs: fact('data-plate-recorded'),
    asFound: { note: 'not original' },
  }),
  factOf('data-plate-recorded', 'Data plate and its four rivets recorded and witnessed (Q-01)', {
    note: 'Which rivets are old is evidence of which hull this is',
  }),
);

// Looks ---------------------------------------------------------------------------------------------------------------

const FRAME_ROWS = FLOORS.map(([id]) => `${j(id)}k`);
const bilgeSide = (_s: Side, fore: 1 | 2) =>
  all(any(done(OPEN_CABIN_FLOOR), off(cover(fore))), off(cover(fore + 4)), off(cover(fore + 6)));

const seen = join(
  look(gate(1), 'Gate 1: bow inside, frames C1 to C4, no swarf, drain holes open', {
    visible: done(OPEN_CABIN_FLOOR),
    whenFitted: ['01-j01p', '01-j01k', '01-j11k'],
    note: '14 checks; before the cabin floor goes down',
  }),
  look(`${gate(1)}-cap`, 'Gate 1: behind the bow cap, no filler over stretched metal', { visible: off(CAP) }),
  look(gate(2), 'Gate 2: keel C4–C6 inside, floors riveted, thickness within the decision', {
    on: KEEL,
    visible: any(off('01-08'), off('01-09')),
    whenFitted: FRAME_ROWS,
    note: '11 checks; thickness grid G-1',
  }),
  look(`${gate(2)}-port-row`, 'Gate 2: inside of plank 1, port, rivets formed', {
    on: KEEL,
    visible: any(done(OPEN_CABIN_FLOOR), off('01-09')),
    whenFitted: ['01-j08k', '01-j08c4', '01-j08c5', '01-j08c6'],
  }),
  look(`${gate(2)}-starboard-row`, 'Gate 2: inside of plank 1, starboard, rivets formed', {
    on: KEEL,
    visible: any(done(OPEN_CABIN_FLOOR), off('01-08')),
    whenFitted: ['01-j09k', '01-j09c4', '01-j09c5', '01-j09c6'],
  }),
  look(gate(3), 'Gate 3: bilge port, C8 to C19, clean, limber holes open', {
    visible: bilgeSide(PORT, 1),
    note: '9 checks',
  }),
  look(gate(4), 'Gate 4: bilge starboard, C8 to C19, clean, limber holes open', {
    visible: bilgeSide(STARBOARD, 2),
    note: '9 checks',
  }),
  look(gate(18), 'Gate 18: under the cabin floor, cables on their pulleys, nothing left behind', {
    visible: done(OPEN_CABIN_FLOOR),
    whenFitted: ['12-j12.1k', '12-j12.2k', '12-j12.9k', '12-j12.10k', '12-j12.15k', '12-j12.16k', '02-j14s'],
    note: '10 checks',
  }),
  look('look-bilge-threads', 'Threads of both bilge plug bosses', {
    on: KEEL,
    visible: all(off('01-23.1'), off('01-23.2')),
  }),
  look('look-windscreen-corners', 'Lower corners of the windscreen frame, inside of the tube', {
    on: FRAME,
    visible: released('01-j18f'),
  }),
);

export const hullFore = join(bow, bottom(LEFT), bottom(RIGHT), patch, keel, windscreen, roof, board, seen);
