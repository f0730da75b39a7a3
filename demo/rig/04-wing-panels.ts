/**
 * Wing panels, assembly 04, both sides from one description. INVENTED.
 *
 *   root ══ front spar ═╤═ rib 1 ═ … ═ rib 14 ═╕
 *            drag wires ╳   4 compression tubes  tip bow ── lamp
 *   root ══ rear spar ══╧═══ brackets ═════════╛
 *                             │ pins, wired
 *                           aileron ← rod ← bellcrank ← cables from the hull
 *
 * A panel comes off as one thing: spread in a sling, or folded back on its rear pin and taken off the trestle beside the
 * hull (front pin before rear pin either way; the pins are written in 03). The ribs are threaded on the spars from the
 * tip, so rib 5 waits for rib 6, or for both spars to be drawn out. Nothing inside is seen until the covering is cut, and
 * a cut covering is gone for good: the bellcrank can be reached through its hand hole instead.
 */
import {
  all,
  any,
  block,
  caution,
  done,
  type Fragment,
  factOf,
  join,
  joint,
  jointsOf,
  look,
  off,
  operation,
  part,
  positions,
  released,
  stands,
  storedEnergy,
  unit,
} from './author.ts';
import { PORT, STARBOARD } from './hull-words.ts';
import { gate, RIGGING, SUPPORT, UNITS } from './names.ts';
import { aileron, covering } from './wing-aileron-covering.ts';
import { BRACKET_RIBS, found, ids, inWing, jointId as j, RIBS, ribY, type WingSide } from './wing-sides.ts';

const TUBE_RIBS = [1, 5, 9, 13] as const;

function frame(s: WingSide): Fragment {
  const o = ids(s);
  const open = off(o.cover);
  const ribs = RIBS.map((n) => {
    const id = `${s.nRibs}.${n}`;
    const bad = s.end === 'l' ? n === 3 || n === 4 || n === 12 : n >= 9;
    const asFound = bad ? { asFound: { note: s.end === 'l' ? 'damp' : 'crushed' } } : {};
    return join(
      joint(`${j(id)}a`, `Undo the front spar clip of rib ${n}, ${s.word}`, [id, s.nFront], 'bolted', 5, {
        needs: open,
        ...asFound,
      }),
      joint(`${j(id)}b`, `Undo the rear spar clip of rib ${n}, ${s.word}`, [id, s.nRear], 'bolted', 5, { needs: open }),
      n === 14
        ? {}
        : block(
            id,
            `${s.nRibs}.${n + 1}`,
            'splits the rib: it slides off over the tip, past the next one',
            all(off(s.nFront), off(s.nRear)),
          ),
    );
  });
  const tubes = TUBE_RIBS.map((rib, i) => {
    const id = `${s.nTubes}.${i + 1}`;
    return join(
      joint(`${j(id)}a`, `Undo compression tube ${i + 1} at the front spar, ${s.word}`, [id, s.nFront], 'bolted', 7, {
        needs: open,
        ...(s.end === 'r' && i === 2 && { asFound: { note: 'dented' } }),
      }),
      joint(`${j(id)}b`, `Undo compression tube ${i + 1} at the rear spar, ${s.word}`, [id, s.nRear], 'bolted', 7, {
        needs: all(open, done(o.wires)),
        note: `beside rib ${rib}`,
      }),
    );
  });
  const wires = [1, 2, 3, 4, 5, 6].map((n) => {
    const id = `${s.nWires}.${n}`;
    const taut = storedEnergy(done(o.wires), 'Drag wire under tension: slackened by its barrel first, eyes covered');
    return join(
      joint(`${j(id)}a`, `Draw the front pin of drag wire ${n}, ${s.word}`, [id, s.nFront], 'cable', 4, {
        needs: open,
        loss: 'consumable',
        disturbs: [RIGGING.wing],
        hazards: [taut],
        ...(s.end === 'r' && n < 3 && { asFound: { note: 'stretched' } }),
      }),
      joint(`${j(id)}b`, `Draw the rear pin of drag wire ${n}, ${s.word}`, [id, s.nRear], 'cable', 4, {
        needs: open,
        loss: 'consumable',
        disturbs: [RIGGING.wing],
        hazards: [taut],
      }),
    );
  });
  return join(
    part(s.nFront, {
      ...inWing(s, 9.5, 15, 3.0, 3.1),
      ...(s.end === 'r' && { note: 'kink 1.2 mm at rib 11, upper side (E-11)' }),
    }),
    part(s.nRear, inWing(s, 7.4, 15, 3.7, 3.1)),
    positions(s.nRibs, (_p, n) => inWing(s, 0.6, 3, 3.4, ribY(n))),
    positions(s.nTubes, (_p, n) => inWing(s, 0.5, 2, 3.4, ribY(TUBE_RIBS[n - 1] ?? 1))),
    positions(s.nWires, (_p, n) => inWing(s, 0.2, 1, 3.4, 1 + n * 0.7)),
    part(s.nBow, inWing(s, 1.4, 4, 3.4, 5.7)),
    ...ribs,
    ...tubes,
    ...wires,
    joint(j(s.nBow, 'a'), `Undo the tip bow at the front spar end, ${s.word}`, [s.nBow, s.nFront], 'bolted', 8, {
      needs: open,
      ...found(j(s.nBow, 'a')),
    }),
    joint(j(s.nBow, 'b'), `Undo the tip bow at the rear spar end, ${s.word}`, [s.nBow, s.nRear], 'bolted', 8, {
      needs: open,
    }),
    joint(
      j(s.nBow, 'g'),
      `Cut the glued blocks of the tip bow at rib 14, ${s.word}`,
      [s.nBow, `${s.nRibs}.14`],
      'bonded',
      15,
      {
        needs: open,
        loss: 'irreversible',
      },
    ),
    block(`${s.nRibs}.14`, s.nBow, 'splits the nose of rib 14'),
    operation(o.wires, `Slacken the six drag wires of the ${s.word} panel in turn, a turn at a time`, 20, {
      on: s.wing,
      needs: open,
      note: 'Count and note the turns of each barrel',
    }),
  );
}

function whole(s: WingSide): Fragment {
  const o = ids(s);
  return join(
    unit(s.wing, `Wing panel, ${s.word}, complete`, {
      hand: s.hand,
      minutes: 20,
      hold: any(done(o.sling), all(done(o.trestle), done(o.fold))),
    }),
    operation(o.trestle, `Set the padded trestle under the ${s.word} spars at rib 9`, 20, {
      on: s.wing,
      needs: stands(SUPPORT, 'cradle', 'stands', 'jacks'),
    }),
    operation(o.sling, `Sling the ${s.word} panel at ribs 3 and 10, hoist takes the weight`, 55, {
      on: s.wing,
      hazards: [caution('lifting', 'Nobody under the panel; tag lines at the tip')],
    }),
    operation(o.fold, `Swing the ${s.word} panel back on its rear pin, four people, on the rolling trestle`, 25, {
      on: s.wing,
      needs: all(
        done(o.trestle),
        released(`03-j${s.frontPin}`),
        released(`03-j${s.frontLift}.1a`),
        released(`03-j${s.frontLift}.2a`),
        released(s.drive),
        released(s.balance),
        off(s.float),
      ),
      note: 'No wind in the shed doors; the aileron is locked',
    }),
    block(s.wing, s.float, 'strikes the float against the trestle'),
    joint(
      j(s.nFront, 'f'),
      `Undo the root fairing strip over the front wing pin, ${s.word}`,
      [s.nFront, '03-11'],
      'threaded',
      6,
    ),
    joint(
      j(s.nRear, 'f'),
      `Undo the root fairing strip over the rear wing pin, ${s.word}`,
      [s.nRear, '03-12'],
      'threaded',
      6,
    ),
  );
}

function seen(s: WingSide): Fragment {
  const o = ids(s);
  const n = s.gate.slice(5);
  return join(
    look(s.gate, `Gate ${n}: wing inside, ${s.word}, wires locked and cables run, before covering`, {
      on: s.nFront,
      visible: off(o.cover),
      whenFitted: [
        ...[1, 2, 3, 4, 5, 6].flatMap((k) => [j(`${s.nWires}.${k}a`), j(`${s.nWires}.${k}b`)]),
        j(s.nBellcrank, 'p'),
        s.drive,
        s.balance,
      ],
      note: '22 checks',
    }),
    look(`${s.gate}-spars`, `Gate ${n}: both spars of the ${s.word} panel along their whole length`, {
      on: s.nFront,
      visible: off(o.cover),
    }),
    look(`${s.gate}-root-lugs`, `Gate ${n}: root lugs and pin bores, ${s.word}`, {
      on: s.nFront,
      visible: off(s.end === 'l' ? '03-16.1' : '03-17.1'),
    }),
    look(`${gate(11)}-brackets-${s.end}`, `Gate 11: hinge brackets behind the aileron, ${s.word}`, {
      on: s.nRear,
      visible: off(s.nAileron),
      whenFitted: BRACKET_RIBS.map((_r, i) => j(`${s.nBrackets}.${i + 1}a`)),
    }),
    look(`${gate(11)}-bellcrank-${s.end}`, `Gate 11: bellcrank pinned and wired, ${s.word}`, {
      on: s.nBellcrank,
      visible: any(off(o.cover), done(o.hole)),
      whenFitted: [j(s.nBellcrank, 'p'), s.drive, s.balance, j(s.nAileron, 'h')],
    }),
  );
}

const side = (s: WingSide) => join(whole(s), frame(s), aileron(s), covering(s), seen(s));

const both = join(
  look(gate(11), 'Gate 11: ailerons, all six hinge pins wired', {
    visible: all(),
    whenFitted: [
      ...jointsOf('04-17'),
      ...jointsOf('04-18'),
      ...[1, 2, 3].flatMap((n) => [`04-j17.${n}w`, `04-j18.${n}w`]),
    ],
    note: '8 checks; port pin 2 had neither wire nor wire mark',
  }),
  factOf('front-spar-r-verdict', 'Verdict on the starboard front spar, kink at rib 11'),
  factOf('tip-bow-r-pattern', 'Pattern for the starboard tip bow settled (Q-10)'),
);

export const wingPanels = join(
  side({
    ...PORT,
    wing: UNITS.wingL,
    float: UNITS.floatL,
    frontPin: '16.1',
    frontLift: '20',
    nFront: '04-01',
    nRear: '04-03',
    nRibs: '04-05',
    nWires: '04-07',
    nTubes: '04-09',
    nBow: '04-11',
    nAileron: '04-13',
    nBrackets: '04-15',
    nPins: '04-17',
    nBellcrank: '04-19',
    lamp: '12-22',
    samples: [1, 2, 3],
    gate: gate(9),
    drive: '12-j11.4b',
    balance: '12-j07.2e',
  }),
  side({
    ...STARBOARD,
    wing: UNITS.wingR,
    float: UNITS.floatR,
    frontPin: '17.1',
    frontLift: '21',
    nFront: '04-02',
    nRear: '04-04',
    nRibs: '04-06',
    nWires: '04-08',
    nTubes: '04-10',
    nBow: '04-12',
    nAileron: '04-14',
    nBrackets: '04-16',
    nPins: '04-18',
    nBellcrank: '04-20',
    lamp: '12-23',
    samples: [4, 5, 6],
    gate: gate(10),
    drive: '12-j11.5b',
    balance: '12-j08.2e',
  }),
  both,
);
