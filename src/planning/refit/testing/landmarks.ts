/**
 * What every way to an action contains, by the fixpoint of planning with AND and OR: L(y) = {y} with, for each condition,
 * what all its alternatives share. The greatest fixpoint, so circles support nothing. Plain rigs only: no setups, facts
 * or holds. Keyder, Richter & Helmert, "Sound and complete landmarks for and/or graphs", ECAI 2010 (title from memory).
 */
import { RigMeaning, type World } from '../../../domain/rig/rig-meaning.ts';
import type { ActionId, Need, Rig, Situation } from '../../../domain/rig/rig-types.ts';

type Known = ReadonlyMap<ActionId, ReadonlySet<ActionId>>;

export function landmarks(rig: Rig, situation: Situation): Known {
  const meaning = new RigMeaning(rig);
  const done = situation.done;
  const empty: World = { done: new Set(), states: {}, facts: new Set() };
  const all = new Set(done);
  const known = new Map<ActionId, ReadonlySet<ActionId>>(done.map((a) => [a, all]));
  /** What the need contains in every way, or null where it cannot be met. */
  const of = (need: Need, places: readonly string[]): ReadonlySet<ActionId> | null => {
    if ('all' in need) {
      const parts = need.all.map((n) => of(n, places));
      return parts.includes(null) ? null : new Set(parts.flatMap((s) => [...s!]));
    }
    const ways: (ReadonlySet<ActionId> | null)[] =
      'any' in need
        ? need.any.map((n) => of(n, places))
        : done.filter((a) => meaning.holds(need, places, { ...empty, done: new Set([a]) })).map((a) => known.get(a)!);
    const open = ways.filter((w) => w !== null);
    return open.length === 0 ? null : new Set([...open[0]!].filter((x) => open.every((w) => w.has(x))));
  };
  for (let shrank = true; shrank; ) {
    shrank = false;
    for (const y of done) {
      const needs = meaning.hindrances(y, empty).map((h) => of(h.need, h.places));
      const next = new Set([y, ...needs.flatMap((s) => [...(s ?? all)])]);
      if (next.size < known.get(y)!.size) {
        known.set(y, next);
        shrank = true;
      }
    }
  }
  return known;
}
