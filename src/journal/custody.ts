/**
 * Questions about where things are, answered from the state. Pure; what is worked out over all things is kept per map, so
 * that a list of 5,000 parts does not ask 5,000 times.
 */
import { bagNumber, isBagCode } from '../domain/bag-code.ts';
import type { Bag, Difference, Ledger, Tag, Transfer, Where } from './custody-state.ts';
import type { DataOf } from './kinds/kinds.ts';
import type { Said, StateData } from './state.ts';

/** Where a thing is in the end: the bag it lies in and where that bag is. */
export interface Whereabouts {
  readonly thing: string;
  readonly bag: string | null;
  readonly where: Where;
  readonly said: Said;
}

/** The end of the chain for a piece, lot, bag, position or part; null when nothing was said of it. */
export function whereIs(state: StateData, id: string): Whereabouts | null {
  const bag = state.bags.get(id);
  if (bag !== undefined) return { thing: id, bag: id, where: bag.where, said: bag.said };
  const held = state.held.get(id);
  if (held === undefined) return null;
  if (held.where.is !== 'bag') return { thing: id, bag: null, where: held.where, said: held.said };
  const into = state.bags.get(held.where.bag);
  // A bag that was filled on a phone whose entry is not here yet: the bag itself is all that is known.
  return { thing: id, bag: held.where.bag, where: into?.where ?? held.where, said: held.said };
}

interface ThingIndex {
  readonly pieces: unknown;
  readonly lots: unknown;
  readonly positions: unknown;
  readonly of: ReadonlyMap<string, readonly string[]>;
}
const things = new WeakMap<object, ThingIndex>();

/** The pieces and lots that belong to a part, joint or position, and itself where it stands for its piece. */
export function thingsOf(state: StateData, subject: string): readonly string[] {
  const { pieces, lots, positions } = state;
  let index = things.get(state.held);
  if (index?.pieces !== pieces || index.lots !== lots || index.positions !== positions) {
    index = { pieces, lots, positions, of: indexThings(state) };
    things.set(state.held, index);
  }
  return index.of.get(subject) ?? [];
}

function indexThings(state: StateData): ReadonlyMap<string, readonly string[]> {
  const index = new Map<string, string[]>();
  const add = (subject: string | undefined, thing: string) => {
    if (subject === undefined) return;
    const list = index.get(subject);
    if (list === undefined) index.set(subject, [thing]);
    else if (!list.includes(thing)) list.push(thing);
  };
  for (const thing of state.held.keys()) {
    add(thing, thing);
    add(state.pieces.get(thing)?.position, thing);
    add(state.lots.get(thing)?.of, thing);
  }
  for (const p of state.positions.values()) {
    for (const thing of index.get(p.position) ?? []) add(p.rig, thing);
    for (const thing of p.rig === undefined ? [] : (index.get(p.rig) ?? [])) add(p.position, thing);
  }
  return index;
}

const contents = new WeakMap<object, ReadonlyMap<string, readonly string[]>>();

/** What lies in a bag. */
export function contentsOf(state: StateData, bag: string): readonly string[] {
  let index = contents.get(state.held);
  if (index === undefined) {
    const made = new Map<string, string[]>();
    for (const [thing, { where }] of state.held) {
      if (where.is !== 'bag') continue;
      const list = made.get(where.bag);
      if (list === undefined) made.set(where.bag, [thing]);
      else list.push(thing);
    }
    contents.set(state.held, made);
    index = made;
  }
  return index.get(bag) ?? [];
}

export interface Balance extends Ledger {
  readonly root: string;
  /** Known counts of all lots of the family, added up. */
  readonly now: number;
  readonly holds: boolean;
}

/** The balance of every family of lots: now = first + differences - out + in. It holds by construction; tests ask. */
export function balances(state: StateData): readonly Balance[] {
  const sums = new Map<string, number>();
  for (const { root, count } of state.lotCounts.values()) sums.set(root, (sums.get(root) ?? 0) + (count ?? 0));
  return [...state.ledgers].map(([root, l]) => {
    const now = sums.get(root) ?? 0;
    return { root, ...l, now, holds: now === l.first + l.differences - l.out + l.in };
  });
}

/** Lots of which more was taken than there was: two people did it while apart, or a count was wrong. */
export function overdrawn(state: StateData): readonly { readonly lot: string; readonly count: number }[] {
  return [...state.lotCounts].flatMap(([lot, { count }]) => (count !== null && count < 0 ? [{ lot, count }] : []));
}

export function openDifferences(state: StateData): readonly Difference[] {
  return [...state.differences.values()].filter((d) => d.explained === undefined);
}

/** Robbed and not yet all back. */
export function openTransfers(state: StateData): readonly Transfer[] {
  return [...state.transfers.values()].filter((t) => t.owed && t.returned < (t.count ?? 1));
}

export function openTags(state: StateData): readonly Tag[] {
  return [...state.tags.values()].filter((t) => t.off === undefined);
}

export function bagClashes(state: StateData): readonly Bag[] {
  return [...state.bags.values()].filter((b) => b.clash !== undefined);
}

export interface StillInside {
  readonly zone: string;
  readonly what: string;
  readonly count: number;
  readonly said: Said;
}

/** Tools and rags that went in and did not come out; negative: more came out than went in. */
export function stillInside(state: StateData): readonly StillInside[] {
  return [...state.inside].flatMap(([zone, notes]) => {
    const sums = new Map<string, { count: number; said: Said }>();
    for (const n of notes) {
      for (const item of n.items) {
        const was = sums.get(item.what)?.count ?? 0;
        sums.set(item.what, { count: was + (n.way === 'in' ? item.count : -item.count), said: n.said });
      }
    }
    return [...sums].flatMap(([what, { count, said }]) => (count === 0 ? [] : [{ zone, what, count, said }]));
  });
}

const sets = new WeakMap<object, ReadonlyMap<string, readonly string[]>>();

/** The other members of the set a thing belongs to; sets that share a member are one. */
export function setOf(state: StateData, subject: string): readonly string[] {
  let index = sets.get(state.goesWith);
  if (index === undefined) {
    index = joinSets(state.goesWith);
    sets.set(state.goesWith, index);
  }
  return (index.get(subject) ?? []).filter((m) => m !== subject);
}

function joinSets(notes: readonly DataOf<'goes-with'>[]): ReadonlyMap<string, readonly string[]> {
  const index = new Map<string, string[]>();
  for (const { members } of notes) {
    const all = [...new Set(members.flatMap((m) => index.get(m) ?? [m]))];
    for (const m of all) index.set(m, all);
  }
  return index;
}

/** The highest number of the shop's bag series that this job knows of. */
export function highestBag(state: StateData): number {
  let highest = 0;
  for (const code of state.bags.keys()) if (isBagCode(code)) highest = Math.max(highest, bagNumber(code));
  for (const d of state.bagsSetAside) highest = Math.max(highest, d.to);
  return highest;
}

/** Stuck and neither freed nor done. */
export function openStuck(state: StateData): readonly { readonly subject: string; readonly said: Said }[] {
  return [...state.stuck].flatMap(([subject, list]) => {
    const last = list.at(-1);
    const action = last?.action ?? (last?.part === undefined ? undefined : `remove:${last.part}`);
    const over =
      last === undefined || state.freed.has(last.said.entry) || (action !== undefined && state.done.has(action));
    return over ? [] : [{ subject, said: last.said }];
  });
}
