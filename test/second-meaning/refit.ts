/**
 * What fits next, by definition: closure(T) is the union of everything that can be reached from the complete aircraft
 * with the actions of T alone, by walking every legal order; no fixpoint, no landmark.
 *
 * Where the text can be read in two ways, and which reading stands here:
 *  1. Strip-only work stays done when going back: it is in every T and is no candidate.
 *  2. Refit-only work that has been made is in S from the start of going back; it has no conditions in a closure (it
 *     was made on the way back, not on the way apart).
 *  3. "x's conditions" are all that `allowed` asks except guards (needs or refit, joints, blocks, what hangs on it,
 *     holds, hazards, bans of the states in force). Guards: S' must not break one that S does not break. Present
 *     states must allow S': nothing that one rests on is off or released in S'.
 *  4. Closures use `refit` where given, since they say what can be finished going back; guards and holds count in them.
 *  5. A state need inside a closure is met leaf by leaf (two leaves may be met by two different states).
 *  6. "reached from the present ones by changes allowed with T done": with all of T done, walking joint states.
 *  7. Forced work has no conditions in closures; it still has to fit now when it is put back itself.
 *  8. A look with joints still to be made can be signed only once they are made; until then it may not be hidden.
 */
import { type Act, allowed, allowedChange, conditions, type Here, type Meaning, moved } from './second-meaning.ts';

export interface Moment {
  readonly mask: number;
  readonly states: readonly number[];
  readonly forced: number;
  readonly signed: ReadonlySet<string>;
}

/** The recorded order replayed: what was not allowed at its turn was forced. */
export function replay(
  m: Meaning,
  done: readonly string[],
  setups: Readonly<Record<string, string>>,
  made: readonly string[],
  signed: readonly string[],
): Moment {
  let w: Here = { mask: 0, states: m.start };
  for (const [id, state] of Object.entries(setups)) {
    const s = m.rig.setups.findIndex((x) => x.id === id);
    w = { ...w, states: w.states.map((old, i) => (i === s ? 1 << m.rig.setups[s]!.states.indexOf(state) : old)) };
  }
  const present = w.states;
  let forced = 0;
  for (const id of done) {
    const a = m.acts.find((x) => x.id === id);
    if (!a || (w.mask & a.bit) !== 0) continue;
    if (!allowed(m, a, { mask: w.mask, states: possible(m, w.mask, present) })) forced |= a.bit;
    w = { ...w, mask: w.mask | a.bit };
  }
  let mask = w.mask;
  for (const id of made) mask |= m.bit(id);
  return { mask, states: present, forced, signed: new Set(signed) };
}

/** Per setup, every state that can be reached from the present ones by changes allowed with the mask done. */
export function possible(m: Meaning, mask: number, present: readonly number[]): readonly number[] {
  const seen = new Map([[present.join(), present]]);
  const open = [present];
  for (let states = open.pop(); states; states = open.pop()) {
    for (const c of m.changes) {
      const w = { mask, states };
      if (allowedChange(m, c, w) === undefined) continue;
      const next = moved(w, c).states;
      if (!seen.has(next.join())) {
        seen.set(next.join(), next);
        open.push(next);
      }
    }
  }
  return present.map((_, s) => [...seen.values()].reduce((b, states) => b | states[s]!, 0));
}

const strip = (m: Meaning) => m.acts.reduce((b, a) => b | (a.only === 'strip' ? a.bit : 0), 0);
const refitOnly = (m: Meaning) => m.acts.reduce((b, a) => b | (a.only === 'refit' ? a.bit : 0), 0);

/** Whether x may be done from w on the way apart, judged with the refit conditions. */
function opens(m: Meaning, a: Act, w: Here, forced: number): boolean {
  if ((w.mask & a.bit) !== 0) return false;
  if ((forced & a.bit) !== 0) return true;
  const after = { ...w, mask: w.mask | a.bit };
  return conditions(m, a, w, a.refit) && !m.guards.some((g) => g(after) && !g(w));
}

export function closure(m: Meaning, t: number, now: Moment): number {
  const states = possible(m, t, now.states);
  const from = t & (strip(m) | refitOnly(m));
  const seen = new Set([from]);
  const open = [from];
  let union = from;
  for (let mask = open.pop(); mask !== undefined; mask = open.pop()) {
    union |= mask;
    for (const a of m.acts) {
      if ((t & a.bit) === 0 || !opens(m, a, { mask, states }, now.forced)) continue;
      const next = mask | a.bit;
      if (seen.has(next)) continue;
      seen.add(next);
      open.push(next);
    }
  }
  return union;
}

export function fitsNow(m: Meaning, a: Act, s: number, now: Moment): boolean {
  const less = s & ~a.bit;
  const w = { mask: less, states: now.states };
  if (!conditions(m, a, w, a.refit)) return false;
  if (m.guards.some((g) => g(w) && !g({ ...w, mask: s }))) return false;
  if (m.changes.some((c) => (w.states[c.setup]! & (1 << c.state)) !== 0 && (less & (c.restsOn | c.through)) !== 0))
    return false;
  if (a.kind !== 'release') return true;
  return m.acts.every(
    (l) => l.kind !== 'remove' || (less & l.bit) === 0 || new Set(a.at.map((e) => m.isInside(e, l.at[0]!))).size === 1,
  );
}

export function locksOut(m: Meaning, a: Act, s: number, now: Moment): number {
  const less = s & ~a.bit;
  return less & closure(m, s, now) & ~closure(m, less, now) & ~(strip(m) | refitOnly(m));
}

/** Of what is locked out, the actions allowed in closure(S') together with x. */
export function roots(m: Meaning, a: Act, s: number, now: Moment): number {
  const less = s & ~a.bit;
  const mask = closure(m, less, now) | a.bit;
  const w = { mask, states: possible(m, less, now.states) };
  const locked = locksOut(m, a, s, now);
  return m.acts.reduce((b, x) => b | ((locked & x.bit) !== 0 && opens(m, x, w, now.forced) ? x.bit : 0), 0);
}

export function hides(m: Meaning, a: Act, s: number, now: Moment): string[] {
  const before = { mask: s, states: now.states };
  const after = { ...before, mask: s & ~a.bit };
  return m.looks.filter((l) => l.visible(before) && !l.visible(after)).map((l) => l.id);
}

/** What can be put back or made at all: not strip-only; refit-only work is made forwards and handled apart. */
export const candidates = (m: Meaning, s: number): Act[] =>
  m.acts.filter((a) => a.only === undefined && (s & a.bit) !== 0);
