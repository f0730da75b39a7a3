/**
 * Fuel tank in its bay behind the cabin, under the pylon (lines 03-14 and 03-15). INVENTED.
 *
 * Straps can be reached from above through the deck covers or through the roof hatch; the tank itself leaves only forward
 * through the hatch opening. So it goes in after the bearings of the gear drive under it, and before the hatch frame
 * (trap X-8). Gate 7 is three looks: the bare bay, the tank strapped and bonded, and the leak test under an open roof.
 */
import { all, any, at, block, done, factOf, join, joint, look, off, operation, part } from './author.ts';
import { reach } from './hull-words.ts';
import { DRAIN_FUEL, gate, ROOT } from './names.ts';
import { jointId as j } from './pylon-sides.ts';

const TANK = '03-14';
const HATCH = '01-21';
const HOLD_TANK = 'take-weight-of-tank';

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
  factOf('tank-leak-tested', 'New tank leak-tested on the bench', { note: 'before it goes into the bay' }),
);

export const tankBay = join(tank, seen);
