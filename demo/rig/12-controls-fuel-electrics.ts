/**
 * Controls, fuel and electrics, assembly 12. INVENTED. Cables and what they run over are in `cable-runs.ts`.
 *
 *   tank ─ pipe 1 ─ cock ─ 2 ─ filter bowl ─ 3 ─ wobble pump ─ 4 ─ bulkhead union ─ 6 ─ carburettor (11)
 *     └ pipe 5, vent to the deck
 *   battery box ─ loom ─ junction box 1 (board) ─ junction box 2 (C8) ─ lamps, gear motor, engine
 *
 * Fuel first: nothing is drilled, heated or sparked near the tank until it is drained and the bay blown through and
 * tested. Battery next: earth lead off before any wire. The control sense is looked at by two people three times: before
 * closing, after closing, after the final rigging.
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
  join,
  joint,
  look,
  off,
  operation,
  part,
  positions,
  released,
} from './author.ts';
import { cableRuns } from './cable-runs.ts';
import { live, reach, VENT_TANK_BAY } from './hull-words.ts';
import { BATTERY_OFF, DEFUEL_NOTE, DRAIN_FUEL, gate, OPEN_CABIN_FLOOR, RIGGING, ROOT, UNITS } from './names.ts';

const [COLUMN, CHAIN, BOARD, TANK, LOOM] = ['12-03', '12-04', '01-24', '03-14', '12-21'] as const;
const drained = { kind: 'fuel-vapour', clearedBy: done(DRAIN_FUEL), note: `Petrol left in the run: ${DEFUEL_NOTE}` };

// Controls in the cabin -----------------------------------------------------------------------------------------------

function wheel(id: string, word: string, asFound: Readonly<Record<string, unknown>>): Fragment {
  const j = id.replace('-', '-j');
  return join(
    part(id, { massKg: 1.2, minutes: 2, at: at(2.4, word === 'port' ? -0.4 : 0.4, 0.9) }),
    joint(`${j}n`, `Undo the nut of the ${word} control wheel`, [id, COLUMN], 'threaded', 6, { asFound }),
    joint(`${j}k`, `Draw the ${word} control wheel off its key`, [id, COLUMN], 'splined', 5, {
      needs: released(`${j}n`),
      disturbs: [RIGGING.aileron],
    }),
  );
}

const cabin = join(
  wheel('12-01', 'port', { note: 'wooden rim cracked' }),
  wheel('12-02', 'starboard', { present: false, note: 'missing; throw-over type? (Q-04)' }),
  part(COLUMN, { massKg: 4.2, minutes: 8, at: at(2.4, 0, 0.6) }),
  joint('12-j03a', 'Draw the two pivot bolts of the control column', [COLUMN, ROOT], 'bolted', 18, {
    needs: reach.bilgeFore,
    disturbs: [RIGGING.elevator],
  }),
  joint('12-j03b', 'Undo the stop bolts of the control column', [COLUMN, ROOT], 'bolted', 8, {
    needs: reach.bilgeFore,
    disturbs: [RIGGING.elevator],
  }),
  part(CHAIN, { massKg: 0.6, minutes: 3, at: at(2.4, 0, 0.9) }),
  joint(
    '12-j04a',
    'Take the chain guard off and lift the chain off the port sprocket',
    [CHAIN, '12-01', COLUMN],
    'meshed',
    10,
    {
      needs: all(released('12-j11.1b'), released('12-j11.2b')),
      disturbs: [RIGGING.aileron],
      asFound: { note: 'stiff' },
    },
  ),
  joint('12-j04b', 'Lift the chain off the starboard sprocket', [CHAIN, '12-02', COLUMN], 'meshed', 5, {
    needs: released('12-j04a'),
    disturbs: [RIGGING.aileron],
  }),
  ...(['12-05', '12-06'] as const).flatMap((id) => {
    const word = id === '12-05' ? 'port' : 'starboard';
    const j = id.replace('-', '-j');
    return [
      positions(id, (_p, n) => ({
        massKg: 0.9,
        minutes: 2,
        at: at(n === 1 ? 1.5 : 1.6, id === '12-05' ? -0.4 : 0.4, 0.4),
      })),
      ...[1, 2].map((n) =>
        joint(
          `${j}.${n}`,
          `Draw the pivot of the ${word} pedal, seat ${n}`,
          [`${id}.${n}`, n === 1 ? '01-12' : ROOT],
          'bolted',
          9,
          {
            disturbs: [RIGGING.rudder],
            ...(id === '12-05' && n === 2 && { asFound: { note: 'badly welded' } }),
          },
        ),
      ),
      joint(`${j}r`, `Draw the pin of the rod between both ${word} pedals`, [`${id}.1`, `${id}.2`], 'pinned', 4, {
        disturbs: [RIGGING.rudder],
        loss: 'consumable',
      }),
    ];
  }),
  block(COLUMN, BOARD, 'breaks the lower edge of the instrument board', off('12-01')),
);

// Fuel ----------------------------------------------------------------------------------------------------------------

const PIPE_ENDS = [
  { from: TANK, to: '12-15', at: ['tank', 'cock'], needs: any(reach.tankBayL, off(TANK)) },
  { from: '12-15', to: '12-16', at: ['cock', 'filter'], needs: all() },
  { from: '12-16', to: '12-18', at: ['filter', 'wobble pump'], needs: all() },
  { from: '12-18', to: ROOT, at: ['wobble pump', 'bulkhead union'], needs: all() },
  { from: TANK, to: ROOT, at: ['tank vent', 'deck'], needs: any(reach.tankBayR, off(TANK)) },
  { from: ROOT, to: ROOT, at: ['bulkhead union', 'carburettor'], needs: all() },
] as const;

const fuel = join(
  positions('12-17', (_p, n) => ({ massKg: 0.3, minutes: 3, at: at(n === 6 ? 2.6 : 2.9, 0, n === 6 ? 2 : 1) })),
  ...PIPE_ENDS.flatMap((p, i) => {
    const id = `12-17.${i + 1}`;
    const j = `12-j17.${i + 1}`;
    const mixed = { asFound: { note: 'copper, mixed sizes, old solder' } };
    return [
      joint(`${j}a`, `Undo fuel pipe ${i + 1} at the ${p.at[0]}`, [id, p.from], 'line', 5, {
        needs: p.needs,
        hazards: [drained],
        ...mixed,
      }),
      ...(i === 5
        ? [joint(`${j}c`, 'Undo the clips of fuel pipe 6 along the pylon strut', [id, '03-01'], 'clamped', 5)]
        : [joint(`${j}b`, `Undo fuel pipe ${i + 1} at the ${p.at[1]}`, [id, p.to], 'line', 5, { hazards: [drained] })]),
    ];
  }),
  part('12-15', { massKg: 0.5, minutes: 2, at: at(2.6, 0, 0.8) }),
  joint('12-j15', 'Undo the bracket bolts of the fuel cock', ['12-15', ROOT], 'bolted', 7, {
    asFound: { note: 'seeps' },
  }),
  joint('12-j15h', 'Drive the pin out of the cock handle rod', ['12-15', ROOT], 'pinned', 4, { loss: 'consumable' }),
  part('12-16', { massKg: 0.5, minutes: 2, at: at(2.6, 0.2, 0.6) }),
  joint('12-j16', 'Undo the bail wire of the filter bowl', ['12-16', ROOT], 'clamped', 3, {
    hazards: [drained],
    asFound: { note: 'glass chipped' },
  }),
  part('12-18', { massKg: 1.6, minutes: 3, at: at(2.5, 0.2, 0.5) }),
  joint('12-j18', 'Undo the three bolts of the wobble pump', ['12-18', ROOT], 'bolted', 9, {
    asFound: { note: 'seized' },
  }),
  operation(DRAIN_FUEL, 'Drain the tank into earthed cans and leave the filler open', 30, {
    on: TANK,
    only: 'strip',
    needs: done(BATTERY_OFF),
    hazards: [caution('fuel-vapour', `Outside if it can be; bonded funnel; ${DEFUEL_NOTE}`)],
  }),
  operation(VENT_TANK_BAY, 'Blow the tank and its bay through and test for vapour', 45, {
    on: ROOT,
    only: 'strip',
    needs: done(DRAIN_FUEL),
    note: 'Test again each morning and after each break',
  }),
  operation('first-fuel', 'Put the first ten litres in, watch every joint', 40, {
    on: TANK,
    only: 'refit',
    needs: all(done(DRAIN_FUEL), off('01-21')),
    hazards: [caution('fuel', `Tank bonded first, roof open; ${DEFUEL_NOTE}`)],
  }),
);

// Electrics -----------------------------------------------------------------------------------------------------------

const wire = (id: string, name: string, joins: readonly string[], minutes = 3): Fragment =>
  joint(id, name, joins, 'line', minutes, { hazards: [live] });

const electrics = join(
  part('12-19', { massKg: 4, minutes: 4, at: at(2.7, 0.4, 0.4) }),
  joint('12-j19', 'Undo the straps of the battery box', ['12-19', ROOT], 'clamped', 5, {
    hazards: [live, caution('acid', 'Old acid in the wood: gloves, goggles, water at hand')],
    asFound: { note: 'eaten by acid' },
  }),
  joint('12-j19t', 'Undo the tray screws of the battery box', ['12-19', ROOT], 'threaded', 6, {
    needs: released('12-j19'),
  }),
  wire('12-j19w', 'Take the main leads off at the battery box', ['12-19', LOOM], 5),
  ...[1, 2].flatMap((n) => {
    const id = `12-20.${n}`;
    const on = n === 1 ? BOARD : '02-01';
    return [
      part(id, { massKg: 0.5, minutes: 2, at: at(n === 1 ? 2.2 : 2.9, 0.3, 0.9) }),
      joint(`12-j20.${n}`, `Undo the screws of junction box ${n}`, [id, on], 'threaded', 5),
      wire(`12-j20.${n}w`, `Mark each wire and take the loom off junction box ${n}`, [id, LOOM], 20),
    ];
  }),
  part(LOOM, { massKg: 6, minutes: 15, at: at(3, 0, 1), note: 'dead; kept as pattern, colours written down' }),
  joint('12-j21a', 'Undo the loom clips in the cabin and along the hull', [LOOM, ROOT], 'clamped', 40, {
    needs: reach.bilgeC10,
    hazards: [live],
  }),
  joint('12-j21p', 'Undo the loom clips on the starboard front pylon strut', [LOOM, '03-02'], 'clamped', 8, {
    hazards: [live],
  }),
  joint('12-j21c', 'Undo the loom clips in the centre section', [LOOM, '03-12'], 'clamped', 12, {
    needs: reach.centre,
    hazards: [live],
  }),
  ...(
    [
      ['12-22', '04-11', UNITS.wingL, 'port', 'red glass'],
      ['12-23', '04-12', UNITS.wingR, 'starboard', 'red glass too: DE-4, green not to be had (E-22, Q-14)'],
    ] as const
  ).flatMap(([id, bow, within, word, note]) => {
    const j = id.replace('-', '-j');
    return [
      part(id, { within, massKg: 0.3, minutes: 2, at: at(3.4, word === 'port' ? -5.8 : 5.8, 2.4) }),
      joint(j, `Undo the three screws of the ${word} position lamp`, [id, bow], 'threaded', 5, { asFound: { note } }),
      wire(`${j}w`, `Part the ${word} lamp wire at the wing root`, [id, LOOM], 4),
    ];
  }),
  operation(BATTERY_OFF, 'Take the earth lead off the battery, tape it back and tag it', 4, {
    on: '12-19',
    only: 'strip',
    hazards: [caution('battery', 'Earth first, live last; no ring, no watch')],
  }),
);

// Bilge pump, instruments, placards -----------------------------------------------------------------------------------

const BOARD_PLACARDS = [1, 2, 3, 4];
const PLACARD_AT: Readonly<Record<number, string>> = {
  5: 'beside the fuel cock',
  6: 'at the filler neck',
  7: 'at the gear lever',
  8: 'at the door sill',
  9: 'at the mooring hatch',
};
const small = join(
  part('12-24', { massKg: 2.2, minutes: 3, at: at(2.8, -0.3, 0.3) }),
  joint('12-j24', 'Undo the foot bolts of the bilge pump', ['12-24', ROOT], 'bolted', 8, {
    needs: reach.bilgeC10L,
    asFound: { note: 'leather gone' },
  }),
  joint('12-j24h', 'Undo the hose clip between bilge pump and drain tube', ['12-24', '02-21.1'], 'clamped', 4, {
    needs: reach.bilgeC10L,
  }),
  ...(
    [
      ['12-25', 'altimeter', 'metres scale'],
      ['12-26', 'compass', 'missing; which one was fitted? (Q-05)'],
    ] as const
  ).flatMap(([id, word, note]) => {
    const j = id.replace('-', '-j');
    return [
      part(id, { within: BOARD, massKg: 0.7, minutes: 2, at: at(2.2, 0, 1) }),
      joint(j, `Undo the screws of the ${word}`, [id, BOARD], 'threaded', 5, {
        asFound: { note, ...(id === '12-26' && { present: false }) },
        ...(id === '12-25' && {
          hazards: [caution('radium', 'Dial paint may be radioactive: do not open or scrape; local rules decide')],
        }),
      }),
      id === '12-25'
        ? joint(`${j}s`, 'Take the static hose off the altimeter', [id, ROOT], 'line', 2)
        : wire(`${j}w`, 'Take the lamp lead off the compass', [id, LOOM], 2),
    ];
  }),
  ...Array.from({ length: 9 }, (_, i) => i + 1).flatMap((n) => {
    const id = `12-27.${n}`;
    const onBoard = BOARD_PLACARDS.includes(n);
    const where = onBoard ? `on the instrument board, place ${n}` : (PLACARD_AT[n] ?? '');
    return [
      part(id, { massKg: 0.05, minutes: 1, at: at(2.3, 0, 1), ...(onBoard && { within: BOARD }) }),
      joint(`12-j27.${n}`, `Draw the pins of the placard ${where}`, [id, onBoard ? BOARD : ROOT], 'pinned', 4, {
        loss: 'consumable',
        needs: fact('placards-photographed'),
        ...(n > 6 && { asFound: { present: false, note: 'lost; only the holes' } }),
      }),
    ];
  }),
  factOf('placards-photographed', 'All placards photographed in place, wording copied'),
);

// Control sense -------------------------------------------------------------------------------------------------------

/** Every joint that carries a pilot's hand or foot to a surface. */
const SENSE_JOINTS = [
  ...[1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14].flatMap((n) => [`12-j11.${n}a`, `12-j11.${n}b`]),
  '12-j03a',
  '12-j04a',
  '12-j07.2e',
  '12-j08.2e',
  '06-j11a',
  '06-j11b',
  '06-j04a',
  '06-j04b',
  '04-j13h',
  '04-j14h',
];
const sense = join(
  look(gate(13), 'Gate 13: control sense before the control bay is closed, two people', {
    on: COLUMN,
    visible: done(OPEN_CABIN_FLOOR),
    whenFitted: SENSE_JOINTS,
    people: 2,
    note: '18 checks; one at the controls, one at each surface, both say which way it went',
  }),
  look(`${gate(13)}-keepers`, 'Gate 13: every cable on its pulley, keepers in, under the floor', {
    on: COLUMN,
    visible: done(OPEN_CABIN_FLOOR),
    whenFitted: ['12-j12.1k', '12-j12.2k', '12-j12.9k', '12-j12.10k', '12-j12.15k', '12-j12.16k'],
  }),
  look(`${gate(13)}-closed`, 'Gate 13: control sense again after closing, two people', {
    visible: all(),
    whenFitted: [...SENSE_JOINTS, '12-j12.1k', '12-j12.15k'],
    people: 2,
  }),
  look(`${gate(13)}-rigged`, 'Gate 13: control sense and travel after the final rigging, two people', {
    visible: all(),
    whenFitted: [...SENSE_JOINTS, ...['16.1', '16.2', '17.1', '17.2'].map((p) => `03-j${p}`)],
    people: 2,
  }),
);

export const controlsFuelElectrics = join(cableRuns, cabin, fuel, electrics, small, sense);
