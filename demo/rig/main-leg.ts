/**
 * A main leg, written once for both sides (assemblies 07 and 08). INVENTED.
 *
 *   lug outer ── trunnion pin (flat) ── leg forging with two bushes ── lug inner      on frame C9
 *                                        │ cylinder: valve, damping plate, gland nut and packing, piston rod
 *                                        │ scissors: upper link, pin, lower link        └ axle: shoes, wheel, drum, nut
 *
 * The trunnion pin slides only while the leg hangs 35 degrees from down, where the flat on the pin clears the flange of
 * the frame (trap X-1, learnt on the port side): an operation, and a `needs` on the pin, so that the pin is in before the
 * leg swings down again. The leg
 * can be taken off whole (`leg-l`, `leg-r`) or piece by piece. What differs between the hands (threads, how the valve
 * was found, harm done in 2004) is given in by the two files that use this.
 */
import type { Hand } from '../../src/domain/rig/rig-types.ts';
import {
  all,
  any,
  at,
  block,
  caution,
  done,
  type Fragment,
  factOf,
  fasteners,
  type JointExtra,
  join,
  joint,
  look,
  off,
  operation,
  part,
  pressure,
  releasedAll,
  stands,
  storedEnergy,
  unit,
} from './author.ts';
import { SUPPORT } from './names.ts';

export interface LegSide {
  /** '07' or '08'. */
  readonly line: string;
  readonly hand: Hand;
  /** 'l' or 'r', as it ends the ids of units, setups and operations. */
  readonly end: 'l' | 'r';
  readonly word: 'port' | 'starboard';
  readonly outerLug: string;
  readonly innerLug: string;
  readonly jackJoint: string;
  readonly jackTube: string;
  readonly lockHook: string;
  readonly axleNutThread: 'left' | 'right';
  /** How the gas is proved out before the gland nut or the valve is touched. */
  readonly valveProved: Fragment;
  readonly gasNeeds: readonly string[];
  readonly pin: JointExtra;
}

export function mainLeg(s: LegSide): Required<Fragment> {
  const id = (n: string) => `${s.line}-${n}`;
  const j = (n: string) => `${s.line}-j${n}`;
  const leg = `leg-${s.end}`;
  const side = s.end === 'l' ? -1 : 1;
  const op = {
    trolley: `trolley-under-leg-${s.end}`,
    gas: `let-gas-out-${s.end}`,
    oil: `drain-oleo-${s.end}`,
    swing: `swing-leg-${s.end}-35`,
    hook: `pin-lock-hook-back-${s.end}`,
    tyre: `deflate-tyre-${s.end}`,
    shoes: `spring-tool-on-brake-${s.end}`,
  };
  const inLeg = (massKg: number, minutes: number, z: number, y = 1.0) => ({
    within: leg,
    massKg,
    minutes,
    at: at(3.4, side * y, z),
  });
  const gasOut = pressure(
    done(op.gas),
    'Gas in the strut: a gauge at zero is no proof, a blocked valve also reads zero',
  );

  const parts = join(
    unit(leg, `Main leg, ${s.word}, complete`, { hand: s.hand, minutes: 6, hold: done(op.trolley) }),
    part(id('01'), inLeg(13.5, 8, 0.5)),
    part(id('02'), { massKg: 1.9, minutes: 1, at: at(3.4, side * 0.9, 0.8) }),
    part(id('04'), inLeg(5.6, 4, 0.4)),
    part(id('05'), inLeg(4.8, 3, 0.2)),
    part(id('06'), inLeg(0.6, 1, 0.3)),
    part(id('07'), inLeg(0.1, 4, 0.3)),
    part(id('08'), { ...inLeg(0.3, 2, 0.4), within: id('05') }),
    part(id('09'), { ...inLeg(0.2, 1, 0.7), within: id('04') }),
    part(id('10'), inLeg(0.9, 1, 0.3)),
    part(id('11'), inLeg(0.9, 1, 0.2)),
    part(id('13'), inLeg(2.6, 3, 0.1)),
    part(id('14'), { ...inLeg(6.4, 5, 0.1, 1.15), needs: stands(SUPPORT, 'cradle', 'stands', 'jacks') }),
    part(id('15'), { ...inLeg(2.5, 3, 0.1), within: id('14') }),
    part(id('20'), inLeg(0.8, 3, 0.4)),
  );

  const held = join(
    joint(
      j('02'),
      `Slide the ${s.word} trunnion pin out, leg at 35°`,
      [id('02'), id('01'), s.outerLug, s.innerLug],
      'pinned',
      25,
      {
        ...s.pin,
        needs: all(done(op.swing), done(op.trolley), releasedAll(j('02k'), s.jackJoint)),
      },
    ),
    joint(j('02k'), `Take the keeper plate off the ${s.word} trunnion pin`, [id('02'), s.outerLug], 'bolted', 6),
    fasteners(id('03'), {
      release: `Press the ${s.word} trunnion bush out`,
      joins: [id('01')],
      kind: 'pressed',
      minutes: 15,
      joint: { loss: 'consumable', needs: any(off(leg), off(id('01'))) },
      part: { within: id('01'), massKg: 0.3, at: at(3.4, side * 0.95, 0.8) },
    }),
    joint(j('04'), `Unscrew the clamp ring of the ${s.word} cylinder`, [id('04'), id('01')], 'clamped', 14),
    joint(j('04d'), `Drive the dowel of the ${s.word} cylinder out`, [id('04'), id('01')], 'pinned', 5),
    joint(j('06'), `Unscrew the ${s.word} gland nut`, [id('06'), id('04')], 'threaded', 20, {
      threadHand: 'right',
      hazards: [gasOut],
      needs: any(off(id('11')), releasedAll(j('12.2')), releasedAll(j('12.3'))),
      asFound: { thread: 'right-hand on both legs' },
    }),
    joint(j('07'), `Draw the leather packing out of the ${s.word} gland`, [id('07'), id('06'), id('04')], 'other', 8, {
      loss: 'consumable',
      needs: all({ released: j('06') }, off(id('05'))),
    }),
    joint(j('05'), `Draw the ${s.word} piston rod out of its cylinder`, [id('05'), id('04')], 'other', 10, {
      needs: all({ released: j('06') }, done(op.oil)),
      hazards: [gasOut],
    }),
    joint(j('05g'), `Slide the gland nut down off the ${s.word} rod`, [id('06'), id('05')], 'other', 2, {
      needs: all({ released: j('06') }, off(id('13'))),
    }),
    joint(j('08'), `Unscrew the damping plate from the ${s.word} rod head`, [id('08'), id('05')], 'threaded', 8, {
      needs: off(id('05')),
    }),
    joint(j('09'), `Unscrew the ${s.word} filler and air valve`, [id('09'), id('04')], 'threaded', 6, {
      hazards: [gasOut],
    }),
    fasteners(id('12'), {
      release: `Drive the ${s.word} scissors pin out`,
      joins: (_p, n) => (n === 1 ? [id('10'), id('04')] : n === 2 ? [id('10'), id('11')] : [id('11'), id('13')]),
      kind: 'pinned',
      minutes: 6,
      part: { within: leg, massKg: 0.15, at: at(3.4, side, 0.3) },
    }),
    joint(j('13'), `Drive the cotter out of the ${s.word} axle socket`, [id('13'), id('05')], 'pinned', 12),
    joint(j('13c'), `Slacken the clamp of the ${s.word} axle socket`, [id('13'), id('05')], 'clamped', 6),
    fasteners(id('19'), {
      release: `Unscrew the ${s.word} axle nut, ${s.axleNutThread.toUpperCase()}-HAND thread`,
      joins: [id('13'), id('14')],
      kind: 'threaded',
      minutes: 8,
      stem: j('19'),
      joint: {
        threadHand: s.axleNutThread,
        needs: stands(SUPPORT, 'cradle', 'stands', 'jacks'),
        hazards: [pressure(done(op.tyre), 'Air in the main tyre: core out before the wheel nut is turned')],
        asFound: { thread: `${s.axleNutThread}-hand` },
      },
      part: { within: leg, massKg: 0.2, at: at(3.4, side * 1.2, 0.1) },
    }),
    fasteners(id('18'), {
      release: `Draw the ${s.word} wheel bearing`,
      joins: [id('14')],
      kind: 'pressed',
      minutes: 9,
      joint: { needs: off(id('14')) },
      part: { within: id('14'), massKg: 0.35, at: at(3.4, side * 1.15, 0.1) },
    }),
    joint(j('15'), `Undo the six screws of the ${s.word} brake drum`, [id('15'), id('14')], 'bolted', 12, {
      needs: off(id('14')),
    }),
    fasteners(id('16'), {
      release: `Take the ${s.word} brake shoe off its anchor pin`,
      joins: [id('13')],
      kind: 'pinned',
      minutes: 5,
      joint: {
        needs: off(id('14')),
        hazards: [caution('dust', 'Old lining may hold asbestos: wet, bag, breathing protection; local rules')],
      },
      part: { within: leg, massKg: 0.6, at: at(3.4, side * 1.1, 0.1) },
    }),
    fasteners(id('17'), {
      release: `Unhook the ${s.word} brake return spring`,
      joins: [id('16.1'), id('16.2')],
      kind: 'other',
      minutes: 2,
      joint: {
        needs: off(id('14')),
        hazards: [storedEnergy(done(op.shoes), 'Brake return spring under tension: spring tool, eye protection')],
      },
      part: { within: leg, massKg: 0.1, at: at(3.4, side * 1.1, 0.1) },
    }),
    joint(j('20'), `Turn the clips of the ${s.word} leg fairing`, [id('20'), id('01')], 'clamped', 4),
    joint(j('20s'), `Undo the foot screws of the ${s.word} leg fairing`, [id('20'), id('13')], 'bolted', 5),
  );

  const work = join(
    operation(op.trolley, `Take the weight of the ${s.word} leg on the trolley`, 8, {
      on: leg,
      needs: stands(SUPPORT, 'stands', 'jacks'),
    }),
    operation(op.gas, `Let the gas out of the ${s.word} leg through the hose`, 12, {
      on: id('04'),
      only: 'strip',
      needs: all(...s.gasNeeds.map(done), any(stands(SUPPORT, 'stands', 'jacks'), off(leg))),
      hazards: [caution('compressed gas', 'Face and hands away from the valve; open a quarter turn and wait')],
    }),
    operation(op.oil, `Drain the oil of the ${s.word} leg`, 10, { on: id('04'), only: 'strip', needs: done(op.gas) }),
    operation(op.hook, `Pin the ${s.word} down-lock hook back`, 4, { on: s.lockHook, only: 'strip' }),
    operation(op.swing, `Swing the ${s.word} leg to 35° from down and chock it there`, 10, {
      on: leg,
      needs: all(
        stands(SUPPORT, 'stands', 'jacks'),
        done(op.hook),
        any(all({ released: s.jackJoint }, done(op.trolley)), done('ease-ratchet-pawl')),
      ),
      hazards: [caution('moving gear', 'Hands out of the recess while the leg swings')],
      note: 'By hand on the trolley once the jack is off it, or by the ratchet lever before',
    }),
    operation(op.tyre, `Take the valve core out and prove the ${s.word} tyre empty`, 4, {
      on: id('14'),
      only: 'strip',
      needs: any(stands(SUPPORT, 'cradle', 'stands', 'jacks'), off(leg)),
    }),
    operation(op.shoes, `Put the spring tool on the ${s.word} brake`, 4, {
      on: id('13'),
      only: 'strip',
      needs: off(id('14')),
    }),
  );

  const inTheWay = join(
    block(leg, s.end === 'l' ? '02-24' : '02-25', 'creases the gear bay fairing'),
    block(id('05'), id('10'), 'bends the scissors: the rod draws down past them', off(id('11'))),
    block(id('13'), id('20'), 'tears the foot of the leg fairing'),
    block(id('04'), id('20'), 'dents the leg fairing'),
    block(id('07'), id('05'), 'cuts the packing on the rod thread'),
    block(id('18.2'), id('15'), 'the puller stands on the drum'),
  );

  const seen = join(
    look(`look-oleo-bore-${s.end}`, `Bore of the ${s.word} cylinder and rod, dry and clean`, {
      on: id('04'),
      visible: off(id('05')),
    }),
    look(`look-lug-bore-${s.end}`, `Trunnion lug holes, ${s.word}`, { on: s.outerLug, visible: off(id('02')) }),
    factOf(`leg-forging-${s.end}-crack-tested`, `Leg forging, ${s.word}: crack test back`, {
      note: 'before plating and before straightening (traps X-18, X-21)',
    }),
  );
  return join(parts, held, work, inTheWay, seen, s.valveProved);
}
