/**
 * Linear programs of covering kind: minimise c x, rows x_of - sum x_any <= 0 (or sum x_any >= 1), 0 <= x <= 1.
 * Method: dual simplex from the slack basis (costs are >= 0, so it is dual feasible from the start), steepest-edge
 * prices, two-pass ratio test. Rows can be added and bounds changed between solves; the basis stays warm.
 * Not chosen: the primal simplex or an interior point: every later step here adds rows or fixes columns.
 *
 * Numbers are floating point and are trusted for nothing: the caller takes the multipliers, rounds them to whole numbers
 * and computes the bound exactly. A basic x above 1 is let be (cutting it to 1 keeps every covering row).
 */
import { type Columns, SparseLu } from './sparse-lu.ts';

const FEASIBLE = 1e-9;
const PIVOT = 1e-7;

export type LpEnd = 'optimal' | 'infeasible' | 'stopped';

export class DualSimplex {
  readonly n: number;
  m = 0;
  private readonly cost: Float64Array;
  private readonly dualTolerance: number;
  readonly lo: Float64Array;
  readonly up: Float64Array;
  /** rows, kept row-wise; `of` = -1 for a row that must be covered */
  private readonly rowIndex: number[] = [];
  private readonly rowValue: number[] = [];
  private readonly rowStart: number[] = [0];
  private readonly rhs: number[] = [];
  private rowsI = new Int32Array(0);
  private rowsV = new Float64Array(0);
  private rowsS = new Int32Array(1);
  private columns: Columns = { start: new Int32Array(1), row: new Int32Array(0), value: new Float64Array(0) };
  private head = new Int32Array(0);
  private where: Int32Array;
  private atUpper: Uint8Array;
  private d: Float64Array;
  private x = new Float64Array(0);
  private weight = new Float64Array(0);
  private readonly lu = new SparseLu();
  private rho = new Float64Array(0);
  private image = new Float64Array(0);
  private tau = new Float64Array(0);
  private alpha: Float64Array;
  /** rows were added: new factors; bounds changed: new basic values */
  private newRows = true;
  private newBounds = false;
  iterations = 0;
  /** multipliers that show infeasibility, in row order; set when solve() says so */
  ray: Float64Array | null = null;

  constructor(cost: Float64Array) {
    this.n = cost.length;
    this.cost = cost;
    let most = 1;
    for (const c of cost) if (c > most) most = c;
    this.dualTolerance = Math.max(1e-9, most * 1e-13);
    this.lo = new Float64Array(this.n);
    this.up = new Float64Array(this.n).fill(1);
    this.where = new Int32Array(this.n).fill(-1);
    this.atUpper = new Uint8Array(this.n);
    this.d = Float64Array.from(cost);
    this.alpha = new Float64Array(this.n);
  }

  addRow(of: number, any: readonly number[]): void {
    if (of >= 0) {
      this.rowIndex.push(of);
      this.rowValue.push(1);
    }
    for (const b of any) {
      this.rowIndex.push(b);
      this.rowValue.push(-1);
    }
    this.rowStart.push(this.rowIndex.length);
    this.rhs.push(of >= 0 ? 0 : -1);
    this.newRows = true;
  }

  fix(j: number, lo: number, up: number): void {
    this.lo[j] = lo;
    this.up[j] = up;
    this.atUpper[j] = lo === up ? 0 : this.d[j]! < 0 ? 1 : 0;
    this.newBounds = true;
  }

  value(j: number): number {
    const i = this.where[j]!;
    if (i >= 0) return Math.min(1, Math.max(0, this.x[i]!));
    return this.atUpper[j] === 1 ? this.up[j]! : this.lo[j]!;
  }

  /** The value of the dual at this basis: a bound, up to rounding, solved to the end or not. */
  objective(): number {
    let sum = 0;
    for (let j = 0; j < this.n; j++) {
      const i = this.where[j]!;
      const v = i >= 0 ? this.x[i]! : this.atUpper[j] === 1 ? this.up[j]! : this.lo[j]!;
      if (v !== 0) sum += this.cost[j]! * v;
    }
    return sum;
  }

  /** Row multipliers >= 0. */
  multipliers(): Float64Array {
    const y = new Float64Array(this.m);
    for (let i = 0; i < this.m; i++) {
      const j = this.head[i]!;
      y[i] = j < this.n ? this.cost[j]! : 0;
    }
    this.lu.backward(y);
    for (let i = 0; i < this.m; i++) y[i] = Math.max(0, -y[i]!);
    return y;
  }

  private install(): void {
    const old = this.m;
    const m = this.rhs.length;
    if (m > old) {
      const size = this.n + m;
      const grow = (a: Float64Array): Float64Array<ArrayBuffer> => {
        const b = new Float64Array(m);
        b.set(a.subarray(0, old));
        return b;
      };
      this.rowsI = Int32Array.from(this.rowIndex);
      this.rowsV = Float64Array.from(this.rowValue);
      this.rowsS = Int32Array.from(this.rowStart);
      const head = new Int32Array(m);
      head.set(this.head);
      const where = new Int32Array(size).fill(-1);
      where.set(this.where);
      const d = new Float64Array(size);
      d.set(this.d);
      const atUpper = new Uint8Array(size);
      atUpper.set(this.atUpper);
      this.weight = grow(this.weight);
      for (let i = old; i < m; i++) {
        head[i] = this.n + i;
        where[this.n + i] = i;
        this.weight[i] = 1;
      }
      this.head = head;
      this.where = where;
      this.d = d;
      this.atUpper = atUpper;
      this.x = new Float64Array(m);
      this.rho = new Float64Array(m);
      this.image = new Float64Array(m);
      this.tau = new Float64Array(m);
      this.m = m;
      this.columns = this.transpose();
    }
    this.refactor();
    this.newRows = false;
    this.newBounds = false;
  }

  private transpose(): Columns {
    const start = new Int32Array(this.n + 1);
    for (const j of this.rowsI) start[j + 1]!++;
    for (let j = 0; j < this.n; j++) start[j + 1]! += start[j]!;
    const fill = start.slice(0, this.n);
    const row = new Int32Array(this.rowsI.length);
    const value = new Float64Array(this.rowsI.length);
    for (let i = 0; i < this.m; i++)
      for (let e = this.rowsS[i]!; e < this.rowsS[i + 1]!; e++) {
        const k = fill[this.rowsI[e]!]!++;
        row[k] = i;
        value[k] = this.rowsV[e]!;
      }
    return { start, row, value };
  }

  /** Fresh factors, then reduced costs and basic values from scratch. */
  private refactor(): void {
    const { n, m, columns, where } = this;
    const byVar = new Map<number, number>();
    for (let i = 0; i < m; i++) if (this.weight[i] !== 1) byVar.set(this.head[i]!, this.weight[i]!);
    for (let i = 0; i < m; i++) where[this.head[i]!] = -1;
    this.lu.factor(m, n, columns, this.head);
    for (let i = 0; i < m; i++) {
      where[this.head[i]!] = i;
      this.weight[i] = byVar.get(this.head[i]!) ?? 1;
    }
    const y = this.rho;
    for (let i = 0; i < m; i++) y[i] = this.head[i]! < n ? this.cost[this.head[i]!]! : 0;
    this.lu.backward(y);
    for (let j = 0; j < n; j++) {
      if (where[j]! >= 0) {
        this.d[j] = 0;
        continue;
      }
      let v = this.cost[j]!;
      for (let e = columns.start[j]!; e < columns.start[j + 1]!; e++) v -= columns.value[e]! * y[columns.row[e]!]!;
      if (Math.abs(v) < this.dualTolerance) v = 0;
      this.d[j] = v;
      this.atUpper[j] = this.lo[j] === this.up[j] || v >= 0 ? 0 : 1;
    }
    for (let i = 0; i < m; i++) if (where[n + i]! < 0) this.d[n + i] = Math.max(0, -y[i]!);
    this.basics();
  }

  private basics(): void {
    const { n, m, columns, x } = this;
    for (let i = 0; i < m; i++) x[i] = this.rhs[i]!;
    for (let j = 0; j < n; j++) {
      if (this.where[j]! >= 0) continue;
      const v = this.atUpper[j] === 1 ? this.up[j]! : this.lo[j]!;
      if (v !== 0)
        for (let e = columns.start[j]!; e < columns.start[j + 1]!; e++) x[columns.row[e]!]! -= columns.value[e]! * v;
    }
    this.lu.forward(x);
  }

  private leaving(): number {
    const { n, m, x, head, weight } = this;
    let best = 0;
    let row = -1;
    for (let i = 0; i < m; i++) {
      const v = x[i]!;
      const j = head[i]!;
      let short = 0;
      if (j >= n) short = -v;
      else if (v < this.lo[j]!) short = this.lo[j]! - v;
      else if (v > 1 - FEASIBLE && this.up[j]! === 1) continue;
      else if (v > this.up[j]!) short = v - this.up[j]!;
      if (short <= FEASIBLE) continue;
      const score = (short * short) / weight[i]!;
      if (score > best) {
        best = score;
        row = i;
      }
    }
    return row;
  }

  /** `most` steps at most; the default is far above what is ever needed and ends a degenerate circle. */
  solve(stop: () => boolean, most = 20 * (this.n + this.rhs.length) + 1000): LpEnd {
    if (this.newRows) this.install();
    else if (this.newBounds) this.basics();
    this.newBounds = false;
    this.ray = null;
    const touched: number[] = [];
    let since = 0;
    let again = 0;
    for (;;) {
      if (this.lu.etas >= 100 || this.lu.etaSize > 4 * this.m + 2000) this.refactor();
      const r = this.leaving();
      if (r < 0) {
        if (this.lu.etas === 0 || again > 3) return 'optimal';
        again++;
        this.refactor();
        if (this.leaving() < 0) return 'optimal';
        continue;
      }
      if (since >= most || ((++since & 63) === 0 && stop())) return 'stopped';
      if (!this.pivot(r, touched)) {
        if (this.lu.etas > 0 && again < 20) {
          again++;
          this.refactor();
          continue;
        }
        const sign = this.tooLow(r) ? 1 : -1;
        this.ray = this.rho.map((v) => Math.max(0, sign * v));
        return 'infeasible';
      }
    }
  }

  private tooLow(r: number): boolean {
    const j = this.head[r]!;
    return j >= this.n || this.x[r]! < this.lo[j]!;
  }

  /** One step with the row r leaving; false when nothing can enter. */
  private pivot(r: number, touched: number[]): boolean {
    const { n, m, rho, alpha, d, where, head, x, image, tau, weight, columns } = this;
    const leave = head[r]!;
    const low = this.tooLow(r);
    const bound = leave >= n ? 0 : low ? this.lo[leave]! : this.up[leave]!;
    rho.fill(0);
    rho[r] = 1;
    this.lu.backward(rho);
    touched.length = 0;
    let norm = 0;
    const sign = low ? -1 : 1; // sign * alpha > 0: the entering one may rise
    let limit = Number.POSITIVE_INFINITY;
    const tol = this.dualTolerance;
    for (let i = 0; i < m; i++) {
      const v = rho[i]!;
      if (v === 0) continue;
      if (v < 1e-13 && v > -1e-13) {
        rho[i] = 0;
        continue;
      }
      norm += v * v;
      for (let e = this.rowsS[i]!; e < this.rowsS[i + 1]!; e++) {
        const j = this.rowsI[e]!;
        if (where[j]! >= 0) continue;
        if (alpha[j] === 0) {
          touched.push(j);
          alpha[j] = 1e-300;
        }
        alpha[j]! += v * this.rowsV[e]!;
      }
      const s = n + i;
      if (where[s]! < 0 && sign * v > PIVOT) limit = Math.min(limit, (d[s]! + tol) / (sign * v));
    }
    for (const j of touched) {
      if (this.lo[j] === this.up[j]) continue;
      const a = this.atUpper[j] === 1 ? -sign * alpha[j]! : sign * alpha[j]!;
      if (a > PIVOT) limit = Math.min(limit, (Math.abs(d[j]!) + tol) / a);
    }
    let enter = -1;
    let size = 0;
    for (const j of touched) {
      if (this.lo[j] === this.up[j]) continue;
      const a = this.atUpper[j] === 1 ? -sign * alpha[j]! : sign * alpha[j]!;
      if (a > PIVOT && Math.abs(d[j]!) / a <= limit && a > size) {
        size = a;
        enter = j;
      }
    }
    for (let i = 0; i < m; i++) {
      const s = n + i;
      const a = sign * rho[i]!;
      if (a > PIVOT && where[s]! < 0 && d[s]! / a <= limit && a > size) {
        size = a;
        enter = s;
      }
    }
    if (enter < 0) {
      for (const j of touched) alpha[j] = 0;
      return false;
    }
    image.fill(0);
    if (enter >= n) image[enter - n] = 1;
    else
      for (let e = columns.start[enter]!; e < columns.start[enter + 1]!; e++)
        image[columns.row[e]!] = columns.value[e]!;
    this.lu.forward(image);
    const pivot = image[r]!;
    const alphaQ = enter >= n ? rho[enter - n]! : alpha[enter]!;
    if (Math.abs(pivot - alphaQ) > 1e-6 * (1 + Math.abs(pivot)) && this.lu.etas > 0) {
      for (const j of touched) alpha[j] = 0;
      this.refactor();
      return true;
    }
    const step = d[enter]! / alphaQ;
    for (const j of touched) {
      const v = d[j]! - step * alpha[j]!;
      d[j] = this.atUpper[j] === 1 ? Math.min(0, v) : this.lo[j] === this.up[j] ? v : Math.max(0, v);
      alpha[j] = 0;
    }
    for (let i = 0; i < m; i++) {
      const v = rho[i]!;
      if (v !== 0 && where[n + i]! < 0) d[n + i] = Math.max(0, d[n + i]! - step * v);
    }
    const move = (x[r]! - bound) / pivot;
    const from = enter >= n ? 0 : this.atUpper[enter] === 1 ? this.up[enter]! : this.lo[enter]!;
    tau.set(rho);
    this.lu.forward(tau);
    for (let i = 0; i < m; i++) {
      const a = image[i]!;
      if (a === 0 || i === r) continue;
      x[i]! -= move * a;
      const q = a / pivot;
      weight[i] = Math.max(1e-4, weight[i]! - 2 * q * tau[i]! + q * q * norm);
    }
    weight[r] = Math.max(1e-4, norm / (pivot * pivot));
    x[r] = from + move;
    this.lu.replace(r, image);
    head[r] = enter;
    where[enter] = r;
    where[leave] = -1;
    d[enter] = 0;
    d[leave] = -step;
    if (leave < n) this.atUpper[leave] = this.lo[leave] !== this.up[leave] && !low ? 1 : 0;
    this.iterations++;
    return true;
  }
}
