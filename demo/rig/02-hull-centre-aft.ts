/**
 * Hull centre and aft, assembly 02 (frames C8 to C21). INVENTED. The gear frame C9 has its own file.
 *
 *   C8 ── C9 ──── C12 ──── C15 ──── C19 ── stern post        plank 5   C9–C12    laps over 6
 *   └ step plate ┘                                           plank 6   C12–C15   laps over 7
 *   keel plate aft from the step to the stern post           plank 7   C15–C19   laps over 8
 *                                                            plank 8   C19–stern
 *
 * Water runs aft, so each plank laps over the next: the fore one comes off, or is sprung, first. Every row of a plank needs a hand
 * inside, by the cabin floor or through an inspection cover; which is opened is the planner's to choose.
 */
import type { Need } from '../../src/domain/rig/rig-types.ts';
import {
  all,
  any,
  at,
  block,
  done,
  type Fragment,
  guard,
  join,
  joint,
  look,
  off,
  operation,
  part,
  positions,
  released,
  releasedAll,
} from './author.ts';
import { gearFrame } from './hull-gear-frame.ts';
import { cover, nearTank, PORT, reach, rivets, type Side, STARBOARD, seal } from './hull-words.ts';
import { ROOT } from './names.ts';

const [C8, C9, C12, C15, C19] = ['02-01', '02-02', '02-17', '02-18', '02-19'] as const;
const [STEP, KEEL, STERN] = ['02-13', '02-14', '02-20'] as const;
const SHORE_AFT = 'shore-hull-aft';

// Planks --------------------------------------------------------------------------------------------------------------

/** From, to, and how a hand gets inside, for planks 5 to 8. */
const BAYS = [
  { from: C9, to: C12, x: 3.9, inside: (s: Side): Need => (s.end === 'l' ? reach.bilgeC10L : reach.bilgeC10R) },
  { from: C12, to: C15, x: 5.0, inside: (): Need => reach.c13 },
  { from: C15, to: C19, x: 6.5, inside: (): Need => reach.c17 },
  { from: C19, to: STERN, x: 7.8, inside: (): Need => reach.stern },
] as const;
const FRAME_NAME: Readonly<Record<string, string>> = {
  [C9]: 'frame C9',
  [C12]: 'frame C12',
  [C15]: 'frame C15',
  [C19]: 'frame C19',
  [STERN]: 'the stern post',
};

function planks(s: Side): Fragment {
  const lineId = s.end === 'l' ? '02-15' : '02-16';
  const p = (i: number) => `${lineId}.${i + 1}`;
  const j = (i: number, tail: string) => `${lineId.replace('-', '-j')}.${i + 1}${tail}`;
  const rows = BAYS.flatMap((bay, i) => {
    const what = `${s.word} plank ${i + 5}`;
    const needs = bay.inside(s);
    return [
      rivets(j(i, 'k'), `Drill out the keel row of ${what}`, [p(i), KEEL], 60, { needs }),
      rivets(j(i, 'c'), `Drill out the chine row of ${what}`, [p(i), ROOT], 60, { needs }),
      // The lap row belongs to both planks; it is written once, with the plank aft of it.
      ...(i === 0
        ? [
            rivets(j(i, 'f'), `Drill out the row of ${what} at frame C9`, [p(i), C9], 30, {
              needs,
              hazards: [nearTank],
            }),
          ]
        : [
            rivets(
              j(i, 'f'),
              `Drill out the lap row of ${what} at ${FRAME_NAME[bay.from]}`,
              [p(i), p(i - 1), bay.from],
              40,
              { needs: any(needs, BAYS[i - 1]!.inside(s)) },
            ),
            block(
              p(i),
              p(i - 1),
              'tears the lap: the plank ahead lies over this one and cannot be sprung while its rows hold',
              releasedAll(j(i - 1, 'k'), j(i - 1, 'c')),
            ),
          ]),
      ...(i === 3 ? [rivets(j(i, 'a'), `Drill out ${what} at the stern post`, [p(i), STERN], 25, { needs })] : []),
    ];
  });
  return join(
    positions(lineId, (_p, n) => ({ massKg: 1.9, minutes: 5, at: at(BAYS[n - 1]!.x, s.y * 0.35, 0.1) })),
    ...rows,
    block(p(0), STEP, 'folds the fore edge of the plank, which sits under the step plate'),
  );
}

// Frames, keel, stern -------------------------------------------------------------------------------------------------

/** A whole frame is wider than the deck opening: it leaves only through the bottom. */
const downwards = (port: string, starboard: string): Need => all(off(port), off(starboard));

const frames = join(
  part(C8, { massKg: 3.6, minutes: 25, at: at(2.9, 0, 0.7), needs: downwards('01-08', '01-09') }),
  part(C9, {
    massKg: 5.6,
    minutes: 40,
    at: at(3.3, 0, 0.7),
    hold: done(SHORE_AFT),
    needs: downwards('02-15.1', '02-16.1'),
  }),
  part(C12, { massKg: 2.4, minutes: 20, at: at(4.4, 0, 0.6), needs: downwards('02-15.2', '02-16.2') }),
  part(C15, { massKg: 1.7, minutes: 20, at: at(5.6, 0, 0.6), needs: downwards('02-15.3', '02-16.3') }),
  part(C19, { massKg: 2.3, minutes: 20, at: at(7.4, 0, 0.6), needs: downwards('02-15.4', '02-16.4') }),
  block(C8, '03-07.1', 'tears the deck: the port front foot hangs on its strut'),
  block(C8, '03-08.1', 'tears the deck: the starboard front foot hangs on its strut'),
  block(C9, '03-07.2', 'tears the deck: the port rear foot hangs on its strut'),
  block(C9, '03-08.2', 'tears the deck: the starboard rear foot hangs on its strut'),
  rivets('02-j01r', 'Drill out frame C8 from deck and sides', [C8, ROOT], 210, { hazards: [nearTank] }),
  joint('02-j01g', 'Undo the gussets of frame C8 at the deck beam', [C8, ROOT], 'bolted', 40),
  rivets('02-j02r', 'Drill out frame C9 from deck and upper sides', [C9, ROOT], 260, {
    hazards: [nearTank],
    asFound: { note: 'starboard lug torn out of the web (T-1)' },
  }),
  joint('02-j02g', 'Undo the gussets of frame C9 at the deck beam', [C9, ROOT], 'bolted', 45),
  rivets('02-j02k', 'Drill out the floor of frame C9 from keel plate and step', [C9, KEEL, STEP], 70, {
    needs: reach.bilgeC10,
  }),
  ...(
    [
      [C12, 'C12', '02-j17', reach.c13, 'sound'],
      [C15, 'C15', '02-j18', any(reach.c13, reach.c17), 'crack at lightening hole, stop-drilled'],
      [C19, 'C19', '02-j19', any(reach.c17, reach.stern), 'rear flange folded aft, tow damage (E-08)'],
    ] as const
  ).flatMap(([id, name, j, needs, note]) => [
    rivets(`${j}r`, `Drill out frame ${name} from sides and deck`, [id, ROOT], 150, { needs, asFound: { note } }),
    rivets(`${j}k`, `Drill out the floor of frame ${name} from the keel plate`, [id, KEEL], 30, { needs }),
  ]),
  guard([C9, C12], 'the bottom loses its shape: the hull breaks at the step', done(SHORE_AFT)),
  guard([C12, C15], 'the after body sags between the stands', done(SHORE_AFT)),
  guard([C15, C19], 'the tail drops: the rear stand pushes the stern up', done(SHORE_AFT)),
);

const keel = join(
  part(STEP, { massKg: 3.0, minutes: 6, at: at(3.5, 0, 0.05) }),
  part(KEEL, { massKg: 4.2, minutes: 15, at: at(5.6, 0, 0), hold: done(SHORE_AFT) }),
  part(STERN, { massKg: 1.4, minutes: 6, at: at(8.0, 0, 0.5) }),
  rivets('02-j13s', 'Drill out the side rows of the step plate', [STEP, ROOT], 50, { needs: reach.bilgeC10 }),
  rivets('02-j13k', 'Drill out the step plate from the keel plate aft', [STEP, KEEL], 30, { needs: reach.bilgeC10 }),
  seal('02-j13c', 'Cut the sealing compound along the step', [STEP, ROOT], 25, {
    asFound: { note: 'pitting max 0.3' },
  }),
  joint('02-j14s', 'Undo the splice of keel plates fore and aft at C8', [KEEL, '01-07', C8], 'bolted', 35, {
    needs: reach.bilgeFore,
  }),
  joint('02-j20k', 'Undo the four bolts of the stern post at the keel plate', [STERN, KEEL], 'bolted', 20, {
    needs: reach.stern,
  }),
  joint('02-j20t', 'Undo the tie tube between stern post and C19', [STERN, C19], 'bolted', 12, { needs: reach.stern }),
  rivets('02-j20r', 'Drill out the stern post from the stern skins', [STERN, ROOT], 45, {
    needs: reach.stern,
    asFound: { note: 'bow 2.6 mm in 640 mm (R-3)' },
  }),
  block(STERN, '06-01', 'drops the fin, which stands on the post, and tears its front fitting'),
  operation(SHORE_AFT, 'Shore the after body with padded beams from C9 to C19', 75, {
    note: 'Beams under the frames, never under a plank alone',
  }),
);

// Bilge tubes and inspection covers -----------------------------------------------------------------------------------

const DRAINS: readonly (readonly [frame: string, needs: Need, x: number])[] = [
  [C9, reach.bilgeC10, 3.4],
  [C12, reach.c13, 4.4],
  [C15, any(reach.c13, reach.c17), 5.6],
];
const drains = join(
  ...DRAINS.flatMap(([frame, needs, x], i) => {
    const id = `02-21.${i + 1}`;
    const j = `02-j21.${i + 1}`;
    return [
      part(id, { massKg: 0.15, minutes: 2, at: at(x, 0, 0.1) }),
      joint(`${j}a`, `Unsolder the collar of bilge drain tube ${i + 1}`, [id, frame], 'bonded', 12, {
        needs,
        loss: 'consumable',
        hazards: i === 0 ? [nearTank] : [],
        asFound: { note: 'white powder round the copper (P-2)' },
      }),
      joint(`${j}b`, `Undo the clip of bilge drain tube ${i + 1}`, [id, KEEL], 'clamped', 4, { needs }),
    ];
  }),
);

const COVER_AT: readonly (readonly [x: number, y: number, z: number, where: string])[] = [
  [3.8, -0.6, 0.3, 'low at C10, port'],
  [3.8, 0.6, 0.3, 'low at C10, starboard'],
  [3.3, 0.3, 1.3, 'on deck over the tank bay, starboard'],
  [3.3, -0.3, 1.3, 'on deck over the tank bay, port'],
  [4.8, -0.5, 0.4, 'at C13, port'],
  [4.8, 0.5, 0.4, 'at C13, starboard'],
  [6.6, -0.4, 0.5, 'at C17, port'],
  [6.6, 0.4, 0.5, 'at C17, starboard'],
  [7.9, 0, 0.8, 'at the stern'],
];
const MISSING_COVERS = [6, 9];
const covers = join(
  positions('02-22', (_p, n) => {
    const [x, y, z, where] = COVER_AT[n - 1]!;
    return { massKg: 0.15, minutes: 1, at: at(x, y, z), note: where };
  }),
  ...COVER_AT.map(([, , , where], i) =>
    seal(`02-j22.${i + 1}`, `Cut the sealing compound round the inspection cover ${where}`, [cover(i + 1), ROOT], 3, {
      ...(MISSING_COVERS.includes(i + 1) && { asFound: { present: false, note: 'cover missing' } }),
    }),
  ),
  positions('02-23', { massKg: 0 }),
  ...Array.from({ length: 54 }, (_, i) => {
    const n = i + 1;
    const of = Math.ceil(n / 6);
    const screw = ((n - 1) % 6) + 1;
    const gone = MISSING_COVERS.includes(of) ? 'missing with its cover' : n === 17 ? 'missing' : null;
    return joint(
      `02-j23.${n}`,
      `Undo screw ${screw} of the inspection cover ${COVER_AT[of - 1]![3]}`,
      [`02-23.${n}`, cover(of), ROOT],
      'threaded',
      1,
      {
        asFound:
          gone === null
            ? { lengthSize: screw, note: 'six different lengths: bag each hole by itself' }
            : { present: false, note: gone },
      },
    );
  }),
  // The fairings of the gear bay lie over the low covers at C10.
  block(cover(1), '02-24', 'bends the fairing: it laps over the cover'),
  block(cover(2), '02-25', 'bends the fairing: it laps over the cover', released('02-j25a')),
);

const seen = join(
  look('look-c19-flange', 'Rear flange of C19 behind the trunnion block', { on: C19, visible: off('10-09') }),
  look('look-keel-aft-inside', 'Keel plate aft, inside, plank rows formed', {
    on: KEEL,
    visible: all(reach.c13, reach.c17),
  }),
);

export const hullCentreAft = join(gearFrame, planks(PORT), planks(STARBOARD), frames, keel, drains, covers, seen);
