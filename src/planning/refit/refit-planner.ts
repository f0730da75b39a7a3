/**
 * `fits`: what can be put back now, what that would lock out and hide, and an order of everything that does neither.
 *
 * `RefitPlanner` keeps a rig ready. Asked again with one change, it keeps the closure and every entry that the change
 * cannot have touched: an entry depends only on what can be reached upwards from its action in the wiring, so only
 * actions below the nodes that changed are asked again. The answer is the same as from scratch (property test).
 */

import { failed, ok, type Result } from '../../domain/result.ts';
import { own } from '../../domain/rig/own.ts';
import { checkSituation, readAction } from '../../domain/rig/rig-check.ts';
import { parseSet } from '../../domain/rig/rig-meaning.ts';
import type { ActionId, Rig, Situation } from '../../domain/rig/rig-types.ts';
import type { FitsAnswer, FitsEntry } from '../answers.ts';
import { Wiring } from './closure.ts';
import { fitsNow, inTheWay } from './fit-check.ts';
import { hiddenBy } from './hides.ts';
import { knows } from './known.ts';
import { closureWiring, type LockedOut, Moment } from './moment.ts';
import { changedActions, nodesBelow } from './move-on.ts';
import { planOrder } from './order.ts';
import { reachOf, sameReach } from './reach.ts';
import { readRecorded } from './recorded.ts';
import { RefitModel } from './refit-model.ts';
import { refitWords } from './words.ts';

export interface FitsOptions {
  readonly action?: ActionId;
}

type Hides = ReadonlyMap<number, readonly number[]>;

/** More changes than this at once are answered from scratch. */
const FEW = 64;

export class RefitPlanner {
  readonly model: RefitModel;
  private readonly wiring: Wiring;
  private readonly orderWiring: Wiring;
  private moment: Moment | null = null;
  /** What each action locks out, of those asked since it last could have changed. */
  private readonly lockedOut = new Map<number, LockedOut>();

  constructor(readonly rig: Rig) {
    this.model = new RefitModel(rig);
    this.wiring = closureWiring(this.model);
    this.orderWiring = new Wiring(this.model, (a) => this.model.conditions[a]!.map((c) => c.node));
  }

  fits(situation: Situation, options: FitsOptions = {}): Result<FitsAnswer> {
    if (!knows(this.model, situation)) {
      const checked = checkSituation(this.rig, situation);
      if (!checked.ok) return checked;
    }
    if (options.action !== undefined) {
      const action = readAction(this.rig, options.action);
      if (!action.ok) return failed(action.problem);
    }
    const moment = this.moveTo(situation);
    const hides = hiddenBy(moment);
    const next = options.action === undefined ? this.every(moment, hides) : [this.one(moment, hides, options.action)];
    return ok({ next, ...planOrder(moment, this.orderWiring) });
  }

  /** Moves the last moment on where only a few actions differ; otherwise starts again. */
  private moveTo(situation: Situation): Moment {
    const recorded = readRecorded(this.model, situation);
    const last = this.moment;
    const changed = last && changedActions(last.recorded, recorded, FEW);
    if (last && changed && sameReach(reachOf(recorded.world), last.reach)) {
      const touched: number[] = [];
      for (const a of changed) {
        if (recorded.world.done[a] === 0) touched.push(...last.closure.remove(a));
        else touched.push(a, ...last.closure.add(a, recorded.forced[a] === 1 || recorded.stays[a] === 1 ? 1 : 0));
      }
      for (const v of nodesBelow(this.wiring, last.closure, touched)) this.lockedOut.delete(v);
      this.moment = new Moment(this.wiring, recorded, last.closure);
    } else {
      this.lockedOut.clear();
      this.moment = new Moment(this.wiring, recorded);
    }
    return this.moment;
  }

  private lockedOutBy(moment: Moment, x: number): LockedOut {
    let locked = this.model.movesStates[x] === 1 ? undefined : this.lockedOut.get(x);
    if (!locked) {
      locked = moment.fallenBy(x);
      this.lockedOut.set(x, locked);
    }
    return moment.withLost(locked, moment.lostBy(x));
  }

  private every(moment: Moment, hides: Hides): readonly FitsEntry[] {
    const { model } = this;
    const next: FitsEntry[] = [];
    for (const x of model.sorted) {
      if (fitsNow(moment.world, x, moment.recorded.forced[x] === 1)) next.push(this.entry(moment, hides, x));
    }
    return next;
  }

  private entry(moment: Moment, hides: Hides, x: number): FitsEntry {
    const locked = this.lockedOutBy(moment, x);
    return {
      action: this.model.ids[x]!,
      fits: true,
      locksOut: this.named(locked.actions),
      roots: this.named(locked.roots),
      hides: (hides.get(x) ?? []).map((l) => this.rig.looks[l]!.id).sort(),
    };
  }

  private named(actions: readonly number[]): readonly ActionId[] {
    return actions.length === 0 ? [] : actions.map((a) => this.model.ids[a]!).sort();
  }

  private one(moment: Moment, hides: Hides, action: ActionId): FitsEntry {
    const set = parseSet(action);
    if (set) return this.change(moment, action, set.setup, set.state);
    const x = this.model.actionOf.get(action)!;
    const words = refitWords(this.rig);
    const forced = moment.recorded.forced[x] === 1;
    if (fitsNow(moment.world, x, forced)) return this.entry(moment, hides, x);
    const ways = inTheWay(moment.world, x, forced).map((way) => words.unmet(this.model, moment.world, x, way));
    const texts = new Set<string>();
    return {
      action,
      fits: false,
      locksOut: [],
      roots: [],
      hides: [],
      inTheWay: ways.filter((u) => !texts.has(u.text) && texts.add(u.text)),
    };
  }

  private change(moment: Moment, action: ActionId, id: string, name: string): FitsEntry {
    const setup = this.model.setupOf.get(id)!;
    const state = this.rig.setups[setup]!.states.indexOf(name);
    const change = { setup, state };
    if (moment.mayEnter(change)) {
      const locked = moment.lockedOutByChange(change);
      const hides = moment.hiddenByChange(change);
      return { action, fits: true, locksOut: this.named(locked.actions), roots: this.named(locked.roots), hides };
    }
    const need = own(this.rig.setups[setup]!.changeNeeds, name) ?? { setup: id, in: [name] };
    const words = refitWords(this.rig);
    const text = `${words.thing(id)} cannot be changed to ${name} now: ${words.whyNotEnter(moment.world, change)}.`;
    return { action, fits: false, locksOut: [], roots: [], hides: [], inTheWay: [{ need, kind: 'setup', text }] };
  }
}
