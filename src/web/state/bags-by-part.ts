/**
 * The bag in which a part's piece lies now, by the part of the rig. A bag says what it came from; where a piece of that part has
 * gone elsewhere since (another bag, back on the aircraft), the piece is believed and not the bag. Pure.
 */
import { thingsOf, whereIs } from '../../journal/custody.ts';
import type { State } from '../../journal/state.ts';

export function bagsByPart(state: State): ReadonlyMap<string, string> {
  const bags = new Map<string, string>();
  for (const bag of state.bags.values()) {
    for (const from of bag.of) {
      const part = state.positions.get(from)?.rig ?? from;
      if (!bags.has(part)) bags.set(part, bag.code);
    }
  }
  for (const subject of new Set([...bags.keys(), ...partsOfThings(state)])) {
    const things = thingsOf(state, subject);
    if (things.length === 0) continue;
    const bag = things.map((t) => whereIs(state, t)?.bag ?? null).find((b) => b !== null);
    if (bag !== undefined) bags.set(subject, bag);
    else bags.delete(subject);
  }
  return bags;
}

/** Parts whose piece was put into a bag of which nobody said what it came from. */
function partsOfThings(state: State): readonly string[] {
  const rigOf = (id: string | undefined) => (id === undefined ? [] : [state.positions.get(id)?.rig ?? id]);
  return [...state.held].flatMap(([thing, held]) => {
    if (held.where.is !== 'bag') return [];
    return [
      ...rigOf(state.pieces.get(thing)?.position),
      ...rigOf(state.lots.get(thing)?.of),
      ...(isPlace(state, thing) ? rigOf(thing) : []),
    ];
  });
}

/** Where nobody named a piece, the position or part stands for it. */
function isPlace(state: State, id: string): boolean {
  return state.positions.has(id) || state.rigParts.has(id);
}
