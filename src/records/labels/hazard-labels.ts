/**
 * Hazard tags from the rig: one for each danger, not one for each joint. Joints with the same danger, the same words and
 * the same thing that clears it share a tag; twenty cables under tension would otherwise be forty tags nobody reads.
 * A tag is wanted while any of its joints is still made and what clears it has not been recorded. Where that cannot be told
 * from what was done, the tag stays.
 */
import type { Hazard, Need } from '../../domain/rig/rig-types.ts';
import type { StateData } from '../../journal/state.ts';
import { some, whose } from './job-labels.ts';
import type { Label } from './label.ts';
import { handOfSubject, nameOfSubject } from './subject-names.ts';

interface Danger {
  readonly hazard: Hazard;
  readonly actions: string[];
}

export function hazardLabels(state: StateData): readonly Label[] {
  const dangers = new Map<string, Danger>();
  const held = [...state.rigAttachments.values(), ...state.rigOperations.values()];
  for (const { id, hazards } of held) {
    if (state.done.has(id)) continue;
    for (const hazard of hazards ?? []) {
      if (isCleared(state, hazard.clearedBy)) continue;
      const key = JSON.stringify([hazard.kind, hazard.clearedBy ?? null, hazard.note ?? '']);
      const danger = dangers.get(key);
      if (danger === undefined) dangers.set(key, { hazard, actions: [id] });
      else danger.actions.push(id);
    }
  }
  return [...dangers.values()].map((d) => dangerLabel(state, d));
}

/** Hung at what clears it, where there is one such thing; else at the first of its joints. */
function dangerLabel(state: StateData, { hazard, actions }: Danger): Label {
  const first = actions[0] ?? '';
  const clears = clearingAction(hazard.clearedBy);
  const more = actions.length - 1;
  const name = nameOfSubject(state, first) ?? first;
  const before = clears === undefined ? undefined : `First: ${nameOfSubject(state, clears) ?? clears}.`;
  const says = [hazard.note === undefined ? undefined : `${hazard.note.replace(/[.\s]+$/, '')}.`, before].filter(
    (t) => t !== undefined,
  );
  return {
    kind: 'hazard',
    id: clears ?? first,
    word: hazard.kind.replaceAll('-', ' '),
    name: more === 0 ? name : `${name} and ${more} more`,
    ...some('hand', oneHand(state, actions)),
    ...some('says', says.length === 0 ? undefined : says.join(' ')),
    ...whose(state),
  };
}

function oneHand(state: StateData, actions: readonly string[]): Label['hand'] {
  const hands = new Set(actions.map((a) => handOfSubject(state, a)));
  return hands.size === 1 ? [...hands][0] : undefined;
}

function clearingAction(need: Need | undefined): string | undefined {
  if (need === undefined) return undefined;
  if ('done' in need) return need.done;
  if ('released' in need) return need.released;
  return undefined;
}

function isCleared(state: StateData, need: Need | undefined): boolean {
  if (need === undefined) return false;
  if ('all' in need) return need.all.length > 0 && need.all.every((n) => isCleared(state, n));
  if ('any' in need) return need.any.some((n) => isCleared(state, n));
  if ('done' in need) return state.done.has(need.done) || state.made.has(need.done);
  if ('released' in need) return state.done.has(need.released);
  if ('apart' in need) return state.done.has(`remove:${need.apart}`);
  if ('fact' in need) return state.settled.has(need.fact) && !state.factsWithdrawn.has(need.fact);
  return false;
}
