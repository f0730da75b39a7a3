/**
 * The answers of the refit in words, calm and exact, with the names that the rig gives. "It would fit. Then the rivets
 * of panel 9 cannot be reached."
 */
import { own } from '../../domain/rig/own.ts';
import { changeMinutes, parseRemove, parseSet } from '../../domain/rig/rig-meaning.ts';
import type { ActionId, Need, Rig } from '../../domain/rig/rig-types.ts';
import type { FitsEntry, Unmet } from '../answers.ts';
import type { InTheWay } from './fit-check.ts';
import type { RefitModel } from './refit-model.ts';
import type { World } from './world.ts';

const NAMED = 3;

export class RefitWords {
  private readonly names = new Map<string, string>();
  private readonly joints = new Set<string>();

  constructor(readonly rig: Rig) {
    for (const list of [rig.operations, rig.setups, rig.facts, rig.looks]) {
      for (const x of list) this.names.set(x.id, x.name ?? x.id);
    }
    for (const p of rig.parts) this.names.set(p.id, p.name ?? p.id);
    for (const a of rig.attachments) {
      this.names.set(a.id, a.name ?? `joint ${a.id} (${[...new Set(a.joins)].map((e) => this.thing(e)).join(' to ')})`);
      this.joints.add(a.id);
    }
  }

  thing(id: string): string {
    return this.names.get(id) ?? id;
  }

  /** What is put back, made again or undone. */
  action(action: ActionId): string {
    const removed = parseRemove(action);
    if (removed !== null) return this.thing(removed);
    const set = parseSet(action);
    return set ? `${this.thing(set.setup)} to ${set.state}` : this.thing(action);
  }

  /** What can no longer be done to it. */
  lockedOut(action: ActionId): string {
    if (parseRemove(action) !== null) return `${this.action(action)} cannot go back in`;
    if (this.joints.has(action)) return `${this.action(action)} cannot be reached`;
    return `"${this.action(action)}" cannot be undone`;
  }

  need(need: Need): string {
    if ('all' in need)
      return (
        list(
          need.all.map((n) => this.need(n)),
          'and',
        ) || 'nothing'
      );
    if ('any' in need)
      return (
        list(
          need.any.map((n) => this.need(n)),
          'or',
        ) || 'what never holds'
      );
    if ('released' in need) return `${this.thing(need.released)} open`;
    if ('off' in need) return `${this.thing(need.off)} off`;
    if ('apart' in need) return `${this.thing(need.apart)} lifted out`;
    if ('done' in need) return `"${this.thing(need.done)}" done`;
    if ('fact' in need) return `"${this.thing(need.fact)}" settled`;
    return `${this.thing(need.setup)} at ${list(need.in, 'or')}`;
  }

  private wants(need: Need): string {
    if ('off' in need) return `${this.thing(need.off)} is in place; it would have to be off.`;
    if ('released' in need) return `${this.thing(need.released)} is made; it would have to be open.`;
    if ('done' in need) return `"${this.thing(need.done)}" is not done.`;
    if ('fact' in need) return `It waits for "${this.thing(need.fact)}", which is not settled (or no longer).`;
    if ('setup' in need) return `${this.thing(need.setup)} would have to stand at ${list(need.in, 'or')}.`;
    return `It wants ${this.need(need)}.`;
  }

  /** Why a state cannot be entered now. */
  whyNotEnter(world: World, { setup, state }: { readonly setup: number; readonly state: number }): string {
    const rule = world.model.setups[setup]!;
    const name = rule.setup.states[state]!;
    if (world.states[setup] === state) return 'it stands so already';
    if (rule.restsOn[state]!.some((node) => world.holds(node))) return 'what it would rest on is off or open';
    const need = own(rule.setup.changeNeeds, name);
    if (need !== undefined && !world.holds(rule.enter[state]!)) return `it wants ${this.need(need)}`;
    const from = rule.setup.states[world.states[setup]!]!;
    return changeMinutes(rule.setup, from, name) === null
      ? `no change leads there from ${from}`
      : 'a guard would be broken';
  }

  unmet(model: RefitModel, world: World, x: number, way: InTheWay): Unmet {
    const id = model.ids[x]!;
    const self: Need = model.isJoint(x)
      ? { released: id }
      : id.startsWith('remove:')
        ? { apart: id.slice(7) }
        : { done: id };
    switch (way.kind) {
      case 'condition': {
        const { need, kind } = way.condition;
        return { need, kind, text: capital(this.wants(need)) };
      }
      case 'hold': {
        const h = model.holds[way.rule]!;
        const part = this.thing(model.index.partIds[h.part]!);
        return {
          need: h.need,
          kind: 'hold',
          text: capital(`${part} hangs on this joint alone; it wants ${this.need(h.need)}.`),
        };
      }
      case 'parted': {
        const part = model.index.partIds[way.part]!;
        return { need: { apart: part }, kind: 'part', text: capital(`${this.thing(part)} is not back in yet.`) };
      }
      case 'guard': {
        const { guard } = model.guards[way.guard]!;
        const parts = list(
          guard.notTogether.map((p) => this.thing(p)),
          'and',
        );
        const harm = guard.harm === undefined ? '' : `: ${guard.harm}`;
        return {
          need: guard.unless ?? { any: [] },
          kind: 'guard',
          text: capital(`${parts} would be off together${harm}.`),
        };
      }
      case 'state': {
        const { setup, restsOn } = model.setups[way.setup]!;
        const stands = setup.states.filter((_, s) => !restsOn[s]!.some((node) => world.holds(node)));
        const now = setup.states[world.states[way.setup]!]!;
        return {
          need: { setup: setup.id, in: stands },
          kind: 'setup',
          text: capital(`${this.thing(setup.id)} is at ${now}, and what that rests on is not there.`),
        };
      }
      case 'not-done':
        return {
          need: self,
          kind: 'part',
          text: capital(`${this.action(id)} is in place; there is nothing to put back.`),
        };
      case 'stays':
        return {
          need: self,
          kind: 'part',
          text: capital(`"${this.action(id)}" belongs to taking apart; there is nothing to undo.`),
        };
      case 'made':
        return { need: self, kind: 'part', text: capital(`"${this.action(id)}" has been done already.`) };
      default:
        return way satisfies never;
    }
  }
}

const known = new WeakMap<Rig, RefitWords>();

export function refitWords(rig: Rig): RefitWords {
  let words = known.get(rig);
  if (!words) {
    words = new RefitWords(rig);
    known.set(rig, words);
  }
  return words;
}

/** One entry of `fits` as a person would say it. */
export function sayFits(rig: Rig, entry: FitsEntry): string {
  const words = refitWords(rig);
  if (!entry.fits) {
    const ways = (entry.inTheWay ?? []).map((u) => u.text);
    return ['It does not fit yet.', ...folded(ways)].join(' ');
  }
  const said = ['It would fit.'];
  const named = entry.roots.length > 0 ? entry.roots : entry.locksOut;
  if (named.length > 0) {
    const first = named.slice(0, NAMED);
    const behind = entry.locksOut.length - first.length;
    said.push(
      `Then ${list(
        first.map((a) => words.lockedOut(a)),
        'and',
      )}${behind > 0 ? `, and ${behind} more behind` : ''}.`,
    );
  }
  if (entry.hides.length > 0) {
    const looks = entry.hides.map((l) => `"${words.thing(l)}"`);
    said.push(`Unsigned and not to be seen after it: ${list(looks, 'and')}.`);
  }
  return said.join(' ');
}

function folded(texts: readonly string[]): readonly string[] {
  const rest = texts.length - NAMED;
  return rest > 0 ? [...texts.slice(0, NAMED), `And ${rest} more.`] : texts;
}

export function list(words: readonly string[], last: 'and' | 'or'): string {
  if (words.length < 2) return words[0] ?? '';
  return `${words.slice(0, -1).join(', ')} ${last} ${words[words.length - 1]}`;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
