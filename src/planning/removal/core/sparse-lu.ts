/**
 * Factors of a sparse basis, for the dual simplex. Unit (slack) columns pivot first, then column and row singletons,
 * then what is left (usually a few dozen columns) is eliminated left-looking, sparsest column first, with a threshold
 * on the pivot. Changes of basis are kept as product-form etas; the caller factors afresh when they grow.
 * Not chosen: Forrest-Tomlin updates with symbolic sparse solves. Bases here are near triangular, solves cost a few
 * microseconds, and the simple form is easier to trust.
 *
 * Positions: after `factor`, every basic column sits at the row it pivoted on.
 */
const PIVOT_MIN = 1e-9;

class Growing {
  index = new Int32Array(256);
  value = new Float64Array(256);
  size = 0;
  push(i: number, v: number): void {
    if (this.size === this.index.length) {
      const index = new Int32Array(this.size * 2);
      const value = new Float64Array(this.size * 2);
      index.set(this.index);
      value.set(this.value);
      this.index = index;
      this.value = value;
    }
    this.index[this.size] = i;
    this.value[this.size++] = v;
  }
}

export interface Columns {
  readonly start: Int32Array;
  readonly row: Int32Array;
  readonly value: Float64Array;
}

export class SparseLu {
  private m = 0;
  private steps = 0;
  private pivotRow = new Int32Array(0);
  private pivot = new Float64Array(0);
  private lowStart = new Int32Array(1);
  private upStart = new Int32Array(1);
  private low = new Growing();
  private up = new Growing();
  private eta = new Growing();
  private etaStart: number[] = [0];
  private etaRow: number[] = [];
  private etaPivot: number[] = [];
  private work = new Float64Array(0);

  get etas(): number {
    return this.etaRow.length;
  }
  get etaSize(): number {
    return this.eta.size;
  }

  /**
   * Factors the basis `head` (structural j < n, slack n + i) over m rows and rewrites `head` so that position = pivot
   * row. A column without a usable pivot is replaced by the slack of a row left over; the number of these is returned.
   */
  factor(m: number, n: number, columns: Columns, head: Int32Array): number {
    this.m = m;
    this.eta.size = 0;
    this.etaStart = [0];
    this.etaRow = [];
    this.etaPivot = [];
    if (this.work.length < m) this.work = new Float64Array(m + (m >> 1));
    const taken = new Uint8Array(m);
    const placed = new Int32Array(m).fill(-1);
    const kernel: number[] = [];
    for (let i = 0; i < m; i++) {
      const j = head[i]!;
      if (j >= n) {
        taken[j - n] = 1;
        placed[j - n] = j;
      } else kernel.push(j);
    }
    const k = kernel.length;
    this.steps = 0;
    this.low.size = 0;
    this.up.size = 0;
    if (this.pivotRow.length < k) {
      this.pivotRow = new Int32Array(k * 2);
      this.pivot = new Float64Array(k * 2);
      this.lowStart = new Int32Array(k * 2 + 1);
      this.upStart = new Int32Array(k * 2 + 1);
    }
    this.lowStart[0] = 0;
    this.upStart[0] = 0;
    const rest = this.singletons(kernel, columns, taken, placed);
    const lost = this.bump(rest, columns, taken, placed);
    if (lost > 0) for (let i = 0; i < m; i++) if (placed[i] === -1) placed[i] = n + i;
    head.set(placed.subarray(0, m));
    return lost;
  }

  private seal(row: number, pivot: number): void {
    const t = this.steps++;
    this.pivotRow[t] = row;
    this.pivot[t] = pivot;
    this.lowStart[t + 1] = this.low.size;
    this.upStart[t + 1] = this.up.size;
  }

  /** Pivots column and row singletons until none is left; gives the columns not yet placed. */
  private singletons(kernel: number[], c: Columns, taken: Uint8Array, placed: Int32Array): number[] {
    const m = this.m;
    const k = kernel.length;
    const rowCount = new Int32Array(m + 1);
    const colCount = new Int32Array(k);
    for (let q = 0; q < k; q++) {
      const j = kernel[q]!;
      for (let e = c.start[j]!; e < c.start[j + 1]!; e++) {
        const i = c.row[e]!;
        if (taken[i] === 0) {
          rowCount[i]!++;
          colCount[q]!++;
        }
      }
    }
    const rowStart = new Int32Array(m + 1);
    for (let i = 0; i < m; i++) rowStart[i + 1] = rowStart[i]! + rowCount[i]!;
    const rowCols = new Int32Array(rowStart[m]!);
    const fill = rowStart.slice(0, m);
    for (let q = 0; q < k; q++) {
      const j = kernel[q]!;
      for (let e = c.start[j]!; e < c.start[j + 1]!; e++) {
        const i = c.row[e]!;
        if (taken[i] === 0) rowCols[fill[i]!++] = q;
      }
    }
    const gone = new Uint8Array(k);
    const colQueue: number[] = [];
    const rowQueue: number[] = [];
    for (let q = 0; q < k; q++) if (colCount[q] === 1) colQueue.push(q);
    for (let i = 0; i < m; i++) if (taken[i] === 0 && rowCount[i] === 1) rowQueue.push(i);
    const place = (q: number, row: number, asColumn: boolean): void => {
      const j = kernel[q]!;
      gone[q] = 1;
      let pivot = 0;
      for (let e = c.start[j]!; e < c.start[j + 1]!; e++) if (c.row[e] === row) pivot = c.value[e]!;
      for (let e = c.start[j]!; e < c.start[j + 1]!; e++) {
        const i = c.row[e]!;
        if (i === row) continue;
        if (taken[i] === 1) this.up.push(i, c.value[e]!);
        else {
          this.low.push(i, c.value[e]! / pivot);
          if (--rowCount[i]! === 1) rowQueue.push(i);
        }
      }
      taken[row] = 1;
      placed[row] = j;
      this.seal(row, pivot);
      if (!asColumn) return;
      for (let e = rowStart[row]!; e < rowStart[row + 1]!; e++) {
        const other = rowCols[e]!;
        if (gone[other] === 0 && --colCount[other]! === 1) colQueue.push(other);
      }
    };
    for (;;) {
      const q = colQueue.pop();
      if (q !== undefined) {
        if (gone[q] === 1 || colCount[q] !== 1) continue;
        const j = kernel[q]!;
        let row = -1;
        for (let e = c.start[j]!; e < c.start[j + 1]!; e++) if (taken[c.row[e]!] === 0) row = c.row[e]!;
        if (row >= 0) place(q, row, true);
        continue;
      }
      const i = rowQueue.pop();
      if (i === undefined) break;
      if (taken[i] === 1 || rowCount[i] !== 1) continue;
      for (let e = rowStart[i]!; e < rowStart[i + 1]!; e++) {
        const col = rowCols[e]!;
        if (gone[col] === 0) {
          place(col, i, false);
          break;
        }
      }
    }
    const rest: number[] = [];
    for (let q = 0; q < k; q++) if (gone[q] === 0) rest.push(q);
    rest.sort((a, b) => colCount[a]! - colCount[b]!);
    return rest.map((q) => kernel[q]!);
  }

  /** Left-looking elimination of the columns that are left. Earlier steps with a lower part cannot reach them. */
  private bump(rest: readonly number[], c: Columns, taken: Uint8Array, placed: Int32Array): number {
    const x = this.work;
    const first = this.steps;
    const touched: number[] = [];
    const inTouched = new Uint8Array(this.m);
    const rowUse = new Int32Array(this.m);
    for (const j of rest) for (let e = c.start[j]!; e < c.start[j + 1]!; e++) rowUse[c.row[e]!]!++;
    let lost = 0;
    for (const j of rest) {
      touched.length = 0;
      for (let e = c.start[j]!; e < c.start[j + 1]!; e++) {
        const i = c.row[e]!;
        x[i] = c.value[e]!;
        touched.push(i);
        inTouched[i] = 1;
      }
      for (let t = first; t < this.steps; t++) {
        const v = x[this.pivotRow[t]!]!;
        if (v === 0) continue;
        for (let e = this.lowStart[t]!; e < this.lowStart[t + 1]!; e++) {
          const i = this.low.index[e]!;
          if (inTouched[i] === 0) {
            inTouched[i] = 1;
            touched.push(i);
          }
          x[i]! -= this.low.value[e]! * v;
        }
      }
      let most = 0;
      for (const i of touched) if (taken[i] === 0 && Math.abs(x[i]!) > most) most = Math.abs(x[i]!);
      let row = -1;
      if (most > PIVOT_MIN)
        for (const i of touched)
          if (taken[i] === 0 && Math.abs(x[i]!) >= 0.1 * most && (row < 0 || rowUse[i]! < rowUse[row]!)) row = i;
      if (row >= 0) {
        const pivot = x[row]!;
        for (const i of touched) {
          if (i === row || Math.abs(x[i]!) < 1e-14) continue;
          if (taken[i] === 1) this.up.push(i, x[i]!);
          else this.low.push(i, x[i]! / pivot);
        }
        taken[row] = 1;
        placed[row] = j;
        this.seal(row, pivot);
      } else lost++;
      for (const i of touched) {
        x[i] = 0;
        inTouched[i] = 0;
      }
    }
    return lost;
  }

  /** x := B^-1 x */
  forward(x: Float64Array): void {
    const { pivotRow, pivot, lowStart, upStart } = this;
    const li = this.low.index;
    const lv = this.low.value;
    for (let t = 0; t < this.steps; t++) {
      const s = lowStart[t]!;
      const end = lowStart[t + 1]!;
      if (s === end) continue;
      const v = x[pivotRow[t]!]!;
      if (v !== 0) for (let e = s; e < end; e++) x[li[e]!]! -= lv[e]! * v;
    }
    const ui = this.up.index;
    const uv = this.up.value;
    for (let t = this.steps - 1; t >= 0; t--) {
      const r = pivotRow[t]!;
      let v = x[r]!;
      if (v === 0) continue;
      v /= pivot[t]!;
      x[r] = v;
      for (let e = upStart[t]!; e < upStart[t + 1]!; e++) x[ui[e]!]! -= uv[e]! * v;
    }
    const ei = this.eta.index;
    const ev = this.eta.value;
    for (let k = 0; k < this.etaRow.length; k++) {
      const r = this.etaRow[k]!;
      let v = x[r]!;
      if (v === 0) continue;
      v /= this.etaPivot[k]!;
      x[r] = v;
      for (let e = this.etaStart[k]!; e < this.etaStart[k + 1]!; e++) x[ei[e]!]! -= ev[e]! * v;
    }
  }

  /** x := B^-T x */
  backward(x: Float64Array): void {
    const ei = this.eta.index;
    const ev = this.eta.value;
    for (let k = this.etaRow.length - 1; k >= 0; k--) {
      const r = this.etaRow[k]!;
      let v = x[r]!;
      for (let e = this.etaStart[k]!; e < this.etaStart[k + 1]!; e++) v -= ev[e]! * x[ei[e]!]!;
      x[r] = v / this.etaPivot[k]!;
    }
    const { pivotRow, pivot, lowStart, upStart } = this;
    const ui = this.up.index;
    const uv = this.up.value;
    for (let t = 0; t < this.steps; t++) {
      const r = pivotRow[t]!;
      let v = x[r]!;
      for (let e = upStart[t]!; e < upStart[t + 1]!; e++) v -= uv[e]! * x[ui[e]!]!;
      x[r] = v / pivot[t]!;
    }
    const li = this.low.index;
    const lv = this.low.value;
    for (let t = this.steps - 1; t >= 0; t--) {
      const s = lowStart[t]!;
      const end = lowStart[t + 1]!;
      if (s === end) continue;
      const r = pivotRow[t]!;
      let v = x[r]!;
      for (let e = s; e < end; e++) v -= lv[e]! * x[li[e]!]!;
      x[r] = v;
    }
  }

  /** The column at position `row` is replaced by one whose image B^-1 a is `image`. */
  replace(row: number, image: Float64Array): void {
    for (let i = 0; i < this.m; i++) {
      const v = image[i]!;
      if (i !== row && (v > 1e-14 || v < -1e-14)) this.eta.push(i, v);
    }
    this.etaStart.push(this.eta.size);
    this.etaRow.push(row);
    this.etaPivot.push(image[row]!);
  }
}
