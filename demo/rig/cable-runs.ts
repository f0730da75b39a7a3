/**
 * Control cables, their pulleys, brackets, fairleads and turnbuckles (lines 12-07 to 12-14). INVENTED.
 *
 *   wheel ─ chain ─ TB1 ─ drive cable port ─ pulley 15 (C7) ─ 17 (C8, pylon foot) ─ fairlead 9 ─ 19 ─ TB4 ─ bellcrank port
 *                 └ TB2 ─ drive cable starboard ─ 16 ─ 18 ─ fairlead 10 ─ 21 ─ TB5 ─ bellcrank starboard
 *   bellcrank port ─ balance half ─ 20 ─ TB3 ─ 22 ─ balance half ─ bellcrank starboard
 *   column ─ TB6, TB7 ─ elevator cables ─ 1 2 (C5) ─ 3 4 (C8) ─ fairleads 1 2 ─ 5 6 (C12) ─ 5 6 ─ 7 8 (C18) ─ horn
 *   pedals ─ TB10, TB11 ─ rudder cables ─ 9 10 (C4) ─ fairleads 3 4 ─ 11 12 (C12) ─ 7 8 ─ 13 14 (C18) ─ horn
 *
 * A cable has to be off a pulley before its bracket can be undone: the keeper pin holds both. Each bracket carries two
 * pulleys and can be taken out with them. Turnbuckles 8, 9, 12 and 13 part a cable in mid-run, so that it can be drawn
 * out in halves. The joints at elevator and rudder horn are written in 06.
 */
import type { Need } from '../../src/domain/rig/rig-types.ts';
import { all, any, at, done, type Fragment, join, joint, off, operation, part, storedEnergy } from './author.ts';
import { CENTRE, reach } from './hull-words.ts';
import { RIGGING, ROOT, SLACKEN_AILERON, SLACKEN_ELEVATOR, SLACKEN_RUDDER } from './names.ts';

type System = 'aileron' | 'elevator' | 'rudder';
const SLACKEN: Readonly<Record<System, string>> = {
  aileron: SLACKEN_AILERON,
  elevator: SLACKEN_ELEVATOR,
  rudder: SLACKEN_RUDDER,
};
const taut = (s: System) => storedEnergy(done(SLACKEN[s]), 'Cable under tension: slackened first, clip on both halves');

interface Cable {
  readonly id: string;
  readonly name: string;
  readonly system: System;
  readonly massKg: number;
  readonly x: number;
  readonly within?: string;
}
const CABLES: readonly Cable[] = [
  { id: '12-07.1', name: 'port aileron drive cable', system: 'aileron', massKg: 0.5, x: 2.9 },
  { id: '12-07.2', name: 'port half of the balance cable', system: 'aileron', massKg: 0.3, x: 3.5, within: CENTRE },
  { id: '12-08.1', name: 'starboard aileron drive cable', system: 'aileron', massKg: 0.5, x: 2.9 },
  {
    id: '12-08.2',
    name: 'starboard half of the balance cable',
    system: 'aileron',
    massKg: 0.3,
    x: 3.5,
    within: CENTRE,
  },
  { id: '12-09.1', name: 'upper elevator cable', system: 'elevator', massKg: 0.8, x: 5 },
  { id: '12-09.2', name: 'lower elevator cable', system: 'elevator', massKg: 0.8, x: 5 },
  { id: '12-10.1', name: 'port rudder cable', system: 'rudder', massKg: 0.8, x: 5 },
  { id: '12-10.2', name: 'starboard rudder cable', system: 'rudder', massKg: 0.8, x: 5 },
];
const cable = (id: string): Cable => {
  const found = CABLES.find((c) => c.id === id);
  if (found === undefined) throw new Error(`internal: no demo cable ${id}; report it`);
  return found;
};

// Pulleys on their brackets -------------------------------------------------------------------------------------------

interface Bracket {
  readonly n: number;
  readonly where: string;
  readonly on: string;
  readonly cables: readonly [string, string];
  readonly needs: Need;
  readonly x: number;
  readonly within?: string;
}
const BRACKETS: readonly Bracket[] = [
  { n: 1, where: 'at C5', on: '01-12', cables: ['12-09.1', '12-09.2'], needs: reach.bilgeFore, x: 1.7 },
  { n: 2, where: 'at C8', on: '02-01', cables: ['12-09.1', '12-09.2'], needs: reach.bilgeC10, x: 2.9 },
  { n: 3, where: 'at C12', on: '02-17', cables: ['12-09.1', '12-09.2'], needs: reach.c13, x: 4.4 },
  { n: 4, where: 'at C18', on: ROOT, cables: ['12-09.1', '12-09.2'], needs: reach.c17, x: 7.0 },
  { n: 5, where: 'at C4', on: '01-11', cables: ['12-10.1', '12-10.2'], needs: reach.bilgeFore, x: 1.3 },
  { n: 6, where: 'at C12', on: '02-17', cables: ['12-10.1', '12-10.2'], needs: reach.c13, x: 4.4 },
  { n: 7, where: 'at C18', on: ROOT, cables: ['12-10.1', '12-10.2'], needs: reach.c17, x: 7.0 },
  { n: 8, where: 'under the column at C7', on: ROOT, cables: ['12-07.1', '12-08.1'], needs: reach.bilgeFore, x: 2.4 },
  {
    n: 9,
    where: 'at the pylon foot, C8',
    on: '02-01',
    cables: ['12-07.1', '12-08.1'],
    needs: any(off('01-21'), off('03-14')),
    x: 2.9,
  },
  {
    n: 10,
    where: 'in the centre section, port',
    on: '03-12',
    cables: ['12-07.1', '12-07.2'],
    needs: reach.centre,
    x: 3.5,
    within: CENTRE,
  },
  {
    n: 11,
    where: 'in the centre section, starboard',
    on: '03-12',
    cables: ['12-08.1', '12-08.2'],
    needs: reach.centre,
    x: 3.5,
    within: CENTRE,
  },
];
const CRACKED_PULLEYS = [2, 5, 6, 8, 11, 14, 15, 19, 22];

function bracket(b: Bracket): Fragment {
  const id = `12-13.${b.n}`;
  const j = `12-j13.${b.n}`;
  const place = at(b.x, 0, b.within === undefined ? 0.2 : 2.4);
  const pulleys = b.cables.map((c, i) => {
    const n = b.n * 2 - 1 + i;
    const pulley = `12-12.${n}`;
    const line = cable(c);
    return join(
      part(pulley, { within: id, massKg: 0.15, minutes: 1, at: place }),
      joint(
        `12-j12.${n}k`,
        `Draw the keeper pin and lift the ${line.name} off pulley ${n} ${b.where}`,
        [pulley, c],
        'cable',
        3,
        {
          needs: b.needs,
          loss: 'consumable',
          hazards: [taut(line.system)],
        },
      ),
      joint(`12-j12.${n}`, `Draw the axle bolt of pulley ${n} ${b.where}`, [pulley, id], 'bolted', 5, {
        needs: any(b.needs, off(id)),
        ...(CRACKED_PULLEYS.includes(n) && { asFound: { note: 'rim cracked or grooved' } }),
      }),
    );
  });
  return join(
    part(id, { massKg: 0.4, minutes: 2, at: place, ...(b.within !== undefined && { within: b.within }) }),
    joint(`${j}a`, `Undo the upper bolts of pulley bracket ${b.n} ${b.where}`, [id, b.on], 'bolted', 6, {
      needs: b.needs,
      asFound: { note: 'rust' },
    }),
    joint(`${j}b`, `Undo the lower bolts of pulley bracket ${b.n} ${b.where}`, [id, b.on], 'bolted', 7, {
      needs: b.needs,
      note: 'The lower heads lie behind the run of the cable',
    }),
    ...pulleys,
  );
}

// Fairleads -----------------------------------------------------------------------------------------------------------

interface Lead {
  readonly cable: string;
  readonly where: string;
  readonly on: string;
  readonly needs?: Need;
  readonly x: number;
  readonly within?: string;
}
const FAIRLEADS: readonly Lead[] = [
  { cable: '12-09.1', where: 'at C10', on: ROOT, needs: reach.bilgeC10, x: 3.8 },
  { cable: '12-09.2', where: 'at C10', on: ROOT, needs: reach.bilgeC10, x: 3.8 },
  { cable: '12-10.1', where: 'at C10', on: ROOT, needs: reach.bilgeC10, x: 3.8 },
  { cable: '12-10.2', where: 'at C10', on: ROOT, needs: reach.bilgeC10, x: 3.8 },
  { cable: '12-09.1', where: 'at C15', on: '02-18', needs: any(reach.c13, reach.c17), x: 5.6 },
  { cable: '12-09.2', where: 'at C15', on: '02-18', needs: any(reach.c13, reach.c17), x: 5.6 },
  { cable: '12-10.1', where: 'at C15', on: '02-18', needs: any(reach.c13, reach.c17), x: 5.6 },
  { cable: '12-10.2', where: 'at C15', on: '02-18', needs: any(reach.c13, reach.c17), x: 5.6 },
  { cable: '12-07.1', where: 'on the port rear pylon strut', on: '03-03', x: 3.3, within: '03-03' },
  { cable: '12-08.1', where: 'on the starboard rear pylon strut', on: '03-04', x: 3.3, within: '03-04' },
];
const WORN_FAIRLEADS = [1, 3, 5, 9];

function fairlead(f: Lead, i: number): Fragment {
  const n = i + 1;
  const id = `12-14.${n}`;
  const reached = f.needs === undefined ? {} : { needs: f.needs };
  return join(
    part(id, {
      massKg: 0.05,
      minutes: 1,
      at: at(f.x, 0, f.within === undefined ? 0.3 : 1.8),
      ...(f.within !== undefined && { within: f.within }),
    }),
    joint(
      `12-j14.${n}c`,
      `Open split fairlead ${n} ${f.where} and lift the ${cable(f.cable).name} out`,
      [id, f.cable],
      'cable',
      2,
      {
        ...reached,
        hazards: [taut(cable(f.cable).system)],
      },
    ),
    joint(`12-j14.${n}`, `Undo the two screws of fairlead ${n} ${f.where}`, [id, f.on], 'threaded', 4, {
      ...reached,
      ...(WORN_FAIRLEADS.includes(n) && { asFound: { note: 'worn' } }),
    }),
  );
}

// Turnbuckles ---------------------------------------------------------------------------------------------------------

interface Barrel {
  readonly system: System;
  /** What the right-hand and the left-hand end are screwed to. */
  readonly right: string;
  readonly left: string;
  readonly where: string;
  readonly needs?: Need;
  readonly x: number;
  readonly within?: string;
}
const BARRELS: readonly Barrel[] = [
  { system: 'aileron', right: '12-07.1', left: '12-04', where: 'port end of the column chain', x: 2.3 },
  { system: 'aileron', right: '12-08.1', left: '12-04', where: 'starboard end of the column chain', x: 2.3 },
  {
    system: 'aileron',
    right: '12-07.2',
    left: '12-08.2',
    where: 'middle of the balance cable',
    needs: reach.centre,
    x: 3.5,
    within: CENTRE,
  },
  {
    system: 'aileron',
    right: '12-07.1',
    left: '04-19',
    where: 'port bellcrank',
    needs: any(off('cover-wing-l'), done('open-hand-hole-l')),
    x: 3.8,
  },
  {
    system: 'aileron',
    right: '12-08.1',
    left: '04-20',
    where: 'starboard bellcrank',
    needs: any(off('cover-wing-r'), done('open-hand-hole-r')),
    x: 3.8,
  },
  { system: 'elevator', right: '12-09.1', left: '12-03', where: 'column, upper', needs: reach.bilgeFore, x: 2.4 },
  { system: 'elevator', right: '12-09.2', left: '12-03', where: 'column, lower', needs: reach.bilgeFore, x: 2.4 },
  {
    system: 'elevator',
    right: '12-09.1',
    left: '12-09.1',
    where: 'C17, upper elevator cable',
    needs: reach.c17,
    x: 6.6,
  },
  {
    system: 'elevator',
    right: '12-09.2',
    left: '12-09.2',
    where: 'C17, lower elevator cable',
    needs: reach.c17,
    x: 6.6,
  },
  { system: 'rudder', right: '12-10.1', left: '12-05.1', where: 'port pedal', x: 1.4 },
  { system: 'rudder', right: '12-10.2', left: '12-06.1', where: 'starboard pedal', x: 1.4 },
  { system: 'rudder', right: '12-10.1', left: '12-10.1', where: 'C17, port rudder cable', needs: reach.c17, x: 6.6 },
  {
    system: 'rudder',
    right: '12-10.2',
    left: '12-10.2',
    where: 'C17, starboard rudder cable',
    needs: reach.c17,
    x: 6.6,
  },
  { system: 'rudder', right: '12-05.1', left: '12-06.1', where: 'balance cable of the pedals', x: 1.2 },
];

function turnbuckle(t: Barrel, i: number): Fragment {
  const n = i + 1;
  const id = `12-11.${n}`;
  const common = {
    ...(t.needs !== undefined && { needs: t.needs }),
    loss: 'consumable' as const,
    disturbs: [RIGGING[t.system]],
    hazards: [taut(t.system)],
  };
  return join(
    part(id, {
      ...(t.within !== undefined && { within: t.within }),
      massKg: 0.15,
      minutes: 1,
      at: at(t.x, 0, t.within === undefined ? 0.3 : 2.4),
      note: 'bronze and steel: not for the plating barrel',
    }),
    joint(
      `12-j11.${n}a`,
      `Cut the wire and screw the right-hand end out, turnbuckle ${n}, ${t.where}`,
      [id, t.right],
      'threaded',
      4,
      {
        threadHand: 'right',
        ...common,
      },
    ),
    joint(`12-j11.${n}b`, `Screw the LEFT-HAND end out, turnbuckle ${n}, ${t.where}`, [id, t.left], 'threaded', 4, {
      threadHand: 'left',
      ...common,
    }),
  );
}

// Cables --------------------------------------------------------------------------------------------------------------

const slacken = join(
  operation(
    SLACKEN_AILERON,
    'Lock the wheel and slacken the aileron cables at turnbuckles 1 and 2, counting turns',
    12,
  ),
  operation(SLACKEN_ELEVATOR, 'Tie the column and slacken the elevator cables, counting turns', 12, {
    needs: any(reach.bilgeFore, reach.c17),
  }),
  operation(SLACKEN_RUDDER, 'Block the pedals and slacken the rudder cables, counting turns', 10),
);

const balanceEnd = (id: string, bellcrank: string, end: 'l' | 'r', word: string) =>
  joint(
    `${id.replace('-', '-j')}e`,
    `Draw the fork pin of the balance cable at the ${word} bellcrank`,
    [id, bellcrank],
    'pinned',
    4,
    {
      needs: any(off(`cover-wing-${end}`), done(`open-hand-hole-${end}`)),
      loss: 'consumable',
      disturbs: [RIGGING.aileron],
      hazards: [taut('aileron')],
    },
  );

/** Drawn out towards the column or the stern; the old strands spike the hand. */
const drawn = join(
  ...CABLES.map((c) =>
    part(c.id, {
      ...(c.within !== undefined && { within: c.within }),
      massKg: c.massKg,
      minutes: 10,
      at: at(c.x, 0, c.system === 'aileron' ? 1.6 : 0.3),
      note: 'rust inside; broken strands spike the hand: gloves',
      needs: c.system === 'aileron' ? all() : any(reach.c13, reach.c17, reach.bilgeC10),
    }),
  ),
);

export const cableRuns = join(
  drawn,
  slacken,
  ...BRACKETS.map(bracket),
  ...FAIRLEADS.map(fairlead),
  ...BARRELS.map(turnbuckle),
  balanceEnd('12-07.2', '04-19', 'l', 'port'),
  balanceEnd('12-08.2', '04-20', 'r', 'starboard'),
);
