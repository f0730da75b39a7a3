/**
 * What is so at one moment, by number: done actions, states, facts; and whether an action is allowed then. The same
 * rules as `RigMeaning`, fast enough to walk a plan of thousands of steps. Plans are executed here before they are
 * shown.
 */
import { parseSet } from '../../domain/rig/rig-meaning.ts';
import type { ActionId, Situation } from '../../domain/rig/rig-types.ts';
import type { Condition, GuardRule, HoldRule, RigModel } from './compile.ts';
import { FALSE, KIND, TRUE } from './need-table.ts';

export class Moment {
  readonly done: Uint8Array;
  readonly states: Int32Array;
  readonly facts: Uint8Array;
  private readonly holdsOf: ReadonlyMap<number, readonly HoldRule[]>;

  constructor(readonly model: RigModel) {
    this.done = new Uint8Array(model.actionCount);
    this.states = Int32Array.from(model.setups, (s) => s.initial);
    this.facts = Uint8Array.from(model.rig.facts, (f) => (f.given ? 1 : 0));
    this.holdsOf = holdsByJoint(model);
  }

  /** The moment after the recorded order, allowed or not. */
  static of(model: RigModel, situation: Situation): Moment {
    const now = new Moment(model);
    for (const f of situation.facts ?? []) now.facts[model.factIndex.get(f) ?? -1] = 1;
    for (const action of [...(situation.made ?? []), ...situation.done]) now.doAction(action);
    for (const [setup, state] of Object.entries(situation.setups ?? {})) now.doAction(`set:${setup}=${state}`);
    return now;
  }

  copy(): Moment {
    const other = Object.create(Moment.prototype) as Moment;
    return Object.assign(other, this, {
      done: this.done.slice(),
      states: this.states.slice(),
      facts: this.facts.slice(),
    });
  }

  doAction(action: ActionId): void {
    const set = readSet(this.model, action);
    if (set) this.states[set.setup] = set.state;
    else {
      const index = this.model.find(action);
      if (index !== null) this.done[index] = 1;
    }
  }

  holds(node: number): boolean {
    const t = this.model.needs;
    if (node === TRUE || node === FALSE) return node === TRUE;
    const subject = t.subject[node]!;
    const kind = t.kind[node]!;
    if (kind === KIND.action) return this.done[subject] === 1;
    if (kind === KIND.fact) return this.facts[subject] === 1;
    const items = t.items[node]!;
    if (kind === KIND.state) return items.includes(this.states[subject]!);
    return kind === KIND.all ? items.every((n) => this.holds(n)) : items.some((n) => this.holds(n));
  }

  isOff(part: number): boolean {
    return this.model.places.chain(part).some((x) => this.done[this.model.removal(x)] === 1);
  }

  /** `part` is off as seen from `place`. */
  isOffFrom(part: number, place: number): boolean {
    const { places } = this.model;
    if (places.isInside(place, part)) return this.isOff(part);
    const isLifted = (x: number): boolean => this.done[this.model.removal(x)] === 1;
    return (
      places.chain(part).some((x) => isLifted(x) && !places.isInside(place, x)) ||
      places.chain(place).some((x) => isLifted(x) && !places.isInside(part, x))
    );
  }

  /** The conditions of an action, with what is still hanging although what it hangs on has been lifted by force. */
  conditionsOf(action: number): readonly Condition[] {
    const left = this.leftHanging(action);
    return left.length === 0 ? this.model.conditions[action]! : [...this.model.conditions[action]!, ...left];
  }

  private leftHanging(action: number): Condition[] {
    const { model } = this;
    const part = model.partOf(action);
    if (part < 0) return [];
    return model.conditions[action]!.flatMap((c): Condition[] => {
      if (!c.folds || this.done[model.removal(c.source)] === 0) return [];
      const still = model.hanging.on(c.source).filter((q) => !this.isOffFrom(q, part));
      return still.map((q) => ({ rule: 'hanging', node: model.off(q, part), source: q }));
    });
  }

  /** Whether one may do it now; unknown actions never. */
  allowed(action: ActionId): boolean {
    const set = readSet(this.model, action);
    if (set) return this.maySet(set.setup, set.state);
    const index = this.model.find(action);
    return index !== null && this.may(index);
  }

  may(action: number): boolean {
    const { model } = this;
    if (this.done[action] === 1) return false;
    if (!model.conditions[action]!.every((c) => this.holds(c.node))) return false;
    if (this.leftHanging(action).length > 0) return false;
    if (model.setups.some((s, i) => s.restsOn[this.states[i]!]!.includes(action))) return false;
    if (action < model.joints) return (this.holdsOf.get(action) ?? []).every((h) => !this.refusesHold(h, action));
    if (model.guards.length === 0 || model.partOf(action) < 0) return true;
    return this.keepsGuards(() => {
      this.done[action] = 1;
      return () => {
        this.done[action] = 0;
      };
    });
  }

  refusesHold(rule: HoldRule, joint: number): boolean {
    if (rule.joints.some((j) => j !== joint && this.done[j] === 0)) return false;
    return !this.isOff(rule.part) && !this.holds(rule.node);
  }

  maySet(setup: number, state: number): boolean {
    const rule = this.model.setups[setup]!;
    const from = this.states[setup]!;
    if (from === state || rule.minutes[from]![state]! < 0) return false;
    if (rule.restsOn[state]!.some((a) => this.done[a] === 1)) return false;
    if (!this.holds(rule.changeNeeds[state]!)) return false;
    return this.keepsGuards(() => {
      this.states[setup] = state;
      return () => {
        this.states[setup] = from;
      };
    });
  }

  isBroken(guard: GuardRule): boolean {
    if (!guard.members.every((m) => this.isOff(m))) return false;
    if (guard.together.some((x) => this.done[this.model.removal(x)] === 1)) return false;
    return !this.holds(guard.unless);
  }

  private keepsGuards(doing: () => () => void): boolean {
    const whole = this.model.guards.filter((g) => !this.isBroken(g));
    const undo = doing();
    const kept = whole.every((g) => !this.isBroken(g));
    undo();
    return kept;
  }
}

/** A change of state by number; null for other actions. */
export function readSet(model: RigModel, action: ActionId): { readonly setup: number; readonly state: number } | null {
  const set = parseSet(action);
  const setup = set ? model.setupIndex.get(set.setup) : undefined;
  if (!set || setup === undefined) return null;
  return { setup, state: model.setups[setup]!.setup.states.indexOf(set.state) };
}

const byJoint = new WeakMap<RigModel, ReadonlyMap<number, readonly HoldRule[]>>();

export function holdsByJoint(model: RigModel): ReadonlyMap<number, readonly HoldRule[]> {
  let map = byJoint.get(model);
  if (!map) {
    const lists = new Map<number, HoldRule[]>();
    for (const h of model.holds) for (const j of h.joints) (lists.get(j) ?? lists.set(j, []).get(j)!).push(h);
    byJoint.set(model, (map = lists));
  }
  return map;
}
