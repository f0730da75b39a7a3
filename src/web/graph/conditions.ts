/**
 * What each action asks for on the complete aircraft, quickly enough to draw with: the same rules as
 * `rig-meaning.ts` (held equal by the test beside this file), with what is slow there worked out once per rig.
 */
import { own } from '../../domain/rig/own.ts';
import { clear, type Hindrance, parseRemove, parseSet, RigMeaning, type World } from '../../domain/rig/rig-meaning.ts';
import type { HoldRule } from '../../domain/rig/rig-structure.ts';
import type { ActionId, Need, Operation, Rig, Setup } from '../../domain/rig/rig-types.ts';

interface Hold {
  readonly rule: HoldRule | null;
  readonly joints: ReadonlySet<string>;
}

export class Conditions {
  readonly meaning: RigMeaning;
  private readonly start: World;
  private readonly operations: ReadonlyMap<string, Operation>;
  private readonly setups: ReadonlyMap<string, Setup>;
  private readonly holds = new Map<string, Hold>();

  constructor(readonly rig: Rig) {
    this.meaning = new RigMeaning(rig);
    this.start = this.meaning.start();
    this.operations = new Map(rig.operations.map((o) => [o.id, o]));
    this.setups = new Map(rig.setups.map((s) => [s.id, s]));
  }

  /** Unmet on the complete aircraft, in its first states. A hold counts although its joint is not yet the last. */
  of(action: ActionId): readonly Hindrance[] {
    const set = parseSet(action);
    if (set) return this.unmet('setup', own(this.setups.get(set.setup)?.changeNeeds, set.state), [this.rig.root]);
    const removed = parseRemove(action);
    return [
      ...(removed === null ? this.ofJointOrOperation(action) : this.ofRemoval(removed)),
      ...this.bans(action, removed),
    ];
  }

  private unmet(
    rule: Hindrance['rule'],
    need: Need | undefined,
    places: readonly string[],
    harm?: string,
  ): Hindrance[] {
    if (need === undefined || this.meaning.holds(need, places, this.start)) return [];
    return [harm === undefined ? { rule, need, places } : { rule, need, places, harm }];
  }

  private ofRemoval(p: string): Hindrance[] {
    const s = this.meaning.structure;
    const blocks = this.rig.blocks.filter((b) => s.isInside(b.part, p) && !s.isInside(b.by, p));
    return [
      ...s.crossing(p).flatMap((a) => this.unmet('attachment', { released: a.id }, [p])),
      ...blocks.flatMap((b) => this.unmet('block', clear(b.by, b.unless), [b.part], b.harm)),
      ...s.hanging(p).flatMap((q) => this.unmet('hanging', { off: q }, [p])),
      ...this.unmet('part', s.parts.get(p)?.needs, [p]),
    ];
  }

  private ofJointOrOperation(id: string): Hindrance[] {
    const joint = this.meaning.structure.attachments.get(id);
    const operation = this.operations.get(id);
    const places = joint?.joins ?? [operation?.on ?? this.rig.root];
    const needs = joint === undefined ? operation?.needs : joint.needs;
    const hazards = (joint ?? operation)?.hazards ?? [];
    return [
      ...this.unmet('part', needs, places),
      ...hazards.flatMap((h) => this.unmet('hazard', h.clearedBy, places, h.kind)),
      ...this.holdsOf(id).flatMap((h) => this.unmet('hold', h.need, [h.of])),
    ];
  }

  private bans(action: ActionId, removed: string | null): Hindrance[] {
    return this.rig.setups.flatMap((s) => {
      const points = own(s.points, s.initial) ?? [];
      const rests = points.some((pt) =>
        removed === null ? pt.through?.includes(action) : this.meaning.structure.isInside(pt.on, removed),
      );
      const others = s.states.filter((state) => state !== s.initial);
      return rests ? [{ rule: 'setup' as const, need: { setup: s.id, in: others }, places: [this.rig.root] }] : [];
    });
  }

  /** Holds of the parts whose skin the joint crosses, where it is among what carries them. */
  private holdsOf(id: string): readonly HoldRule[] {
    const s = this.meaning.structure;
    const ends = s.attachments.get(id)?.joins ?? [];
    const crossed = (p: string) => ends.some((e) => s.isInside(e, p)) && ends.some((e) => !s.isInside(e, p));
    const parts = new Set(
      ends.flatMap((e) => s.chain(e)).filter((p) => p !== this.rig.root && crossed(p) && this.asksForHold(p)),
    );
    return [...parts].flatMap((p) => {
      const { rule, joints } = this.holdOf(p);
      return rule !== null && joints.has(id) ? [rule] : [];
    });
  }

  private asksForHold(part: string): boolean {
    const s = this.meaning.structure;
    return s.chain(part).some((q) => s.parts.get(q)?.hold !== undefined);
  }

  private holdOf(part: string): Hold {
    let hold = this.holds.get(part);
    if (hold === undefined) {
      const s = this.meaning.structure;
      hold = { rule: s.holdRule(part), joints: new Set(s.carrying(part).map((a) => a.id)) };
      this.holds.set(part, hold);
    }
    return hold;
  }
}

const kept = new WeakMap<Rig, Conditions>();

export function conditionsOf(rig: Rig): Conditions {
  const had = kept.get(rig);
  if (had !== undefined) return had;
  const made = new Conditions(rig);
  kept.set(rig, made);
  return made;
}
