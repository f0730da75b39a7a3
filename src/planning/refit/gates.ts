/**
 * Needs as a network of AND and OR gates over actions, facts and states of setups. Every gate is shared: "q is off as
 * seen from p" exists once however many needs ask for it. Gates are numbered after the actions, so that one array holds
 * the truth of everything.
 *
 * Not chosen: rewriting needs into clauses, which grows without bound on nested needs.
 */
import type { Need } from '../../domain/rig/rig-types.ts';
import type { RigIndex } from './rig-index.ts';

export const ACTION = 0;
export const AND = 1;
export const OR = 2;
export const FACT = 3;
/** True while the present state of one setup is one of some. */
export const STATE = 4;
/** Set where a joint was released by force, so that its hold was never asked. */
export const WAIVED = 5;

export interface StateLeaf {
  readonly setup: number;
  /** Per state of the setup: 1 where the leaf holds. */
  readonly fits: Uint8Array;
}

export interface NamesOfGates {
  readonly action: (id: string) => number;
  readonly lift: (part: number) => number;
  readonly fact: (id: string) => number;
  readonly setup: (id: string) => number;
  readonly states: (setup: number) => readonly string[];
}

export class Gates {
  readonly kind: number[] = [];
  /** Children of AND and OR; for the other kinds the number of the fact, leaf or waiver. */
  readonly children: (readonly number[])[] = [];
  readonly data: number[] = [];
  readonly leaves: StateLeaf[] = [];
  readonly never: number;
  readonly always: number;
  private readonly known = new Map<string, number>();

  constructor(
    actions: number,
    private readonly index: RigIndex,
    private readonly names: NamesOfGates,
  ) {
    for (let a = 0; a < actions; a++) this.add(ACTION, [], 0);
    this.always = this.add(AND, [], 0);
    this.never = this.add(OR, [], 0);
  }

  get size(): number {
    return this.kind.length;
  }

  private add(kind: number, children: readonly number[], data: number): number {
    this.kind.push(kind);
    this.children.push(children);
    this.data.push(data);
    return this.kind.length - 1;
  }

  private shared(key: string, make: () => number): number {
    let node = this.known.get(key);
    if (node === undefined) {
      node = make();
      this.known.set(key, node);
    }
    return node;
  }

  and(children: readonly number[]): number {
    const list = [...new Set(children)].filter((c) => c !== this.always);
    if (list.length === 1) return list[0]!;
    return list.length === 0 ? this.always : this.add(AND, list, 0);
  }

  or(children: readonly number[]): number {
    const list = [...new Set(children)].filter((c) => c !== this.never);
    if (list.length === 1) return list[0]!;
    if (list.length === 0) return this.never;
    return list.includes(this.always) ? this.always : this.add(OR, list, 0);
  }

  fact(number: number): number {
    return this.shared(`f${number}`, () => this.add(FACT, [], number));
  }

  waived(rule: number): number {
    return this.shared(`w${rule}`, () => this.add(WAIVED, [], rule));
  }

  state(setup: number, fits: Uint8Array): number {
    return this.shared(`s${setup}:${fits.join('')}`, () => {
      this.leaves.push({ setup, fits });
      return this.add(STATE, [], this.leaves.length - 1);
    });
  }

  /** Off the aircraft: the part or an assembly that holds it has been lifted. */
  offAircraft(part: number): number {
    return this.shared(`a${part}`, () => this.or(this.lifts(this.index.chain(part))));
  }

  /** Off as seen from one of the places. */
  off(part: number, places: readonly number[]): number {
    const outside = places.filter((p) => !this.index.isInside(p, part));
    const from = outside.length > 0 ? outside : places;
    return this.shared(`o${part}:${from.join()}`, () => this.or(from.map((place) => this.offFrom(part, place))));
  }

  private offFrom(part: number, place: number): number {
    if (this.index.isInside(place, part)) return this.offAircraft(part);
    return this.shared(`o${part}:${place}.`, () => {
      const a = this.index.chain(part);
      const b = this.index.chain(place);
      return this.or(this.lifts([...a.filter((x) => !b.includes(x)), ...b.filter((x) => !a.includes(x))]));
    });
  }

  lifts(parts: readonly number[]): readonly number[] {
    return parts.filter((p) => p !== this.index.root).map((p) => this.names.lift(p));
  }

  need(need: Need, places: readonly number[]): number {
    if ('all' in need) return this.and(need.all.map((n) => this.need(n, places)));
    if ('any' in need) return this.or(need.any.map((n) => this.need(n, places)));
    if ('released' in need) return this.names.action(need.released);
    if ('done' in need) return this.names.action(need.done);
    if ('fact' in need) return this.fact(this.names.fact(need.fact));
    if ('off' in need) return this.off(this.index.part(need.off), places);
    if ('apart' in need) {
      const part = this.index.part(need.apart);
      return part === this.index.root ? this.never : this.names.lift(part);
    }
    const setup = this.names.setup(need.setup);
    return this.state(
      setup,
      Uint8Array.from(this.names.states(setup), (s) => (need.in.includes(s) ? 1 : 0)),
    );
  }

  /** Actions, leaves and facts below a node. */
  below(node: number, found = new Set<number>()): ReadonlySet<number> {
    if (found.has(node)) return found;
    found.add(node);
    for (const c of this.children[node]!) this.below(c, found);
    return found;
  }
}
