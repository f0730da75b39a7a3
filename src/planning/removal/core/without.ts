/**
 * What can still be done when a few actions are left out, asked many times: one closure is kept, with its order, and each
 * question only visits what hangs on the actions left out. First everything that loses its earlier-ranked support falls;
 * then what finds other support comes back. Not chosen: a closure per question, linear in the whole problem each time.
 */
import type { CoreProblem } from './problem-types.ts';
import { ProblemIndex } from './reach.ts';

export class Without {
  private readonly index: ProblemIndex;
  /** 1 = can be done under the present question */
  readonly alive: Uint8Array;
  private rank: Int32Array;
  private readonly fallen: number[] = [];
  private readonly inFallen: Uint8Array;

  constructor(private readonly p: CoreProblem) {
    this.index = new ProblemIndex(p);
    this.alive = new Uint8Array(p.clauses.length);
    this.rank = new Int32Array(p.clauses.length);
    this.inFallen = new Uint8Array(p.clauses.length);
    this.base([]);
  }

  /** Leaves these out for good, until the next call. */
  base(out: readonly number[]): void {
    const allowed = new Uint8Array(this.p.clauses.length).fill(1);
    for (const a of out) allowed[a] = 0;
    const { done, order } = this.index.closure(allowed);
    this.fallen.length = 0;
    this.inFallen.fill(0);
    this.alive.set(done);
    this.rank = order;
  }

  /** The question: sets `alive` as if these could not be done either. */
  leaveOut(some: readonly number[]): void {
    const { alive, fallen, inFallen } = this;
    for (const a of fallen) {
      alive[a] = 1;
      inFallen[a] = 0;
    }
    fallen.length = 0;
    for (const a of some) if (alive[a] === 1 && this.index.state[a] === 0) this.fell(a);
    const given = fallen.length;
    for (let i = 0; i < fallen.length; i++) this.eachUser(fallen[i]!, (a) => this.standsAlone(a) || this.fell(a));
    this.comeBack(given);
  }

  private fell(a: number): void {
    this.alive[a] = 0;
    this.inFallen[a] = 1;
    this.fallen.push(a);
  }

  private eachUser(a: number, visit: (owner: number) => void): void {
    const { userStart, user, owner } = this.index;
    for (let e = userStart[a]!; e < userStart[a + 1]!; e++) visit(owner[user[e]!]!);
  }

  /** Whether every clause has support that was done earlier; actions that are out or done already are left alone. */
  private standsAlone(a: number): boolean {
    if (this.alive[a] === 0 || this.index.state[a] !== 0) return true;
    const { alive, rank } = this;
    return this.p.clauses[a]!.every((c) => c.some((b) => alive[b] === 1 && rank[b]! < rank[a]!));
  }

  /** Of what fell (after the first `given`, which stay out), what is supported by what stands comes back. */
  private comeBack(given: number): void {
    const { alive, fallen, inFallen } = this;
    const out = new Set(fallen.slice(0, given));
    const queue = fallen.slice(given);
    for (let i = 0; i < queue.length; i++) {
      const a = queue[i]!;
      if (alive[a] === 1 || !this.p.clauses[a]!.every((c) => c.some((b) => alive[b] === 1))) continue;
      alive[a] = 1;
      this.eachUser(a, (u) => {
        if (inFallen[u] === 1 && alive[u] === 0 && !out.has(u)) queue.push(u);
      });
    }
  }
}
