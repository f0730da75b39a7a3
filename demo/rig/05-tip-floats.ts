/**
 * Tip floats, assembly 05, both sides from one description. INVENTED.
 *
 *        wing spars at rib 12
 *        │ front strut   │ rear strut   ╲ ╱ two bracing wires, right-hand end up, left-hand end down
 *      ══╧═══════════════╧══ deck ══
 *        │ bulkhead 1 │ bulkhead 2 │ bulkhead 3 │     inside shell, seen only with the deck off
 *      ╰──────────────── keel ─────── drain cap ─╯
 *
 * A float comes off as one thing; struts and wires stay on the wing and are lifted with it, or come off one by one.
 * Its bulkheads are riveted behind the deck, whose seam is lost when it is opened.
 * The wires brace the wing too: they are tensioned only when the float hangs (section 9 of the shop's order).
 */
import {
  all,
  any,
  at,
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
  storedEnergy,
  unit,
} from './author.ts';
import { PORT, rivets, type Side, STARBOARD, seal } from './hull-words.ts';
import { gate, RIGGING, UNITS } from './names.ts';

interface FloatSide extends Side {
  readonly unit: string;
  readonly wing: string;
  readonly shell: string;
  readonly bulkheads: string;
  readonly front: string;
  readonly rear: string;
  readonly wires: string;
  readonly cap: string;
  readonly frontSpar: string;
  readonly rearSpar: string;
}

const j = (p: string, tail = '') => `${p.replace('05-', '05-j')}${tail}`;

function hull(s: FloatSide): Fragment {
  const deck = `float-deck-${s.end}`;
  const inFloat = (massKg: number, minutes: number, x: number) => ({
    within: s.unit,
    massKg,
    minutes,
    at: at(x, s.y * 4.6, 0.6),
  });
  const bulkheads = [1, 2, 3].flatMap((n) => {
    const id = `${s.bulkheads}.${n}`;
    return [
      rivets(`${j(id)}s`, `Drill out bulkhead ${n} from the shell, ${s.word} float`, [id, s.shell], 30, {
        needs: off(deck),
        ...(s.end === 'r' && n === 2 && { asFound: { note: 'corroded' } }),
      }),
      rivets(`${j(id)}d`, `Drill out the deck row over bulkhead ${n}, ${s.word} float`, [id, deck], 15),
    ];
  });
  return join(
    unit(s.unit, `Tip float, ${s.word}, complete`, {
      hand: s.hand,
      minutes: 4,
      hold: done(`trolley-under-float-${s.end}`),
    }),
    part(s.shell, inFloat(6, 4, 3.5)),
    unit(deck, `Deck skin of the ${s.word} tip float`, {
      ...inFloat(1.8, 4, 3.5),
      hand: s.hand,
      needs: all(off(s.front), off(s.rear)),
      note: 'The strut feet stand on the deck',
    }),
    positions(s.bulkheads, (_p, n) => inFloat(0.4, 2, 3.1 + (n - 1) * 0.4)),
    part(s.cap, inFloat(0.1, 0, 3.9)),
    rivets(`${deck}-seam`, `Drill out the deck seam of the ${s.word} float`, [deck, s.shell], 90, {
      asFound: { note: s.end === 'r' ? 'keel worn through over 90 mm, tin plate soldered (E-07)' : '3 dents' },
    }),
    seal(`${deck}-paste`, `Part the jointing tape of the deck seam, ${s.word} float`, [deck, s.shell], 20),
    ...bulkheads,
    joint(j(s.cap), `Unscrew the drain cap of the ${s.word} float`, [s.cap, s.shell], 'threaded', 2, {
      ...(s.end === 'r' && { asFound: { note: 'a cork, improvised; the thread is empty' } }),
    }),
    seal(j(s.cap, 'w'), `Cut the cord of the drain cap, ${s.word} float`, [s.cap, s.shell], 1),
    operation(`drain-float-${s.end}`, `Let the water out of the ${s.word} float and weigh what comes`, 10, {
      on: s.unit,
      needs: released(j(s.cap)),
      only: 'strip',
      note: 'Water in the tail of a float swings it when the last bolt goes',
    }),
  );
}

function struts(s: FloatSide): Fragment {
  const drained = done(`drain-float-${s.end}`);
  const held = done(`trolley-under-float-${s.end}`);
  const wiresLoose = done(`slacken-float-wires-${s.end}`);
  const one = (id: string, where: 'front' | 'rear', spar: string, bulkhead: string): Fragment =>
    join(
      part(id, { within: s.wing, massKg: 0.9, minutes: 2, at: at(where === 'front' ? 3.1 : 3.8, s.y * 4.6, 1.4) }),
      joint(j(id, 'a'), `Undo the upper bolt of the ${where} float strut, ${s.word}`, [id, spar], 'bolted', 9, {
        disturbs: [RIGGING.float],
        loss: 'consumable',
        needs: all(wiresLoose, held),
        ...(s.end === 'r' && where === 'rear' && { asFound: { note: 'bow 3 mm' } }),
      }),
      joint(j(id, 'b'), `Undo the foot bolt of the ${where} float strut, ${s.word}`, [id, bulkhead], 'bolted', 8, {
        disturbs: [RIGGING.float],
        loss: 'consumable',
        needs: all(wiresLoose, any(held, off(s.unit)), drained),
      }),
    );
  const taut = storedEnergy(wiresLoose, 'Streamline wire under tension: both ends eased in turn, eyes covered');
  return join(
    one(s.front, 'front', s.frontSpar, `${s.bulkheads}.1`),
    one(s.rear, 'rear', s.rearSpar, `${s.bulkheads}.3`),
    ...[1, 2].flatMap((n) => {
      const id = `${s.wires}.${n}`;
      const worn = s.end === 'l' && n === 1 ? { asFound: { note: 'right-hand end worn' } } : {};
      return [
        part(id, { within: s.wing, massKg: 0.3, minutes: 1, at: at(3.5, s.y * (4.2 + n * 0.2), 1.4) }),
        joint(
          `${j(id)}a`,
          `Screw the upper end of float wire ${n} out, ${s.word}`,
          [id, n === 1 ? s.frontSpar : s.rearSpar],
          'threaded',
          5,
          {
            threadHand: 'right',
            disturbs: [RIGGING.float],
            hazards: [taut],
            ...worn,
          },
        ),
        joint(
          `${j(id)}b`,
          `Screw the lower end of float wire ${n} out, LEFT-HAND, ${s.word}`,
          [id, `${s.bulkheads}.2`],
          'threaded',
          5,
          {
            threadHand: 'left',
            disturbs: [RIGGING.float],
            hazards: [taut],
          },
        ),
      ];
    }),
    operation(`slacken-float-wires-${s.end}`, `Ease both bracing wires of the ${s.word} float, counting turns`, 8),
    operation(`trolley-under-float-${s.end}`, `Take the weight of the ${s.word} float on the trolley`, 6, {
      on: s.unit,
    }),
    guard([`${s.wires}.1`, `${s.wires}.2`], 'the float swings inboard on its struts', any(off(s.unit), held)),
  );
}

function seen(s: FloatSide): Fragment {
  return join(
    look(`${gate(16)}-inside-${s.end}`, `Gate 16: ${s.word} float inside, bulkheads and paste, before the deck`, {
      on: s.shell,
      visible: off(`float-deck-${s.end}`),
      whenFitted: [1, 2, 3].map((n) => `${j(`${s.bulkheads}.${n}`)}s`),
    }),
    look(`${gate(16)}-wires-${s.end}`, `Gate 16: ${s.word} float hung, wires in tension and locked`, {
      on: s.frontSpar,
      visible: all(),
      whenFitted: [
        j(s.front, 'a'),
        j(s.front, 'b'),
        j(s.rear, 'a'),
        j(s.rear, 'b'),
        ...[1, 2].flatMap((n) => [`${j(`${s.wires}.${n}`)}a`, `${j(`${s.wires}.${n}`)}b`]),
      ],
    }),
  );
}

const side = (s: FloatSide) => join(hull(s), struts(s), seen(s));

export const tipFloats = join(
  side({
    ...PORT,
    unit: UNITS.floatL,
    wing: UNITS.wingL,
    shell: '05-01',
    bulkheads: '05-03',
    front: '05-05',
    rear: '05-07',
    wires: '05-09',
    cap: '05-11',
    frontSpar: '04-01',
    rearSpar: '04-03',
  }),
  side({
    ...STARBOARD,
    unit: UNITS.floatR,
    wing: UNITS.wingR,
    shell: '05-02',
    bulkheads: '05-04',
    front: '05-06',
    rear: '05-08',
    wires: '05-10',
    cap: '05-12',
    frontSpar: '04-02',
    rearSpar: '04-04',
  }),
  look(gate(16), 'Gate 16: both drain caps in and corded', {
    visible: all(),
    whenFitted: ['05-j11', '05-j12', '05-j11w', '05-j12w'],
    note: '6 checks',
  }),
);
