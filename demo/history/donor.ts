/**
 * The wreck QD-07 in the corner of the same shop, of the same type as QX-OLA: fourteen lines, bought for parts. INVENTED.
 * Its journal has the other half of what went between the two aircraft.
 */
import { bagCode } from '../../src/domain/bag-code.ts';
import { RIG_FORMAT, type Rig } from '../../src/domain/rig/rig-types.ts';
import { recording } from '../../src/journal/commands.ts';
import type { By } from './act.ts';
import { Recorder } from './act.ts';
import type { DemoJob } from './index.ts';
import { DONOR, oneBoltBack, rob } from './robbed.ts';
import { DEVICES, MARIT, NADIA, PEOPLE, ROSALIND } from './shop.ts';

type Hand = 'L' | 'R' | 'C';
type Line = readonly [
  id: string,
  name: string,
  hand: Hand,
  how: 'bolted' | 'pinned' | 'threaded',
  release: string,
  found: string,
];

const LINES: readonly Line[] = [
  ['w-01-03', 'Mooring hatch', 'C', 'pinned', 'Draw the hinge pin of the mooring hatch', 'sound, paint of 1951'],
  [
    'w-02-25',
    'Fairing, gear bay',
    'R',
    'threaded',
    'Undo the screws of the starboard gear fairing',
    'crushed aft half; a pattern all the same (Q-02)',
  ],
  ['w-03-08', 'Pylon foot fitting', 'R', 'bolted', 'Undo the bolts of the starboard pylon foot', 'eye round'],
  ['w-04-11', 'Tip bow', 'L', 'threaded', 'Undo the screws of the port tip bow', 'ash, split'],
  ['w-04-12', 'Tip bow', 'R', 'threaded', 'Undo the screws of the starboard tip bow', 'ash, whole but soft'],
  ['w-06-13', 'Trim nut', 'C', 'threaded', 'Screw the trim nut off its screw', 'bronze, little worn'],
  ['w-06-16', 'Water rudder lift cord pulley', 'C', 'pinned', 'Draw the pin of the lift cord pulley', 'fibre, whole'],
  ['w-08-20', 'Leg fairing', 'R', 'threaded', 'Undo the screws of the starboard leg fairing', 'torn along the screws'],
  ['w-09-06', 'Ratchet lever, emergency', 'C', 'pinned', 'Draw the pin of the ratchet lever', 'pawl spring present'],
  ['w-10-20', 'Steering shear pin', 'C', 'pinned', 'Draw the steering shear pin', 'brass, as it should be'],
  ['w-11-06', 'Cowl clips', 'C', 'threaded', 'Undo the cowl clips', 'four'],
  ['w-11-13', 'Propeller hub', 'C', 'bolted', 'Undo the nut of the propeller hub', 'fretted'],
  [
    'w-12-02',
    'Control wheel',
    'R',
    'bolted',
    'Undo the bolts of the starboard control wheel',
    'rim gone, hub whole (Q-04)',
  ],
  ['w-12-26', 'Compass bracket', 'C', 'threaded', 'Undo the screws of the compass bracket', 'empty'],
];
const OFF = ['w-01-03', 'w-02-25', 'w-04-12', 'w-06-16', 'w-09-06', 'w-10-20', 'w-12-26'];
/** Numbers of the roll, after those in use. */
const FIRST_BAG = 470;

function wreckRig(): Rig {
  return {
    format: RIG_FORMAT,
    name: 'QD-07, O.7 "Correlimos", wreck (invented example)',
    invented: true,
    root: 'wreck',
    parts: [
      { id: 'wreck', name: 'Wreck, what is left of the hull', hand: 'C' },
      ...LINES.map(([id, name, hand]) => ({ id, name, hand })),
    ],
    attachments: LINES.map(([id, , , kind, name]) => ({
      id: id.replace('w-', 'wj-'),
      name,
      joins: [id, 'wreck'],
      kind,
      minutes: 8,
    })),
    operations: [],
    blocks: [],
    guards: [],
    setups: [],
    facts: [],
    looks: [],
  };
}

export function donorJob(): DemoJob {
  const rig = wreckRig();
  const r = new Recorder(rig);
  r.on('2025-09-29', 9, 0);
  const now = (by: By, command: Parameters<Recorder['record']>[1], takes = 0) => r.record(by, command, takes);
  now(
    MARIT,
    recording('job-opened', {
      job: DONOR,
      name: 'QD-07 (invented example)',
      registration: 'QD-07',
      type: 'Ostrea Aeronaval O.7 "Correlimos", wreck, for parts',
      invented: true,
      note: 'Invented for a demonstration. A donor: what is robbed here is written in both journals.',
    }),
  );
  for (const p of PEOPLE) now(MARIT, recording('person-noted', p));
  for (const d of DEVICES) now(MARIT, recording('device-noted', d));
  now(MARIT, {
    kind: 'take-in-rig',
    rig,
    standing: 'ours',
    source: 'Walk-round of the wreck, September 2025 (invented)',
  });
  for (const [id, name, hand, , , found] of LINES) {
    now(MARIT, recording('part-line-noted', { line: id, name, number: id, quantity: 1, note: found }));
    now(MARIT, recording('position-noted', { position: id, line: id, name, hand, rig: id }));
  }
  now(MARIT, recording('place-noted', { place: 'corner', name: 'Corner behind the stove', kind: 'other' }));
  now(MARIT, recording('place-noted', { place: 'bench', name: 'Long bench', kind: 'bench' }));
  r.on('2025-09-30', 9, 0);
  OFF.forEach((id, i) => {
    r.strip(NADIA, [id.replace('w-', 'wj-'), `remove:${id}`]);
    const row = LINES.find((l) => l[0] === id);
    const piece = `P-${id.toUpperCase()}`;
    now(NADIA, recording('piece-noted', { piece, name: row?.[1] ?? id, line: id, position: id }));
    now(
      NADIA,
      recording('bagged', {
        bag: bagCode(FIRST_BAG + i),
        opens: true,
        of: [id],
        things: [piece],
        hand: row?.[2] ?? 'C',
        place: 'corner',
      }),
    );
  });
  r.on('2025-11-13', 11, 30);
  rob(r, ROSALIND, DONOR);
  r.on('2025-11-14', 11, 0);
  oneBoltBack(r, ROSALIND, DONOR);
  r.note(MARIT, 'w-06-16', 'Lent to QX-OLA until a new pulley is turned: owed.');
  return { day: '2025-11-18', phase: 'strip', name: DONOR, drafts: r.drafts, shots: [], sounds: [], state: r.now };
}
