/**
 * A second meaning of the rig, written from the text of the rules alone and before looking at `rig-meaning.ts`, for
 * tiny rigs (up to 30 actions). Method: everything becomes bit masks once; a world is one mask of what is done and, per
 * setup, a mask of the states that count as present (one bit when it is meant exactly, more in a relaxed reading).
 * Not chosen: sharing anything with `src/domain/rig` but the file types, since a shared slip would go unseen.
 *
 * Where the text can be read in two ways, and which reading stands here:
 *  1. "from one of its ends that is not inside p": some such end will do (not: all of them).
 *  2. Hold, "an end reaching the root": in the complete rig, like (c); not in what is left.
 *  3. Hold, "that assembly's hold replaces it": the outermost assembly that all of them cross; asked at the same
 *     release, seen from the assembly. An assembly without a hold asks for nothing. A part without a hold of its own
 *     has the missing need that always holds, and that is replaced too. (First read the other way: only a hold that
 *     is written down can be replaced. The text carries both.)
 *  4. Hazards without `clearedBy`: no condition.
 *  5. A setup without `minutes`: every change is possible and costs nothing.
 *  6. A guard is newly broken by any action, a change of setup included (its `unless` may name a setup).
 *  7. "none of the new state's `on` parts is off": off the aircraft. A ban on a removal: the part on which a state in
 *     force rests is inside the removed part.
 *  8. `off` of the root, seen from a part: the part itself has been lifted away; seen from the root: never.
 *  9. "parts that never reach the root do not" (c): they need not be off.
 * 10. A refit-only operation is done when it has been made; it is no action of taking apart.
 * 11. A block by the root means: the blocked part is off as seen from the root's side, by the same rule as any part.
 */
import type { Need, Rig } from '../../src/domain/rig/rig-types.ts';

export interface Here {
  readonly mask: number;
  /** Per setup, the states that count as present, as bits. */
  readonly states: readonly number[];
}
type Check = (w: Here) => boolean;

export interface Act {
  readonly id: string;
  readonly bit: number;
  readonly kind: 'release' | 'operation' | 'remove';
  readonly minutes: number;
  readonly irreversible: boolean;
  readonly disturbs: readonly string[];
  readonly only?: 'strip' | 'refit' | undefined;
  /** Index into the parts (remove), ends (release) or the place (operation). */
  readonly at: readonly number[];
  readonly needs: Check;
  readonly refit: Check;
  readonly cleared: readonly Check[];
}

export interface Change {
  readonly id: string;
  readonly setup: number;
  readonly state: number;
  readonly needs: Check;
  readonly restsOn: number;
  readonly through: number;
}

const yes: Check = () => true;

export function understand(rig: Rig, factsToo: readonly string[] = []) {
  const names = [rig.root, ...rig.parts.map((p) => p.id)];
  const part = (id: string) => names.indexOf(id);
  const parent = names
    .map((n) => rig.parts.find((p) => p.id === n)?.within)
    .map((w) => (w === undefined ? -1 : part(w)));
  const isInside = (q: number, p: number): boolean => q === p || (parent[q]! >= 0 && isInside(parent[q]!, p));
  const all = names.map((_, i) => i);
  const inside = all.map((p) => all.filter((q) => isInside(q, p)));

  const acts: Act[] = [];
  const bitOf = new Map<string, number>();
  for (const j of rig.attachments) bitOf.set(j.id, 1 << bitOf.size);
  for (const o of rig.operations) bitOf.set(o.id, 1 << bitOf.size);
  for (const p of rig.parts) bitOf.set(`remove:${p.id}`, 1 << bitOf.size);
  if (bitOf.size > 30) throw new Error('internal: too many actions for the second meaning');
  const bit = (id: string) => bitOf.get(id)!;
  const lift = (p: number) => bit(`remove:${names[p]}`);

  /** The lifts of which one suffices for "p is off, seen from the place". */
  const offBits = (p: number, place: number): number => {
    let bits = 0;
    for (let a = 1; a < names.length; a++) {
      const holdsPart = isInside(p, a);
      const holdsPlace = isInside(place, a);
      if (isInside(place, p) ? holdsPart : holdsPart !== holdsPlace) bits |= lift(a);
    }
    return bits;
  };
  const offFromEnds = (p: number, ends: readonly number[]): number => {
    const outside = ends.filter((e) => !isInside(e, p));
    let bits = 0;
    for (const e of outside.length > 0 ? outside : ends) bits |= offBits(p, e);
    return bits;
  };

  const has =
    (bits: number): Check =>
    (w) =>
      (w.mask & bits) !== 0;
  const given = new Set([...rig.facts.filter((f) => f.given === true).map((f) => f.id), ...factsToo]);
  function need(n: Need | undefined, places: readonly number[]): Check {
    if (n === undefined) return yes;
    if ('all' in n) {
      const inner = n.all.map((x) => need(x, places));
      return (w) => inner.every((c) => c(w));
    }
    if ('any' in n) {
      const inner = n.any.map((x) => need(x, places));
      return (w) => inner.some((c) => c(w));
    }
    if ('released' in n) return has(bit(n.released));
    if ('apart' in n) return n.apart === rig.root ? () => false : has(bit(`remove:${n.apart}`));
    if ('done' in n) return has(bit(n.done));
    if ('off' in n) return has(offFromEnds(part(n.off), places));
    if ('fact' in n) {
      const known = given.has(n.fact);
      return () => known;
    }
    const s = rig.setups.findIndex((x) => x.id === n.setup);
    const bits = n.in.reduce((b, name) => b | (1 << rig.setups[s]!.states.indexOf(name)), 0);
    return (w) => (w.states[s]! & bits) !== 0;
  }

  const clear = (hazards: readonly { readonly clearedBy?: Need }[] | undefined, places: readonly number[]) =>
    (hazards ?? []).flatMap((h) => (h.clearedBy ? [need(h.clearedBy, places)] : []));
  for (const j of rig.attachments) {
    const at = j.joins.map(part);
    const needs = need(j.needs, at);
    acts.push({
      id: j.id,
      bit: bit(j.id),
      kind: 'release',
      minutes: j.minutes ?? 0,
      irreversible: j.loss === 'irreversible',
      disturbs: j.disturbs ?? [],
      at,
      needs,
      refit: j.refit ? need(j.refit, at) : needs,
      cleared: clear(j.hazards, at),
    });
  }
  for (const o of rig.operations) {
    const at = [part(o.on ?? rig.root)];
    const needs = need(o.needs, at);
    acts.push({
      id: o.id,
      bit: bit(o.id),
      kind: 'operation',
      minutes: o.minutes ?? 0,
      irreversible: false,
      disturbs: [],
      only: o.only,
      at,
      needs,
      refit: needs,
      cleared: clear(o.hazards, at),
    });
  }
  for (const p of rig.parts) {
    const at = [part(p.id)];
    const needs = need(p.needs, at);
    acts.push({
      id: `remove:${p.id}`,
      bit: bit(`remove:${p.id}`),
      kind: 'remove',
      minutes: p.minutes ?? 0,
      irreversible: false,
      disturbs: [],
      at,
      needs,
      refit: needs,
      cleared: [],
    });
  }

  const joints = rig.attachments.map((j) => ({ bit: bit(j.id), ends: j.joins.map(part) }));
  /** What reaches the root along attachments in the complete rig, without the parts inside p. */
  const reaching = (without: readonly number[]): Set<number> => {
    const found = new Set([0]);
    for (let grew = true; grew; ) {
      grew = false;
      for (const j of joints) {
        const ends = j.ends.filter((e) => !without.includes(e));
        if (!ends.some((e) => found.has(e))) continue;
        for (const e of ends) {
          grew = grew || !found.has(e);
          found.add(e);
        }
      }
    }
    return found;
  };
  const whole = reaching([]);
  const crossing = (p: number) =>
    joints.filter((j) => j.ends.some((e) => isInside(e, p)) && j.ends.some((e) => !isInside(e, p)));
  const hanging = all.map((p) =>
    p === 0 ? [] : all.filter((q) => !isInside(q, p) && whole.has(q) && !reaching(inside[p]!).has(q)),
  );
  const holdingJoints = all.map((p) => {
    if (p === 0) return [];
    const rest = reaching(inside[p]!);
    return crossing(p).filter((j) => j.ends.some((e) => rest.has(e)));
  });
  const blocks = rig.blocks.map((b) => {
    const at = part(b.part);
    return {
      at,
      by: part(b.by),
      gone: has(offBits(part(b.by), at)),
      unless: b.unless ? need(b.unless, [at]) : () => false,
    };
  });

  const holds = rig.parts.flatMap((p) => {
    if (p.id === rig.root) return [];
    const me = part(p.id);
    const mine = holdingJoints[me]!;
    let asks = { of: p.id, check: need(p.hold, [me]) };
    for (let a = parent[me]!; a >= 0; a = parent[a]!) {
      const crossesToo = crossing(a);
      const assembly = rig.parts.find((x) => x.id === names[a])!;
      if (mine.every((j) => crossesToo.includes(j))) asks = { of: assembly.id, check: need(assembly.hold, [a]) };
    }
    const bits = mine.reduce((b, j) => b | j.bit, 0);
    if (bits === 0) return [];
    return [{ part: me, id: p.id, bits, off: offBits(me, 0), ...asks }];
  });
  const guards = rig.guards.map((g) => {
    const parts = g.notTogether.map(part);
    const offEach = parts.map((p) => offBits(p, 0));
    let together = 0;
    for (const a of all) if (a > 0 && parts.every((p) => isInside(p, a))) together |= lift(a);
    const unless = g.unless ? need(g.unless, [0]) : () => false;
    return (w: Here) => offEach.every((b) => (w.mask & b) !== 0) && (w.mask & together) === 0 && !unless(w);
  });

  const rests = (s: number, state: number) => {
    const points = rig.setups[s]!.points?.[rig.setups[s]!.states[state]!] ?? [];
    let removals = 0;
    let restsOn = 0;
    for (const point of points) {
      restsOn |= offBits(part(point.on), 0);
      for (let a = 1; a < names.length; a++) if (isInside(part(point.on), a)) removals |= lift(a);
    }
    const through = points.flatMap((p) => p.through ?? []).reduce((b, j) => b | bit(j), 0);
    return { restsOn, through, banned: removals | through };
  };
  const changes: Change[] = rig.setups.flatMap((s, i) =>
    s.states.map((state, k) => ({
      id: `set:${s.id}=${state}`,
      setup: i,
      state: k,
      needs: need(s.changeNeeds?.[state], [0]),
      restsOn: rests(i, k).restsOn,
      through: rests(i, k).through,
    })),
  );
  const bans = rig.setups.map((s, i) => s.states.map((_, k) => rests(i, k).banned));
  const looks = rig.looks.map((l) => ({
    id: l.id,
    visible: need(l.visible, [part(l.on ?? rig.root)]),
    joints: (l.whenFitted ?? []).reduce((b, j) => b | bit(j), 0),
  }));

  /** Minutes of a change, undefined where it cannot be made. */
  const changeMinutes = (c: Change, from: number): number | undefined => {
    const s = rig.setups[c.setup]!;
    if (from === c.state) return undefined;
    if (s.minutes === undefined || typeof s.minutes === 'number') return s.minutes ?? 0;
    const pair = `${s.states[from]}>${s.states[c.state]}`;
    return Object.hasOwn(s.minutes, pair) ? s.minutes[pair] : undefined;
  };
  const start: readonly number[] = rig.setups.map((s) => 1 << s.states.indexOf(s.initial));
  return {
    rig,
    names,
    part,
    acts,
    changes,
    bit,
    bitOf,
    isInside,
    inside,
    hanging,
    crossing,
    blocks,
    holds,
    guards,
    bans,
    looks,
    need,
    offBits,
    changeMinutes,
    start,
  }; // prettier-ignore
}
export type Meaning = ReturnType<typeof understand>;

export const brokenGuards = (m: Meaning, w: Here): number[] => m.guards.flatMap((broken, i) => (broken(w) ? [i] : []));

const bannedEverywhere = (m: Meaning, bit: number, states: readonly number[]): boolean =>
  m.bans.some((perState, s) => perState.every((ban, k) => (states[s]! & (1 << k)) === 0 || (ban & bit) !== 0));

/** Holds that are asked for when this joint goes next. */
export const holdsAsked = (m: Meaning, a: Act, mask: number) =>
  a.kind !== 'release'
    ? []
    : m.holds.filter((h) => (h.bits & a.bit) !== 0 && (h.bits & ~mask & ~a.bit) === 0 && (mask & h.off) === 0);

/** Everything but being done already, guards and what only one direction asks. */
export function conditions(m: Meaning, a: Act, w: Here, needs: Check): boolean {
  if (!needs(w) || !a.cleared.every((c) => c(w)) || bannedEverywhere(m, a.bit, w.states)) return false;
  if (!holdsAsked(m, a, w.mask).every((h) => h.check(w))) return false;
  if (a.kind !== 'remove') return true;
  const p = a.at[0]!;
  if (!m.crossing(p).every((j) => (j.bit & w.mask) !== 0)) return false;
  const hindered = m.blocks.some((b) => m.isInside(b.at, p) && !m.isInside(b.by, p) && !b.gone(w) && !b.unless(w));
  return !hindered && m.hanging[p]!.every((q) => (w.mask & m.offBits(q, p)) !== 0);
}

const breaksGuard = (m: Meaning, before: Here, after: Here) => m.guards.some((g) => g(after) && !g(before));

export function allowed(m: Meaning, a: Act, w: Here): boolean {
  if ((w.mask & a.bit) !== 0) return false;
  return conditions(m, a, w, a.needs) && !breaksGuard(m, w, { ...w, mask: w.mask | a.bit });
}

export function moved(w: Here, c: Change): Here {
  return { ...w, states: w.states.map((s, i) => (i === c.setup ? 1 << c.state : s)) };
}

/** Minutes of an allowed change, undefined otherwise. For exact worlds only (one state per setup). */
export function allowedChange(m: Meaning, c: Change, w: Here): number | undefined {
  const from = 31 - Math.clz32(w.states[c.setup]!);
  const minutes = m.changeMinutes(c, from);
  if (minutes === undefined || !c.needs(w) || (w.mask & (c.restsOn | c.through)) !== 0) return undefined;
  return breaksGuard(m, w, moved(w, c)) ? undefined : minutes;
}
