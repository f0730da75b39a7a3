/**
 * What weighs where on a rig, and what carries it: made once for a rig, asked after every step.
 *
 * A part counts while neither it nor an assembly that holds it has been lifted, with its own mass only, so each part is
 * one small term in a sum (see `statics-moments.ts`). Taking a part off subtracts the terms inside it that still count;
 * taking it back restores the sum of before, bit for bit. Points of all setups in force count together, as do their
 * extra loads. Not chosen: summing all parts at every step, which is the same answer and too slow for a search.
 */

import { own } from '../../domain/rig/own.ts';
import { parseRemove, parseSet } from '../../domain/rig/rig-meaning.ts';
import type { ActionId, Rig, Setup, Situation, SupportPoint } from '../../domain/rig/rig-types.ts';
import { addMoments, lessMoments, type Moments, momentsOf, NO_MOMENTS } from '../../domain/statics-moments.ts';
import { loadsOn, prepareSupport, type StaticPoint, type Support } from '../../domain/statics-points.ts';
import type { PointLoad } from '../answers.ts';

export type States = Readonly<Record<string, string>>;

export interface InForce {
  /** Null where no point is in force: nothing is said about tipping then. */
  readonly support: Support | null;
  readonly extra: Moments;
  /** Names for people, by point. */
  readonly names: ReadonlyMap<string, string>;
}

/** Subtracting leaves rounding behind: a doubt of under a milligram where none is left, a load of 1e-13 kg. */
function withoutDust(l: PointLoad): PointLoad {
  return { point: l.point, kg: Math.abs(l.kg) < 1e-9 ? 0 : l.kg, plusMinus: l.plusMinus < 1e-6 ? 0 : l.plusMinus };
}

function isDoubtlessNothing(m: Moments): boolean {
  return m.kg === 0 && m.uu === 0;
}

/** Points in the order of their ids; a second point of one name is told apart by its number. */
function pointsOf(all: readonly SupportPoint[]): {
  readonly points: readonly StaticPoint[];
  readonly names: ReadonlyMap<string, string>;
} {
  const names = new Map<string, string>();
  const points = all.map((p): StaticPoint => {
    const base = p.id ?? p.on;
    let id = base;
    for (let n = 2; names.has(id); n += 1) id = `${base}#${n}`;
    names.set(id, p.name ?? id);
    return { id, ...(p.at !== undefined && { at: p.at }), ...(p.limitKg !== undefined && { limitKg: p.limitKg }) };
  });
  return { points: points.sort((a, b) => (a.id < b.id ? -1 : 1)), names };
}

export class SupportModel {
  readonly hasPoints: boolean;
  /** All parts of the complete aircraft. */
  readonly complete: Moments;
  private readonly own = new Map<string, Moments>();
  private readonly children = new Map<string, string[]>();
  private readonly heavy = new Map<string, readonly string[]>();
  private readonly standing: readonly Setup[];
  private readonly inForceBy = new Map<string, InForce>();

  constructor(readonly rig: Rig) {
    for (const p of rig.parts) {
      const moments = p.massKg === undefined ? NO_MOMENTS : momentsOf(p.massKg, p.at);
      if (!isDoubtlessNothing(moments)) this.own.set(p.id, moments);
      if (p.within === undefined) continue;
      const held = this.children.get(p.within);
      if (held) held.push(p.id);
      else this.children.set(p.within, [p.id]);
    }
    this.complete = [...this.own.values()].reduce(addMoments, NO_MOMENTS);
    this.standing = rig.setups.filter((s) => s.points !== undefined || s.loads !== undefined);
    this.hasPoints = rig.setups.some((s) => Object.values(s.points ?? {}).some((list) => list.length > 0));
  }

  /** Parts with a mass inside this one (itself included). */
  heavyInside(part: string): readonly string[] {
    let found = this.heavy.get(part);
    if (!found) {
      const all = [part];
      for (let i = 0; i < all.length; i += 1) all.push(...(this.children.get(all[i] ?? '') ?? []));
      found = all.filter((p) => this.own.has(p));
      this.heavy.set(part, found);
    }
    return found;
  }

  massOf(part: string): Moments {
    return this.own.get(part) ?? NO_MOMENTS;
  }

  /** Whether the action can change what rests on the points. */
  changesLoads(action: ActionId): boolean {
    const part = parseRemove(action);
    return part === null ? parseSet(action) !== null : this.heavyInside(part).length > 0;
  }

  inForce(states: States): InForce {
    const key = this.standing.map((s) => own(states, s.id) ?? s.initial).join('\n');
    let found = this.inForceBy.get(key);
    if (!found) {
      const at = (s: Setup): string => own(states, s.id) ?? s.initial;
      const { points, names } = pointsOf(this.standing.flatMap((s) => own(s.points, at(s)) ?? []));
      const loads = this.standing.flatMap((s) => own(s.loads, at(s)) ?? []);
      const extra = loads.reduce((m, l) => addMoments(m, momentsOf(l.massKg, l.at)), NO_MOMENTS);
      found = { support: points.length > 0 ? prepareSupport(points) : null, extra, names };
      this.inForceBy.set(key, found);
    }
    return found;
  }

  walk(situation: Situation): WeightWalk {
    const walk = new WeightWalk(this);
    for (const action of situation.done) walk.apply(action);
    walk.states = { ...walk.states, ...situation.setups };
    return walk;
  }
}

/** What `apply` changed, to be given back to `undo` in reverse order. */
export interface Before {
  readonly sum: Moments;
  readonly states: States;
  readonly removed: readonly string[];
}

/** A walk along an order: the weight that is still on the aircraft, and how it stands. */
export class WeightWalk {
  states: States;
  private sum: Moments = NO_MOMENTS;
  private readonly off = new Map<string, number>();

  constructor(private readonly model: SupportModel) {
    this.states = Object.fromEntries(model.rig.setups.map((s) => [s.id, s.initial]));
    this.sum = model.complete;
  }

  apply(action: ActionId): Before {
    const before = { sum: this.sum, states: this.states };
    const set = parseSet(action);
    if (set) this.states = { ...this.states, [set.setup]: set.state };
    const part = parseRemove(action);
    const removed = part === null ? [] : this.model.heavyInside(part);
    for (const p of removed) {
      const times = this.off.get(p) ?? 0;
      if (times === 0) this.sum = lessMoments(this.sum, this.model.massOf(p));
      this.off.set(p, times + 1);
    }
    return { ...before, removed };
  }

  undo(before: Before): void {
    this.sum = before.sum;
    this.states = before.states;
    for (const p of before.removed) this.off.set(p, (this.off.get(p) ?? 1) - 1);
  }

  /** All that rests on the points: what is on the aircraft and the extra loads of the present states. */
  weight(): Moments {
    return addMoments(this.sum, this.model.inForce(this.states).extra);
  }

  loads(): readonly PointLoad[] {
    const { support } = this.model.inForce(this.states);
    return support === null ? [] : loadsOn(support, this.weight()).map(withoutDust);
  }
}

const models = new WeakMap<Rig, SupportModel>();

/** The model of a rig; kept as long as the rig is, since rigs are never changed in place. */
export function supportModelOf(rig: Rig): SupportModel {
  let model = models.get(rig);
  if (!model) {
    model = new SupportModel(rig);
    models.set(rig, model);
  }
  return model;
}
