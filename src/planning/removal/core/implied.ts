/**
 * What every way to a node contains. L(a) = {a} + for each clause the intersection of L(b) over its alternatives; the
 * greatest solution of these equations is exact for problems where nothing is ever undone. Bit sets, nodes in executable
 * order, repeated until stable (two or three sweeps).
 *
 * From it: more forced nodes (in L of a forced one), useless alternatives (b needs a itself), dominated alternatives
 * (b needs another alternative d anyway), clauses implied by a chain, and unit clauses "a needs d" that no chain of unit
 * clauses says: they change no solution but tighten the linear program.
 */
import { foldInto, type Graph, reach, rebuild, rootsOf, type Users, usersOf } from './graph.ts';
import type { Trail } from './simplify.ts';

/** Above this many nodes the table (n^2 bits) costs more than it brings. */
const MOST_NODES = 14000;

/**
 * The table. A node that only one other node needs, as a must, has no bit of its own: whoever needs it needs that other
 * node (or is it), so it can not be what alternatives have in common.
 */
export class Needs {
  readonly words: number;
  readonly bits: Uint32Array;
  /** bit of a node, -1 for the ones left out; node of a bit */
  readonly bit: Int32Array;
  readonly node: Int32Array;

  constructor(
    readonly g: Graph,
    order: Int32Array,
    private readonly into: Int32Array,
    users: Users,
  ) {
    this.bit = new Int32Array(g.n).fill(-1);
    const nodes: number[] = [];
    for (let a = 0; a < g.n; a++) if (into[a] === a) this.bit[a] = nodes.push(a) - 1;
    this.node = Int32Array.from(nodes);
    const words = (this.words = (nodes.length + 31) >>> 5);
    this.bits = new Uint32Array(g.n * words).fill(0xffffffff);
    const stale = new Uint8Array(g.n).fill(1);
    while (this.sweep(order, users, stale));
  }

  /** One pass over the nodes whose equation may no longer hold. */
  private sweep(order: Int32Array, users: Users, stale: Uint8Array): boolean {
    const { g, words, bits, bit } = this;
    const row = new Uint32Array(words);
    let changed = false;
    for (let i = 0; i < order.length; i++) {
      const a = order[i]!;
      if (stale[a] === 0) continue;
      stale[a] = 0;
      row.fill(0);
      if (bit[a]! >= 0) row[bit[a]! >>> 5]! |= 1 << (bit[a]! & 31);
      for (let c = g.clauseStart[a]!; c < g.clauseStart[a + 1]!; c++) {
        const s = g.altStart[c]!;
        const end = g.altStart[c + 1]!;
        const b = g.alt[s]! * words;
        if (end === s + 1) for (let w = 0; w < words; w++) row[w]! |= bits[b + w]!;
        else if (end === s + 2) {
          const o = g.alt[s + 1]! * words;
          for (let w = 0; w < words; w++) row[w]! |= bits[b + w]! & bits[o + w]!;
        } else
          for (let w = 0; w < words; w++) {
            let v = bits[b + w]!;
            for (let e = s + 1; e < end && v !== 0; e++) v &= bits[g.alt[e]! * words + w]!;
            row[w]! |= v;
          }
      }
      const at = a * words;
      let same = true;
      for (let w = 0; w < words && same; w++) same = row[w] === bits[at + w];
      if (same) continue;
      bits.set(row, at);
      for (let e = users.start[a]!; e < users.start[a + 1]!; e++) {
        const owner = g.owner[users.clause[e]!]!;
        if (owner < g.n) stale[owner] = 1;
      }
      changed = true;
    }
    return changed;
  }

  /** Whether every way to a contains d; false also when d has no bit. */
  has(a: number, d: number): boolean {
    const k = this.bit[d]!;
    return k >= 0 && (this.bits[a * this.words + (k >>> 5)]! & (1 << (k & 31))) !== 0;
  }

  /** The node with a bit that stands for d: d itself or what it is folded into. */
  top(d: number): number {
    let i = d;
    while (this.into[i] !== i) i = this.into[i]!;
    return i;
  }
}

/** Null when the graph is too large for the table (or has unreachable nodes: simplify first). */
function needsOf(g: Graph): Needs | null {
  if (g.n > MOST_NODES) return null;
  const users = usersOf(g);
  const { order } = reach(g, users, null);
  return order.length < g.n ? null : new Needs(g, order, foldInto(g, users), users);
}

/** Null when nothing could be improved. */
export function improveByNeeds(g: Graph, trail: Trail): Graph | null {
  const needs = needsOf(g);
  if (needs === null) return null;
  const forced = g.forced.slice();
  let changed = forceNeeded(g, needs, forced, trail);
  const alt = new Uint8Array(g.alt.length).fill(1);
  const clause = new Uint8Array(g.owner.length).fill(1);
  for (let c = 0; c < g.owner.length; c++) if (thinOut(g, needs, c, alt)) changed = true;
  for (let a = 0; a < g.n; a++) if (dropChained(g, needs, a, alt, clause)) changed = true;
  const extra: (readonly [number, number])[] = [];
  for (let a = 0; a < g.n; a++) addUnits(g, needs, a, alt, clause, extra);
  if (!changed && extra.length === 0) return null;
  return rebuild(g, { clause, alt, forced, extra }, rootsOf(g, forced));
}

/** Puts on the trail what every way to the forced nodes contains; false when the graph is too large for the table. */
export function neededForced(g: Graph, trail: Trail): boolean {
  const needs = needsOf(g);
  if (needs === null) return false;
  const forced = g.forced.slice();
  forceNeeded(g, needs, forced, trail);
  for (let a = 0; a < g.n; a++) {
    // a node without a bit is in exactly when the node it serves is
    if (forced[a] === 0 && forced[needs.top(a)] === 1) trail.forced.push(g.act[a]!);
  }
  return true;
}

function forceNeeded(g: Graph, needs: Needs, forced: Uint8Array, trail: Trail): boolean {
  const { words, bits } = needs;
  let changed = false;
  const meet = new Uint32Array(words);
  const take = (of: number): void => {
    for (let w = 0; w < words; w++) {
      let v = meet[w]!;
      while (v !== 0) {
        const bit = 31 - Math.clz32(v);
        v &= ~(1 << bit);
        const d = needs.node[w * 32 + bit];
        if (d === undefined || forced[d] === 1) continue;
        forced[d] = 1;
        changed = true;
        trail.forced.push(g.act[d]!);
        trail.ledger.note(of, [g.act[d]!], trail.out);
      }
    }
  };
  for (let a = 0; a < g.n; a++) {
    if (g.forced[a] === 0) continue;
    meet.set(bits.subarray(a * words, (a + 1) * words));
    take(g.act[a]!);
  }
  for (let c = g.clauseStart[g.n]!; c < g.owner.length; c++) {
    meet.fill(0xffffffff);
    for (let e = g.altStart[c]!; e < g.altStart[c + 1]!; e++)
      for (let w = 0; w < words; w++) meet[w]! &= bits[g.alt[e]! * words + w]!;
    take(g.of[c]!);
  }
  return changed;
}

/** Useless and dominated alternatives of one clause. */
function thinOut(g: Graph, needs: Needs, c: number, alt: Uint8Array): boolean {
  const a = g.owner[c]!;
  const s = g.altStart[c]!;
  const end = g.altStart[c + 1]!;
  let changed = false;
  for (let e = s; e < end && end - s > 1; e++) {
    const b = g.alt[e]!;
    let drop = a < g.n && needs.has(b, needs.top(a));
    for (let f = s; f < end && !drop; f++)
      drop = f !== e && alt[f] === 1 && (g.alt[f] === b ? f < e : needs.has(b, g.alt[f]!));
    if (drop) {
      alt[e] = 0;
      changed = true;
    }
  }
  return changed;
}

/** Clauses that another unit clause {b} of the same owner implies, because b needs one of their alternatives. */
function dropChained(g: Graph, needs: Needs, a: number, alt: Uint8Array, clause: Uint8Array): boolean {
  let changed = false;
  for (let c = g.clauseStart[a]!; c < g.clauseStart[a + 1]!; c++) {
    for (let k = g.clauseStart[a]!; k < g.clauseStart[a + 1]! && clause[c] === 1; k++) {
      if (k === c || clause[k] === 0) continue;
      const b = onlyAlternative(g, k, alt);
      if (b < 0) continue;
      for (let e = g.altStart[c]!; e < g.altStart[c + 1]!; e++) {
        if (alt[e] === 1 && needs.has(b, g.alt[e]!)) {
          clause[c] = 0;
          changed = true;
          break;
        }
      }
    }
  }
  return changed;
}

function onlyAlternative(g: Graph, c: number, alt: Uint8Array): number {
  let only = -1;
  for (let e = g.altStart[c]!; e < g.altStart[c + 1]!; e++) {
    if (alt[e] === 0) continue;
    if (only >= 0) return -1;
    only = g.alt[e]!;
  }
  return only;
}

/** Unit clauses "a needs d" for d in every alternative of a clause, unless a chain of unit clauses says it. */
function addUnits(
  g: Graph,
  needs: Needs,
  a: number,
  alt: Uint8Array,
  clause: Uint8Array,
  extra: (readonly [number, number])[],
): void {
  if (g.forced[a] === 1) return;
  const { words, bits } = needs;
  let found: number[] | null = null;
  for (let c = g.clauseStart[a]!; c < g.clauseStart[a + 1]!; c++) {
    if (clause[c] === 0 || onlyAlternative(g, c, alt) >= 0) continue;
    for (let w = 0; w < words; w++) {
      let v = 0xffffffff;
      for (let e = g.altStart[c]!; e < g.altStart[c + 1]!; e++) if (alt[e] === 1) v &= bits[g.alt[e]! * words + w]!;
      while (v !== 0) {
        const bit = 31 - Math.clz32(v);
        v &= ~(1 << bit);
        const d = needs.node[w * 32 + bit];
        if (d !== undefined && g.forced[d] === 0) (found ??= []).push(d);
      }
    }
  }
  if (found === null) return;
  const direct: number[] = [];
  for (let c = g.clauseStart[a]!; c < g.clauseStart[a + 1]!; c++) {
    const b = clause[c] === 1 ? onlyAlternative(g, c, alt) : -1;
    if (b >= 0) direct.push(b);
  }
  const all = [...new Set(found)];
  for (const d of all) {
    if (direct.some((b) => needs.has(b, d)) || all.some((o) => o !== d && needs.has(o, d))) continue;
    extra.push([a, d]);
  }
}
