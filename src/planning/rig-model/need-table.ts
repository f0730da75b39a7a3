/**
 * Needs as a table of numbered nodes: each different need stands in it once (hash-consing), children before parents, so
 * one pass from low to high numbers evaluates everything. Nested "all in all" and "any in any" are flattened and what
 * is always or never so is folded away when a node is made.
 *
 * Not chosen: trees of objects per action. A joint that stands in a thousand needs would be a thousand objects, and the
 * closure (what can come off now) could not run on counters.
 */
export const TRUE = 0;
export const FALSE = 1;

export const KIND = { constant: 0, action: 1, fact: 2, state: 3, all: 4, any: 5 } as const;

export class NeedTable {
  readonly kind: number[] = [KIND.constant, KIND.constant];
  /** Action, fact or setup that a leaf speaks of. */
  readonly subject: number[] = [-1, -1];
  /** Children of all and any; states of a state leaf. */
  readonly items: (readonly number[])[] = [[], []];
  /** 1 where no setup stands beneath: once true, true for good. */
  readonly pure: number[] = [1, 1];
  private readonly leaves = [new Map<number, number>(), new Map<number, number>()];
  private readonly known = new Map<string, number>();

  get size(): number {
    return this.kind.length;
  }

  private add(kind: number, subject: number, items: readonly number[], pure: number): number {
    this.kind.push(kind);
    this.subject.push(subject);
    this.items.push(items);
    this.pure.push(pure);
    return this.kind.length - 1;
  }

  private leaf(kind: number, subject: number, list: Map<number, number>): number {
    let node = list.get(subject);
    if (node === undefined) list.set(subject, (node = this.add(kind, subject, [], 1)));
    return node;
  }

  action(action: number): number {
    return this.leaf(KIND.action, action, this.leaves[0]!);
  }

  fact(fact: number): number {
    return this.leaf(KIND.fact, fact, this.leaves[1]!);
  }

  /** The setup stands in one of the states; `count` is how many it has. */
  state(setup: number, states: readonly number[], count: number): number {
    const sorted = [...new Set(states)].sort((a, b) => a - b);
    if (sorted.length === 0) return FALSE;
    if (sorted.length === count) return TRUE;
    return this.shared(`s${setup}:${sorted.join()}`, KIND.state, setup, sorted, 0);
  }

  all(nodes: readonly number[]): number {
    return this.group(KIND.all, nodes, TRUE, FALSE);
  }

  any(nodes: readonly number[]): number {
    return this.group(KIND.any, nodes, FALSE, TRUE);
  }

  private group(kind: number, nodes: readonly number[], neutral: number, decisive: number): number {
    const flat: number[] = [];
    for (const n of nodes) {
      if (n === decisive) return decisive;
      if (n === neutral) continue;
      if (this.kind[n] === kind) flat.push(...this.items[n]!);
      else flat.push(n);
    }
    if (flat.length === 0) return neutral;
    if (flat.length === 1) return flat[0]!;
    const sorted = [...new Set(flat)].sort((a, b) => a - b);
    if (sorted.length === 1) return sorted[0]!;
    const pure = sorted.every((n) => this.pure[n] === 1) ? 1 : 0;
    return this.shared(`${kind}:${sorted.join()}`, kind, -1, sorted, pure);
  }

  private shared(key: string, kind: number, subject: number, items: readonly number[], pure: number): number {
    let node = this.known.get(key);
    if (node === undefined) this.known.set(key, (node = this.add(kind, subject, items, pure)));
    return node;
  }
}
