/** Random rigs and situations with everything at once, also what seldom meets: withdrawn facts, told states, gaps. */
import type { Rig, Situation } from '../../../domain/rig/rig-types.ts';
import { Dice, makeRandomRig, makeRandomSituation } from '../../testing/random-rig.ts';

export interface Scene {
  readonly rig: Rig;
  readonly situation: Situation;
}

export function mixedScene(seed: number): Scene {
  const dice = new Dice(seed);
  const plain = makeRandomRig(seed, {
    parts: 2 + dice.below(4),
    extraJoints: dice.below(3),
    operations: dice.below(4),
    blocks: dice.below(3),
    facts: dice.below(3),
    looks: dice.below(4),
    losses: false,
    setups: dice.below(3),
    guards: dice.below(3),
    holds: dice.below(3),
    refit: dice.chance(0.6),
    needs: 0.2 + dice.next() * 0.6,
  });
  const joints = plain.attachments.map((a) => a.id);
  const looks = plain.looks.map((l) =>
    dice.chance(0.6) && joints.length > 1 ? { ...l, whenFitted: dice.some(joints, 1 + dice.below(2)) } : l,
  );
  const rig = { ...plain, looks };
  let situation: Situation = makeRandomSituation(rig, seed + 1, 1 + dice.below(9), dice.chance(0.3) ? 2 : 0);
  if (dice.chance(0.3)) situation = { ...situation, facts: [] };
  const setup = rig.setups[0];
  if (dice.chance(0.2) && setup) situation = { ...situation, setups: { [setup.id]: dice.pick(setup.states) } };
  if (dice.chance(0.2)) {
    const made = rig.operations.filter((o) => o.only === 'refit').map((o) => o.id);
    situation = { ...situation, made };
  }
  if (dice.chance(0.2)) situation = { ...situation, signed: looks.slice(0, 1).map((l) => l.id) };
  if (dice.chance(0.2)) situation = { ...situation, done: situation.done.filter(() => dice.chance(0.8)) };
  return { rig, situation };
}
