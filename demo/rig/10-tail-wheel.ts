/**
 * Tail-wheel unit, assembly 10. INVENTED.
 *
 *   C19 ── trunnion block ── pins ── leg tube ┬ retaining nut (top, under the boot) over seat and main spring
 *                                             └ sliding tube ── cam, horn, fork ── axle ── wheel with tyre
 *
 * The spring pushes the seat against the retaining nut. Nobody knows the free length of the car spring that was found,
 * so the force at the end of the release bolt (65 mm of travel) cannot be computed: the nut is gated by the captive
 * press, or by two facts that only a person can settle. Two units can be lifted whole: the leg (by its pins) and the
 * leg with its block (by the block's bolts); both bring the spring to the bench, where a shorter press does.
 */
import {
  all,
  any,
  at,
  block,
  caution,
  done,
  fact,
  factOf,
  join,
  joint,
  look,
  off,
  operation,
  part,
  pressure,
  released,
  stands,
  storedEnergy,
  unit,
} from './author.ts';
import { gate, RIGGING, SUPPORT, UNITS } from './names.ts';

const LEG = 'tail-leg';
const CAPTIVE_PRESS = 'fit-captive-press';
const BENCH_PRESS = 'press-on-the-bench';
const RELEASE_BOLT = 'fit-release-bolt';
const LET_DOWN = 'let-spring-down';
const LET_DOWN_BOLT = 'let-spring-down-on-bolt';
const TROLLEY = 'trolley-under-tail-leg';
const DEFLATE = 'deflate-tail-tyre';
const EASE_L = 'ease-centring-spring-l';
const EASE_R = 'ease-centring-spring-r';

const inLeg = (massKg: number, minutes: number, z: number) => ({ within: LEG, massKg, minutes, at: at(7.6, 0, z) });
const springIsHeld = any(
  done(CAPTIVE_PRESS),
  done(BENCH_PRESS),
  all(fact('spring-free-length-known'), fact('bolt-travel-enough'), done(RELEASE_BOLT)),
);
const springIsFree = any(done(LET_DOWN), done(LET_DOWN_BOLT));
const outOfLine = 'Stay out of line with the leg; a spring that gets away can kill';

const parts = join(
  unit(UNITS.tailWheel, 'Tail-wheel unit with its trunnion block', { minutes: 4, hold: done(TROLLEY) }),
  unit(LEG, 'Tail-wheel leg, complete', { within: UNITS.tailWheel, minutes: 3, hold: done(TROLLEY) }),
  part('10-01', inLeg(5.2, 4, 0.45)),
  part('10-02', inLeg(4.3, 3, 0.3)),
  part('10-03', { ...inLeg(2.4, 2, 0.5), needs: springIsFree }),
  part('10-04', { ...inLeg(0.2, 1, 0.6), needs: springIsFree }),
  part('10-05', inLeg(0.4, 1, 0.35)),
  part('10-06', inLeg(0.3, 1, 0.65)),
  part('10-07', { ...inLeg(0.5, 1, 0.65), needs: springIsFree }),
  part('10-08', inLeg(0, 0, 0.65)),
  part('10-09', { within: UNITS.tailWheel, massKg: 3.6, minutes: 3, at: at(7.6, 0, 0.55) }),
  part('10-10', { within: UNITS.tailWheel, massKg: 0.3, minutes: 0, at: at(7.6, -0.05, 0.55) }),
  part('10-11', { within: UNITS.tailWheel, massKg: 0.3, minutes: 0, at: at(7.6, 0.05, 0.55) }),
  part('10-12', inLeg(3.4, 3, 0.15)),
  part('10-13', inLeg(0.7, 0, 0.1)),
  part('10-14', inLeg(3.6, 2, 0.1)),
  part('10-15', { within: '10-14', massKg: 2.6, minutes: 5, at: at(7.6, 0, 0.1) }),
  part('10-16', inLeg(0.3, 1, 0.3)),
  part('10-17', inLeg(0.3, 1, 0.3)),
  part('10-18', inLeg(0.9, 2, 0.25)),
  part('10-19', inLeg(1.6, 2, 0.35)),
  part('10-20', inLeg(0, 0, 0.35)),
  part('10-21', inLeg(0.1, 0, 0.6)),
);

const held = join(
  joint('10-j09', 'Undo the four bolts of the trunnion block at C19', ['10-09', '02-19'], 'bolted', 36, {
    needs: done(TROLLEY),
    asFound: { note: 'rear flange of C19 folded over two heads' },
  }),
  joint('10-j10', 'Drift the port trunnion pin out', ['10-10', '10-09', '10-01'], 'pinned', 8),
  joint('10-j11', 'Draw the starboard trunnion pin with the screw puller', ['10-11', '10-09', '10-01'], 'pinned', 20, {
    needs: done(TROLLEY),
    asFound: { note: 'bent' },
  }),
  joint('10-j21', 'Unlash the dust boot', ['10-21', '10-01', '10-02'], 'lashed', 3, {
    loss: 'consumable',
    asFound: { present: false },
  }),
  joint('10-j08', 'Cut the lock wire of the retaining nut', ['10-08', '10-07', '10-01'], 'other', 2, {
    loss: 'consumable',
    asFound: { present: false },
  }),
  joint('10-j06', 'Unscrew the long release bolt', ['10-06', '10-07', '10-04'], 'threaded', 4, {
    asFound: { present: false, note: 'a tool bolt; travel 65 mm' },
  }),
  joint('10-j07', 'Back off the retaining nut, M42 × 1.5', ['10-07', '10-01', '10-04', '10-03'], 'threaded', 10, {
    threadHand: 'right',
    needs: all(released('10-j08'), released('10-j21')),
    hazards: [storedEnergy(springIsHeld, `The main spring pushes on this nut with about 2 kN. ${outOfLine}`)],
    asFound: { lockWire: 'none found', thread: 'M42 × 1.5' },
  }),
  joint('10-j05', 'Lift the spring off its lower seat', ['10-05', '10-02'], 'other', 1, { needs: off('10-03') }),
  joint('10-j02', 'Draw the sliding tube down out of the leg tube', ['10-02', '10-01'], 'other', 6, {
    needs: all(off('10-03'), off('10-05')),
  }),
  joint('10-j20', 'Draw the steering shear pin', ['10-20', '10-19', '10-02'], 'pinned', 3, {
    needs: any(off('10-14'), off(LEG)),
    asFound: { note: 'a steel nail, not the brass pin; keep it, bag it, do not copy' },
    asDecided: { material: 'brass' },
    note: 'Comes out downwards, past the wheel',
  }),
  joint('10-j19', 'Slacken the collar of the steering horn', ['10-19', '10-02'], 'clamped', 6),
  joint('10-j22', 'Slip the water-rudder link off the horn', ['10-19', '06-15'], 'pinned', 5, {
    disturbs: [RIGGING.waterRudder],
  }),
  joint('10-j16a', 'Unhook the port centring spring from the leg tube', ['10-16', '10-01'], 'other', 2, {
    hazards: [storedEnergy(done(EASE_L), 'Centring spring under tension: eye protection, hooked bar')],
  }),
  joint('10-j16b', 'Unhook the port centring spring from the cam', ['10-16', '10-18'], 'other', 2, {
    hazards: [storedEnergy(done(EASE_L), 'Centring spring under tension: eye protection, hooked bar')],
  }),
  joint('10-j17a', 'Unhook the starboard centring spring from the leg tube', ['10-17', '10-01'], 'other', 2, {
    hazards: [storedEnergy(done(EASE_R), 'Centring spring under tension: eye protection, hooked bar')],
  }),
  joint('10-j17b', 'Unhook the starboard centring spring from the cam', ['10-17', '10-18'], 'other', 2, {
    hazards: [storedEnergy(done(EASE_R), 'Centring spring under tension: eye protection, hooked bar')],
  }),
  joint('10-j18', 'Draw the centring cam off its splines', ['10-18', '10-02'], 'splined', 7, { needs: off('10-12') }),
  joint('10-j12', 'Drive the fork off the sliding tube', ['10-12', '10-02'], 'pressed', 18, {
    needs: all(released('10-j12p'), off('10-14')),
  }),
  joint('10-j12p', 'Drive the taper pin out of the fork', ['10-12', '10-02'], 'pinned', 6),
  joint('10-j13', 'Take the split pins out and draw the axle', ['10-13', '10-12', '10-14'], 'pinned', 10, {
    loss: 'consumable',
  }),
  joint('10-j15', 'Break the bead of the tail tyre', ['10-15', '10-14'], 'other', 12, {
    hazards: [pressure(done(DEFLATE), 'Air in the tyre: core out and proved empty before the bead is broken')],
  }),
);

const work = join(
  operation(CAPTIVE_PRESS, 'Fit the captive press, travel at least 120 mm', 15, {
    on: '10-01',
    needs: all(off('10-14'), released('10-j20'), stands(SUPPORT, 'stands', 'jacks')),
    only: 'strip',
    note: 'The found spring needs 80 mm to be free, the release bolt gives 65 mm',
  }),
  operation(BENCH_PRESS, 'Set the leg in the bench press, guard closed', 10, {
    on: '10-01',
    needs: off(LEG),
    only: 'strip',
  }),
  operation(RELEASE_BOLT, 'Screw the long release bolt into the upper seat', 4, {
    on: '10-01',
    needs: all(fact('spring-free-length-known'), fact('bolt-travel-enough')),
    only: 'strip',
  }),
  operation(LET_DOWN, 'Let the spring down in the press', 10, {
    on: '10-01',
    needs: all(released('10-j07'), released('10-j20'), any(done(CAPTIVE_PRESS), done(BENCH_PRESS))),
    only: 'strip',
    hazards: [caution('spring', outOfLine)],
  }),
  operation(LET_DOWN_BOLT, 'Let the spring down on the release bolt', 12, {
    on: '10-01',
    needs: all(released('10-j07'), released('10-j20'), done(RELEASE_BOLT)),
    only: 'strip',
    hazards: [caution('spring', outOfLine)],
  }),
  operation(TROLLEY, 'Take the weight of the tail-wheel leg on the trolley', 5, { on: UNITS.tailWheel }),
  operation(DEFLATE, 'Take the valve core out and prove the tail tyre empty', 3, { on: '10-14', only: 'strip' }),
  operation(EASE_L, 'Ease the port centring spring with the hooked bar', 4, { on: '10-01', only: 'strip' }),
  operation(EASE_R, 'Ease the starboard centring spring with the hooked bar', 4, { on: '10-01', only: 'strip' }),
);

const inTheWay = join(
  block('10-03', '10-14', 'bends the fork: the leg cannot drop clear while the wheel is on', off(LEG)),
  block('10-05', '10-03', 'the washer stack jams across the tube'),
  block('10-18', '10-12', 'bends the cam: it comes off downwards, past the fork'),
  block('10-19', '10-12', 'bends the horn: it comes off downwards, past the fork'),
  block('10-19', '10-18', 'chips the cam edge'),
  block(UNITS.tailWheel, '06-14', 'bends the blade of the water rudder', off('06-15')),
  block('10-09', '10-01', 'the leg drops on the mechanic'),
);

const known = join(
  factOf('spring-free-length-known', 'Free length of the fitted tail-wheel spring measured', {
    note: 'Needs the spring out, or a maker’s sheet that is proved to belong to it',
  }),
  factOf('bolt-travel-enough', 'Travel of the release bolt is enough for the fitted spring', {
    note: '65 mm against 57 mm for the maker’s 7-441, 80 mm for the car spring found',
  }),
  look(gate(14), 'Gate 14: tail-wheel leg, retaining nut wired', {
    on: '10-07',
    visible: all(released('10-j21')),
    whenFitted: ['10-j07', '10-j08'],
    people: 1,
  }),
  look('look-tail-spring-seat', 'Spring seats and bore of the leg tube, clean and whole', {
    on: '10-01',
    visible: off('10-03'),
  }),
  look('look-tail-shear-pin', 'Steering shear pin is brass, not steel', {
    on: '10-19',
    visible: all(),
    whenFitted: ['10-j20'],
  }),
);

export const tailWheel = join(parts, held, work, inTheWay, known);
