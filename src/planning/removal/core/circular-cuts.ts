/**
 * Cuts against circular support. The linear program may like "A after B, B after A": every clause is met, nothing can be
 * started. Take the nodes it uses; what of them cannot be executed from the others is such a circle (or hangs on one).
 * For a node u of it, follow unmet clauses inside the used nodes; the unused alternatives met on the way are a cut:
 * without one of them, u can never be done. The cut is then made small by letting alternatives go as long as u stays out
 * of reach (the frontier cut with a grown reach), which makes it strong.
 */
import type { Graph, Users } from './graph.ts';
import type { Program, Row } from './program.ts';

export class CircularCuts {
  private readonly met: Uint8Array;
  private readonly missing: Int32Array;
  private readonly has: Uint8Array;

  constructor(
    private readonly g: Graph,
    private readonly users: Users,
    private readonly program: Program,
  ) {
    this.met = new Uint8Array(g.owner.length);
    this.missing = new Int32Array(g.n + 1);
    this.has = new Uint8Array(g.n);
  }

  /** Cuts that the values violate when only nodes with a value above `threshold` may be used; empty = no circle. */
  find(value: Float64Array, threshold: number, most: number): Row[] {
    const { g, program } = this;
    const used = new Uint8Array(g.n);
    for (let a = 0; a < g.n; a++) if (g.forced[a] === 1 || value[program.column[a]!]! > threshold) used[a] = 1;
    this.grow(used);
    const reached = this.has.slice();
    const met = this.met.slice();
    const rows: Row[] = [];
    const covered = new Uint8Array(g.n);
    for (let u = 0; u < g.n && rows.length < most; u++) {
      if (used[u] === 0 || reached[u] === 1 || covered[u] === 1) continue;
      const cut = this.frontier(u, used, met, covered, value);
      const row = cut === null ? null : this.toRow(u, this.shrink(u, cut));
      if (row !== null && this.violated(row, value)) rows.push(row);
    }
    return rows;
  }

  private violated(row: Row, value: Float64Array): boolean {
    let sum = 0;
    for (const j of row.any) sum += value[j]!;
    return sum < (row.of < 0 ? 1 : value[row.of]!) - 1e-6;
  }

  private frontier(
    u: number,
    used: Uint8Array,
    met: Uint8Array,
    covered: Uint8Array,
    value: Float64Array,
  ): number[] | null {
    const { g, program } = this;
    const inside = new Set([u]);
    const cut = new Set<number>();
    const stack = [u];
    for (let w = stack.pop(); w !== undefined; w = stack.pop()) {
      covered[w] = 1;
      let best = -1;
      let bestScore = Number.POSITIVE_INFINITY;
      for (let c = g.clauseStart[w]!; c < g.clauseStart[w + 1]!; c++) {
        if (met[c] === 1) continue;
        let score = 0;
        for (let e = g.altStart[c]!; e < g.altStart[c + 1]!; e++) {
          const b = g.alt[e]!;
          if (inside.has(b)) continue;
          score += used[b] === 1 ? 1 : 1.01 + (g.forced[b] === 1 ? 0 : value[program.column[b]!]!);
        }
        if (score < bestScore) {
          bestScore = score;
          best = c;
        }
      }
      if (best < 0) return null;
      for (let e = g.altStart[best]!; e < g.altStart[best + 1]!; e++) {
        const b = g.alt[e]!;
        if (inside.has(b)) continue;
        if (used[b] === 1) {
          inside.add(b);
          stack.push(b);
        } else cut.add(b);
      }
    }
    return [...cut];
  }

  /** Lets members of the cut go while u stays out of reach. */
  private shrink(u: number, cut: readonly number[]): number[] {
    const { g, has, met, missing } = this;
    const allowed = new Uint8Array(g.n).fill(1);
    for (const b of cut) allowed[b] = 0;
    this.grow(allowed);
    if (has[u] === 1) throw new Error('internal: a circular cut does not cut; report it');
    const left: number[] = [];
    for (const b of cut) {
      allowed[b] = 1;
      if (missing[b]! > 0) continue; // still out of reach: not needed in the cut
      const queue = [b];
      const undoMet: number[] = [];
      has[b] = 1;
      for (let q = 0; q < queue.length && has[u] === 0; q++) this.step(queue[q]!, allowed, queue, undoMet);
      if (has[u] === 0) continue;
      for (const c of undoMet) {
        met[c] = 0;
        missing[g.owner[c]!]!++;
      }
      for (const a of queue) has[a] = 0;
      allowed[b] = 0;
      left.push(b);
    }
    return left;
  }

  private step(b: number, allowed: Uint8Array, queue: number[], noted: number[] | null): void {
    const { g, users, met, missing, has } = this;
    for (let e = users.start[b]!; e < users.start[b + 1]!; e++) {
      const c = users.clause[e]!;
      if (met[c] === 1) continue;
      met[c] = 1;
      noted?.push(c);
      const a = g.owner[c]!;
      if (--missing[a]! === 0 && a < g.n && allowed[a] === 1 && has[a] === 0) {
        has[a] = 1;
        queue.push(a);
      }
    }
  }

  private grow(allowed: Uint8Array): void {
    const { g, met, missing, has } = this;
    met.fill(0);
    has.fill(0);
    const queue: number[] = [];
    for (let a = 0; a <= g.n; a++) {
      missing[a] = g.clauseStart[a + 1]! - g.clauseStart[a]!;
      if (a < g.n && missing[a] === 0 && allowed[a] === 1) {
        has[a] = 1;
        queue.push(a);
      }
    }
    for (let q = 0; q < queue.length; q++) this.step(queue[q]!, allowed, queue, null);
  }

  /** In columns: a folded node stands for the node it serves; what serves u itself can not help u. */
  private toRow(u: number, cut: readonly number[]): Row | null {
    const { g, program } = this;
    const of = g.forced[u] === 1 ? -1 : program.column[u]!;
    const any = new Set<number>();
    for (const b of cut) {
      if (g.forced[b] === 1) return null;
      if (program.column[b] !== of) any.add(program.column[b]!);
    }
    const columns = [...any];
    return {
      of,
      any: columns,
      cut: -1,
      ofAct: of < 0 ? g.act[u]! : g.act[program.head[of]!]!,
      anyAct: columns.map((j) => g.act[program.head[j]!]!),
    };
  }
}
