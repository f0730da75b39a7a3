/**
 * Looks signed, and what makes a signature count or lapse (docs/adr/0005). A signature counts once the person's right to
 * sign is recorded, before or after; it stays true for its day, and lapses for the present when an action that opens the
 * area is done again. Not chosen: asking the planner whether the look is visible now, since the fold may not depend on it.
 */
import type { Look, Need } from '../domain/rig/rig-types.ts';
import type { Entry } from './entry.ts';
import type { DataOf } from './kinds/kinds.ts';
import type { Said, Signature, StateData } from './state.ts';
import { saidOf, type Work } from './work.ts';

export function maySign(d: StateData, person: string): boolean {
  const known = d.people.get(person);
  return (
    known !== undefined &&
    (known.role === 'lead' || known.role === 'inspector' || known.rights?.includes('sign') === true)
  );
}

export function applyLookSigned(w: Work, e: Entry, d: DataOf<'look-signed'>): void {
  w.map('signatures');
  w.push('signatures', d.look, {
    look: d.look,
    says: d.says,
    said: saidOf(e),
    counts: maySign(w.d, e.by),
    ...(d.second !== undefined && { second: d.second }),
  });
}

/** A right recorded later makes waiting signatures of this person count. */
export function countWaitingSignatures(w: Work, person: string): void {
  if (!maySign(w.d, person)) return;
  changeSignatures(w, (s) => (s.said.by === person && !s.counts ? { ...s, counts: true } : s));
}

export function lapseLook(w: Work, look: string, said: Said, why: string): void {
  const list = w.d.signatures.get(look);
  if (list?.some((s) => s.lapsed === undefined) !== true) return;
  w.map('signatures').set(
    look,
    list.map((s) => (s.lapsed === undefined ? { ...s, lapsed: { said, why } } : s)),
  );
}

/** An action was done: looks whose area it opens, or whose joints it undoes, are asked for again. */
export function lapseByAction(w: Work, action: string, said: Said): void {
  for (const look of w.d.signatures.keys()) {
    if (reopenersOf(w, look).has(action)) lapseLook(w, look, said, `${action} was done after it was signed`);
  }
}

/** The step did not happen after all, so it opened nothing. */
export function restoreLapsed(w: Work, step: Said): void {
  changeSignatures(w, (s) => {
    if (s.lapsed?.said.entry !== step.entry) return s;
    const { lapsed: _lapsed, ...rest } = s;
    return rest;
  });
}

function changeSignatures(w: Work, change: (s: Signature) => Signature): void {
  for (const [look, list] of [...w.d.signatures]) {
    const next = list.map(change);
    if (next.some((s, i) => s !== list[i])) w.map('signatures').set(look, next);
  }
}

function reopenersOf(w: Work, look: string): ReadonlySet<string> {
  let set = w.reopeners.get(look);
  if (set === undefined) {
    const known = w.d.rigLooks.get(look);
    set = known === undefined ? new Set() : reopeners(w.d, known);
    w.reopeners.set(look, set);
  }
  return set;
}

function reopeners(d: StateData, look: Look): ReadonlySet<string> {
  const actions = new Set<string>(look.whenFitted ?? []);
  const lifting = (part: string): void => {
    const seen = new Set<string>();
    for (let at: string | undefined = part; at !== undefined && !seen.has(at); at = d.rigParts.get(at)?.within) {
      actions.add(`remove:${at}`);
      seen.add(at);
    }
  };
  const walk = (need: Need): void => {
    if ('all' in need) need.all.forEach(walk);
    else if ('any' in need) need.any.forEach(walk);
    else if ('released' in need) actions.add(need.released);
    else if ('off' in need) lifting(need.off);
    else if ('apart' in need) actions.add(`remove:${need.apart}`);
    else if ('done' in need) actions.add(need.done);
  };
  if (look.visible !== undefined) walk(look.visible);
  if (look.on !== undefined) lifting(look.on);
  return actions;
}
