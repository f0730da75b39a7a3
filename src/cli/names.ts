/** Ids to words: what an action is called, from the rig. The planner's steps have their own names; this is for the rest. */
import { parseRemove, parseSet } from '../domain/rig/rig-meaning.ts';
import type { ActionId, Rig } from '../domain/rig/rig-types.ts';

const HAND_MARKS = { L: ' ◀', R: ' ▶', C: ' ◆' } as const;

export interface Names {
  readonly thing: (id: string) => string;
  readonly action: (action: ActionId) => string;
}

export function namesOf(rig: Rig): Names {
  const names = new Map<string, string>();
  for (const list of [rig.attachments, rig.operations, rig.setups, rig.facts, rig.looks]) {
    for (const x of list) names.set(x.id, x.name ?? x.id);
  }
  for (const p of rig.parts) names.set(p.id, `${p.name ?? p.id}${p.hand ? HAND_MARKS[p.hand] : ''}`);
  for (const a of rig.attachments) {
    if (a.name === undefined) names.set(a.id, `Release ${a.joins.map((e) => names.get(e) ?? e).join(' from ')}`);
  }
  const thing = (id: string): string => names.get(id) ?? id;
  return {
    thing,
    action: (action) => {
      const removed = parseRemove(action);
      if (removed !== null) return `Lift out ${thing(removed)}`;
      const set = parseSet(action);
      return set ? `Change ${thing(set.setup)} to ${set.state}` : thing(action);
    },
  };
}
