/**
 * What follows from the complete rig alone, before anything is done: who holds whom, which joints cross the skin of an
 * assembly, what hangs on what, what carries it. Each answer is worked out once and kept, since the rig does not change;
 * how it is worked out stays plain, so that `rig-meaning.ts` reads like the rules. The fast planner has its own indices,
 * tested against this.
 */
import type { Attachment, Need, Part, Rig } from './rig-types.ts';

export interface HoldRule {
  /** Whose hold it is: the part itself, or the assembly that really comes away. */
  readonly of: string;
  readonly need: Need;
}

/** A part whose hold is asked for when the last of these joints is released. */
export interface CarriedHold {
  readonly part: string;
  readonly rule: HoldRule;
  readonly carrying: readonly Attachment[];
}

export class RigStructure {
  readonly parts = new Map<string, Part>();
  readonly attachments = new Map<string, Attachment>();
  private readonly chains = new Map<string, readonly string[]>();
  private readonly reaches = new Map<string, ReadonlySet<string>>();
  private readonly joints = new Map<string, Attachment[]>();
  private readonly hangs = new Map<string, readonly string[]>();
  private readonly carriers = new Map<string, readonly Attachment[]>();
  private skins: ReadonlyMap<string, readonly Attachment[]> | null = null;
  private holds: ReadonlyMap<Attachment, readonly CarriedHold[]> | null = null;

  constructor(readonly rig: Rig) {
    for (const part of rig.parts) this.parts.set(part.id, part);
    if (!this.parts.has(rig.root)) this.parts.set(rig.root, { id: rig.root });
    for (const a of rig.attachments) {
      this.attachments.set(a.id, a);
      for (const end of a.joins) (this.joints.get(end) ?? this.joints.set(end, []).get(end)!).push(a);
    }
  }

  /** The part itself and every assembly that holds it, from the inside out. */
  chain(part: string): readonly string[] {
    let chain = this.chains.get(part);
    if (!chain) {
      const within = this.parts.get(part)?.within;
      chain = within === undefined ? [part] : [part, ...this.chain(within)];
      this.chains.set(part, chain);
    }
    return chain;
  }

  isInside(part: string, assembly: string): boolean {
    return this.chain(part).includes(assembly);
  }

  /** Attachments with an end inside the part and an end not inside it. */
  crossing(part: string): readonly Attachment[] {
    this.skins ??= this.everySkin();
    return this.skins.get(part) ?? [];
  }

  /** Only assemblies that hold some end of a joint can be crossed by it. */
  private everySkin(): ReadonlyMap<string, readonly Attachment[]> {
    const skins = new Map<string, Attachment[]>();
    for (const a of this.rig.attachments) {
      for (const part of new Set(a.joins.flatMap((e) => this.chain(e)))) {
        if (this.crosses(a, part)) (skins.get(part) ?? skins.set(part, []).get(part)!).push(a);
      }
    }
    return skins;
  }

  private crosses(a: Attachment, part: string): boolean {
    return a.joins.some((e) => this.isInside(e, part)) && a.joins.some((e) => !this.isInside(e, part));
  }

  /** Parts that reach the root along attachments without the parts inside `without`, in the complete rig. */
  reaching(without: string | null): ReadonlySet<string> {
    const key = without ?? '';
    let seen = this.reaches.get(key);
    if (!seen) {
      seen = this.walk((part) => without === null || !this.isInside(part, without));
      this.reaches.set(key, seen);
    }
    return seen;
  }

  private walk(stays: (part: string) => boolean): ReadonlySet<string> {
    const seen = new Set<string>([this.rig.root]);
    const open = [this.rig.root];
    for (let at = open.pop(); at !== undefined; at = open.pop()) {
      for (const a of this.joints.get(at) ?? []) {
        for (const end of a.joins) {
          if (seen.has(end) || !stays(end)) continue;
          seen.add(end);
          open.push(end);
        }
      }
    }
    return seen;
  }

  /** Parts that reach the root only through parts inside `part`, and are not inside it: they hang on it. */
  hanging(part: string): readonly string[] {
    let hangs = this.hangs.get(part);
    if (!hangs) {
      const without = this.reaching(part);
      hangs = [...this.reaching(null)].filter((q) => !without.has(q) && !this.isInside(q, part));
      this.hangs.set(part, hangs);
    }
    return hangs;
  }

  /** What carries the part: crossing attachments with an outer end that reaches the root without it. */
  carrying(part: string): readonly Attachment[] {
    let carriers = this.carriers.get(part);
    if (!carriers) {
      const without = this.reaching(part);
      carriers = this.crossing(part).filter((a) => a.joins.some((e) => !this.isInside(e, part) && without.has(e)));
      this.carriers.set(part, carriers);
    }
    return carriers;
  }

  /**
   * What must be true before the last of `carrying(part)` is released. Where all of them also cross an assembly that
   * holds the part, that assembly comes away, so its hold counts instead; of several, the outermost.
   */
  holdRule(part: string): HoldRule | null {
    const carrying = this.carrying(part);
    if (carrying.length === 0) return null;
    const holders = this.chain(part).slice(1);
    const outermost = holders.filter((q) => carrying.every((a) => this.crosses(a, q))).at(-1) ?? part;
    const need = this.parts.get(outermost)?.hold;
    return need === undefined ? null : { of: outermost, need };
  }

  /** The holds that a joint may be the last to ask for. Only parts that have a hold above them are looked at. */
  holdsCarriedBy(joint: Attachment): readonly CarriedHold[] {
    this.holds ??= this.everyHold();
    return this.holds.get(joint) ?? [];
  }

  private everyHold(): ReadonlyMap<Attachment, readonly CarriedHold[]> {
    const holds = new Map<Attachment, CarriedHold[]>();
    for (const part of this.parts.keys()) {
      if (part === this.rig.root || this.chain(part).every((q) => this.parts.get(q)?.hold === undefined)) continue;
      const rule = this.holdRule(part);
      if (rule === null) continue;
      const carrying = this.carrying(part);
      for (const a of carrying) (holds.get(a) ?? holds.set(a, []).get(a)!).push({ part, rule, carrying });
    }
    return holds;
  }
}
