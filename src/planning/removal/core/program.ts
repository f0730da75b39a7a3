/**
 * The linear program of one island: a column per free node, a row "x_of <= sum x_any" per open clause (">= 1" when the
 * owner is forced). A node that only one other node needs, as a must, is folded into that node: same value, summed cost.
 * Here also the exact arithmetic: multipliers rounded to whole numbers over a common scale, bound and reduced costs from
 * them without rounding (all sums stay below 2^52 or the rounding is refused).
 */
import { DualSimplex } from './dual-simplex.ts';
import { foldInto, type Graph, type Users } from './graph.ts';
import type { Ledger } from './ledger.ts';
import type { Prices } from './problem-types.ts';

const LIMIT = 2 ** 52;

export interface Row {
  readonly of: number;
  readonly any: readonly number[];
  /** number in the ledger, -1 until it is used */
  cut: number;
  readonly ofAct: number;
  readonly anyAct: readonly number[];
}

export interface ExactBound {
  readonly scale: number;
  readonly total: number;
  readonly price: Float64Array;
  readonly reduced: Float64Array;
}

export class Program {
  readonly columns: number;
  /** column of each node, -1 for forced ones */
  readonly column: Int32Array;
  /** the node that names the column */
  readonly head: Int32Array;
  readonly cost: Float64Array;
  readonly rows: Row[] = [];
  readonly lp: DualSimplex;
  /** folded node and the node it is folded into, with the cost it carries */
  private readonly folds: { readonly node: number; readonly into: number; readonly carried: number; cut: number }[] =
    [];
  private readonly seen = new Set<string>();
  /** 0 free, 1 fixed in, 2 fixed out */
  readonly mark: Uint8Array;

  constructor(
    readonly g: Graph,
    users: Users,
  ) {
    const rep = foldInto(g, users);
    this.column = new Int32Array(g.n).fill(-1);
    const heads: number[] = [];
    for (let a = 0; a < g.n; a++) {
      if (g.forced[a] === 1 || rep[a] !== a) continue;
      this.column[a] = heads.length;
      heads.push(a);
    }
    this.head = Int32Array.from(heads);
    this.columns = heads.length;
    this.mark = new Uint8Array(this.columns);
    this.cost = this.foldCosts(rep);
    this.lp = new DualSimplex(this.cost);
    for (let c = 0; c < g.owner.length; c++) this.clauseRow(c);
  }

  /** Sums costs upwards, leaves of the folded trees first, and gives folded nodes the column of their top. */
  private foldCosts(rep: Int32Array): Float64Array {
    const { g, column } = this;
    const carried = g.cost.slice();
    const waiting = new Int32Array(g.n);
    for (let a = 0; a < g.n; a++) if (rep[a] !== a) waiting[rep[a]!]!++;
    for (let leaf = 0; leaf < g.n; leaf++) {
      if (rep[leaf] === leaf || waiting[leaf] !== 0) continue;
      for (let a = leaf; rep[a] !== a && waiting[a] === 0; a = rep[a]!) {
        const into = rep[a]!;
        waiting[a] = -1; // done
        carried[into]! += carried[a]!;
        if (carried[a]! > 0) this.folds.push({ node: a, into, carried: carried[a]!, cut: -1 });
        waiting[into]!--;
      }
    }
    for (let a = 0; a < g.n; a++) {
      let top = a;
      while (rep[top] !== top) top = rep[top]!;
      if (top !== a) column[a] = column[top]!;
    }
    const cost = new Float64Array(this.columns);
    for (let j = 0; j < cost.length; j++) cost[j] = carried[this.head[j]!]!;
    return cost;
  }

  private clauseRow(c: number): void {
    const { g } = this;
    const a = g.owner[c]!;
    const of = a === g.n || g.forced[a] === 1 ? -1 : this.column[a]!;
    const any: number[] = [];
    const anyAct: number[] = [];
    for (let e = g.altStart[c]!; e < g.altStart[c + 1]!; e++) {
      const b = g.alt[e]!;
      if (g.forced[b] === 1) return;
      const j = this.column[b]!;
      if (j === of) {
        if (this.head[j] === b) continue; // b needs the owner: no alternative
        return; // the unit clause by which b was folded
      }
      any.push(j);
      anyAct.push(g.act[b]!);
    }
    const ofAct = of < 0 ? g.of[c]! : g.act[this.head[of]!]!;
    this.install({ of, any, cut: -1, ofAct, anyAct });
  }

  /** For cuts found later; false when a row like it is there already. */
  addCut(row: Row): boolean {
    const key = `${row.of}:${[...row.any].sort((x, y) => x - y).join(',')}`;
    if (this.seen.has(key)) return false;
    this.seen.add(key);
    this.install(row);
    return true;
  }

  private install(row: Row): void {
    this.rows.push(row);
    this.lp.addRow(row.of, row.any);
  }

  fix(j: number, mark: 0 | 1 | 2): void {
    this.mark[j] = mark;
    this.lp.fix(j, mark === 1 ? 1 : 0, mark === 2 ? 0 : 1);
  }

  /** Bound and reduced costs for multipliers rounded at `scale`; null when numbers get too large to be exact. */
  exact(multiplier: Float64Array, scale: number): ExactBound | null {
    const { rows, columns, cost, mark } = this;
    const price = new Float64Array(rows.length);
    const reduced = new Float64Array(columns);
    for (let j = 0; j < columns; j++) reduced[j] = cost[j]! * scale;
    let total = 0;
    let most = 0;
    for (let i = 0; i < rows.length; i++) {
      const p = Math.round((multiplier[i] ?? 0) * scale);
      if (p <= 0) continue;
      price[i] = p;
      const row = rows[i]!;
      most += p;
      if (row.of < 0) total += p;
      else reduced[row.of]! += p;
      for (const b of row.any) reduced[b]! -= p;
    }
    let span = most + total;
    for (let j = 0; j < columns; j++) {
      const r = reduced[j]!;
      span += Math.abs(r);
      if (mark[j] === 1 || (mark[j] === 0 && r < 0)) total += r;
    }
    return span < LIMIT ? { scale, total, price, reduced } : null;
  }

  /** The best of a few scales; stops at the first that proves `bound`. */
  bestExact(multiplier: Float64Array, bound: number): ExactBound | null {
    let best: ExactBound | null = null;
    let size = 1;
    for (const c of this.cost) size += c;
    const fine = 2 ** Math.max(0, Math.min(20, Math.floor(50 - Math.log2(size)) - 6));
    for (const scale of [1, 2, 6, 60, fine]) {
      const b = this.exact(multiplier, scale);
      if (b === null) continue;
      if (b.total > (bound - 1) * scale) return b;
      if (best === null || b.total / b.scale > best.total / best.scale) best = b;
    }
    return best;
  }

  /** The round for the proof, in original actions. */
  prices(b: ExactBound, ledger: Ledger, out: readonly number[]): Prices {
    const cut: number[] = [];
    const price: number[] = [];
    for (let i = 0; i < this.rows.length; i++) {
      if (b.price[i] === 0) continue;
      const row = this.rows[i]!;
      if (row.cut < 0) row.cut = ledger.note(row.ofAct, row.anyAct, out);
      cut.push(row.cut);
      price.push(b.price[i]!);
    }
    for (const fold of this.folds) {
      if (fold.cut < 0) fold.cut = ledger.note(this.g.act[fold.into]!, [this.g.act[fold.node]!], out);
      cut.push(fold.cut);
      price.push(fold.carried * b.scale);
    }
    return { scale: b.scale, cut, price };
  }
}
