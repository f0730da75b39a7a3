/**
 * Who sits within whom, by number. Assemblies form trees, so "q is inside p" is one comparison of the times at which a
 * walk enters and leaves them. The root holds nothing this way: what is directly on it has no `within`.
 */
import type { Rig } from '../../domain/rig/rig-types.ts';

export class Places {
  readonly ids: readonly string[];
  readonly index: ReadonlyMap<string, number>;
  readonly root: number;
  /** -1 where nothing holds it. */
  readonly within: Int32Array;
  readonly inner: readonly (readonly number[])[];
  private readonly enter: Int32Array;
  private readonly leave: Int32Array;
  private readonly chains: (readonly number[])[];

  constructor(rig: Rig) {
    const ids = rig.parts.map((p) => p.id);
    if (!ids.includes(rig.root)) ids.push(rig.root);
    this.ids = ids;
    this.index = new Map(ids.map((id, i) => [id, i]));
    this.root = this.of(rig.root);
    const n = ids.length;
    this.within = new Int32Array(n).fill(-1);
    const inner: number[][] = Array.from({ length: n }, () => []);
    rig.parts.forEach((p, i) => {
      if (p.within === undefined) return;
      this.within[i] = this.of(p.within);
      inner[this.within[i]!]!.push(i);
    });
    this.inner = inner;
    this.enter = new Int32Array(n);
    this.leave = new Int32Array(n);
    this.number();
    this.chains = new Array(n);
  }

  /** Number of a part that the checked rig is known to have. */
  of(id: string): number {
    const i = this.index.get(id);
    if (i === undefined) throw new Error(`internal: part ${id} is not in the checked rig; report it`);
    return i;
  }

  private number(): void {
    let time = 0;
    for (let top = 0; top < this.ids.length; top++) {
      if (this.within[top] !== -1) continue;
      const open = [top];
      for (let at = open.at(-1); at !== undefined; at = open.at(-1)) {
        if (at >= 0) {
          this.enter[at] = time++;
          open[open.length - 1] = ~at;
          open.push(...this.inner[at]!);
        } else {
          this.leave[~at] = time++;
          open.pop();
        }
      }
    }
  }

  isInside(part: number, assembly: number): boolean {
    return this.enter[assembly]! <= this.enter[part]! && this.leave[part]! <= this.leave[assembly]!;
  }

  /** The part and every assembly that holds it, from the inside out. */
  chain(part: number): readonly number[] {
    let chain = this.chains[part];
    if (chain === undefined) {
      const list: number[] = [];
      for (let at = part; at !== -1; at = this.within[at]!) list.push(at);
      this.chains[part] = chain = list;
    }
    return chain;
  }

  /** Assemblies that hold one of the two and not the other. */
  between(a: number, b: number): number[] {
    return [...this.chain(a).filter((x) => !this.isInside(b, x)), ...this.chain(b).filter((x) => !this.isInside(a, x))];
  }

  /** Everything that sits inside, the part too. */
  inside(part: number): number[] {
    const list = [part];
    for (let i = 0; i < list.length; i++) list.push(...this.inner[list[i]!]!);
    return list;
  }
}
