/**
 * From a checked rig to numbers: every action with the needs that its rules put together, seen from the right places.
 *
 * Actions are numbered: releases (as in `rig.attachments`), removals (one per part, the root's can never be done),
 * operations. Changes of setups stand apart, since only they can be undone. The rules are those of `rig-meaning.ts`,
 * against which this file is tested; here each is turned once into AND and OR over actions:
 *   off:p seen from x = one of the assemblies that hold one of the two and not the other has been lifted.
 * Independent of the situation, so one model serves every question about a rig.
 */
import { own } from '../../domain/rig/own.ts';
import { changeMinutes, clear } from '../../domain/rig/rig-meaning.ts';
import type { ActionId, Need, Rig, Setup } from '../../domain/rig/rig-types.ts';
import { Hanging } from './hanging.ts';
import { FALSE, NeedTable, TRUE } from './need-table.ts';
import { Places } from './places.ts';

export type ConditionRule = 'attachment' | 'block' | 'hanging' | 'part' | 'hazard';

export interface Condition {
  readonly rule: ConditionRule;
  readonly node: number;
  /** Joint, block, hanging part or hazard that the rule speaks of; -1 for the needs of the thing itself. */
  readonly source: number;
  /** Hanging: stands also for all that hangs on the source, which is lifted before it (`hangingDirectly`). */
  readonly folds?: true;
}

/** Before the last of `joints` is released while `part` is on the aircraft, `node` must hold. */
export interface HoldRule {
  readonly part: number;
  readonly of: number;
  readonly node: number;
  readonly joints: readonly number[];
}

export interface GuardRule {
  readonly members: readonly number[];
  /** Assemblies that hold all members. */
  readonly together: readonly number[];
  readonly unless: number;
}

export interface SetupRule {
  readonly setup: Setup;
  readonly initial: number;
  /** minutes[from][to], -1 where the pair cannot be changed. */
  readonly minutes: readonly (readonly number[])[];
  /** Per state: actions that take away what the state rests on. */
  readonly restsOn: readonly (readonly number[])[];
  readonly changeNeeds: readonly number[];
}

export class RigModel {
  readonly places: Places;
  readonly hanging: Hanging;
  readonly needs = new NeedTable();
  readonly joints: number;
  readonly parts: number;
  readonly actionCount: number;
  /** Of what hangs on a part only the nearest; `Moment.conditionsOf` adds what a forced step left hanging. */
  readonly conditions: readonly (readonly Condition[])[];
  readonly holds: readonly HoldRule[];
  readonly guards: readonly GuardRule[];
  readonly setups: readonly SetupRule[];
  readonly setupIndex: ReadonlyMap<string, number>;
  readonly factIndex: ReadonlyMap<string, number>;
  private readonly jointIndex: ReadonlyMap<string, number>;
  private readonly operationIndex: ReadonlyMap<string, number>;
  private readonly ends: readonly (readonly number[])[];
  private readonly crossings: readonly (readonly number[])[];
  private readonly seen = new Map<number, number>();

  constructor(readonly rig: Rig) {
    this.places = new Places(rig);
    this.joints = rig.attachments.length;
    this.parts = this.places.ids.length;
    this.actionCount = this.joints + this.parts + rig.operations.length;
    this.jointIndex = new Map(rig.attachments.map((a, i) => [a.id, i]));
    this.operationIndex = new Map(rig.operations.map((o, i) => [o.id, i]));
    this.factIndex = new Map(rig.facts.map((f, i) => [f.id, i]));
    this.setupIndex = new Map(rig.setups.map((s, i) => [s.id, i]));
    this.ends = rig.attachments.map((a) => [...new Set(a.joins.map((e) => this.places.of(e)))]);
    this.hanging = new Hanging(this.places, this.ends);
    this.crossings = this.crossingJoints();
    this.conditions = this.allConditions();
    this.holds = this.holdRules();
    this.guards = rig.guards.map((g) => this.guardRule(g.notTogether, g.unless));
    this.setups = rig.setups.map((s) => this.setupRule(s));
  }

  removal(part: number): number {
    return this.joints + part;
  }

  /** The part that the action lifts, or -1. */
  partOf(action: number): number {
    return action >= this.joints && action < this.joints + this.parts ? action - this.joints : -1;
  }

  operationOf(action: number): number {
    return action - this.joints - this.parts;
  }

  id(action: number): ActionId {
    if (action < this.joints) return this.rig.attachments[action]!.id;
    const part = this.partOf(action);
    return part >= 0 ? `remove:${this.places.ids[part]!}` : this.rig.operations[this.operationOf(action)]!.id;
  }

  /** Number of a release, removal or operation; null for anything else. */
  find(action: ActionId): number | null {
    if (action.startsWith('remove:')) {
      const part = this.places.index.get(action.slice(7));
      return part === undefined ? null : this.removal(part);
    }
    const joint = this.jointIndex.get(action);
    if (joint !== undefined) return joint;
    const operation = this.operationIndex.get(action);
    return operation === undefined ? null : this.joints + this.parts + operation;
  }

  minutes(action: number): number {
    if (action < this.joints) return this.rig.attachments[action]!.minutes ?? 0;
    const part = this.partOf(action);
    if (part >= 0) return this.rig.parts[part]?.minutes ?? 0;
    return this.rig.operations[this.operationOf(action)]!.minutes ?? 0;
  }

  joins(joint: number): readonly number[] {
    return this.ends[joint]!;
  }

  /** Whether `alternative` can only be done after `action`: it is the same, or lifts one end of the joint from the other. */
  comesTooLate(alternative: number, action: number): boolean {
    if (alternative === action) return true;
    const part = this.partOf(alternative);
    if (part < 0 || action < 0 || action >= this.joints) return false;
    const ends = this.ends[action]!;
    return ends.some((e) => this.places.isInside(e, part)) && ends.some((e) => !this.places.isInside(e, part));
  }

  /** Joints with an end inside the part and an end not inside it. */
  crossing(part: number): readonly number[] {
    return this.crossings[part]!;
  }

  /** Crossing joints with an outer end that reaches the root without the part. */
  carrying(part: number): readonly number[] {
    const hung = new Set(this.hanging.on(part));
    const { places, hanging } = this;
    return this.crossing(part).filter((j) =>
      this.ends[j]!.some((e) => !places.isInside(e, part) && hanging.reached[e] === 1 && !hung.has(e)),
    );
  }

  /** A need as seen from a place; from a joint, from one of its ends. */
  need(need: Need | undefined, places: readonly number[]): number {
    if (need === undefined) return TRUE;
    const t = this.needs;
    if ('all' in need) return t.all(need.all.map((n) => this.need(n, places)));
    if ('any' in need) return t.any(need.any.map((n) => this.need(n, places)));
    if ('released' in need) return t.action(this.known(need.released));
    if ('done' in need) return t.action(this.known(need.done));
    if ('apart' in need) return this.lifted(this.places.of(need.apart));
    if ('fact' in need) return t.fact(this.factIndex.get(need.fact) ?? -1);
    if ('setup' in need) return this.stands(need.setup, need.in);
    const part = this.places.of(need.off);
    const outside = places.filter((p) => !this.places.isInside(p, part));
    return t.any((outside.length > 0 ? outside : places).map((p) => this.off(part, p)));
  }

  /** Off the aircraft. */
  offAircraft(part: number): number {
    return this.needs.any(this.places.chain(part).map((x) => this.lifted(x)));
  }

  /** `part` is off as seen from `place`. */
  off(part: number, place: number): number {
    if (this.places.isInside(place, part)) return this.offAircraft(part);
    const key = part * this.parts + place;
    let node = this.seen.get(key);
    if (node === undefined)
      this.seen.set(key, (node = this.needs.any(this.places.between(part, place).map((x) => this.lifted(x)))));
    return node;
  }

  private lifted(part: number): number {
    return part === this.places.root ? FALSE : this.needs.action(this.removal(part));
  }

  private stands(setup: string, states: readonly string[]): number {
    const index = this.setupIndex.get(setup) ?? -1;
    const all = this.rig.setups[index]?.states ?? [];
    return this.needs.state(
      index,
      states.map((s) => all.indexOf(s)).filter((s) => s >= 0),
      all.length,
    );
  }

  private known(id: string): number {
    const action = this.find(id);
    if (action === null) throw new Error(`internal: action ${id} is not in the checked rig; report it`);
    return action;
  }

  private crossingJoints(): number[][] {
    const lists: number[][] = Array.from({ length: this.parts }, () => []);
    this.ends.forEach((ends, j) => {
      for (const e of ends) {
        for (const x of this.places.chain(e)) {
          const list = lists[x]!;
          if (list.at(-1) !== j && ends.some((o) => !this.places.isInside(o, x))) list.push(j);
        }
      }
    });
    return lists;
  }

  private allConditions(): Condition[][] {
    const { rig, places, needs } = this;
    const lists: Condition[][] = Array.from({ length: this.actionCount }, () => []);
    const push = (action: number, rule: ConditionRule, node: number, source: number): void => {
      if (node !== TRUE) lists[action]!.push({ rule, node, source });
    };
    for (let p = 0; p < this.parts; p++) {
      const at = this.removal(p);
      if (p === places.root) {
        push(at, 'part', FALSE, -1);
        continue;
      }
      for (const j of this.crossings[p]!) push(at, 'attachment', needs.action(j), j);
      for (const { source, folds } of this.hangingDirectly(p)) {
        const node = this.off(source, p);
        lists[at]!.push({ rule: 'hanging', node, source, ...(folds && { folds }) });
      }
      push(at, 'part', this.need(rig.parts[p]?.needs, [p]), -1);
    }
    rig.blocks.forEach((b, i) => {
      const part = places.of(b.part);
      const by = places.of(b.by);
      const node = this.need(clear(b.by, b.unless), [part]);
      for (const x of places.chain(part)) {
        if (x !== places.root && !places.isInside(by, x)) push(this.removal(x), 'block', node, i);
      }
    });
    rig.attachments.forEach((a, j) => {
      push(j, 'part', this.need(a.needs, this.ends[j]!), -1);
      a.hazards?.forEach((h, k) => push(j, 'hazard', this.need(h.clearedBy, this.ends[j]!), k));
    });
    rig.operations.forEach((o, i) => {
      const at = this.joints + this.parts + i;
      const seenFrom = [o.on === undefined ? places.root : places.of(o.on)];
      push(at, 'part', this.need(o.needs, seenFrom), -1);
      o.hazards?.forEach((h, k) => push(at, 'hazard', this.need(h.clearedBy, seenFrom), k));
    });
    return lists;
  }

  /**
   * What hangs on a part, less what hangs on another of these. Single parts of one assembly see the same things as off,
   * so when the nearer one has been lifted by the rules, what hangs on it is off for the further one too. A chain of
   * parts is so as many conditions as links, not the square.
   */
  private hangingDirectly(p: number): { readonly source: number; readonly folds?: true }[] {
    const { places, hanging } = this;
    const isSingle = (x: number): boolean => places.inner[x]!.length === 0;
    const behind = new Set<number>();
    const out: { source: number; folds?: true }[] = [];
    for (const q of hanging.on(p)) {
      if (behind.has(q)) continue;
      const isAlike = isSingle(p) && isSingle(q) && places.within[p] === places.within[q];
      const more = isAlike ? hanging.on(q) : [];
      for (const r of more) behind.add(r);
      out.push(more.length > 0 ? { source: q, folds: true } : { source: q });
    }
    return out;
  }

  /** Only parts that have a hold, or sit in an assembly that has one, can be under a rule. */
  private holdRules(): HoldRule[] {
    const { rig, places } = this;
    const rules: HoldRule[] = [];
    const hasHold = (p: number): boolean => rig.parts[p]?.hold !== undefined;
    for (let p = 0; p < this.parts; p++) {
      const chain = places.chain(p);
      if (p === places.root || !chain.some(hasHold)) continue;
      const joints = this.carrying(p);
      if (joints.length === 0) continue;
      const holders = chain.slice(1).filter((q) => {
        const crossing = new Set(this.crossings[q]!);
        return joints.every((j) => crossing.has(j));
      });
      const of = holders.at(-1) ?? p;
      if (hasHold(of)) rules.push({ part: p, of, node: this.need(rig.parts[of]!.hold, [of]), joints });
    }
    return rules;
  }

  private guardRule(notTogether: readonly string[], unless: Need | undefined): GuardRule {
    const members = [...new Set(notTogether)].map((p) => this.places.of(p));
    const together = this.places.chain(members[0]!).filter((x) => members.every((m) => this.places.isInside(m, x)));
    return { members, together, unless: this.need(unless ?? { any: [] }, [this.places.root]) };
  }

  private setupRule(setup: Setup): SetupRule {
    const restsOn = setup.states.map((state) => {
      const actions = (own(setup.points, state) ?? []).flatMap((pt) => [
        ...this.places.chain(this.places.of(pt.on)).map((x) => this.removal(x)),
        ...(pt.through ?? []).map((j) => this.known(j)),
      ]);
      return [...new Set(actions)];
    });
    return {
      setup,
      initial: setup.states.indexOf(setup.initial),
      minutes: setup.states.map((from) => setup.states.map((to) => changeMinutes(setup, from, to) ?? -1)),
      restsOn,
      changeNeeds: setup.states.map((s) => this.need(own(setup.changeNeeds, s), [this.places.root])),
    };
  }
}

export function compile(rig: Rig): RigModel {
  return new RigModel(rig);
}
