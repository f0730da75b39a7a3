/**
 * What is so at one moment, over a `RefitModel`: which actions are done, how it stands, which facts are given; and the
 * plain questions about it. Evaluated on the spot, never cached: one condition is a handful of look-ups.
 */
import { AND, FACT, OR, STATE, WAIVED } from './gates.ts';
import type { RefitModel } from './refit-model.ts';

export class World {
  readonly done: Uint8Array;
  /** Present state of each setup. */
  readonly states: Int32Array;
  readonly facts: Uint8Array;
  readonly leaves: Uint8Array;
  readonly waived: Uint8Array;

  constructor(readonly model: RefitModel) {
    this.done = new Uint8Array(model.size);
    this.states = new Int32Array(model.setups.length);
    this.facts = new Uint8Array(model.rig.facts.length);
    this.leaves = new Uint8Array(model.gates.leaves.length);
    this.waived = new Uint8Array(model.holds.length);
    model.setups.forEach(({ setup }, s) => {
      this.states[s] = setup.states.indexOf(setup.initial);
    });
    this.standAs(this.states);
  }

  copyOf(other: World): this {
    this.done.set(other.done);
    this.states.set(other.states);
    this.facts.set(other.facts);
    this.leaves.set(other.leaves);
    this.waived.set(other.waived);
    return this;
  }

  standAs(states: Int32Array): void {
    this.states.set(states);
    this.model.gates.leaves.forEach((leaf, i) => {
      this.leaves[i] = leaf.fits[this.states[leaf.setup]!]!;
    });
  }

  /** Every state need that some state of `reach` meets counts as met. */
  standAsAnyOf(reach: readonly Uint8Array[]): void {
    this.model.gates.leaves.forEach((leaf, i) => {
      this.leaves[i] = leaf.fits.some((fits, state) => fits === 1 && reach[leaf.setup]![state] === 1) ? 1 : 0;
    });
  }

  holds(node: number): boolean {
    if (node < this.done.length) return this.done[node] === 1;
    const { kind, children, data } = this.model.gates;
    switch (kind[node]) {
      case AND:
        for (const c of children[node]!) if (!this.holds(c)) return false;
        return true;
      case OR:
        for (const c of children[node]!) if (this.holds(c)) return true;
        return false;
      case FACT:
        return this.facts[data[node]!] === 1;
      case STATE:
        return this.leaves[data[node]!] === 1;
      case WAIVED:
        return this.waived[data[node]!] === 1;
      default:
        throw new Error(`internal: gate ${node} of unknown kind; report it`);
    }
  }

  /** All conditions of the action that count in this reading. */
  meets(action: number, reading: number): boolean {
    for (const c of this.model.conditions[action]!) {
      if ((c.reading & reading) !== 0 && !this.holds(c.node)) return false;
    }
    return true;
  }

  /** Hold rules that the release of this joint would break: it is the last, the part is there and nothing holds it. */
  brokenHolds(joint: number): readonly number[] {
    const rules = this.model.holdsOf.get(joint);
    if (rules === undefined) return [];
    return rules.filter((r) => {
      const h = this.model.holds[r]!;
      if (h.joints.some((j) => j !== joint && this.done[j] === 0)) return false;
      return !this.holds(h.away) && !this.holds(h.node);
    });
  }

  isBroken(guard: number): boolean {
    const g = this.model.guards[guard]!;
    for (const away of g.away) if (!this.holds(away)) return false;
    return !this.holds(g.together) && !this.holds(g.unless);
  }

  /** Guards that are broken with the action done and not without it, or the other way round. */
  guardsChanged(action: number, brokenWhen: 'done' | 'undone'): readonly number[] {
    const rules = this.model.guardsOf.get(action);
    if (rules === undefined) return [];
    const was = this.done[action]!;
    const look = (done: number): boolean[] => {
      this.done[action] = done;
      return rules.map((g) => this.isBroken(g));
    };
    const done = look(1);
    const undone = look(0);
    this.done[action] = was;
    return rules.filter((_, i) => (brokenWhen === 'done' ? done[i]! && !undone[i]! : undone[i]! && !done[i]!));
  }

  /** A lifted assembly that holds one end of the joint and not the other, or -1. */
  partedBy(joint: number): number {
    for (const p of this.model.index.crossed[joint]!) {
      if (this.done[this.model.lift(p)] === 1) return p;
    }
    return -1;
  }

  /** Setups whose present state rests on something that is off or released. */
  fallenStates(): readonly number[] {
    const found: number[] = [];
    for (let s = 0; s < this.states.length; s++) {
      if (this.model.setups[s]!.restsOn[this.states[s]!]!.some((node) => this.holds(node))) found.push(s);
    }
    return found;
  }
}
