/**
 * `fits` once more, slowly and by the words: over `RigMeaning` and `RigStructure` of the domain, with sets of names, one
 * closure for each question and every order tried. The oracle of the property tests; shares no code with the planner.
 */
import {
  changeMinutes,
  clear,
  parseRemove,
  parseSet,
  RigMeaning,
  type World,
} from '../../../domain/rig/rig-meaning.ts';
import type { ActionId, Look, Need, Rig, Situation } from '../../../domain/rig/rig-types.ts';

type Reach = ReadonlyMap<string, ReadonlySet<string>>;
interface Asked {
  readonly need: Need;
  readonly places: readonly string[];
}

export class SlowFits {
  readonly meaning: RigMeaning;
  readonly now: World;
  readonly forced = new Set<ActionId>();
  readonly withdrawn = new Map<ActionId, ReadonlySet<string>>();
  readonly stays = new Set<ActionId>();
  private readonly heldByFact = new Set<string>();

  constructor(
    readonly rig: Rig,
    readonly situation: Situation,
  ) {
    this.meaning = new RigMeaning(rig);
    this.now = this.meaning.now(situation);
    for (const o of rig.operations) if (o.only && this.now.done.has(o.id)) this.stays.add(o.id);
    this.replay();
  }

  private replay(): void {
    const { meaning, situation, rig } = this;
    let w = meaning.start(situation);
    w = { ...w, done: new Set(situation.made ?? []) };
    const everything = new Set(rig.facts.map((f) => f.id));
    const recorded = new Set(situation.done.map((a) => parseSet(a)?.setup));
    const told = Object.entries(situation.setups ?? {}).filter(([s]) => !recorded.has(s));
    for (const a of situation.done) {
      if (w.done.has(a)) continue;
      if (!parseSet(a)) {
        const stands = [w, { ...w, states: { ...w.states, ...Object.fromEntries(told) } }];
        if (!stands.some((x) => meaning.allowed(a, x))) {
          const rests = stands.find((x) => meaning.allowed(a, { ...x, facts: everything }));
          if (rests) {
            const off = this.asks(a).filter((c) => !meaning.holds(c.need, c.places, rests));
            this.withdrawn.set(a, new Set(off.map(keyOf)));
            this.holdsByFact(a, rests);
          } else this.forced.add(a);
        }
      }
      w = meaning.after(w, a);
    }
  }

  private holdsByFact(joint: ActionId, w: World): void {
    const s = this.meaning.structure;
    for (const p of s.parts.keys()) {
      const rule = p === this.rig.root ? null : s.holdRule(p);
      const carrying = rule ? s.carrying(p).map((j) => j.id) : [];
      if (!rule || !carrying.includes(joint) || this.meaning.isOffAircraft(p, w)) continue;
      const last = carrying.every((j) => j === joint || w.done.has(j));
      if (last && !this.meaning.holds(rule.need, [rule.of], w)) this.heldByFact.add(p);
    }
  }

  /** Conditions of the strip, without the hold, guards and bans. */
  private asks(a: ActionId): readonly Asked[] {
    const { rig } = this;
    const s = this.meaning.structure;
    const split = (need: Need | undefined, places: readonly string[]): Asked[] =>
      need === undefined ? [] : 'all' in need ? need.all.flatMap((n) => split(n, places)) : [{ need, places }];
    const p = parseRemove(a);
    if (p !== null) {
      const blocks = rig.blocks.filter((b) => s.isInside(b.part, p) && !s.isInside(b.by, p));
      return [
        ...s.crossing(p).map((j) => ({ need: { released: j.id }, places: [p] })),
        ...blocks.map((b) => ({ need: clear(b.by, b.unless), places: [b.part] })),
        ...s.hanging(p).map((q) => ({ need: { off: q }, places: [p] })),
        ...split(s.parts.get(p)?.needs, [p]),
      ];
    }
    const joint = s.attachments.get(a);
    if (joint) {
      return [joint.needs, ...(joint.hazards ?? []).map((h) => h.clearedBy)].flatMap((n) => split(n, joint.joins));
    }
    const o = rig.operations.find((x) => x.id === a)!;
    return [o.needs, ...(o.hazards ?? []).map((h) => h.clearedBy)].flatMap((n) => split(n, [o.on ?? rig.root]));
  }

  reach(w: World): Reach {
    const seen = new Map([[JSON.stringify(w.states), w]]);
    for (const at of seen.values()) {
      for (const s of this.rig.setups) {
        for (const state of s.states) {
          const from = at.states[s.id]!;
          if (changeMinutes(s, from, state) === null) continue;
          const hindered = this.meaning.hindrances(`set:${s.id}=${state}`, at).some((h) => h.rule !== 'guard');
          const then = this.meaning.after(at, `set:${s.id}=${state}`);
          if (!hindered) seen.set(JSON.stringify(then.states), seen.get(JSON.stringify(then.states)) ?? then);
        }
      }
    }
    return new Map(this.rig.setups.map((s) => [s.id, new Set([...seen.values()].map((x) => x.states[s.id]!))]));
  }

  private relaxed(need: Need, reach: Reach): Need {
    if ('all' in need) return { all: need.all.map((n) => this.relaxed(n, reach)) };
    if ('any' in need) return { any: need.any.map((n) => this.relaxed(n, reach)) };
    if ('setup' in need) return need.in.some((s) => reach.get(need.setup)?.has(s)) ? { all: [] } : { any: [] };
    return need;
  }

  holdsIn(need: Need, places: readonly string[], done: ReadonlySet<ActionId>, reach: Reach): boolean {
    return this.meaning.holds(this.relaxed(need, reach), places, { ...this.now, done });
  }

  /** Is the action allowed when these are done, in the sense of the closure? */
  opens(a: ActionId, done: ReadonlySet<ActionId>, reach: Reach): boolean {
    if (this.forced.has(a) || this.stays.has(a) || this.isRefitOnly(a)) return true;
    const settled = this.withdrawn.get(a);
    if (!this.asks(a).every((c) => settled?.has(keyOf(c)) || this.holdsIn(c.need, c.places, done, reach))) return false;
    const p = parseRemove(a);
    const s = this.meaning.structure;
    for (const setup of this.rig.setups) {
      const rests = (state: string): boolean =>
        (setup.points?.[state] ?? []).some((pt) => (p === null ? pt.through?.includes(a) : s.isInside(pt.on, p)));
      if ([...reach.get(setup.id)!].every(rests)) return false;
    }
    const rule = p === null ? null : s.holdRule(p);
    if (p === null || rule === null) return true;
    if (s.carrying(p).some((j) => this.forced.has(j.id)) || this.heldByFact.has(p)) return true;
    return (
      this.holdsIn(rule.need, [rule.of], done, reach) ||
      s
        .chain(p)
        .slice(1)
        .some((q) => done.has(`remove:${q}`))
    );
  }

  closure(from: ReadonlySet<ActionId>, reach: Reach): ReadonlySet<ActionId> {
    const done = new Set<ActionId>();
    for (let grew = true; grew; ) {
      grew = false;
      for (const a of from) {
        if (done.has(a) || !this.opens(a, done, reach)) continue;
        done.add(a);
        grew = true;
      }
    }
    return done;
  }

  without(w: World, x: ActionId): World {
    return { ...w, done: new Set([...w.done].filter((a) => a !== x)) };
  }

  isRefitOnly(x: ActionId): boolean {
    return this.rig.operations.some((o) => o.id === x && o.only === 'refit');
  }

  step(w: World, x: ActionId): World {
    return this.isRefitOnly(x) || parseSet(x) ? this.meaning.after(w, x) : this.without(w, x);
  }

  /** States stand on what is there, and no guard is newly broken. */
  private stands(before: World, after: World): boolean {
    const { meaning, rig } = this;
    const fallen = rig.setups.some((s) =>
      (s.points?.[after.states[s.id]!] ?? []).some(
        (pt) => meaning.isOffAircraft(pt.on, after) || pt.through?.some((j) => after.done.has(j)),
      ),
    );
    return !fallen && !rig.guards.some((g) => !meaning.isBroken(g, before) && meaning.isBroken(g, after));
  }

  fits(x: ActionId, w: World): boolean {
    const then = this.step(w, x);
    if (this.isRefitOnly(x)) {
      const free = this.meaning.hindrances(x, w).every((h) => h.rule === 'guard');
      return !w.done.has(x) && free && this.stands(w, then);
    }
    if (!w.done.has(x) || this.stays.has(x)) return false;
    const s = this.meaning.structure;
    const joint = s.attachments.get(x);
    const parted =
      joint && [...s.parts.keys()].some((p) => s.crossing(p).includes(joint) && this.meaning.isLifted(p, then));
    const free = this.forced.has(x) || this.meaning.hindrances(x, then, true).every((h) => h.rule === 'guard');
    return free && !parted && this.stands(w, then);
  }

  locksOut(x: ActionId, w: World): { locksOut: string[]; roots: string[] } {
    const then = this.step(w, x);
    const before = this.closure(w.done, this.reach(w));
    const after = this.closure(then.done, this.reach(then));
    const lost = this.lostFor(w, then);
    const locked = [...then.done].filter((a) => before.has(a) && (!after.has(a) || lost.has(a))).sort();
    const withX = parseSet(x) ? after : new Set([...after, x]);
    const reach = this.reach(w);
    return { locksOut: locked, roots: locked.filter((a) => this.opens(a, withX, reach)) };
  }

  /** Released joints whose hold or refit condition could still come to hold before the step, and never after it. */
  private lostFor(w: World, then: World): ReadonlySet<string> {
    const made = this.rig.operations.filter((o) => o.only === 'refit').map((o) => o.id);
    const can = (need: Need, places: readonly string[], x: World): boolean =>
      this.holdsIn(need, places, new Set([...x.done, ...made]), this.reach(x));
    const lost = new Set<string>();
    const s = this.meaning.structure;
    const waits = (ids: readonly string[]): boolean => ids.every((j) => then.done.has(j) && !this.forced.has(j));
    for (const p of s.parts.keys()) {
      const rule = p === this.rig.root ? null : s.holdRule(p);
      const ids = rule ? s.carrying(p).map((j) => j.id) : [];
      if (!rule || !waits(ids) || this.heldByFact.has(p) || this.meaning.isOffAircraft(p, then)) continue;
      if (can(rule.need, [rule.of], w) && !can(rule.need, [rule.of], then)) for (const j of ids) lost.add(j);
    }
    for (const a of this.rig.attachments) {
      if (a.refit === undefined || !waits([a.id])) continue;
      if (can(a.refit, a.joins, w) && !can(a.refit, a.joins, then)) lost.add(a.id);
    }
    return lost;
  }

  isSeen(l: Look, w: World): boolean {
    return this.meaning.holds(l.visible, [l.on ?? this.rig.root], w);
  }

  canSign(l: Look, w: World): boolean {
    const joints = l.whenFitted ?? [];
    if (joints.every((j) => !w.done.has(j)) && this.isSeen(l, w)) return true;
    const reach = this.reach(w);
    const rest = this.closure(new Set([...w.done].filter((a) => !joints.includes(a))), reach);
    return this.holdsIn(l.visible ?? { all: [] }, [l.on ?? this.rig.root], rest, reach);
  }

  hides(x: ActionId, w: World, open: readonly Look[] = this.rig.looks.filter((l) => this.isOpen(l))): string[] {
    const then = this.step(w, x);
    const gone = open.filter(
      (l) =>
        (this.isSeen(l, w) && !this.isSeen(l, then)) ||
        ((l.whenFitted ?? []).some((j) => w.done.has(j)) && this.canSign(l, w) && !this.canSign(l, then)),
    );
    return gone.map((l) => l.id).sort();
  }

  isOpen(l: Look): boolean {
    return !this.situation.signed?.includes(l.id) && this.isSeen(l, this.now);
  }

  next(): { action: string; fits: true; locksOut: string[]; roots: string[]; hides: string[] }[] {
    const every = [...this.now.done, ...this.rig.operations.filter((o) => o.only === 'refit').map((o) => o.id)];
    return [...new Set(every)]
      .filter((x) => this.fits(x, this.now))
      .sort()
      .map((action) => ({
        action,
        fits: true as const,
        ...this.locksOut(action, this.now),
        hides: this.hides(action, this.now),
      }));
  }

  /** Looks that wait for their joints and are neither signed now nor can be at once. */
  waiting(w: World, waits: readonly Look[]): readonly Look[] {
    return waits.filter((l) => !((l.whenFitted ?? []).every((j) => !w.done.has(j)) && this.isSeen(l, w)));
  }

  mayStep(x: ActionId, w: World, waits: readonly Look[]): boolean {
    if (parseSet(x)) return this.meaning.hindrances(x, w).length === 0 && this.locksOut(x, w).locksOut.length === 0;
    if (!this.fits(x, w)) return false;
    return this.locksOut(x, w).locksOut.length === 0 && (this.isRefitOnly(x) || this.hides(x, w, waits).length === 0);
  }

  /** Why the order is not one, or null. */
  faultOf(order: readonly ActionId[]): string | null {
    let w = this.now;
    let waits = this.waiting(
      w,
      this.rig.looks.filter((l) => this.isOpen(l)),
    );
    for (const x of order) {
      if (!this.mayStep(x, w, waits)) return `${x} may not be taken`;
      w = this.step(w, x);
      waits = this.waiting(w, waits);
    }
    const left = [...w.done].filter((a) => !this.stays.has(a) && !this.isRefitOnly(a));
    return left.length > 0 ? `left: ${left}` : waits.length > 0 ? `unseen: ${waits.map((l) => l.id)}` : null;
  }

  /** Is there any order at all? Every one is tried. */
  hasOrder(): boolean {
    const dead = new Set<string>();
    const sets = this.rig.setups.flatMap((s) => s.states.map((state) => `set:${s.id}=${state}`));
    const refits = this.rig.operations.filter((o) => o.only === 'refit').map((o) => o.id);
    const from = (w: World, waits: readonly Look[]): boolean => {
      const left = [...w.done].filter((a) => !this.stays.has(a) && !this.isRefitOnly(a));
      if (left.length === 0 && waits.length === 0) return true;
      const key = `${[...w.done].sort()}|${JSON.stringify(w.states)}|${waits.map((l) => l.id)}`;
      if (dead.has(key)) return false;
      dead.add(key);
      return [...left, ...refits.filter((r) => !w.done.has(r)), ...sets].some((x) => {
        if (!this.mayStep(x, w, waits)) return false;
        const then = this.step(w, x);
        return from(then, this.waiting(then, waits));
      });
    };
    return from(
      this.now,
      this.waiting(
        this.now,
        this.rig.looks.filter((l) => this.isOpen(l)),
      ),
    );
  }
}

function keyOf(c: Asked): string {
  return JSON.stringify([c.need, c.places]);
}
