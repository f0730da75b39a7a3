/**
 * A rig made ready for the refit: actions by number (joints, removals, operations), the conditions of each as nodes of
 * one gate network, and the rules that speak about groups (holds, guards, states). Made once for a rig; the situation is
 * laid over it. Time and room are linear in the rig and in what its rules name.
 *
 * Every condition says in which reading it counts: STRIP (may it be done), REFIT (may it be made again) and CLOSURE (can
 * it ever have been done). They differ in `refit`, and in the hold: to lift p somebody must have released its last
 * joint, so in the closure lifting p asks for p's hold or for p off the aircraft (docs/adr/0008, 6).
 */
import { own } from '../../domain/rig/own.ts';
import type { Guard, Look, Need, Rig, Setup } from '../../domain/rig/rig-types.ts';
import type { UnmetKind } from '../answers.ts';
import { Gates } from './gates.ts';
import { RigIndex } from './rig-index.ts';

export const STRIP = 1;
export const REFIT = 2;
export const CLOSURE = 4;
const EVERY = STRIP | REFIT | CLOSURE;

export interface Condition {
  readonly node: number;
  readonly reading: number;
  readonly kind: UnmetKind;
  readonly need: Need;
}

export interface HoldRule {
  readonly part: number;
  readonly joints: readonly number[];
  readonly need: Need;
  readonly node: number;
  /** The part is off the aircraft. */
  readonly away: number;
}

export interface GuardRule {
  readonly guard: Guard;
  readonly away: readonly number[];
  readonly together: number;
  readonly unless: number;
}

export interface SetupRule {
  readonly setup: Setup;
  /** Per state: nodes that must not hold while it is in force, and what entering it needs. */
  readonly restsOn: readonly (readonly number[])[];
  readonly enter: readonly number[];
}

export interface LookRule {
  readonly look: Look;
  readonly visible: number;
  readonly joints: readonly number[];
}

export type Only = 'strip' | 'refit' | null;

export class RefitModel {
  readonly index: RigIndex;
  readonly ids: string[] = [];
  readonly actionOf = new Map<string, number>();
  readonly joints: number;
  readonly only: Only[] = [];
  readonly refitOnly: readonly number[];
  readonly gates: Gates;
  readonly conditions: (readonly Condition[])[] = [];
  readonly holds: HoldRule[] = [];
  readonly holdsOf = new Map<number, number[]>();
  readonly guards: readonly GuardRule[];
  readonly guardsOf = new Map<number, number[]>();
  readonly setups: readonly SetupRule[];
  readonly looks: readonly LookRule[];
  readonly looksOf = new Map<number, number[]>();
  /** Actions that what can be reached of the states depends on. */
  readonly movesStates: Uint8Array;
  readonly stateMovers: readonly number[];
  readonly factOf = new Map<string, number>();
  readonly setupOf = new Map<string, number>();
  /** Actions in the order of their ids, as lists are printed. */
  readonly sorted: Int32Array;
  private readonly liftOf: Int32Array;

  constructor(readonly rig: Rig) {
    this.index = new RigIndex(rig);
    this.joints = rig.attachments.length;
    this.liftOf = new Int32Array(this.index.partIds.length).fill(-1);
    for (const a of rig.attachments) this.addAction(a.id, null);
    this.index.partIds.forEach((id, p) => {
      if (p !== this.index.root) this.liftOf[p] = this.addAction(`remove:${id}`, null);
    });
    for (const o of rig.operations) this.addAction(o.id, o.only ?? null);
    this.refitOnly = this.only.flatMap((only, a) => (only === 'refit' ? [a] : []));
    rig.facts.forEach((f, i) => this.factOf.set(f.id, i));
    rig.setups.forEach((s, i) => this.setupOf.set(s.id, i));
    this.gates = new Gates(this.ids.length, this.index, {
      action: (id) => this.actionOf.get(id)!,
      lift: (part) => this.lift(part),
      fact: (id) => this.factOf.get(id)!,
      setup: (id) => this.setupOf.get(id)!,
      states: (s) => rig.setups[s]!.states,
    });
    this.setups = rig.setups.map((s) => this.setupRule(s));
    this.makeHolds();
    this.makeConditions();
    this.guards = rig.guards.map((g, i) => this.guardRule(g, i));
    this.looks = rig.looks.map((l, i) => this.lookRule(l, i));
    this.movesStates = new Uint8Array(this.ids.length);
    for (const s of this.setups)
      for (const node of [...s.enter, ...s.restsOn.flat()]) this.eachAction(node, (a) => (this.movesStates[a] = 1));
    this.stateMovers = Array.from(this.movesStates.keys()).filter((a) => this.movesStates[a] === 1);
    this.sorted = Int32Array.from(this.ids.keys()).sort((a, b) => (this.ids[a]! < this.ids[b]! ? -1 : 1));
  }

  get size(): number {
    return this.ids.length;
  }

  lift(part: number): number {
    return this.liftOf[part]!;
  }

  isJoint(action: number): boolean {
    return action < this.joints;
  }

  /** The part a removal lifts, or -1. */
  liftedBy(action: number): number {
    const id = this.ids[action]!;
    return id.startsWith('remove:') ? this.index.part(id.slice(7)) : -1;
  }

  private addAction(id: string, only: Only): number {
    const a = this.ids.length;
    this.actionOf.set(id, a);
    this.ids.push(id);
    this.only.push(only);
    return a;
  }

  /** The actions that a node rests on. */
  eachAction(node: number, visit: (action: number) => void): void {
    for (const n of this.gates.below(node)) if (n < this.ids.length) visit(n);
  }

  private part(id: string): number {
    return this.index.part(id);
  }

  private setupRule(setup: Setup): SetupRule {
    const root = [this.index.root];
    return {
      setup,
      restsOn: setup.states.map((state) =>
        (own(setup.points, state) ?? []).flatMap((pt) => [
          this.gates.offAircraft(this.part(pt.on)),
          ...(pt.through ?? []).map((j) => this.actionOf.get(j)!),
        ]),
      ),
      enter: setup.states.map((state) => {
        const need = own(setup.changeNeeds, state);
        return need === undefined ? this.gates.always : this.gates.need(need, root);
      }),
    };
  }

  private makeHolds(): void {
    const held = this.rig.parts.map((p) => p.hold);
    for (let p = 0; p < this.index.partIds.length; p++) {
      if (p === this.index.root || !this.index.chain(p).some((q) => held[q] !== undefined)) continue;
      const joints = this.index.carrying(p);
      if (joints.length === 0) continue;
      const owner = this.index.holdOwner(p, joints);
      const need = held[owner];
      if (need === undefined) continue;
      const rule = this.holds.length;
      this.holds.push({
        part: p,
        joints,
        need,
        node: this.gates.need(need, [owner]),
        away: this.gates.offAircraft(p),
      });
      for (const j of joints) push(this.holdsOf, j, rule);
    }
  }

  private makeConditions(): void {
    const { rig, gates, index } = this;
    rig.attachments.forEach((a, j) => {
      const list: Condition[] = [];
      const places = index.ends[j]!;
      this.addNeed(list, a.refit === undefined ? EVERY : STRIP | CLOSURE, 'part', a.needs, places);
      this.addNeed(list, REFIT, 'part', a.refit, places);
      for (const h of a.hazards ?? []) this.addNeed(list, EVERY, 'hazard', h.clearedBy, places);
      this.conditions.push(list);
    });
    const blocks = this.blocksOf();
    const holdOf = new Map(this.holds.map((h, rule) => [h.part, rule]));
    index.partIds.forEach((_, p) => {
      if (p === index.root) return;
      const list: Condition[] = index.crossing[p]!.map((j) => ({
        node: j,
        reading: EVERY,
        kind: 'attachment',
        need: { released: this.ids[j]! },
      }));
      list.push(...(blocks.get(p) ?? []));
      for (const q of index.hanging(p))
        list.push({ node: gates.off(q, [p]), reading: EVERY, kind: 'hanging', need: { off: index.partIds[q]! } });
      this.addNeed(list, EVERY, 'part', rig.parts[p]?.needs, [p]);
      const rule = holdOf.get(p);
      if (rule !== undefined) {
        const h = this.holds[rule]!;
        const higher = gates.or(gates.lifts(index.chain(p).slice(1)));
        const node = gates.or([h.node, higher, gates.waived(rule)]);
        list.push({ node, reading: CLOSURE, kind: 'hold', need: h.need });
      }
      this.conditions.push(list);
    });
    for (const o of rig.operations) {
      const list: Condition[] = [];
      const places = [o.on === undefined ? index.root : this.part(o.on)];
      this.addNeed(list, EVERY, 'part', o.needs, places);
      for (const h of o.hazards ?? []) this.addNeed(list, EVERY, 'hazard', h.clearedBy, places);
      this.conditions.push(list);
    }
    this.addBans();
  }

  /** A block hinders every removal that carries the blocked part and not the other. */
  private blocksOf(): ReadonlyMap<number, readonly Condition[]> {
    const found = new Map<number, Condition[]>();
    for (const b of this.rig.blocks) {
      const by = this.part(b.by);
      const part = this.part(b.part);
      const need: Need = b.unless === undefined ? { off: b.by } : { any: [{ off: b.by }, b.unless] };
      const node = this.gates.need(need, [part]);
      for (const p of this.index.chain(part)) {
        if (this.index.isInside(by, p)) break;
        push(found, p, { node, reading: EVERY, kind: 'block', need });
      }
    }
    return found;
  }

  /** Conditions that all must hold stand side by side, so that each can be named and settled by itself. */
  private addNeed(
    to: Condition[],
    reading: number,
    kind: UnmetKind,
    need: Need | undefined,
    places: readonly number[],
  ): void {
    if (need === undefined) return;
    if ('all' in need) {
      for (const n of need.all) this.addNeed(to, reading, kind, n, places);
      return;
    }
    const said = kind === 'part' && 'fact' in need ? 'fact' : kind === 'part' && 'setup' in need ? 'setup' : kind;
    to.push({ node: this.gates.need(need, places), reading, kind: said, need });
  }

  /** What a state rests on may not go while it is in force. */
  private addBans(): void {
    this.setups.forEach(({ setup }, s) => {
      const banned = new Map<number, Set<string>>();
      const ban = (action: number, state: string): void => {
        const states = banned.get(action);
        if (states) states.add(state);
        else banned.set(action, new Set([state]));
      };
      for (const [state, points] of Object.entries(setup.points ?? {})) {
        for (const pt of points) {
          for (const lift of this.gates.lifts(this.index.chain(this.part(pt.on)))) ban(lift, state);
          for (const j of pt.through ?? []) ban(this.actionOf.get(j)!, state);
        }
      }
      for (const [action, states] of banned) {
        const left = setup.states.filter((state) => !states.has(state));
        const node = this.gates.state(
          s,
          Uint8Array.from(setup.states, (state) => (states.has(state) ? 0 : 1)),
        );
        const ban: Condition = { node, reading: EVERY, kind: 'setup', need: { setup: setup.id, in: left } };
        this.conditions[action] = [...this.conditions[action]!, ban];
      }
    });
  }

  private guardRule(guard: Guard, number: number): GuardRule {
    const parts = guard.notTogether.map((p) => this.part(p));
    const common = this.index.chain(parts[0]!).filter((x) => parts.slice(1).every((p) => this.index.isInside(p, x)));
    const rule: GuardRule = {
      guard,
      away: parts.map((p) => this.gates.offAircraft(p)),
      together: this.gates.or(this.gates.lifts(common)),
      unless: guard.unless === undefined ? this.gates.never : this.gates.need(guard.unless, [this.index.root]),
    };
    for (const node of [...rule.away, rule.together, rule.unless]) {
      this.eachAction(node, (a) => {
        if (!this.guardsOf.get(a)?.includes(number)) push(this.guardsOf, a, number);
      });
    }
    return rule;
  }

  private lookRule(look: Look, number: number): LookRule {
    const place = look.on === undefined ? this.index.root : this.part(look.on);
    const visible = look.visible === undefined ? this.gates.always : this.gates.need(look.visible, [place]);
    this.eachAction(visible, (a) => push(this.looksOf, a, number));
    return { look, visible, joints: (look.whenFitted ?? []).map((j) => this.actionOf.get(j)!) };
  }
}

function push<T>(to: Map<number, T[]>, key: number, value: T): void {
  const list = to.get(key);
  if (list) list.push(value);
  else to.set(key, [value]);
}
