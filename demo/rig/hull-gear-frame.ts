/**
 * Frame C9 and the gear bay, both sides: lug plates, lug bolts, side skin panel 9, diaphragm, fairing. INVENTED.
 *
 *        outside                     C9                        inside, gear bay
 *   fairing ┊ outer lug plate ║ steel cap, frame, cap ║ inner lug plate ┊ diaphragm ┊ bilge
 *           ┊ panel 9 ────────╨── frame flange ── two rows of 3.2 rivets, 20 mm apart ──┊ edge of the diaphragm
 *
 * The story of the whole aircraft is here. The tails of the panel's two rows at C9 lie behind the edge of the
 * diaphragm: as long as it is riveted nobody can hold a block against them. So the diaphragm comes off before the panel,
 * and in the rebuild everything behind it (lug bolts, panel rivets, the inspector's look at the inner lug) comes first.
 * Both sides are written once; what was found differs, and starboard has a repair of its own (`repairStarboard`).
 */
import {
  all,
  any,
  at,
  block,
  caution,
  done,
  type Fragment,
  fasteners,
  join,
  joint,
  jointsOf,
  look,
  off,
  operation,
  part,
  released,
} from './author.ts';
import { cadmium, cover, nearTank, rivets, type Side, seal } from './hull-words.ts';
import { gate, ROOT } from './names.ts';

interface BaySide extends Side {
  readonly outer: string;
  readonly inner: string;
  readonly bolts: string;
  readonly panel: string;
  readonly diaphragm: string;
  readonly fairing: string;
  /** Joint of the trunnion pin, written in 07 and 08. */
  readonly pin: string;
  readonly gate: string;
  /** Deck cover over this side of the bay. */
  readonly deckCover: string;
}

const C9 = '02-02';
const C8 = '02-01';
const FOUND: Readonly<Record<string, { readonly note: string }>> = {
  '02-j09f': { note: 'torn 140 mm from the lug, 9 rivets pulled, torn faces bright (T-1)' },
  '02-j12f': { note: 'lower third crumpled' },
  '02-j11f': { note: 'pencil "23 izq." beside the row; do not clean (E-12)' },
  '02-j25a': { note: 'fairing not found (Q-02)' },
  '02-j25b': { note: 'fairing not found (Q-02)' },
  '02-j10f': { note: 'sound; chafed under the fairing' },
};
const found = (id: string) => (FOUND[id] === undefined ? {} : { asFound: FOUND[id] });
const j = (p: string, tail = '') => `${p.replace('02-', '02-j')}${tail}`;

/** Bolts 1 and 2 hold the outer plate, 3 and 4 go through both, 5 and 6 hold the inner plate. */
const boltEnds = (s: BaySide, n: number) => (n <= 2 ? [s.outer, C9] : n <= 4 ? [s.outer, C9, s.inner] : [C9, s.inner]);

function lugs(s: BaySide): Fragment {
  // The leg hangs on these bolts as long as its pin is in the lugs.
  const legOff = any(released(s.pin), done(`trolley-under-leg-${s.end}`));
  const bareAt = at(3.3, s.y * 0.8, 0.75);
  const reached = (n: number) => (n <= 2 ? all() : n <= 4 ? any(off(s.diaphragm), off(s.deckCover)) : off(s.diaphragm));
  return join(
    part(s.outer, { massKg: 0.9, minutes: 2, at: bareAt }),
    part(s.inner, { massKg: 0.8, minutes: 2, at: bareAt }),
    fasteners(s.bolts, {
      release: `Undo the ${s.word} lug bolt, split pin out`,
      joins: (_p, n) => boltEnds(s, n),
      kind: 'bolted',
      minutes: s.end === 'l' ? 6 : 9,
      joint: (_p, n) => ({
        needs: all(reached(n), legOff),
        loss: 'consumable',
        ...(n === 1 && { hazards: [cadmium] }),
        ...(s.end === 'r' && n === 6 && { asFound: { present: false, note: 'missing' } }),
        ...(s.end === 'r' && (n === 3 || n === 5) && { asFound: { note: 'bent' } }),
      }),
      part: { massKg: 0.08, at: bareAt },
    }),
    joint(j(s.outer), `Drift the two dowels of the outer lug plate out, ${s.word}`, [s.outer, C9], 'pinned', 10),
    joint(j(s.inner), `Drift the two dowels of the inner lug plate out, ${s.word}`, [s.inner, C9], 'pinned', 12, {
      needs: off(s.diaphragm),
    }),
    seal(j(s.inner, 'c'), `Part the zinc paste under the inner lug plate, ${s.word}`, [s.inner, C9], 4, {
      needs: released(j(s.inner)),
      note: 'Steel on light alloy in salt water: the paste is what keeps them apart (P-1)',
    }),
    seal(j(s.outer, 'c'), `Part the zinc paste under the outer lug plate, ${s.word}`, [s.outer, C9], 4, {
      needs: released(j(s.outer)),
    }),
    block(s.inner, s.diaphragm, 'bends the diaphragm edge; the plate cannot be turned out past it'),
  );
}

function skin(s: BaySide): Fragment {
  const behind = off(s.diaphragm);
  return join(
    part(s.panel, { massKg: 2.1, minutes: 6, at: at(3.3, s.y * 0.8, 0.6) }),
    rivets(j(s.panel, 'f'), `Drill out the two rows of side panel 9 along frame C9, ${s.word}`, [s.panel, C9], 75, {
      needs: behind,
      hazards: [nearTank],
      note: 'The tails lie behind the edge of the diaphragm; without a block behind them the drill walks and the flange tears',
      ...found(j(s.panel, 'f')),
      ...(s.end === 'r' && { refit: all(behind, done('repair-c9-r')) }),
    }),
    rivets(j(s.panel, 'e'), `Drill out the row of side panel 9 along frame C8, ${s.word}`, [s.panel, C8], 40, {
      hazards: [nearTank],
    }),
    rivets(
      j(s.panel, 'k'),
      `Drill out the rows of side panel 9 at chine and deck edge, ${s.word}`,
      [s.panel, ROOT],
      85,
      {
        hazards: [nearTank],
      },
    ),
    block(s.panel, s.fairing, 'creases the fairing: its edge laps over the panel'),

    part(s.diaphragm, { massKg: 1.0, minutes: 5, at: at(3.35, s.y * 0.6, 0.6) }),
    rivets(j(s.diaphragm, 'f'), `Drill out the ${s.word} diaphragm along the frame C9 cap`, [s.diaphragm, C9], 35, {
      hazards: [nearTank],
      ...found(j(s.diaphragm, 'f')),
    }),
    rivets(j(s.diaphragm, 's'), `Drill out the ${s.word} diaphragm along side panel 9`, [s.diaphragm, s.panel], 25, {
      hazards: [nearTank],
    }),
    joint(
      j(s.diaphragm, 'e'),
      `Undo the eight screws of the ${s.word} diaphragm at C8`,
      [s.diaphragm, C8],
      'bolted',
      16,
    ),

    part(s.fairing, { massKg: 0.9, minutes: 3, at: at(3.5, s.y * 0.85, 0.4) }),
    joint(
      j(s.fairing, 'a'),
      `Undo the screws of the ${s.word} gear bay fairing along the hull`,
      [s.fairing, ROOT],
      'bolted',
      12,
      found(j(s.fairing, 'a')),
    ),
    joint(
      j(s.fairing, 'b'),
      `Undo the screws of the ${s.word} gear bay fairing along panel 9`,
      [s.fairing, s.panel],
      'bolted',
      8,
      found(j(s.fairing, 'b')),
    ),
  );
}

function seen(s: BaySide): Fragment {
  return join(
    look(s.gate, `Gate ${s.gate.slice(5)}: C9 inside, ${s.word}, lug bolts pinned and panel rivets formed`, {
      on: C9,
      visible: off(s.diaphragm),
      whenFitted: [...jointsOf(s.bolts), j(s.panel, 'f')],
      people: 1,
      note: s.end === 'l' ? '12 checks' : '16 checks',
    }),
    look(`${s.gate}-inner-lug`, `Inner lug plate, ${s.word}: hole, edge and paste`, {
      on: s.inner,
      visible: off(s.diaphragm),
    }),
    look(`${s.gate}-lug-seat`, `Seats of both lug plates on C9, ${s.word}: no crack, no pitting`, {
      on: C9,
      visible: all(off(s.outer), off(s.inner)),
    }),
    look(`${s.gate}-frame-flange`, `Flange of C9 under side panel 9, ${s.word}`, { on: C9, visible: off(s.panel) }),
  );
}

/** Lug plates first (they are the jig for the holes), then the frame, then the panel, then the diaphragm. */
const repairStarboard = join(
  operation('line-up-lugs-r', 'Bolt the new starboard lug plates dry to C9 and line them up by the through bar', 90, {
    on: C9,
    only: 'refit',
    needs: off('02-12'),
    note: 'Inner and outer plate as pattern from port, mirrored; the bar goes through both port lugs',
  }),
  operation('repair-c9-r', 'Rivet the new flange into C9 starboard, drilled through the lined-up lug plates', 480, {
    on: C9,
    only: 'refit',
    needs: all(done('line-up-lugs-r'), off('02-12'), off('02-09')),
    hazards: [
      caution('repair data', 'Data for this repair: the maker’s, or an approved designer’s; the inspector decides'),
    ],
  }),
);

const gearBay = (s: BaySide) => join(lugs(s), skin(s), seen(s));

export const gearFrame = join(
  gearBay({
    hand: 'L',
    end: 'l',
    word: 'port',
    y: -1,
    outer: '02-03',
    inner: '02-05',
    bolts: '02-07',
    panel: '02-10',
    diaphragm: '02-11',
    fairing: '02-24',
    pin: '07-j02',
    gate: gate(5),
    deckCover: cover(4),
  }),
  gearBay({
    hand: 'R',
    end: 'r',
    word: 'starboard',
    y: 1,
    outer: '02-04',
    inner: '02-06',
    bolts: '02-08',
    panel: '02-09',
    diaphragm: '02-12',
    fairing: '02-25',
    pin: '08-j02',
    gate: gate(6),
    deckCover: cover(3),
  }),
  repairStarboard,
);
