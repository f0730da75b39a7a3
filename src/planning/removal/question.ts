/**
 * One question ("after which the goal holds") about one moment, cut down to what can matter.
 *
 * From the goal backwards: the actions a need names, their needs, and so on; what is done, given or fixed is folded
 * away. Holds, guards and setups join in as soon as they can forbid something that matters. What is left out can
 * neither help nor hinder, so an answer to the small question is an answer to the whole.
 *
 * Bans (a state rests on what an action takes away) become ordinary needs: the setup stands in a state that does not.
 */
import type { ActionId } from '../../domain/rig/rig-types.ts';
import type { RigModel } from '../rig-model/compile.ts';
import type { Moment } from '../rig-model/moment.ts';
import { FALSE, KIND, NeedTable, TRUE } from '../rig-model/need-table.ts';

export interface LocalSetup {
  readonly global: number;
  readonly now: number;
  readonly count: number;
  /** Per state: actions that make it impossible to enter. */
  readonly goneBy: readonly (readonly number[])[];
  readonly goneNow: readonly boolean[];
  readonly needs: readonly number[];
}

export interface Change {
  readonly setup: number;
  readonly from: number;
  readonly to: number;
  readonly minutes: number;
}

export interface LocalHold {
  readonly rule: number;
  /** Joints not yet released. */
  readonly joints: readonly number[];
  readonly node: number;
  /** The part has left the aircraft with an assembly that holds it. */
  readonly off: number;
}

export interface LocalGuard {
  readonly rule: number;
  /** Per member: off the aircraft; and the actions that take it off. */
  readonly offs: readonly number[];
  readonly takers: readonly (readonly number[])[];
  readonly together: number;
  readonly unless: number;
}

export interface QuestionOptions {
  /** Facts that are not given count as actions without minutes: for "what does it wait for". */
  readonly freeFacts?: boolean;
  /** An action, or all changes into a state, that weighs nothing: for "what has to come before it". */
  readonly unweighed?: ActionId;
}

export class Question {
  readonly table = new NeedTable();
  /** Action of the model for each local one; ~fact for a fact that counts as an action. */
  readonly acts: number[] = [];
  /** Everything that must hold now for the action, as one node. */
  readonly condition: number[] = [];
  /** Further needs that must have held at some time before (they follow from holds). */
  readonly before: number[][] = [];
  readonly minutes: number[] = [];
  readonly irreversible: Uint8Array;
  readonly disturbs: readonly (readonly number[])[];
  readonly settings: readonly string[];
  readonly goal: number;
  readonly setups: LocalSetup[] = [];
  readonly changes: readonly Change[];
  readonly holds: LocalHold[] = [];
  readonly guards: LocalGuard[] = [];
  private readonly localAct = new Map<number, number>();
  private readonly localSetup = new Map<number, number>();
  private readonly imported = new Map<number, number>();
  private readonly queue: number[] = [];
  private readonly base: number[][] = [];
  private readonly setupNeeds: number[][] = [];

  constructor(
    readonly model: RigModel,
    readonly now: Moment,
    /** Node of the model that is to hold. */
    readonly wanted: number,
    private readonly options: QuestionOptions = {},
  ) {
    const watch = new RuleWatch(model, now);
    this.goal = this.take(wanted);
    this.settle(watch);
    this.finishSetups();
    this.finishConditions();
    this.changes = this.setups.flatMap((s, i) => this.changesOf(s, i));
    const settings = new Map<string, number>();
    const disturbed = disturbedNow(model, now);
    this.disturbs = this.acts.map((a) =>
      (this.isUnweighed(a) ? [] : disturbedBy(model, a))
        .filter((s) => !disturbed.has(s))
        .map((s) => settings.get(s) ?? settings.set(s, settings.size).get(s)!),
    );
    this.settings = [...settings.keys()];
    this.irreversible = Uint8Array.from(this.acts, (a) => (isIrreversible(model, a) && !this.isUnweighed(a) ? 1 : 0));
  }

  get size(): number {
    return this.acts.length;
  }

  local(action: number): number | undefined {
    return this.localAct.get(action);
  }

  id(act: number): ActionId {
    const a = this.acts[act]!;
    return a < 0 ? `fact:${this.model.rig.facts[~a]!.id}` : this.model.id(a);
  }

  isFact(act: number): boolean {
    return this.acts[act]! < 0;
  }

  private isUnweighed(action: number): boolean {
    return this.options.unweighed !== undefined && action >= 0 && this.model.id(action) === this.options.unweighed;
  }

  changeId(change: Change): ActionId {
    const { setup } = this.model.setups[this.setups[change.setup]!.global]!;
    return `set:${setup.id}=${setup.states[change.to]!}`;
  }

  /** Node of the model to node of the question, with all that follows. */
  private take(node: number): number {
    if (node === TRUE || node === FALSE) return node;
    let local = this.imported.get(node);
    if (local !== undefined) return local;
    const t = this.model.needs;
    const kind = t.kind[node]!;
    const subject = t.subject[node]!;
    if (kind === KIND.action) local = this.now.done[subject] === 1 ? TRUE : this.table.action(this.act(subject));
    else if (kind === KIND.fact) local = this.takeFact(subject);
    else if (kind === KIND.state)
      local = this.table.state(this.setup(subject), t.items[node]!, this.model.setups[subject]!.setup.states.length);
    else {
      const items = t.items[node]!.map((n) => this.take(n));
      local = kind === KIND.all ? this.table.all(items) : this.table.any(items);
    }
    this.imported.set(node, local);
    return local;
  }

  private takeFact(fact: number): number {
    if (this.now.facts[fact] === 1) return TRUE;
    return this.options.freeFacts ? this.table.action(this.act(~fact)) : FALSE;
  }

  private act(action: number): number {
    let local = this.localAct.get(action);
    if (local === undefined) {
      local = this.acts.length;
      this.localAct.set(action, local);
      this.acts.push(action);
      this.minutes.push(action < 0 || this.isUnweighed(action) ? 0 : this.model.minutes(action));
      this.base.push([]);
      this.before.push([]);
      this.queue.push(local);
    }
    return local;
  }

  private setup(global: number): number {
    let local = this.localSetup.get(global);
    if (local === undefined) {
      local = this.localSetup.size;
      this.localSetup.set(global, local);
      this.setupNeeds.push([]);
      this.setupNeeds[local] = this.model.setups[global]!.changeNeeds.map((n) => this.take(n));
    }
    return local;
  }

  /** Until nothing more joins in. */
  private settle(watch: RuleWatch): void {
    for (;;) {
      for (let local = this.queue.pop(); local !== undefined; local = this.queue.pop()) {
        const action = this.acts[local]!;
        if (action < 0) continue;
        this.base[local] = this.conditionsOf(action);
        for (const setup of watch.bannedNow(action)) this.setup(setup);
        for (const h of watch.holdsCompletedBy(action)) this.takeHold(h);
        for (const g of watch.guardsCompletedBy(action)) this.takeGuard(g);
      }
      const late = watch.guardsWaitingForSetups((s) => this.localSetup.has(s));
      if (late.length === 0) return;
      for (const g of late) this.takeGuard(g);
    }
  }

  private conditionsOf(action: number): number[] {
    const { model } = this;
    const operation = model.operationOf(action);
    if (operation >= 0 && model.rig.operations[operation]!.only === 'refit') return [FALSE];
    return this.now.conditionsOf(action).map((c) => this.withoutLate(this.take(c.node), action));
  }

  /** Alternatives that need the action themselves come too late for it. */
  private withoutLate(node: number, action: number): number {
    const { table, model } = this;
    const isLate = (n: number): boolean =>
      table.kind[n] === KIND.action && model.comesTooLate(this.acts[table.subject[n]!]!, action);
    if (isLate(node)) return FALSE;
    const items = table.items[node]!;
    if (table.kind[node] === KIND.all) {
      const kept = items.map((n) => this.withoutLate(n, action));
      return kept.every((n, i) => n === items[i]) ? node : table.all(kept);
    }
    if (table.kind[node] !== KIND.any || !items.some(isLate)) return node;
    return table.any(items.filter((n) => !isLate(n)));
  }

  private takeHold(rule: number): void {
    const { model } = this;
    const h = model.holds[rule]!;
    const holders = model.places.chain(h.part).slice(1);
    this.holds.push({
      rule,
      joints: h.joints.filter((j) => this.now.done[j] === 0).map((j) => this.act(j)),
      node: this.take(h.node),
      off: this.take(model.needs.any(holders.map((x) => model.needs.action(model.removal(x))))),
    });
  }

  private takeGuard(rule: number): void {
    const { model } = this;
    const g = model.guards[rule]!;
    const together = g.together.filter((x) => x !== model.places.root);
    const wanted = model.needs.any(together.map((x) => model.needs.action(model.removal(x))));
    const togetherNode = this.take(wanted);
    const relevant = (m: number): number[] =>
      model.places.chain(m).flatMap((x) => this.localAct.get(model.removal(x)) ?? []);
    this.guards.push({
      rule,
      offs: g.members.map((m) => this.take(model.offAircraft(m))),
      takers: g.members.map((m) => (this.now.isOff(m) ? [] : relevant(m))),
      together: togetherNode,
      unless: this.take(g.unless),
    });
  }

  private finishSetups(): void {
    for (const [global, local] of this.localSetup) {
      const rule = this.model.setups[global]!;
      this.setups[local] = {
        global,
        now: this.now.states[global]!,
        count: rule.setup.states.length,
        goneBy: rule.restsOn.map((list) => list.flatMap((a) => this.localAct.get(a) ?? [])),
        goneNow: rule.restsOn.map((list) => list.some((a) => this.now.done[a] === 1)),
        needs: this.setupNeeds[local]!,
      };
    }
  }

  private finishConditions(): void {
    const bans: number[][] = this.acts.map(() => []);
    this.setups.forEach((s, i) => {
      const resting = new Map<number, number[]>();
      s.goneBy.forEach((acts, state) => {
        for (const a of acts) (resting.get(a) ?? resting.set(a, []).get(a)!).push(state);
      });
      for (const [a, states] of resting) {
        const others = Array.from({ length: s.count }, (_, k) => k).filter((k) => !states.includes(k));
        bans[a]!.push(this.table.state(i, others, s.count));
      }
    });
    this.acts.forEach((_, a) => {
      this.condition.push(this.table.all(this.joined([...this.base[a]!, ...bans[a]!])));
    });
    for (const h of this.holds) {
      const lifted = this.localAct.get(this.model.removal(this.model.holds[h.rule]!.part));
      if (lifted !== undefined && h.joints.length > 0) this.before[lifted]!.push(this.table.any([h.node, h.off]));
    }
  }

  /** Several states asked of one setup at the same time are one need for what they have in common. */
  private joined(nodes: readonly number[]): number[] {
    const perSetup = new Map<number, number>();
    const rest: number[] = [];
    const flat = nodes.flatMap((n) => (this.table.kind[n] === KIND.all ? this.table.items[n]! : [n]));
    for (const n of flat) {
      if (this.table.kind[n] !== KIND.state) {
        rest.push(n);
        continue;
      }
      const setup = this.table.subject[n]!;
      const other = perSetup.get(setup);
      const items = this.table.items[n]!;
      const common = other === undefined ? items : items.filter((s) => this.statesOf(other).includes(s));
      perSetup.set(setup, this.table.state(setup, common, this.setups[setup]!.count));
    }
    return [...rest, ...perSetup.values()];
  }

  private statesOf(node: number): readonly number[] {
    return this.table.items[node]!;
  }

  private changesOf(s: LocalSetup, setup: number): Change[] {
    const { minutes } = this.model.setups[s.global]!;
    return minutes.flatMap((row, from) =>
      row.flatMap((minutes_, to) => {
        if (minutes_ < 0 || from === to) return [];
        const change = { setup, from, to, minutes: minutes_ };
        return [this.changeId(change) === this.options.unweighed ? { ...change, minutes: 0 } : change];
      }),
    );
  }
}

/** Which holds and guards come into play as actions join a question. */
class RuleWatch {
  private readonly holdsLeft: number[];
  private readonly holdsOf = new Map<number, number[]>();
  private readonly guardsLeft: Set<number>[];
  private readonly guardsOf = new Map<number, { readonly guard: number; readonly member: number }[]>();
  private readonly taken = new Set<number>();

  constructor(
    private readonly model: RigModel,
    private readonly now: Moment,
  ) {
    const add = <T>(map: Map<number, T[]>, key: number, value: T): void =>
      void (map.get(key) ?? map.set(key, []).get(key)!).push(value);
    this.holdsLeft = model.holds.map((h, i) => {
      const open = now.isOff(h.part) ? [] : h.joints.filter((j) => now.done[j] === 0);
      for (const j of open) add(this.holdsOf, j, i);
      return open.length;
    });
    this.guardsLeft = model.guards.map((g, i) => {
      if (g.together.some((x) => now.done[model.removal(x)] === 1)) return new Set([-1]);
      const open = g.members.filter((m) => !now.isOff(m));
      for (const m of open)
        for (const x of model.places.chain(m)) add(this.guardsOf, model.removal(x), { guard: i, member: m });
      return new Set(open);
    });
  }

  *bannedNow(action: number): Iterable<number> {
    for (const [i, s] of this.model.setups.entries()) {
      if (s.restsOn[this.now.states[i]!]!.includes(action)) yield i;
    }
  }

  holdsCompletedBy(action: number): number[] {
    return (this.holdsOf.get(action) ?? []).filter((h) => --this.holdsLeft[h]! === 0);
  }

  guardsCompletedBy(action: number): number[] {
    return (this.guardsOf.get(action) ?? []).flatMap(({ guard, member }) => {
      const left = this.guardsLeft[guard]!;
      left.delete(member);
      if (left.size > 0 || this.taken.has(guard)) return [];
      this.taken.add(guard);
      return [guard];
    });
  }

  /** Guards whose parts are all off already: a change of state can still break them. */
  guardsWaitingForSetups(isUsed: (setup: number) => boolean): number[] {
    return this.model.guards.flatMap((g, i) => {
      if (this.taken.has(i) || this.guardsLeft[i]!.size > 0) return [];
      if (!setupsIn(this.model, g.unless).some(isUsed)) return [];
      this.taken.add(i);
      return [i];
    });
  }
}

function setupsIn(model: RigModel, node: number): number[] {
  const t = model.needs;
  if (t.kind[node] === KIND.state) return [t.subject[node]!];
  return t.kind[node] === KIND.all || t.kind[node] === KIND.any
    ? t.items[node]!.flatMap((n) => setupsIn(model, n))
    : [];
}

export function isIrreversible(model: RigModel, action: number): boolean {
  return action >= 0 && action < model.joints && model.rig.attachments[action]!.loss === 'irreversible';
}

export function disturbedBy(model: RigModel, action: number): readonly string[] {
  return action >= 0 && action < model.joints ? (model.rig.attachments[action]!.disturbs ?? []) : [];
}

export function disturbedNow(model: RigModel, now: Moment): Set<string> {
  const out = new Set<string>();
  model.rig.attachments.forEach((_, j) => {
    if (now.done[j] === 1) for (const s of disturbedBy(model, j)) out.add(s);
  });
  return out;
}
