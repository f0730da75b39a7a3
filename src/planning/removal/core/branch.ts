/**
 * Branch and bound on one part, around one warm linear program. At every node: solve, cut circles, look for a plan along
 * the values, bound in whole numbers, rule out by reduced cost, else branch on the most undecided action, the side the
 * program leans to first. Not chosen: best-first search. Bounds are tight here, depth first keeps the basis warm and
 * the proof is the recursion itself.
 */
import { type Plan, Planner } from './cheap-plan.ts';
import { CircularCuts } from './circular-cuts.ts';
import { type Graph, rebuild, rootsOf, usersOf } from './graph.ts';
import type { Prices, ProofNode } from './problem-types.ts';
import { type ExactBound, Program } from './program.ts';
import type { Trail } from './simplify.ts';
import type { Limits, PartAnswer } from './solve-parts.ts';

const EPS = 1e-6;
const CUTS_AT_ONCE = 200;

type Root = { readonly kind: 'closed' | 'open'; readonly rounds: Prices[] };

interface Looked {
  readonly closed: boolean;
  readonly bound: ExactBound | null;
}

export class Branching {
  private readonly program: Program;
  private readonly planner: Planner;
  private readonly cuts: CircularCuts;
  private readonly value: Float64Array;
  private readonly weight: Float64Array;
  private readonly banned: Uint8Array;
  private plan: Plan | null = null;
  private lower = 0;

  constructor(
    private readonly g: Graph,
    private readonly trail: Trail,
    private readonly limits: Limits,
  ) {
    const users = usersOf(g);
    this.program = new Program(g, users);
    this.planner = new Planner(g, users);
    this.cuts = new CircularCuts(g, users, this.program);
    this.value = new Float64Array(this.program.columns);
    this.weight = new Float64Array(g.n);
    this.banned = new Uint8Array(g.n);
  }

  get columns(): number {
    return this.program.columns;
  }
  get upper(): number | null {
    return this.plan === null ? null : this.plan.cost;
  }

  root(): Root {
    this.consider(this.planner.plan(this.g.cost, null));
    const rounds: Prices[] = [];
    const looked = this.look();
    if (looked.bound !== null) {
      rounds.push(this.program.prices(looked.bound, this.trail.ledger, this.trail.out));
      this.lower = Math.max(this.lower, Math.ceil(looked.bound.total / looked.bound.scale));
    }
    if (looked.closed) {
      this.lower = this.upper!;
      return { kind: 'closed', rounds };
    }
    if (looked.bound !== null) this.ruleOut(looked.bound, []);
    return { kind: 'open', rounds };
  }

  private consider(plan: Plan | null): void {
    if (plan !== null && (this.plan === null || plan.cost < this.plan.cost)) this.plan = plan;
  }

  private readValues(): void {
    for (let j = 0; j < this.columns; j++) this.value[j] = this.program.lp.value(j);
  }

  /** Solves here, with cuts; closed = no cheaper plan below this node. */
  private look(): Looked {
    const { program, limits } = this;
    this.limits.nodes++;
    this.limits.nodesLeft--;
    let end = program.lp.solve(limits.stop);
    for (let k = 0; end === 'optimal'; k++) {
      this.readValues();
      const rows = this.cuts.find(this.value, EPS, CUTS_AT_ONCE);
      if (rows.length === 0 && k < 30)
        for (const t of [0.34, 0.51]) if (rows.length === 0) rows.push(...this.cuts.find(this.value, t, CUTS_AT_ONCE));
      let fresh = 0;
      for (const row of rows) if (program.addCut(row)) fresh++;
      if (fresh === 0) break;
      end = program.lp.solve(limits.stop);
    }
    if (end === 'optimal') this.planAlong();
    const target = this.upper ?? Number.POSITIVE_INFINITY;
    let y = program.lp.multipliers();
    if (end === 'infeasible' && program.lp.ray !== null && this.upper !== null) {
      const ray = program.lp.ray;
      y = y.map((v, i) => v + (this.upper! + 1) * 64 * ray[i]!);
    }
    const bound = program.bestExact(y, target) ?? program.exact(new Float64Array(0), 1);
    return { bound, closed: bound !== null && bound.total > (target - 1) * bound.scale };
  }

  /** A plan that follows the values: what the program takes is nearly free. */
  private planAlong(): void {
    const { g, program, weight, banned } = this;
    for (let a = 0; a < g.n; a++) {
      const j = program.column[a]!;
      if (j < 0) continue;
      weight[a] = g.cost[a]! * (1 - this.value[j]!) + 1e-4 * g.cost[a]! + (this.value[j]! > 0.5 ? 0 : 1e-3);
      banned[a] = program.mark[j] === 2 ? 1 : 0;
    }
    this.consider(this.planner.plan(weight, banned));
  }

  /** Fixes columns that no cheaper plan can have otherwise; returns how many. */
  private ruleOut(bound: ExactBound, fixed: number[]): number {
    const enough = (this.upper! - 1) * bound.scale;
    const { program } = this;
    let count = 0;
    for (let j = 0; j < this.columns; j++) {
      if (program.mark[j] !== 0 || bound.total + Math.abs(bound.reduced[j]!) <= enough) continue;
      program.fix(j, bound.reduced[j]! < 0 ? 1 : 2);
      fixed.push(j);
      count++;
    }
    return count;
  }

  ruledOut(): number[] {
    const out: number[] = [];
    for (let j = 0; j < this.columns; j++) if (this.program.mark[j] === 2) out.push(this.g.act[this.program.head[j]!]!);
    return out;
  }

  ruledIn(): number {
    let n = 0;
    for (const m of this.program.mark) if (m === 1) n++;
    return n;
  }

  /** The graph without what is ruled out; what is ruled in is forced and noted on the trail. */
  withoutRuledOut(trail: Trail): Graph {
    const { g, program } = this;
    const alt = new Uint8Array(g.alt.length).fill(1);
    const isOut = (a: number): boolean => program.column[a]! >= 0 && program.mark[program.column[a]!] === 2;
    for (let e = 0; e < alt.length; e++) if (isOut(g.alt[e]!)) alt[e] = 0;
    const forced = g.forced.slice();
    for (let j = 0; j < this.columns; j++) {
      if (program.mark[j] !== 1) continue;
      forced[program.head[j]!] = 1;
      trail.forced.push(g.act[program.head[j]!]!);
    }
    const clause = new Uint8Array(g.owner.length).fill(1);
    return rebuild(g, { clause, alt, forced }, rootsOf(g, forced));
  }

  /** The search below the root; `lower` is set to what is proved. */
  branch(rounds: readonly Prices[]): ProofNode {
    const free = this.choose();
    if (free < 0) return { rounds };
    const below = this.split(free);
    this.lower = Math.max(this.lower, Math.min(this.upper ?? Number.POSITIVE_INFINITY, below.lower));
    return { rounds, branch: below.branch };
  }

  private choose(): number {
    let best = -1;
    let score = -1;
    for (let j = 0; j < this.columns; j++) {
      if (this.program.mark[j] !== 0) continue;
      const x = this.value[j]!;
      const s = Math.min(x, 1 - x);
      if (s > score) {
        score = s;
        best = j;
      }
    }
    return best;
  }

  private split(j: number): { lower: number; branch: NonNullable<ProofNode['branch']> } {
    const { program } = this;
    const on = this.g.act[program.head[j]!]!;
    const first: 1 | 2 = this.value[j]! > 0.4 ? 1 : 2;
    program.fix(j, first);
    const a = this.visit();
    program.fix(j, first === 1 ? 2 : 1);
    const b = this.visit();
    program.fix(j, 0);
    const [inside, without] = first === 1 ? [a, b] : [b, a];
    return { lower: Math.min(a.lower, b.lower), branch: { on, without: without.node, with: inside.node } };
  }

  private visit(): { lower: number; node: ProofNode } {
    const rounds: Prices[] = [];
    const fixed: number[] = [];
    let lower = 0;
    for (;;) {
      const looked = this.look();
      if (looked.bound !== null) {
        rounds.push(this.program.prices(looked.bound, this.trail.ledger, this.trail.out));
        lower = Math.max(lower, Math.ceil(looked.bound.total / looked.bound.scale));
      }
      if (looked.closed) {
        lower = this.upper!;
        break;
      }
      if (this.limits.nodesLeft <= 0 || this.limits.stop()) break;
      const before = this.choose();
      if (
        looked.bound !== null &&
        this.ruleOut(looked.bound, fixed) > 0 &&
        (before < 0 || this.program.mark[before] !== 0)
      )
        continue;
      const j = this.choose();
      if (j < 0) break;
      const below = this.split(j);
      for (const k of fixed) this.program.fix(k, 0);
      return { lower: Math.max(lower, below.lower), node: { rounds, branch: below.branch } };
    }
    for (const k of fixed) this.program.fix(k, 0);
    return { lower, node: { rounds } };
  }

  answer(proof: ProofNode): PartAnswer {
    const { g, plan } = this;
    const set: number[] = [];
    if (plan !== null) for (let a = 0; a < g.n; a++) if (plan.chosen[a] === 1 && g.forced[a] === 0) set.push(g.act[a]!);
    const upper = this.upper;
    return { upper, set, lower: Math.min(this.lower, upper ?? this.lower), proof };
  }
}
