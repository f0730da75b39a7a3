/**
 * The structure of a complete rig by numbers: chains of assemblies, joints that cross the skin of a part, what hangs on
 * a part and what carries it. Same words as `RigStructure` in the domain (the slow reading, against which this is
 * tested), in time linear in rig and answer: what hangs on a single part comes from one depth-first walk (low points),
 * and only assemblies are walked around one by one.
 *
 * Not chosen: asking `RigStructure` part by part, which is quadratic and takes seconds at 5,000 parts.
 */
import type { Rig } from '../../domain/rig/rig-types.ts';

export class RigIndex {
  readonly partIds: string[] = [];
  readonly partOf = new Map<string, number>();
  readonly root: number;
  /** The part and every assembly that holds it, from the inside out. */
  readonly chain: readonly (readonly number[])[];
  /** Per part the joints that cross its skin; per joint the parts whose skin it crosses. */
  readonly crossing: readonly number[][];
  readonly crossed: readonly number[][];
  readonly ends: readonly (readonly number[])[];
  private readonly hasInside: Uint8Array;
  private readonly walk: LowPoints;

  constructor(readonly rig: Rig) {
    for (const part of rig.parts) this.addPart(part.id);
    if (!this.partOf.has(rig.root)) this.addPart(rig.root);
    this.root = this.partOf.get(rig.root)!;
    const n = this.partIds.length;
    const holder = new Int32Array(n).fill(-1);
    this.hasInside = new Uint8Array(n);
    for (const part of rig.parts) {
      if (part.within === undefined) continue;
      const up = this.partOf.get(part.within)!;
      holder[this.partOf.get(part.id)!] = up;
      this.hasInside[up] = 1;
    }
    this.chain = chains(holder);
    this.ends = rig.attachments.map((a) => [...new Set(a.joins)].map((id) => this.partOf.get(id)!));
    this.crossing = Array.from({ length: n }, () => []);
    this.crossed = this.ends.map((ends, j) => this.cross(ends, j));
    this.walk = new LowPoints(n, this.ends, this.root);
  }

  private addPart(id: string): void {
    this.partOf.set(id, this.partIds.length);
    this.partIds.push(id);
  }

  private cross(ends: readonly number[], joint: number): number[] {
    const found: number[] = [];
    for (const end of ends) {
      for (const p of this.chain[end]!) {
        if (ends.every((e) => this.isInside(e, p))) break;
        if (!found.includes(p)) found.push(p);
      }
    }
    for (const p of found) this.crossing[p]!.push(joint);
    return found;
  }

  isInside(part: number, assembly: number): boolean {
    return this.chain[part]!.includes(assembly);
  }

  /** Parts that reach the root only through parts inside `part`, and are not inside it. */
  hanging(part: number): readonly number[] {
    if (!this.hasInside[part]) return this.walk.hanging(part);
    const without = this.walk.around((q) => this.isInside(q, part));
    return this.walk.reached.filter((q) => !without[q] && !this.isInside(q, part));
  }

  /** Crossing joints with an outer end that reaches the root without parts inside `part`. */
  carrying(part: number): readonly number[] {
    if (this.crossing[part]!.length === 0) return [];
    const without = this.walk.around((q) => this.isInside(q, part));
    return this.crossing[part]!.filter((j) => this.ends[j]!.some((e) => !this.isInside(e, part) && without[e]));
  }

  /** Whose hold counts before the last of `carrying` goes: of several assemblies that come away, the outermost. */
  holdOwner(part: number, carrying: readonly number[]): number {
    let owner = part;
    for (const q of this.chain[part]!.slice(1)) {
      if (carrying.every((j) => this.crossed[j]!.includes(q))) owner = q;
    }
    return owner;
  }
}

function chains(holder: Int32Array): readonly (readonly number[])[] {
  const made: (readonly number[] | undefined)[] = new Array(holder.length);
  const of = (p: number): readonly number[] => {
    let chain = made[p];
    if (!chain) {
      const up = holder[p]!;
      chain = up < 0 ? [p] : [p, ...of(up)];
      made[p] = chain;
    }
    return chain;
  };
  return Array.from(holder, (_, p) => of(p));
}

/** One depth-first walk from the root over parts and joints, with low points (Hopcroft and Tarjan, from memory). */
class LowPoints {
  readonly reached: readonly number[];
  private readonly jointsOf: number[][];
  /** Parts in the order of the walk; what hangs on a part is a slice of it for each of its cut branches. */
  private readonly order: number[] = [];
  private readonly branches: number[][];

  constructor(
    private readonly parts: number,
    private readonly ends: readonly (readonly number[])[],
    private readonly root: number,
  ) {
    this.jointsOf = Array.from({ length: parts }, () => []);
    ends.forEach((list, j) => {
      for (const e of list) this.jointsOf[e]!.push(j);
    });
    this.branches = Array.from({ length: parts }, () => []);
    this.descend();
    this.reached = this.order;
  }

  private next(node: number): readonly number[] {
    return node < this.parts ? this.jointsOf[node]! : this.ends[node - this.parts]!;
  }

  private descend(): void {
    const { parts } = this;
    const total = parts + this.ends.length;
    const at = new Int32Array(total).fill(-1);
    const low = new Int32Array(total);
    const up = new Int32Array(total).fill(-1);
    const tried = new Int32Array(total);
    const first = new Int32Array(total);
    let clock = 0;
    const enter = (node: number, from: number): void => {
      at[node] = low[node] = clock++;
      up[node] = from;
      first[node] = this.order.length;
      if (node < parts) this.order.push(node);
      stack.push(node);
    };
    const stack: number[] = [];
    enter(this.root, -1);
    while (stack.length > 0) {
      const node = stack[stack.length - 1]!;
      const list = this.next(node);
      if (tried[node]! < list.length) {
        const to = list[tried[node]!++]! + (node < parts ? parts : 0);
        if (at[to]! < 0) enter(to, node);
        else if (to !== up[node]) low[node] = Math.min(low[node]!, at[to]!);
        continue;
      }
      stack.pop();
      const from = up[node]!;
      if (from < 0) continue;
      low[from] = Math.min(low[from]!, low[node]!);
      if (from < parts && from !== this.root && low[node]! >= at[from]!)
        this.branches[from]!.push(first[node]!, this.order.length);
    }
  }

  hanging(part: number): readonly number[] {
    const found: number[] = [];
    const cuts = this.branches[part]!;
    for (let i = 0; i < cuts.length; i += 2) {
      for (let k = cuts[i]!; k < cuts[i + 1]!; k++) found.push(this.order[k]!);
    }
    return found;
  }

  /** Parts that reach the root without going through those left out. */
  around(leftOut: (part: number) => boolean): Uint8Array {
    const seen = new Uint8Array(this.parts);
    const asked = new Uint8Array(this.ends.length);
    const open = [this.root];
    seen[this.root] = 1;
    for (let at = open.pop(); at !== undefined; at = open.pop()) {
      for (const j of this.jointsOf[at]!) {
        if (asked[j]) continue;
        asked[j] = 1;
        for (const end of this.ends[j]!) {
          if (seen[end] || leftOut(end)) continue;
          seen[end] = 1;
          open.push(end);
        }
      }
    }
    return seen;
  }
}
