/**
 * Tiny rigs of our own making, dense in rules: every kind of need anywhere, assemblies, joints of three ends, setups
 * with points, `through`, tables and zero minutes, guards, holds, hazards, operations of one direction. A rig is a
 * function of its number; those the file check refuses are skipped. Not chosen: the generator of the planner's own
 * tests, whose habits a second look should not share.
 */
import { readRig } from '../../src/domain/rig/rig-check.ts';
import type { Need, Rig, Situation } from '../../src/domain/rig/rig-types.ts';

export type Roll = (below: number) => number;

/** A linear congruential generator (Numerical Recipes constants, from memory; any would do). */
export function rolls(start: number): Roll {
  let x = (start * 2654435761) >>> 0;
  return (below) => {
    for (let i = 0; i < 2; i++) x = (Math.imul(x, 1664525) + 1013904223) >>> 0;
    return Math.floor((x / 4294967296) * below);
  };
}

export interface Tiny {
  readonly rig: Rig;
  readonly situation: Situation;
  readonly goal: Need;
}

const PARTS = ['pa', 'pb', 'pc'];

export function tinyRig(number: number, rules: 'plain' | 'full'): Tiny | null {
  const roll = rolls(number);
  const full = rules === 'full';
  const one = <T>(list: readonly T[]): T => list[roll(list.length)]!;
  const parts = PARTS.slice(0, 1 + roll(3));
  const places = ['rt', ...parts];
  const joints = ['ja', 'jb', 'jc', 'jd'].slice(0, 1 + roll(4));
  const works = ['wa', 'wb'].slice(0, roll(3));
  const facts = ['fa', 'fb'].slice(0, roll(3));
  const states = ['up', 'down', 'side'].slice(0, 2 + roll(2));
  const setups = full && roll(3) > 0 ? (roll(5) === 0 ? ['sa', 'sb'] : ['sa']) : [];
  const need = (depth = 2): Need => {
    const kind = roll(12);
    if (depth > 0 && kind < 3) return { any: Array.from({ length: 1 + roll(3) }, () => need(depth - 1)) };
    if (depth > 0 && kind === 3) return { all: Array.from({ length: roll(3) }, () => need(depth - 1)) };
    if (kind === 4 && facts.length > 0) return { fact: one(facts) };
    if (kind === 5 && works.length > 0) return { done: one(works) };
    if (kind === 6) return { apart: one(parts) };
    if (kind <= 8 && setups.length > 0) return { setup: one(setups), in: states.filter(() => roll(2) > 0) };
    if (kind === 9 && roll(4) === 0) return { any: [] };
    return roll(2) ? { off: one(parts) } : { released: one(joints) };
  };
  const maybe = <K extends string>(key: K, chance: number): { [k in K]?: Need } =>
    roll(100) < chance ? ({ [key]: need() } as { [k in K]?: Need }) : {};
  const rig = {
    format: 'witnessmark-rig/1',
    root: 'rt',
    parts: parts.map((id, i) => ({
      id,
      minutes: roll(6),
      ...(i + 1 < parts.length && roll(3) === 0 && { within: parts[i + 1 + roll(parts.length - i - 1)] }),
      ...maybe('needs', 20),
      ...(full && maybe('hold', 30)),
    })),
    attachments: joints.map((id) => ({
      id,
      joins: [...new Set([one(places), one(places), ...(roll(5) === 0 ? [one(places)] : [])])],
      minutes: roll(6),
      ...maybe('needs', 35),
      ...(full && maybe('refit', 10)),
      ...(roll(5) === 0 && { loss: 'irreversible' }),
      ...(roll(4) === 0 && { disturbs: ['trim', 'rig'].slice(roll(2)) }),
      ...(roll(8) === 0 && { hazards: [{ kind: 'pressure', clearedBy: need(1) }] }),
    })),
    operations: works.map((id) => ({
      id,
      minutes: roll(5),
      ...(roll(2) > 0 && { on: one(places) }),
      ...maybe('needs', 50),
      ...(full && roll(4) === 0 && { only: one(['strip', 'refit']) }),
    })),
    blocks: Array.from({ length: roll(3) }, () => ({
      part: one(parts),
      by: one(parts),
      harm: 'rubs',
      ...maybe('unless', 30),
    })),
    guards:
      full && roll(3) === 0
        ? [{ notTogether: parts.filter((_, i) => i === 0 || roll(2) > 0), harm: 'sags', ...maybe('unless', 60) }]
        : [],
    setups: setups.map((id) => ({
      id,
      states,
      initial: one(states),
      ...(roll(3) > 0
        ? { minutes: roll(3) }
        : {
            minutes: Object.fromEntries(
              states.flatMap((a) => states.filter((b) => b !== a && roll(4) > 0).map((b) => [`${a}>${b}`, roll(4)])),
            ),
          }),
      points: Object.fromEntries(
        states
          .filter(() => roll(2) > 0)
          .map((s) => [s, [{ on: one(places), ...(roll(3) === 0 && { through: [one(joints)] }) }]]),
      ),
      changeNeeds: Object.fromEntries(states.filter(() => roll(3) === 0).map((s) => [s, need(1)])),
    })),
    facts: facts.map((id) => ({ id, given: roll(3) === 0 })),
    looks:
      full && roll(2)
        ? [{ id: 'la', on: one(places), ...maybe('visible', 80), ...(roll(4) === 0 && { whenFitted: [one(joints)] }) }]
        : [],
  };
  const read = readRig(rig);
  if (!read.ok) return null;
  const actions = [
    ...joints,
    ...parts.map((p) => `remove:${p}`),
    ...rig.operations.filter((o) => o.only !== 'refit').map((o) => o.id),
  ];
  const done = actions.filter(() => roll(4) === 0).sort(() => roll(3) - 1);
  const goal = roll(3) === 0 ? need() : roll(2) ? { apart: one(parts) } : { off: one(parts) };
  return {
    rig: read.value,
    situation: {
      done: roll(3) === 0 ? done : [],
      ...(setups.length > 0 && roll(4) === 0 && { setups: { sa: one(states) } }),
    },
    goal,
  };
}
