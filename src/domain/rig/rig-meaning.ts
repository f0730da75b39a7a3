/**
 * The one executable meaning of the rig: what may be done now, and why not. Slow and plain; every faster way of asking
 * the same (planner, refit, browser) is tested against this file. `World` is what is so at one moment.
 *
 * Not chosen: giving every rule its own class. Read from top to bottom this is the rule book.
 */
import { own } from './own.ts';
import { RigStructure } from './rig-structure.ts';
import type { ActionId, Attachment, Guard, Hazard, Need, Operation, Rig, Setup, Situation } from './rig-types.ts';

export interface World {
  readonly done: ReadonlySet<ActionId>;
  readonly states: Readonly<Record<string, string>>;
  readonly facts: ReadonlySet<string>;
}

export type UnmetRule = 'attachment' | 'block' | 'hanging' | 'part' | 'guard' | 'hold' | 'hazard' | 'setup' | 'never';

export interface Hindrance {
  readonly rule: UnmetRule;
  /** What would have to hold. */
  readonly need: Need;
  /** From where it is seen. */
  readonly places: readonly string[];
  readonly harm?: string;
}

export class RigMeaning {
  readonly structure: RigStructure;
  private readonly operations: ReadonlyMap<string, Operation>;
  private readonly setups: ReadonlyMap<string, Setup>;

  constructor(readonly rig: Rig) {
    this.structure = new RigStructure(rig);
    this.operations = new Map(rig.operations.map((o) => [o.id, o]));
    this.setups = new Map(rig.setups.map((s) => [s.id, s]));
  }

  /** The complete aircraft, with the facts of the file and of the situation. */
  start(situation: Situation = { done: [] }): World {
    const given = this.rig.facts.filter((f) => f.given).map((f) => f.id);
    const states = Object.fromEntries(this.rig.setups.map((s) => [s.id, s.initial]));
    return { done: new Set(), states, facts: new Set([...given, ...(situation.facts ?? [])]) };
  }

  /** The world after the recorded order, allowed or not; `setups` of the situation are what is so at the end. */
  now(situation: Situation): World {
    const start = this.start(situation);
    let states = start.states;
    const done = new Set<ActionId>(situation.made ?? []);
    for (const action of situation.done) {
      const set = parseSet(action);
      if (set) states = { ...states, [set.setup]: set.state };
      else done.add(action);
    }
    return { ...start, done, states: { ...states, ...situation.setups } };
  }

  after(world: World, action: ActionId): World {
    const set = parseSet(action);
    if (set) return { ...world, states: { ...world.states, [set.setup]: set.state } };
    return { ...world, done: new Set([...world.done, action]) };
  }

  isLifted(part: string, w: World): boolean {
    return w.done.has(`remove:${part}`);
  }

  /** `part` is off as seen from the root: it or an assembly that holds it has been lifted. */
  isOffAircraft(part: string, w: World): boolean {
    return this.structure.chain(part).some((x) => this.isLifted(x, w));
  }

  /** Some lifted assembly holds one of the two and not the other; from inside the part: it is off the aircraft. */
  isOff(part: string, place: string, w: World): boolean {
    if (this.structure.isInside(place, part)) return this.isOffAircraft(part, w);
    const a = this.structure.chain(part);
    const b = this.structure.chain(place);
    return [...a, ...b].some((x) => a.includes(x) !== b.includes(x) && this.isLifted(x, w));
  }

  holds(need: Need | undefined, places: readonly string[], w: World): boolean {
    if (need === undefined) return true;
    if ('all' in need) return need.all.every((n) => this.holds(n, places, w));
    if ('any' in need) return need.any.some((n) => this.holds(n, places, w));
    if ('released' in need) return w.done.has(need.released);
    if ('apart' in need) return this.isLifted(need.apart, w);
    if ('done' in need) return w.done.has(need.done);
    if ('fact' in need) return w.facts.has(need.fact);
    if ('setup' in need) return need.in.includes(w.states[need.setup] ?? '');
    const outside = places.filter((p) => !this.structure.isInside(p, need.off));
    return (outside.length > 0 ? outside : places).some((p) => this.isOff(need.off, p, w));
  }

  /** Every rule that forbids the action now; empty when it may be done. `refit` reads the refit conditions of joints. */
  hindrances(action: ActionId, w: World, refit = false): readonly Hindrance[] {
    const set = parseSet(action);
    if (set) return [...this.ofSet(set.setup, set.state, w), ...this.brokenGuards(action, w)];
    const removed = parseRemove(action);
    const own = removed !== null ? this.ofRemoval(removed, w) : this.ofJointOrOperation(action, w, refit);
    return [...own, ...this.bans(action, w), ...this.brokenGuards(action, w)];
  }

  allowed(action: ActionId, w: World): boolean {
    return !w.done.has(action) && this.hindrances(action, w).length === 0;
  }

  private unmet(
    rule: UnmetRule,
    need: Need | undefined,
    places: readonly string[],
    w: World,
    harm?: string,
  ): Hindrance[] {
    if (need === undefined || this.holds(need, places, w)) return [];
    return [harm === undefined ? { rule, need, places } : { rule, need, places, harm }];
  }

  private ofRemoval(p: string, w: World): Hindrance[] {
    if (p === this.rig.root) return [{ rule: 'never', need: { any: [] }, places: [p] }];
    const s = this.structure;
    const blocks = this.rig.blocks.filter((b) => s.isInside(b.part, p) && !s.isInside(b.by, p));
    return [
      ...s.crossing(p).flatMap((a) => this.unmet('attachment', { released: a.id }, [p], w)),
      ...blocks.flatMap((b) => this.unmet('block', clear(b.by, b.unless), [b.part], w, b.harm)),
      ...s.hanging(p).flatMap((q) => this.unmet('hanging', { off: q }, [p], w)),
      ...this.unmet('part', s.parts.get(p)?.needs, [p], w),
    ];
  }

  private ofJointOrOperation(id: string, w: World, refit: boolean): Hindrance[] {
    const joint = this.structure.attachments.get(id);
    if (joint) {
      const needs = refit ? (joint.refit ?? joint.needs) : joint.needs;
      return [
        ...this.unmet('part', needs, joint.joins, w),
        ...this.hazards(joint.hazards, joint.joins, w),
        ...this.holdsOf(joint, w),
      ];
    }
    const operation = this.operations.get(id);
    if (!operation) return [{ rule: 'never', need: { any: [] }, places: [this.rig.root] }];
    const places = [operation.on ?? this.rig.root];
    return [...this.unmet('part', operation.needs, places, w), ...this.hazards(operation.hazards, places, w)];
  }

  private hazards(hazards: readonly Hazard[] | undefined, places: readonly string[], w: World): Hindrance[] {
    return (hazards ?? []).flatMap((h) => this.unmet('hazard', h.clearedBy, places, w, h.kind));
  }

  /** Releasing the last joint that carries a part asks for its hold, while the part is still on the aircraft. */
  private holdsOf(joint: Attachment, w: World): Hindrance[] {
    return this.structure.holdsCarriedBy(joint).flatMap(({ part, rule, carrying }) => {
      if (this.isOffAircraft(part, w) || carrying.some((a) => a !== joint && !w.done.has(a.id))) return [];
      return this.unmet('hold', rule.need, [rule.of], w);
    });
  }

  /** What a state rests on may not go while the state is in force. */
  private bans(action: ActionId, w: World): Hindrance[] {
    const removed = parseRemove(action);
    return this.rig.setups.flatMap((s) => {
      const points = own(s.points, w.states[s.id] ?? '') ?? [];
      const rests = points.some((pt) =>
        removed === null ? pt.through?.includes(action) : this.structure.isInside(pt.on, removed),
      );
      const others = s.states.filter((state) => state !== w.states[s.id]);
      return rests ? [{ rule: 'setup' as const, need: { setup: s.id, in: others }, places: [this.rig.root] }] : [];
    });
  }

  private ofSet(id: string, state: string, w: World): Hindrance[] {
    const setup = this.setups.get(id);
    const minutes = setup && changeMinutes(setup, w.states[id] ?? setup.initial, state);
    if (!setup || minutes === null || w.states[id] === state)
      return [{ rule: 'never', need: { any: [] }, places: [this.rig.root] }];
    const gone = (own(setup.points, state) ?? []).flatMap((pt) => [
      ...(this.isOffAircraft(pt.on, w) ? [pt.on] : []),
      ...(pt.through ?? []).filter((j) => w.done.has(j)),
    ]);
    return [
      ...gone.map((): Hindrance => ({ rule: 'never', need: { any: [] }, places: [this.rig.root] })),
      ...this.unmet('setup', own(setup.changeNeeds, state), [this.rig.root], w),
    ];
  }

  isBroken(guard: Guard, w: World): boolean {
    if (!guard.notTogether.every((p) => this.isOffAircraft(p, w))) return false;
    const [first, ...rest] = guard.notTogether;
    const together = this.structure.chain(first ?? '').filter((x) => rest.every((p) => this.structure.isInside(p, x)));
    return !together.some((x) => this.isLifted(x, w)) && !this.holds(guard.unless ?? { any: [] }, [this.rig.root], w);
  }

  private brokenGuards(action: ActionId, w: World): Hindrance[] {
    if (this.rig.guards.length === 0) return [];
    const set = parseSet(action);
    const then = set ? this.after(w, action) : { ...w, done: new OneMore(w.done, action) };
    return this.rig.guards
      .filter((g) => !this.isBroken(g, w) && this.isBroken(g, then))
      .map((g) => ({
        rule: 'guard' as const,
        need: g.unless ?? { any: [] },
        places: [this.rig.root],
        ...(g.harm !== undefined && { harm: g.harm }),
      }));
  }
}

/** `all` and one more, asked but never copied: a record of 1,500 steps asks this at each of them. */
class OneMore extends Set<ActionId> {
  constructor(
    private readonly all: ReadonlySet<ActionId>,
    private readonly more: ActionId,
  ) {
    super();
  }

  override has(action: ActionId): boolean {
    return action === this.more || this.all.has(action);
  }
}

/** `off by`, or what makes it not matter. */
export function clear(by: string, unless: Need | undefined): Need {
  return unless === undefined ? { off: by } : { any: [{ off: by }, unless] };
}

export function parseRemove(action: ActionId): string | null {
  return action.startsWith('remove:') ? action.slice(7) : null;
}

export function parseSet(action: ActionId): { readonly setup: string; readonly state: string } | null {
  const at = action.indexOf('=');
  return action.startsWith('set:') && at > 4 ? { setup: action.slice(4, at), state: action.slice(at + 1) } : null;
}

/** Minutes to change from one state to another; null where the pair cannot be changed. */
export function changeMinutes(setup: Setup, from: string, to: string): number | null {
  if (from === to || !setup.states.includes(to)) return null;
  if (setup.minutes === undefined) return 0;
  return typeof setup.minutes === 'number' ? setup.minutes : (own(setup.minutes, `${from}>${to}`) ?? null);
}
