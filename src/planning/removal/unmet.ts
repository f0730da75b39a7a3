/**
 * What stands against one action now, each with its rule, its need and words; then folded to roots: what merely stands
 * behind another of the list (its own needs lead there without any choice) is counted in the text of that one.
 */

import { own } from '../../domain/rig/own.ts';
import { clear } from '../../domain/rig/rig-meaning.ts';
import type { ActionId, Need } from '../../domain/rig/rig-types.ts';
import type { Unmet, UnmetKind } from '../answers.ts';
import type { Condition, RigModel } from '../rig-model/compile.ts';
import { holdsByJoint, type Moment, readSet } from '../rig-model/moment.ts';
import { KIND } from '../rig-model/need-table.ts';
import { list, sentence, type Words } from './words.ts';

export interface Against {
  readonly kind: UnmetKind;
  readonly need: Need;
  readonly node: number;
  readonly text: string;
  readonly harm?: string;
}

export class Hindrances {
  constructor(
    private readonly model: RigModel,
    private readonly now: Moment,
    private readonly words: Words,
  ) {}

  of(action: ActionId): readonly Against[] {
    const set = readSet(this.model, action);
    if (set) return this.ofSet(set.setup, set.state);
    const index = this.model.find(action);
    if (index === null) return [];
    return [...this.ofConditions(index), ...this.ofHolds(index), ...this.ofStates(index), ...this.ofGuards(index)];
  }

  private ofConditions(action: number): Against[] {
    const { model, now } = this;
    const part = model.partOf(action);
    const open = model.conditions[action]!.filter((c) => c.rule !== 'hanging' && !now.holds(c.node));
    const hanging = part < 0 ? [] : model.hanging.on(part).filter((q) => !now.isOffFrom(q, part));
    const hangs = hanging.map((q): Condition => ({ rule: 'hanging', node: model.off(q, part), source: q }));
    return [...open, ...hangs].flatMap((c) => this.ofCondition(action, c));
  }

  private ofCondition(action: number, c: Condition): Against[] {
    const { model, words } = this;
    const { rig, places } = model;
    const part = model.partOf(action);
    switch (c.rule) {
      case 'attachment': {
        const name = (p: number): string => words.thing(places.ids[p]!);
        const inner = model.joins(c.source).filter((e) => places.isInside(e, part));
        const outer = model.joins(c.source).filter((e) => !places.isInside(e, part));
        const held = `${list(inner.map(name), 'and')} ${inner.length > 1 ? 'are' : 'is'} still held to ${list(outer.map(name), 'and')}`;
        const text = `${held}; first ${words.doing(model.id(c.source))}`;
        return [{ kind: 'attachment', need: { released: model.id(c.source) }, node: c.node, text }];
      }
      case 'block': {
        const b = rig.blocks[c.source]!;
        const harm = b.harm === undefined ? '' : `; if forced: ${b.harm}`;
        const unless = b.unless === undefined ? '' : `, unless ${words.need(b.unless)}`;
        const text = `${words.thing(b.by)} is in the way of ${words.thing(b.part)}${unless}${harm}`;
        const against = { kind: 'block' as const, need: clear(b.by, b.unless), node: c.node, text };
        return [b.harm === undefined ? against : { ...against, harm: b.harm }];
      }
      case 'hanging': {
        const id = places.ids[c.source]!;
        const text = `${words.thing(id)} hangs on ${words.thing(places.ids[part]!)} and would come down with it`;
        return [{ kind: 'hanging', need: { off: id }, node: c.node, text }];
      }
      case 'hazard': {
        const hazard = this.hazardsOf(action)[c.source]!;
        const what = sentence(hazard.kind.replaceAll('-', ' '));
        const need = hazard.clearedBy ?? { all: [] };
        return [{ kind: 'hazard', need, node: c.node, text: `${what}: not before ${words.need(need)}` }];
      }
      case 'part':
        return this.ofNeed(this.needOf(action), this.placesOf(action));
      default:
        return c.rule satisfies never;
    }
  }

  private hazardsOf(action: number): readonly { readonly kind: string; readonly clearedBy?: Need }[] {
    const { rig, joints } = this.model;
    return (action < joints ? rig.attachments[action]! : rig.operations[this.model.operationOf(action)]!).hazards ?? [];
  }

  private needOf(action: number): Need {
    const { model } = this;
    const part = model.partOf(action);
    if (part === model.places.root) return { any: [] };
    if (action < model.joints) return model.rig.attachments[action]!.needs ?? { all: [] };
    return (part >= 0 ? model.rig.parts[part] : model.rig.operations[model.operationOf(action)])?.needs ?? { all: [] };
  }

  private placesOf(action: number): readonly number[] {
    const { model } = this;
    if (action < model.joints) return model.joins(action);
    const part = model.partOf(action);
    if (part >= 0) return [part];
    const on = model.rig.operations[model.operationOf(action)]!.on;
    return [on === undefined ? model.places.root : model.places.of(on)];
  }

  /** The needs of the thing itself, each "all" taken apart. */
  private ofNeed(need: Need, places: readonly number[]): Against[] {
    const node = this.model.need(need, places);
    if (this.now.holds(node)) return [];
    if ('all' in need) return need.all.flatMap((n) => this.ofNeed(n, places));
    const kind: UnmetKind = onlyOf(need, 'fact') ? 'fact' : onlyOf(need, 'setup') ? 'setup' : 'part';
    return [{ kind, need, node, text: `not before: ${this.words.need(need)}` }];
  }

  private ofHolds(action: number): Against[] {
    const { model, words, now } = this;
    return (holdsByJoint(model).get(action) ?? []).flatMap((h): Against[] => {
      if (!now.refusesHold(h, action)) return [];
      const of = model.places.ids[h.of]!;
      const need = model.rig.parts[h.of]!.hold!;
      const text = `it is the last that carries ${words.thing(of)}; not before: ${words.need(need)}`;
      return [{ kind: 'hold', need, node: h.node, text }];
    });
  }

  private ofStates(action: number): Against[] {
    return this.model.setups.flatMap((s, i): Against[] => {
      const state = this.now.states[i]!;
      if (!s.restsOn[state]!.includes(action)) return [];
      const others = s.setup.states.filter((_, k) => !s.restsOn[k]!.includes(action));
      const need: Need = { setup: s.setup.id, in: others };
      const to = others.length === 0 ? '' : `; first change to ${list(others, 'or')}`;
      const text = `${this.words.thing(s.setup.id)} at ${s.setup.states[state]!} rests on it${to}`;
      return [{ kind: 'setup', need, node: this.model.need(need, []), text }];
    });
  }

  private ofGuards(action: number): Against[] {
    if (this.model.partOf(action) < 0) return [];
    return this.brokenBy((m) => {
      m.done[action] = 1;
    });
  }

  private ofSet(setup: number, state: number): Against[] {
    const { model, now, words } = this;
    const rule = model.setups[setup]!;
    const { id } = rule.setup;
    const name = rule.setup.states[state]!;
    const others = rule.setup.states.filter((_, k) => k !== state && rule.minutes[k]![state]! >= 0);
    const from: Need = { setup: id, in: others };
    const out: Against[] = [];
    if (now.states[setup] === state)
      out.push({
        kind: 'setup',
        need: from,
        node: model.need(from, []),
        text: `${words.thing(id)} already stands at ${name}`,
      });
    else if (rule.minutes[now.states[setup]!]![state]! < 0) {
      const text = `${words.thing(id)} cannot be changed from ${rule.setup.states[now.states[setup]!]!} to ${name}`;
      out.push({ kind: 'setup', need: from, node: model.need(from, []), text });
    }
    for (const a of rule.restsOn[state]!) {
      if (now.done[a] === 0) continue;
      const text = `${name} rests on what ${words.doing(model.id(a))} has taken away`;
      out.push({ kind: 'setup', need: { any: [] }, node: model.need({ any: [] }, []), text });
    }
    const needs = own(rule.setup.changeNeeds, name);
    if (needs) out.push(...this.ofNeed(needs, [model.places.root]));
    const breaks = this.brokenBy((m) => {
      m.states[setup] = state;
    });
    return [...out, ...breaks];
  }

  private brokenBy(doing: (then: Moment) => void): Against[] {
    const { model, now, words } = this;
    if (model.guards.length === 0) return [];
    const then = now.copy();
    doing(then);
    return model.guards.flatMap((g, i): Against[] => {
      if (now.isBroken(g) || !then.isBroken(g)) return [];
      const { notTogether, unless, harm } = model.rig.guards[i]!;
      const need = unless ?? { any: [] };
      const names = list(
        notTogether.map((p) => words.thing(p)),
        'and',
      );
      const first = unless === undefined ? '' : `; not before: ${words.need(unless)}`;
      const text = `${names} would ${notTogether.length > 1 ? 'all ' : ''}be off${harm === undefined ? '' : `: ${harm}`}${first}`;
      const against = { kind: 'guard' as const, need, node: g.unless, text };
      return [harm === undefined ? against : { ...against, harm }];
    });
  }
}

function onlyOf(need: Need, leaf: 'fact' | 'setup'): boolean {
  if ('all' in need) return need.all.length > 0 && need.all.every((n) => onlyOf(n, leaf));
  if ('any' in need) return need.any.length > 0 && need.any.every((n) => onlyOf(n, leaf));
  return leaf in need;
}

/** Folds what stands behind another of the list. `action`: what they stand against. */
export function foldToRoots(model: RigModel, now: Moment, against: readonly Against[], action: number | null): Unmet[] {
  const leads = against.map((a) => followed(model, now, a.node, action));
  const meets = metBy(model, now, against, action);
  const behind = leads.map((acts, i) => {
    const all = [...acts].flatMap((a) => meets.get(a) ?? []);
    return new Set(all.filter((j) => i !== j && against[i]!.node !== against[j]!.node));
  });
  const isRoot = against.map((_, i) => [...behind[i]!].every((j) => behind[j]!.has(i) && i < j));
  return against.flatMap((a, i) => {
    if (!isRoot[i]) return [];
    const folded = behind.filter((of, k) => !isRoot[k] && of.has(i)).length;
    const more = folded === 0 ? '' : ` (and ${folded} more behind it)`;
    return [{ need: a.need, kind: a.kind, text: `${sentence(a.text)}${more}.` }];
  });
}

/** Alternatives of a node that do not need the action themselves; null for a node that is no choice of actions. */
function alternatives(model: RigModel, node: number, action: number | null): number[] | null {
  const t = model.needs;
  const items = t.kind[node] === KIND.any ? t.items[node]! : [node];
  const out: number[] = [];
  for (const n of items) {
    if (t.kind[n] !== KIND.action) return null;
    if (action === null || !model.comesTooLate(t.subject[n]!, action)) out.push(t.subject[n]!);
  }
  return out;
}

/** Actions that follow from a node without any choice. */
function followed(model: RigModel, now: Moment, node: number, action: number | null): ReadonlySet<number> {
  const t = model.needs;
  const acts = new Set<number>();
  const open = [{ node, of: action }];
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    const { of } = at;
    if (t.kind[at.node] === KIND.all) open.push(...t.items[at.node]!.map((n) => ({ node: n, of })));
    const only = alternatives(model, at.node, of);
    if (only?.length !== 1) continue;
    const a = only[0]!;
    if (acts.has(a) || now.done[a] === 1) continue;
    acts.add(a);
    for (const c of now.conditionsOf(a)) if (!now.holds(c.node)) open.push({ node: c.node, of: a });
  }
  return acts;
}

/** For each action, which of the list it meets. */
function metBy(
  model: RigModel,
  now: Moment,
  against: readonly Against[],
  action: number | null,
): ReadonlyMap<number, readonly number[]> {
  const out = new Map<number, number[]>();
  against.forEach(({ node }, j) => {
    if (now.holds(node)) return;
    for (const a of alternatives(model, node, action) ?? []) (out.get(a) ?? out.set(a, []).get(a)!).push(j);
  });
  return out;
}
