/**
 * A quick yes to "does the rig know everything that is said to be so?". Anything else is left to `checkSituation`, which
 * names the place and what to do; asking that of 12,500 recorded actions after every change would cost more than the
 * answer.
 */
import { changeMinutes, parseSet } from '../../domain/rig/rig-meaning.ts';
import type { Situation } from '../../domain/rig/rig-types.ts';
import type { RefitModel } from './refit-model.ts';

export function knows(model: RefitModel, situation: Situation): boolean {
  const looks = new Set(situation.signed?.length ? model.rig.looks.map((l) => l.id) : []);
  return (
    situation.done.every((id) => model.actionOf.has(id) || knowsChange(model, id)) &&
    Object.entries(situation.setups ?? {}).every(([id, state]) => hasState(model, id, state)) &&
    (situation.facts ?? []).every((id) => model.factOf.has(id)) &&
    (situation.signed ?? []).every((id) => looks.has(id)) &&
    (situation.made ?? []).every((id) => model.only[model.actionOf.get(id) ?? -1] === 'refit')
  );
}

function hasState(model: RefitModel, id: string, state: string): boolean {
  const s = model.setupOf.get(id);
  return s !== undefined && model.rig.setups[s]!.states.includes(state);
}

function knowsChange(model: RefitModel, id: string): boolean {
  const set = parseSet(id);
  if (!set || !hasState(model, set.setup, set.state)) return false;
  const setup = model.rig.setups[model.setupOf.get(set.setup)!]!;
  return setup.states.some((from) => changeMinutes(setup, from, set.state) !== null);
}
