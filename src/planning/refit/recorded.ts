/**
 * What was done, read from the recorded order: which actions were allowed at their turn and which were forced, which
 * rest on a fact that is no longer given, and how it stands now.
 *
 * A forced action has no conditions from then on. An action that would have been allowed with facts that are not given
 * now was not forced: the fact was withdrawn (or never told), and the condition that rests on it is marked, so that the
 * answer can say so. Where `situation.setups` names a state and no `set:` of that setup is recorded, nobody knows when
 * it was changed: an action allowed in either state counts as allowed.
 */
import { parseSet } from '../../domain/rig/rig-meaning.ts';
import type { Situation } from '../../domain/rig/rig-types.ts';
import { type Condition, type RefitModel, STRIP } from './refit-model.ts';
import { World } from './world.ts';

export interface Recorded {
  /** Everything done and made, how it stands now, facts that are given now. */
  readonly world: World;
  /** Actions in recorded order, each once; without changes of state. */
  readonly order: readonly number[];
  /** Turn in `order`, or -1. */
  readonly turn: Int32Array;
  readonly forced: Uint8Array;
  /** Nothing to undo: one-way operations of the strip, and what the refit has made. */
  readonly stays: Uint8Array;
  /** Conditions that held at their turn only by a fact that is not given now. */
  readonly onFacts: ReadonlyMap<number, readonly Condition[]>;
  /** Hold rules that were met only by such a fact. */
  readonly holdsOnFacts: ReadonlySet<number>;
  readonly signed: ReadonlySet<string>;
}

export function readRecorded(model: RefitModel, situation: Situation): Recorded {
  return new Replay(model, situation).run();
}

class Replay {
  private readonly world: World;
  private readonly order: number[] = [];
  private readonly turn: Int32Array;
  private readonly forced: Uint8Array;
  private readonly stays: Uint8Array;
  private readonly onFacts = new Map<number, readonly Condition[]>();
  private readonly holdsOnFacts = new Set<number>();
  /** How it stands at the turn, and where changes were not recorded, how it may have stood. */
  private readonly stands: Int32Array;
  private readonly mayStand: Int32Array;
  private readonly given: Uint8Array;

  constructor(
    private readonly model: RefitModel,
    private readonly situation: Situation,
  ) {
    this.world = new World(model);
    this.turn = new Int32Array(model.size).fill(-1);
    this.forced = new Uint8Array(model.size);
    this.stays = new Uint8Array(model.size);
    model.rig.facts.forEach((f, i) => {
      this.world.facts[i] = f.given === true ? 1 : 0;
    });
    for (const f of situation.facts ?? []) this.world.facts[model.factOf.get(f)!] = 1;
    this.given = this.world.facts.slice();
    this.stands = this.world.states.slice();
    this.mayStand = this.stands.slice();
    const recorded = new Set(situation.done.map((a) => parseSet(a)?.setup));
    for (const [setup, state] of Object.entries(situation.setups ?? {})) {
      const s = model.setupOf.get(setup)!;
      if (!recorded.has(setup)) this.mayStand[s] = model.rig.setups[s]!.states.indexOf(state);
    }
  }

  run(): Recorded {
    const { model, situation, world } = this;
    for (const id of situation.made ?? []) {
      const a = model.actionOf.get(id)!;
      world.done[a] = 1;
      this.stays[a] = 1;
    }
    for (const id of situation.done) {
      const set = parseSet(id);
      if (set) this.change(set.setup, set.state);
      else this.take(model.actionOf.get(id)!);
    }
    for (const [setup, state] of Object.entries(situation.setups ?? {})) this.change(setup, state);
    const { order, turn, forced, stays, onFacts, holdsOnFacts } = this;
    model.holds.forEach((h, rule) => {
      world.waived[rule] = holdsOnFacts.has(rule) || h.joints.some((j) => forced[j] === 1) ? 1 : 0;
    });
    const signed = new Set(situation.signed ?? []);
    return { world, order, turn, forced, stays, onFacts, holdsOnFacts, signed };
  }

  private change(setup: string, state: string): void {
    const s = this.model.setupOf.get(setup)!;
    this.stands[s] = this.model.rig.setups[s]!.states.indexOf(state);
    this.mayStand[s] = this.stands[s]!;
    this.world.standAs(this.stands);
  }

  private take(action: number): void {
    const { world } = this;
    if (this.turn[action]! >= 0 || this.stays[action] === 1) return;
    if (!this.wasAllowed(action)) this.forced[action] = 1;
    this.turn[action] = this.order.length;
    this.order.push(action);
    world.done[action] = 1;
    if (this.model.only[action] !== null) this.stays[action] = 1;
  }

  private wasAllowed(action: number): boolean {
    if (this.isAllowed(action)) return true;
    const otherwise = this.stands.some((state, s) => state !== this.mayStand[s]);
    if (otherwise && this.standing(this.mayStand, () => this.isAllowed(action))) return true;
    if (this.given.length === 0) return false;
    if (this.restsOnFacts(action)) return true;
    return otherwise && this.standing(this.mayStand, () => this.restsOnFacts(action));
  }

  private standing(states: Int32Array, ask: () => boolean): boolean {
    const was = this.stands.slice();
    this.world.standAs(states);
    const answer = ask();
    this.world.standAs(was);
    return answer;
  }

  private isAllowed(action: number): boolean {
    const { world } = this;
    return (
      world.meets(action, STRIP) &&
      world.brokenHolds(action).length === 0 &&
      world.guardsChanged(action, 'done').length === 0
    );
  }

  private restsOnFacts(action: number): boolean {
    const { world } = this;
    world.facts.fill(1);
    const allowed = this.isAllowed(action);
    world.facts.set(this.given);
    if (!allowed) return false;
    const list = this.model.conditions[action]!.filter((c) => (c.reading & STRIP) !== 0 && !world.holds(c.node));
    this.onFacts.set(action, list);
    for (const rule of world.brokenHolds(action)) this.holdsOnFacts.add(rule);
    return true;
  }
}
