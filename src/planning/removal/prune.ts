/**
 * Takes out of a legal list of moves what its goal does not need. The search does everything permitted as soon as it
 * can; people should not be asked to. Backwards from the goal, each move that is kept marks what it stood on (for an
 * `any`: what is kept anyway, else what came first). Fewer moves never break a hold or a guard by themselves; still the
 * result is replayed, and given up for the original should it not be legal.
 */
import { KIND, TRUE } from '../rig-model/need-table.ts';
import { isChange, type Move } from './permit.ts';
import type { Question } from './question.ts';
import { replay } from './replay.ts';

const MOST_CHANGES = 8;

/** `goal`: node of the model that must hold after all. */
export function prune(q: Question, moves: readonly Move[], goal: number): readonly Move[] {
  const isPlan = (list: readonly Move[]): boolean => replay(q, list)?.holds(goal) === true;
  const marked = new Backwards(q, moves).needed();
  const plan = marked.length < moves.length && isPlan(marked) ? marked : moves;
  return withoutIdleChanges(plan, isPlan);
}

class Backwards {
  private readonly position: Int32Array;
  private readonly keep: Uint8Array;

  constructor(
    private readonly q: Question,
    private readonly moves: readonly Move[],
  ) {
    this.position = new Int32Array(q.size).fill(-1);
    moves.forEach((m, i) => {
      if (!isChange(m)) this.position[m] = i;
    });
    this.keep = new Uint8Array(moves.length);
  }

  needed(): readonly Move[] {
    const { q, moves } = this;
    this.mark(q.goal, moves.length);
    for (let i = moves.length - 1; i >= 0; i--) {
      if (this.keep[i] === 0) continue;
      const move = moves[i]!;
      if (isChange(move)) {
        const c = q.changes[~move]!;
        this.mark(q.setups[c.setup]!.needs[c.to]!, i);
        this.markState(c.setup, i);
        continue;
      }
      this.mark(q.condition[move]!, i);
      this.markHolds(move, i);
      this.markGuards(move, i);
    }
    return moves.filter((_, i) => this.keep[i] === 1);
  }

  private mark(node: number, time: number): void {
    if (node === TRUE) return;
    const { table } = this.q;
    const kind = table.kind[node]!;
    if (kind === KIND.action) {
      const at = this.position[table.subject[node]!]!;
      if (at >= 0) this.keep[at] = 1;
    } else if (kind === KIND.state) this.markState(table.subject[node]!, time);
    else if (kind === KIND.all) for (const n of table.items[node]!) this.mark(n, time);
    else {
      const open = table.items[node]!.filter((n) => this.isTrue(n, time));
      const best = open.find((n) => this.isKept(n)) ?? this.earliest(open);
      if (best !== undefined) this.mark(best, time);
    }
  }

  /** The change that brought the setup into its state at that time. */
  private markState(setup: number, time: number): void {
    for (let i = time - 1; i >= 0; i--) {
      const move = this.moves[i]!;
      if (!isChange(move) || this.q.changes[~move]!.setup !== setup) continue;
      this.keep[i] = 1;
      return;
    }
  }

  private stateAt(setup: number, time: number): number {
    for (let i = time - 1; i >= 0; i--) {
      const move = this.moves[i]!;
      if (isChange(move) && this.q.changes[~move]!.setup === setup) return this.q.changes[~move]!.to;
    }
    return this.q.setups[setup]!.now;
  }

  private isTrue(node: number, time: number): boolean {
    if (node <= 1) return node === TRUE;
    const { table } = this.q;
    const kind = table.kind[node]!;
    if (kind === KIND.action) {
      const at = this.position[table.subject[node]!]!;
      return at >= 0 && at < time;
    }
    const items = table.items[node]!;
    if (kind === KIND.state) return items.includes(this.stateAt(table.subject[node]!, time));
    return kind === KIND.all ? items.every((n) => this.isTrue(n, time)) : items.some((n) => this.isTrue(n, time));
  }

  private isKept(node: number): boolean {
    const { table } = this.q;
    if (table.kind[node] === KIND.action) return this.keep[this.position[table.subject[node]!]!] === 1;
    return table.kind[node] === KIND.all && table.items[node]!.every((n) => this.isKept(n));
  }

  private earliest(nodes: readonly number[]): number | undefined {
    const { table } = this.q;
    let best: number | undefined;
    let at = Number.POSITIVE_INFINITY;
    for (const n of nodes) {
      const when = table.kind[n] === KIND.action ? this.position[table.subject[n]!]! : this.moves.length;
      if (when < at) {
        at = when;
        best = n;
      }
    }
    return best;
  }

  private markHolds(act: number, time: number): void {
    for (const h of this.q.holds) {
      if (!h.joints.includes(act)) continue;
      if (h.joints.some((j) => j !== act && !(this.position[j]! >= 0 && this.position[j]! < time))) continue;
      this.mark(this.isTrue(h.off, time) ? h.off : h.node, time);
    }
  }

  private markGuards(act: number, time: number): void {
    for (const g of this.q.guards) {
      if (!g.takers.some((list) => list.includes(act))) continue;
      if (!g.offs.every((off) => this.isTrue(off, time + 1))) continue;
      this.mark(this.isTrue(g.together, time + 1) ? g.together : g.unless, time + 1);
    }
  }
}

/** Changes there and back that nothing asked for. */
function withoutIdleChanges(moves: readonly Move[], isPlan: (list: readonly Move[]) => boolean): readonly Move[] {
  const at = moves.flatMap((m, i) => (isChange(m) ? [i] : []));
  if (at.length === 0 || at.length > MOST_CHANGES) return moves;
  const sets = [...at.map((i) => [i]), ...at.flatMap((i, k) => at.slice(k + 1).map((j) => [i, j]))];
  for (const out of sets) {
    const rest = moves.filter((_, i) => !out.includes(i));
    if (isPlan(rest)) return withoutIdleChanges(rest, isPlan);
  }
  return moves;
}
