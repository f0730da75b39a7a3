/**
 * What holds it, as tags and wires: the steps of a plan (and what of it is done) with the reasons that order them.
 *
 * The reasons are read from the one executable meaning of the rig, on the complete aircraft, so a wire is never a
 * guess: from each step to the steps that satisfy its unmet conditions. A block or guard gives a dash-dot wire with its
 * harm, everything else a solid one. Solid wires that a longer chain of solid wires says already are left out.
 * Not chosen: wires by the order of the list, which would claim reasons that are not there.
 */
import type { Hindrance, RigMeaning } from '../../domain/rig/rig-meaning.ts';
import type { ActionId, Need, Rig } from '../../domain/rig/rig-types.ts';
import { conditionsOf } from './conditions.ts';

export interface Wire {
  readonly from: ActionId;
  readonly to: ActionId;
  readonly way: 'first' | 'block' | 'gate';
  readonly harm?: string;
}

/** Wires between `shown` actions, which are given in the order in which they are or were done. */
export function wiresBetween(rig: Rig, shown: readonly ActionId[]): readonly Wire[] {
  const conditions = conditionsOf(rig);
  const wires = new Map<string, Wire>();
  for (const [at, action] of shown.entries()) {
    const before = shown.slice(0, at);
    for (const hindrance of conditions.of(action)) {
      for (const from of satisfiers(conditions.meaning, hindrance, before))
        keep(wires, wireOf(from, action, hindrance));
    }
  }
  return chainLoose(withoutShortcuts([...wires.values()]), shown);
}

/** What of `done` the steps rest on directly, in recorded order. */
export function restingOn(rig: Rig, steps: readonly ActionId[], done: readonly ActionId[]): readonly ActionId[] {
  const conditions = conditionsOf(rig);
  const changed = new Set(steps.filter((s) => s.startsWith('set:')).map((s) => s.split('=')[0]));
  const used = new Set(steps.flatMap((s) => conditions.of(s).flatMap((h) => satisfiers(conditions.meaning, h, done))));
  return [...new Set(done)].filter((a) => used.has(a) && !changed.has(a.split('=')[0]));
}

function wireOf(from: ActionId, to: ActionId, h: Hindrance): Wire {
  const way = h.rule === 'block' || h.rule === 'guard' ? 'block' : h.rule === 'hazard' ? 'gate' : 'first';
  return h.harm === undefined || way !== 'block' ? { from, to, way } : { from, to, way, harm: h.harm };
}

function keep(wires: Map<string, Wire>, wire: Wire): void {
  const key = `${wire.from} ${wire.to}`;
  const had = wires.get(key);
  if (!had || (had.way === 'block' && wire.way !== 'block')) wires.set(key, wire);
}

/** Those of `before` that help the condition to hold. */
function satisfiers(meaning: RigMeaning, h: Hindrance, before: readonly ActionId[]): readonly ActionId[] {
  return atoms(h.need).flatMap((need) => {
    const hits = before.filter((action) => helps(meaning, need, action));
    // A setup may be entered several times: the last time before the step is the one that counts.
    return 'setup' in need ? hits.slice(-1) : hits;
  });
}

export function atoms(need: Need): readonly Need[] {
  if ('all' in need) return need.all.flatMap(atoms);
  if ('any' in need) return need.any.flatMap(atoms);
  return [need];
}

function helps(meaning: RigMeaning, need: Need, action: ActionId): boolean {
  if ('released' in need) return action === need.released;
  if ('done' in need) return action === need.done;
  if ('apart' in need) return action === `remove:${need.apart}`;
  if ('off' in need) return action.startsWith('remove:') && meaning.structure.isInside(need.off, action.slice(7));
  if ('setup' in need) return need.in.some((state) => action === `set:${need.setup}=${state}`);
  return false;
}

/** Drops a solid wire where a longer chain of wires leads from the one to the other. */
export function withoutShortcuts(wires: readonly Wire[]): readonly Wire[] {
  const next = new Map<ActionId, ActionId[]>();
  for (const w of wires) (next.get(w.from) ?? next.set(w.from, []).get(w.from)!).push(w.to);
  const reaches = (from: ActionId, to: ActionId, without: boolean): boolean => {
    const seen = new Set<ActionId>();
    const open = (next.get(from) ?? []).filter((x) => !(without && x === to));
    for (let at = open.pop(); at !== undefined; at = open.pop()) {
      if (at === to) return true;
      if (seen.has(at)) continue;
      seen.add(at);
      open.push(...(next.get(at) ?? []));
    }
    return false;
  };
  return wires.filter((w) => w.way === 'block' || !reaches(w.from, w.to, true));
}

/** A step that nothing else asks for still comes before the next one: it is in the plan for a reason further on. */
function chainLoose(wires: readonly Wire[], shown: readonly ActionId[]): readonly Wire[] {
  const asked = new Set(wires.map((w) => w.from));
  const last = shown.at(-1);
  const loose = shown.filter((a) => a !== last && !asked.has(a));
  return last === undefined ? wires : [...wires, ...loose.map((from): Wire => ({ from, to: last, way: 'first' }))];
}
