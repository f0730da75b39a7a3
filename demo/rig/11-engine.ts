/**
 * Engine and propeller, assembly 11. INVENTED.
 *
 *   spinner ─ hub and blades ─ engine ─ 14 rubber bushes ─ mount ring ─ 4 lugs: two at the spar, two at the front struts
 *
 * Two real choices: with or without its propeller (a plain sling needs the propeller off, the spreader bar does not),
 * and with the ring (four lug bolts) or out of the ring (fourteen bushes). The propeller sits within the engine, so the
 * engine may be lifted with it. A hot-started engine may turn: plugs out and magnetos earthed before a hand is on it.
 */
import {
  all,
  any,
  at,
  block,
  caution,
  done,
  factOf,
  fasteners,
  join,
  joint,
  look,
  off,
  operation,
  part,
  positions,
  released,
  releasedAll,
  stands,
  storedEnergy,
  unit,
} from './author.ts';
import { BATTERY_OFF, gate, RIGGING, SUPPORT, UNITS } from './names.ts';

const SLING = 'sling-engine';
const SPREADER = 'sling-engine-with-spreader';
const DEAD = 'make-engine-dead';
const DRAIN_OIL = 'drain-oil';
const slung = any(all(done(SLING), off('11-13')), done(SPREADER));
const mayTurn = storedEnergy(done(DEAD), 'The propeller may turn: plugs out, magnetos earthed, propeller tied');
const inUnit = (massKg: number, minutes: number, x: number, y = 0) => ({
  within: UNITS.powerUnit,
  massKg,
  minutes,
  at: at(x, y, 2.3),
});

const engine = join(
  unit(UNITS.powerUnit, 'Engine with its mount ring', { minutes: 25, hold: slung }),
  part('11-01', { ...inUnit(160, 20, 2.363875), hold: slung }),
  part('11-02', inUnit(14, 5, 2.62)),
  part('11-04', inUnit(9, 6, 2.55)),
  part('11-05', inUnit(8, 4, 2.3)),
  part('11-09', inUnit(6.5, 4, 2.5)),
  part('11-10', inUnit(4.2, 2, 2.5, -0.15)),
  part('11-11', inUnit(4.2, 2, 2.5, 0.15)),

  joint('11-j02a', 'Undo the upper port lug of the mount ring at the front spar', ['11-02', '03-11'], 'bolted', 14, {
    needs: off('11-05'),
  }),
  joint(
    '11-j02b',
    'Undo the upper starboard lug of the mount ring at the front spar',
    ['11-02', '03-11'],
    'bolted',
    14,
    {
      needs: off('11-05'),
    },
  ),
  joint('11-j02c', 'Undo the lower port lug of the mount ring at the pylon strut', ['11-02', '03-01'], 'bolted', 12, {
    needs: off('11-05'),
  }),
  joint('11-j02d', 'Undo lug 4 of the mount ring at the starboard pylon strut', ['11-02', '03-02'], 'bolted', 12, {
    needs: off('11-05'),
    asFound: { note: 'crack at lug 4' },
  }),
  fasteners('11-03', {
    release: 'Undo the engine bolt through the mount bush',
    joins: ['11-01', '11-02'],
    kind: 'bolted',
    minutes: 7,
    joint: { needs: off('11-04'), loss: 'none' },
    part: { within: UNITS.powerUnit, massKg: 0.25, at: at(2.6, 0, 2.3) },
  }),
  joint('11-j04', 'Undo the seven port flanges of the exhaust collector', ['11-04', '11-01'], 'studs', 35, {
    loss: 'consumable',
    needs: off('11-05'),
    asFound: { note: 'burnt, two patches; studs may shear' },
  }),
  joint('11-j04t', 'Undo the tail pipe bracket', ['11-04', '11-02'], 'bolted', 6),
  fasteners('11-06', {
    release: 'Spring the cowl clip open',
    joins: ['11-05', '11-01'],
    kind: 'clamped',
    minutes: 1,
    part: { within: UNITS.powerUnit, massKg: 0.05, at: at(2.3, 0, 2.3) },
  }),
  joint('11-j05', 'Slide the cowl halves off their ledge', ['11-05', '11-01'], 'other', 4, {
    needs: releasedAll('11-j06.1', '11-j06.12'),
  }),
  joint('11-j09', 'Undo the carburettor flange', ['11-09', '11-01'], 'studs', 12),
  joint('11-j09f', 'Undo the fuel pipe at the carburettor', ['11-09', '12-17.6'], 'line', 5, {
    hazards: [caution('fuel', 'Petrol left in the pipe: no spark, catch it, local fire rules')],
  }),
  joint('11-j09c', 'Unhook the throttle rod', ['11-09', '11-01'], 'pinned', 3, { disturbs: [RIGGING.engine] }),
  joint('11-j10', 'Undo the port magneto flange', ['11-10', '11-01'], 'studs', 9, { disturbs: ['timing:magneto-l'] }),
  joint('11-j10w', 'Take the earth lead off the port magneto', ['11-10', '12-21'], 'line', 2, {
    hazards: [caution('ignition', 'A magneto with its earth lead off is live: plugs out first')],
    needs: done(DEAD),
  }),
  joint('11-j11', 'Undo the starboard magneto flange', ['11-11', '11-01'], 'studs', 9, {
    disturbs: ['timing:magneto-r'],
  }),
  joint('11-j11w', 'Take the earth lead off the starboard magneto', ['11-11', '12-21'], 'line', 2, {
    hazards: [caution('ignition', 'A magneto with its earth lead off is live: plugs out first')],
    needs: done(DEAD),
  }),
  joint('11-j01e', 'Take the bonding strip off the engine', ['11-01', '12-21'], 'line', 2, {
    needs: done(BATTERY_OFF),
  }),
);

const propeller = join(
  part('11-12', { within: '11-13', massKg: 14, minutes: 5, at: at(1.85, 0, 2.3) }),
  part('11-13', { within: '11-01', massKg: 9, minutes: 6, at: at(1.87, 0, 2.3) }),
  part('11-15', { within: '11-13', massKg: 2, minutes: 2, at: at(1.8, 0, 2.3) }),
  fasteners('11-14', {
    release: 'Undo the hub bolt, split pin out',
    joins: ['11-12', '11-13'],
    kind: 'bolted',
    minutes: 5,
    joint: { needs: off('11-15'), hazards: [mayTurn] },
    part: { within: '11-13', massKg: 0.25, at: at(1.87, 0, 2.3) },
  }),
  joint('11-j15', 'Undo the spinner screws', ['11-15', '11-13'], 'bolted', 6, { hazards: [mayTurn] }),
  joint('11-j13', 'Undo the hub nut with the long bar', ['11-13', '11-01'], 'threaded', 20, {
    threadHand: 'right',
    needs: released('11-j15'),
    hazards: [mayTurn],
  }),
  joint('11-j13c', 'Pull the hub off its cone', ['11-13', '11-01'], 'pressed', 12, { needs: released('11-j13') }),
  block(
    '11-05',
    '11-13',
    'cracks the cowl: the halves slide forward past the blades only when turned upright',
    done(DEAD),
  ),
);

const oil = join(
  part('11-07', { massKg: 6, minutes: 5, at: at(2.75, 0, 2.1) }),
  joint('11-j07a', 'Undo the port strap of the oil tank', ['11-07', '03-01'], 'bolted', 6),
  joint('11-j07b', 'Undo the starboard strap of the oil tank', ['11-07', '03-02'], 'bolted', 6),
  positions('11-08', { massKg: 0.4, minutes: 2, at: at(2.6, 0, 2.1) }),
  ...[1, 2, 3, 4, 5].flatMap((n) => [
    joint(`11-j08.${n}a`, `Undo oil pipe ${n} at the tank`, [`11-08.${n}`, '11-07'], 'line', 4, {
      needs: done(DRAIN_OIL),
    }),
    joint(`11-j08.${n}b`, `Undo oil pipe ${n} at the engine`, [`11-08.${n}`, '11-01'], 'line', 4, {
      needs: done(DRAIN_OIL),
    }),
  ]),
);

const work = join(
  operation(DEAD, 'Make the engine dead: one plug out of each cylinder, magnetos earthed, propeller tied', 15, {
    on: '11-01',
    only: 'strip',
  }),
  operation(DRAIN_OIL, 'Drain the oil, tank and sump', 25, { on: '11-01', only: 'strip' }),
  operation(SLING, 'Sling the engine by its lifting eyes, weight taken', 20, {
    on: '11-01',
    needs: all(off('11-05'), off('11-13')),
    hazards: [caution('lifting', 'Nobody under the load; hoist and eyes rated and looked at')],
  }),
  operation(SPREADER, 'Sling engine and propeller with the spreader bar, weight taken', 45, {
    on: '11-01',
    needs: all(off('11-05'), done(DEAD), stands(SUPPORT, 'stands', 'jacks', 'cradle')),
    hazards: [caution('lifting', 'Nobody under the load; hoist and eyes rated and looked at')],
  }),
  block('11-04', '11-05', 'scrapes the cowl'),
  block('11-02', '11-01', 'the engine falls out of its ring'),
  block('11-10', '11-04', 'burnt studs: the collector bears on the magneto', released('11-j04t')),
  block('11-11', '11-04', 'burnt studs: the collector bears on the magneto', released('11-j04t')),
  look(gate(17), 'Gate 17: engine rear, pipes, leads and controls', {
    on: '11-02',
    visible: off('11-05'),
    whenFitted: ['11-j02a', '11-j02b', '11-j02c', '11-j02d', '11-j09', '11-j09f', '11-j09c', '11-j10', '11-j11'],
  }),
  look('look-hub-cone', 'Hub cone, contact all round', { on: '11-01', visible: off('11-13') }),
  look('look-mount-lug-4', 'Lug 4 of the mount ring, weld dressed', { on: '11-02', visible: released('11-j02d') }),
  factOf('crankshaft-settled', 'Crankshaft after the sudden stop settled (Q-16)'),
);

export const engineAndPropeller = join(engine, propeller, oil, work);
