/**
 * What hangs on what in the complete rig: parts that reach the root only through parts inside p.
 *
 * One breadth-first tree from the root over parts and joints serves every p. Taking the inside of p out can only cut
 * off what lies below it in that tree; of these, whatever touches something that still stands is reached again. So each
 * p costs no more than what lies below it, and trees from the root are flat: 5,000 parts take a few milliseconds.
 * Not chosen: a walk of the whole rig for each p (square), and dominators (they know single parts, not assemblies).
 */
import type { Places } from './places.ts';

export class Hanging {
  /** 1 where a part reaches the root in the complete rig. */
  readonly reached: Uint8Array;
  /** Parts and joints next to each node. */
  private readonly next: readonly (readonly number[])[];
  private readonly below: number[][];
  private readonly mark: Int32Array;
  private round = 0;

  /** Nodes: parts first, then joints. */
  constructor(
    private readonly places: Places,
    ends: readonly (readonly number[])[],
  ) {
    const parts = places.ids.length;
    const jointsOf: number[][] = Array.from({ length: parts }, () => []);
    ends.forEach((list, j) => {
      for (const e of list) jointsOf[e]!.push(parts + j);
    });
    this.next = [...jointsOf, ...ends];
    const size = parts + ends.length;
    this.reached = new Uint8Array(size);
    this.below = Array.from({ length: size }, () => []);
    this.mark = new Int32Array(size);
    const queue = [places.root];
    this.reached[places.root] = 1;
    for (let k = 0; k < queue.length; k++) {
      const at = queue[k]!;
      for (const next of this.next[at]!) {
        if (this.reached[next] === 1) continue;
        this.reached[next] = 1;
        this.below[at]!.push(next);
        queue.push(next);
      }
    }
  }

  /** Parts that hang on `part`, not inside it. */
  on(part: number): number[] {
    if (part === this.places.root) return [];
    const parts = this.places.ids.length;
    const out = (this.round += 3);
    const cut = out + 1;
    const again = out + 2;
    const inside = this.places.inside(part);
    if (inside.every((q) => this.below[q]!.length === 0)) return [];
    for (const q of inside) this.mark[q] = out;
    const lost: number[] = [];
    const open = inside.filter((q) => this.reached[q] === 1);
    for (let at = open.pop(); at !== undefined; at = open.pop()) {
      for (const next of this.below[at]!) {
        if (this.mark[next] === out || this.mark[next] === cut) continue;
        this.mark[next] = cut;
        lost.push(next);
        open.push(next);
      }
    }
    const stands = (n: number): boolean => this.reached[n] === 1 && this.mark[n] !== out && this.mark[n] !== cut;
    const found = lost.filter((n) => this.next[n]!.some(stands));
    for (const n of found) this.mark[n] = again;
    for (let at = found.pop(); at !== undefined; at = found.pop()) {
      for (const next of this.next[at]!) {
        if (this.mark[next] !== cut) continue;
        this.mark[next] = again;
        found.push(next);
      }
    }
    return lost.filter((n) => n < parts && this.mark[n] === cut);
  }
}
