/**
 * Aileron, its brackets and bellcrank, and the covering of a wing panel, for one side. INVENTED.
 *
 * The bellcrank can be reached through the hand hole; ribs, tubes and wires only when the covering is cut, and that is
 * the end of that covering. Samples for the paint story are cut first.
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
  off,
  operation,
  part,
  released,
  unit,
} from './author.ts';
import { RIGGING } from './names.ts';
import { BRACKET_RIBS, found, ids, inWing, jointId as j, RIBS, ribY, type WingSide } from './wing-sides.ts';

export function aileron(s: WingSide): Fragment {
  const o = ids(s);
  const reached = any(off(o.cover), done(o.hole));
  return join(
    part(s.nAileron, inWing(s, 6.3, 5, 4.1, 4.2)),
    part(s.nBellcrank, inWing(s, 0.6, 2, 3.8, 3.2)),
    ...BRACKET_RIBS.flatMap((rib, i) => {
      const id = `${s.nBrackets}.${i + 1}`;
      const bent = s.end === 'r' && i === 1;
      return [
        part(id, inWing(s, 0.3, 1, 3.8, ribY(rib))),
        joint(`${j(id)}a`, `Undo the spar bolts of aileron bracket ${i + 1}, ${s.word}`, [id, s.nRear], 'bolted', 9, {
          disturbs: [RIGGING.aileron],
          needs: any(off(o.cover), off(s.nAileron)),
          ...(bent && { asFound: { note: 'bent' } }),
        }),
        joint(
          `${j(id)}b`,
          `Undo the rib bolt of aileron bracket ${i + 1}, ${s.word}`,
          [id, `${s.nRibs}.${rib}`],
          'bolted',
          5,
          {
            needs: off(o.cover),
          },
        ),
        joint(
          `${j(`${s.nPins}.${i + 1}`)}w`,
          `Cut the wire of aileron hinge pin ${i + 1}, ${s.word}`,
          [`${s.nPins}.${i + 1}`, id],
          'lashed',
          1,
          {
            loss: 'consumable',
            ...(s.end === 'l' && i === 1 && { asFound: { present: false, note: 'no wire and no wire mark (E-18)' } }),
          },
        ),
      ];
    }),
    fasteners(s.nPins, {
      release: `Draw the aileron hinge pin, ${s.word}`,
      joins: (_p, n) => [s.nAileron, `${s.nBrackets}.${n}`],
      kind: 'pinned',
      minutes: 4,
      joint: (_p, n) => ({
        needs: all(
          released(`${j(`${s.nPins}.${n}`)}w`),
          done(`hold-aileron-${s.end}`),
          ...(n === 2 ? [] : [released(j(`${s.nPins}.2`))]),
        ),
        disturbs: [RIGGING.aileron],
        note: 'The middle pin first: drawn last it carries the whole aileron and bends its bracket',
      }),
      part: { within: s.wing, massKg: 0.05, at: at(3.85, s.y * 4.2, 2.4) },
    }),
    joint(
      j(s.nAileron, 'h'),
      `Draw the pin of the aileron rod at the horn, ${s.word}`,
      [s.nAileron, s.nBellcrank],
      'pinned',
      4,
      {
        disturbs: [RIGGING.aileron],
        loss: 'consumable',
        ...found(j(s.nAileron, 'h')),
      },
    ),
    joint(
      j(s.nBellcrank, 'p'),
      `Draw the pivot bolt of the aileron bellcrank, ${s.word}`,
      [s.nBellcrank, s.nRear],
      'bolted',
      12,
      {
        needs: reached,
        disturbs: [RIGGING.aileron],
        ...found(j(s.nBellcrank, 'p')),
      },
    ),
    operation(`hold-aileron-${s.end}`, `Support the ${s.word} aileron along its length, two people`, 3, {
      on: s.nAileron,
    }),
    operation(o.hole, `Unlace the hand hole under the ${s.word} bellcrank`, 6, { on: s.wing }),
  );
}

/** Cotton, doped and stitched: cut once. The samples that tell the paint story are taken first. */
export function covering(s: WingSide): Fragment {
  const o = ids(s);
  return join(
    unit(o.cover, `Fabric covering of the ${s.word} wing panel`, { ...inWing(s, 5, 15, 3.4, 3.2), hand: s.hand }),
    joint(
      `${o.cover}-rib-stitch`,
      `Cut the rib stitching and lift the covering, ${s.word}`,
      [o.cover, s.nFront, ...RIBS.map((n) => `${s.nRibs}.${n}`), s.nBow],
      'bonded',
      80,
      {
        loss: 'irreversible',
        hazards: [caution('dope dust', 'Old dope burns and its dust is harmful: wet, no spark, mask; local rules')],
        note: 'The covering shows where every rib sat: photograph each bay square-on before the knife',
      },
    ),
    joint(
      `${o.cover}-edge`,
      `Lift the doped edge along the aileron well, ${s.word}`,
      [o.cover, s.nRear],
      'bonded',
      20,
      {
        loss: 'irreversible',
        needs: off(s.nAileron),
      },
    ),
    block(o.cover, s.lamp, 'tears the fabric round the lamp: the tip bow breaks with it'),
    ...s.samples.flatMap((n) => {
      const id = `04-21.${n}`;
      return [
        part(id, { within: s.wing, massKg: 0, minutes: 1, at: at(3.4, s.y * (1 + n * 0.6), 2.4), hand: s.hand }),
        joint(`${j(id)}`, `Cut fabric sample ${n} out of the ${s.word} covering`, [id, o.cover], 'bonded', 6, {
          loss: 'irreversible',
          needs: done(`mark-samples-${s.end}`),
          asFound: { layers: n === 1 ? 'silver 3, grey 2, blue 1, primer (E-14)' : 'silver over blue over grey' },
        }),
      ];
    }),
    operation(`mark-samples-${s.end}`, `Mark and photograph the ${s.word} sample places by rib and side`, 15, {
      on: o.cover,
      only: 'strip',
    }),
  );
}
