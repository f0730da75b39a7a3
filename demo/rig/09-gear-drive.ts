/**
 * Gear drive, assembly 09. INVENTED.
 *
 *   motor ─ coupling ─ worm ─ wheel ─┬─ torque shaft L ─ bearing L ─ joint L ─ jack screw LEFT-hand  ─ nut ─ tube ─ leg
 *                     ratchet lever  └─ torque shaft R ─ bearing R ─ joint R ─ jack screw RIGHT-hand ─ nut ─ tube ─ leg
 *
 * The shafts run across the hull under the fuel tank. They can be reached through the tank bay or through the cabin
 * floor, a real choice; the intermediate bearings come out only upwards, past the tank bearer (trap X-8: bearings
 * before tank). Jack screws, nuts and tubes come out as a unit each; the two hands are not alike (trap X-6).
 */
import {
  all,
  any,
  at,
  block,
  caution,
  done,
  type Fragment,
  factOf,
  fasteners,
  join,
  joint,
  look,
  off,
  operation,
  part,
  released,
  stands,
  storedEnergy,
  unit,
} from './author.ts';
import { BATTERY_OFF, gate, OPEN_CABIN_FLOOR, RIGGING, ROOT, SUPPORT, UNITS } from './names.ts';

const TANK = '03-14';
const REACH = any(off(TANK), done(OPEN_CABIN_FLOOR));
const PAWL = 'ease-ratchet-pawl';

interface JackSide {
  readonly end: 'l' | 'r';
  readonly word: 'port' | 'starboard';
  readonly thread: 'left' | 'right';
  readonly leg: string;
  readonly legJoint: string;
  readonly shaft: string;
  readonly bearing: string;
  readonly universal: string;
  readonly screw: string;
  readonly nut: string;
  readonly tube: string;
  readonly thrust: string;
  readonly switches: string;
  readonly hook: string;
  readonly lockSpring: string;
}

const PORT: JackSide = {
  end: 'l',
  word: 'port',
  thread: 'left',
  leg: '07-01',
  legJoint: '09-j17',
  shaft: '09-07',
  bearing: '09-09',
  universal: '09-11',
  screw: '09-13',
  nut: '09-15',
  tube: '09-17',
  thrust: '09-19',
  switches: '09-21',
  hook: '09-25',
  lockSpring: '09-27',
};
const STARBOARD: JackSide = {
  end: 'r',
  word: 'starboard',
  thread: 'right',
  leg: '08-01',
  legJoint: '09-j18',
  shaft: '09-08',
  bearing: '09-10',
  universal: '09-12',
  screw: '09-14',
  nut: '09-16',
  tube: '09-18',
  thrust: '09-20',
  switches: '09-22',
  hook: '09-26',
  lockSpring: '09-28',
};

const bare = (id: string) => id.replace('09-', '09-j');

function jackSide(s: JackSide): Fragment {
  const y = (metres: number) => (s.end === 'l' ? -metres : metres);
  const jack = `jack-${s.end}`;
  const ease = `ease-lock-spring-${s.end}`;
  const hold = `tie-jack-${s.end}`;
  const inJack = (massKg: number, minutes: number) => ({ within: jack, massKg, minutes, at: at(3.4, y(0.8), 0.7) });
  const spring = storedEnergy(done(ease), 'Lock spring under load: hooked bar, eye protection');
  return join(
    unit(jack, `Screw-jack, ${s.word}, complete`, { minutes: 5, hold: done(hold) }),
    part(s.shaft, { massKg: 1.1, minutes: 6, at: at(3.4, y(0.4), 0.6) }),
    part(s.bearing, { massKg: 0.4, minutes: 2, at: at(3.4, y(0.4), 0.6) }),
    part(s.universal, { massKg: 0.5, minutes: 2, at: at(3.4, y(0.7), 0.65) }),
    part(s.screw, inJack(1.6, 3)),
    part(s.nut, inJack(0.5, 2)),
    part(s.tube, inJack(1.4, 2)),
    part(s.thrust, inJack(0.6, 2)),
    part(s.hook, { massKg: 0.5, minutes: 2, at: at(3.5, y(0.9), 0.4) }),
    part(s.lockSpring, { massKg: 0.1, minutes: 1, at: at(3.5, y(0.9), 0.4) }),

    joint(
      bare(s.shaft),
      `Slide the ${s.word} torque shaft off the worm wheel splines`,
      [s.shaft, '09-04'],
      'splined',
      8,
      {
        needs: all(REACH, released(`${bare(s.universal)}i`)),
        disturbs: [RIGGING.gear],
      },
    ),
    joint(
      `${bare(s.universal)}i`,
      `Drive the pin out between ${s.word} shaft and universal joint`,
      [s.shaft, s.universal],
      'pinned',
      7,
      {
        needs: REACH,
      },
    ),
    joint(`${bare(s.bearing)}s`, `Draw the ${s.word} shaft through its bearing`, [s.shaft, s.bearing], 'other', 3, {
      needs: released(bare(s.shaft)),
    }),
    joint(
      bare(s.bearing),
      `Undo the two bolts of the ${s.word} intermediate bearing`,
      [s.bearing, ROOT],
      'bolted',
      12,
      {
        needs: REACH,
        note: 'The bolts turn from above or below; the bracket itself only leaves upwards, past the empty tank bearer',
      },
    ),
    joint(`${bare(s.bearing)}b`, `Take the bonding strip off the ${s.word} bearing`, [s.bearing, ROOT], 'line', 2, {
      needs: REACH,
    }),
    joint(
      bare(s.universal),
      `Drive the pin out between ${s.word} universal joint and jack screw`,
      [s.universal, s.screw],
      'pinned',
      8,
    ),
    joint(
      bare(s.thrust),
      `Undo the thrust bearing housing of the ${s.word} jack at C9`,
      [s.thrust, '02-02'],
      'bolted',
      14,
    ),
    joint(s.legJoint, `Draw the pin between ${s.word} jack tube and leg`, [s.tube, s.leg], 'pinned', 8, {
      needs: stands(SUPPORT, 'stands', 'jacks'),
    }),
    joint(
      bare(s.screw),
      `Wind the jack screw out of its nut, ${s.thread.toUpperCase()}-HAND`,
      [s.screw, s.nut],
      'threaded',
      10,
      {
        threadHand: s.thread,
        asFound: { thread: `Tr 24 × 5 ${s.thread}-hand` },
        needs: any(off(jack), released(s.legJoint)),
      },
    ),
    joint(`${bare(s.screw)}t`, `Undo the ring nut of the ${s.word} thrust bearing`, [s.screw, s.thrust], 'threaded', 9),
    joint(bare(s.nut), `Drive the dowels of the ${s.word} jack nut out`, [s.nut, s.tube], 'pinned', 12, {
      needs: off(jack),
    }),
    fasteners(s.switches, {
      release: `Undo the ${s.word} limit switch`,
      joins: ['02-02'],
      kind: 'bolted',
      minutes: 4,
      joint: { disturbs: [RIGGING.gear] },
      part: { massKg: 0.1, at: at(3.4, y(0.8), 0.6), minutes: 1 },
    }),
    joint(
      `${bare(s.switches)}w`,
      `Take the wires off the ${s.word} limit switches`,
      [`${s.switches}.1`, `${s.switches}.2`, '12-21'],
      'line',
      6,
      {
        needs: done(BATTERY_OFF),
      },
    ),
    joint(bare(s.hook), `Drive the pivot pin out of the ${s.word} down-lock hook`, [s.hook, '02-02'], 'pinned', 6, {
      needs: released(bare(s.lockSpring)),
      asFound: { note: 'no paint in the hook (trap X-15)' },
    }),
    joint(bare(s.lockSpring), `Unhook the ${s.word} lock spring from the hook`, [s.lockSpring, s.hook], 'other', 2, {
      hazards: [spring],
    }),
    joint(`${bare(s.lockSpring)}f`, `Unhook the ${s.word} lock spring from C9`, [s.lockSpring, '02-02'], 'other', 2, {
      hazards: [spring],
    }),

    operation(ease, `Ease the ${s.word} lock spring with the hooked bar`, 4, { on: s.hook, only: 'strip' }),
    operation(hold, `Tie the ${s.word} jack up`, 2, { on: jack }),

    block(s.shaft, TANK, 'scores the shaft on the tank bearer', done(OPEN_CABIN_FLOOR)),
    block(s.bearing, TANK, 'the bracket cannot pass the tank bearer; the casting cracks'),
    block(s.bearing, s.shaft, 'bends the shaft'),
    block(
      s.universal,
      s.shaft,
      'the joint cannot leave the jack while the shaft stands in it',
      released(`${bare(s.universal)}i`),
    ),
    block(s.hook, s.lockSpring, 'the spring snaps the hook round'),
    block(jack, s.universal, 'shears the pin of the universal joint', released(bare(s.universal))),
    block(jack, s.end === 'l' ? '02-11' : '02-12', 'crumples the gear bay diaphragm'),
  );
}

const box = (massKg: number, minutes: number) => ({ within: UNITS.gearbox, massKg, minutes, at: at(3.4, 0, 0.6) });

const drive = join(
  unit(UNITS.gearbox, 'Gearbox with motor, worm and wheel', { minutes: 8, needs: REACH }),
  part('09-01', box(6.2, 3)),
  part('09-02', box(0.5, 1)),
  part('09-03', box(1.1, 2)),
  part('09-04', box(1.8, 3)),
  part('09-05', box(3.6, 5)),
  part('09-06', box(1.0, 2)),
  part('09-23', { massKg: 0.6, minutes: 3, at: at(2.2, 0, 1.0) }),
  part('09-24', { massKg: 0.3, minutes: 4, at: at(2.8, 0, 0.8) }),

  joint('09-j05', 'Undo the four foot bolts of the gearbox', ['09-05', ROOT], 'bolted', 18, {
    needs: REACH,
    asFound: { note: 'crack at one foot, old weld' },
  }),
  joint('09-j01', 'Undo the flange nuts of the motor', ['09-01', '09-05'], 'studs', 10, {
    needs: any(REACH, off(UNITS.gearbox)),
  }),
  joint('09-j29', 'Take the cables off the gear motor', ['09-01', '12-21'], 'line', 4, { needs: done(BATTERY_OFF) }),
  joint('09-j02m', 'Undo the motor side of the coupling', ['09-02', '09-01'], 'bolted', 5, {
    needs: any(REACH, off(UNITS.gearbox)),
  }),
  joint('09-j02w', 'Undo the worm side of the coupling', ['09-02', '09-03'], 'bolted', 5, {
    needs: any(REACH, off(UNITS.gearbox)),
  }),
  joint('09-j03', 'Take the worm bearing caps off', ['09-03', '09-05'], 'studs', 14, {
    needs: any(REACH, off(UNITS.gearbox)),
  }),
  joint('09-j03m', 'Turn the worm out of mesh', ['09-03', '09-04'], 'meshed', 4, { needs: released('09-j03') }),
  joint('09-j04', 'Take the worm wheel cover and bearings off', ['09-04', '09-05'], 'studs', 16, {
    needs: any(REACH, off(UNITS.gearbox)),
  }),
  joint('09-j06', 'Draw the ratchet lever off the worm shaft', ['09-06', '09-03'], 'splined', 6, {
    hazards: [storedEnergy(done(PAWL), 'Pawl spring: small, but it flies')],
  }),
  joint('09-j06p', 'Drive the fulcrum pin out of the ratchet lever', ['09-06', '09-05'], 'pinned', 5),
  joint('09-j23', 'Undo the indicator drum at the instrument board', ['09-23', '01-24'], 'bolted', 6, {
    asFound: { note: 'scale in Spanish; do not clean' },
  }),
  joint('09-j24d', 'Unhook the indicator cable from the drum', ['09-24', '09-23'], 'cable', 3, {
    disturbs: ['rigging:gear-indicator'],
  }),
  joint('09-j24w', 'Unhook the indicator cable from the worm wheel shaft', ['09-24', '09-04'], 'cable', 4, {
    needs: any(REACH, off(UNITS.gearbox)),
    disturbs: ['rigging:gear-indicator'],
  }),

  operation(OPEN_CABIN_FLOOR, 'Unscrew and lift the cabin floor boards over the torque shaft', 40),
  operation(PAWL, 'Ease the pawl of the ratchet lever and tie it', 2, { on: '09-06', only: 'strip' }),
  operation('swing-gear-by-hand', 'Swing the gear through by the ratchet lever, twice, before power', 30, {
    only: 'refit',
    needs: stands(SUPPORT, 'jacks'),
    hazards: [caution('moving gear', 'Support plan signed today; nobody under the aircraft')],
  }),

  block('09-04', '09-03', 'chips the bronze wheel', released('09-j03m')),
  block('09-02', '09-01', 'tears the leather disc', released('09-j02m')),
  block(UNITS.gearbox, '09-07', 'bends the port torque shaft', released('09-j07')),
  block(UNITS.gearbox, '09-08', 'bends the starboard torque shaft', released('09-j08')),
  block('09-03', '09-06', 'the lever fouls the floor', released('09-j06')),

  look(gate(15), 'Gate 15: gear drive, shafts and joints pinned and wired', {
    on: '09-05',
    visible: REACH,
    whenFitted: ['09-j05', '09-j07', '09-j08', '09-j11', '09-j12', '09-j11i', '09-j12i'],
    people: 2,
  }),
  look('look-bearing-bolts', 'Bolts of both intermediate bearings, split-pinned', {
    visible: off(TANK),
    whenFitted: ['09-j09', '09-j10'],
  }),
  look('look-first-swing', 'Limit switches set before the first powered swing', {
    visible: all(),
    whenFitted: ['09-j21.1', '09-j21.2', '09-j22.1', '09-j22.2'],
    people: 2,
  }),
  factOf('support-plan-signed-today', 'Support plan signed today'),
  factOf('down-lock-wear-settled', 'Wear limit of the down-lock hook settled (Q-03)'),
);

export const gearDrive = join(drive, jackSide(PORT), jackSide(STARBOARD));
