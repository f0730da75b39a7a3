/**
 * The structure of a complete rig by numbers, as the refit asks for it: which joints cross the skin of a part, what
 * carries it, whose hold counts. Who sits within whom and what hangs on what come from `rig-model`.
 */
import type { Rig } from '../../domain/rig/rig-types.ts';
import { Hanging } from '../rig-model/hanging.ts';
import { Places } from '../rig-model/places.ts';

export class RigIndex {
  readonly places: Places;
  /** Per part the joints that cross its skin; per joint the parts whose skin it crosses. */
  readonly crossing: readonly number[][];
  readonly crossed: readonly number[][];
  readonly ends: readonly (readonly number[])[];
  private readonly hangs: Hanging;

  constructor(readonly rig: Rig) {
    this.places = new Places(rig);
    this.ends = rig.attachments.map((a) => [...new Set(a.joins)].map((id) => this.places.of(id)));
    this.crossing = this.places.ids.map(() => []);
    this.crossed = this.ends.map((ends, j) => this.cross(ends, j));
    this.hangs = new Hanging(this.places, this.ends);
  }

  get partIds(): readonly string[] {
    return this.places.ids;
  }

  get root(): number {
    return this.places.root;
  }

  part(id: string): number {
    return this.places.of(id);
  }

  /** The part and every assembly that holds it, from the inside out. */
  chain(part: number): readonly number[] {
    return this.places.chain(part);
  }

  isInside(part: number, assembly: number): boolean {
    return this.places.isInside(part, assembly);
  }

  private cross(ends: readonly number[], joint: number): number[] {
    const found: number[] = [];
    for (const end of ends) {
      for (const p of this.chain(end)) {
        if (ends.every((e) => this.isInside(e, p))) break;
        if (!found.includes(p)) found.push(p);
      }
    }
    for (const p of found) this.crossing[p]!.push(joint);
    return found;
  }

  /** Parts that reach the root only through parts inside `part`, and are not inside it. */
  hanging(part: number): readonly number[] {
    return this.hangs.on(part);
  }

  /** Crossing joints with an outer end that reaches the root without parts inside `part`. */
  carrying(part: number): readonly number[] {
    if (this.crossing[part]!.length === 0) return [];
    const hung = new Set(this.hanging(part));
    const stands = (e: number): boolean => !this.isInside(e, part) && this.hangs.reached[e] === 1 && !hung.has(e);
    return this.crossing[part]!.filter((j) => this.ends[j]!.some(stands));
  }

  /** Whose hold counts before the last of `carrying` goes: of several assemblies that come away, the outermost. */
  holdOwner(part: number, carrying: readonly number[]): number {
    let owner = part;
    for (const q of this.chain(part).slice(1)) {
      if (carrying.every((j) => this.crossed[j]!.includes(q))) owner = q;
    }
    return owner;
  }
}
