/**
 * Branch and bound on one part, around one warm linear program. At every node: solve, cut circles, look for a plan along
 * the values, bound in whole numbers, rule out by reduced cost, else branch (branch-chooser.ts), the side the program
 * leans to first. Not chosen: best-first search. Bounds are tight here, depth first keeps the basis warm and
 * the proof is the recursion itself.
 */
import { BranchChooser } from './branch-chooser.ts';
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
  private readonly brancher: BranchChooser;
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
    this.brancher = new BranchChooser(this.program.columns);
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
    this.dive();
    if (looked.bound === null) return { kind: 'open', rounds };
    if (this.closes(looked.bound)) {
      this.lower = this.upper!;
      return { kind: 'closed', rounds };
    }
    this.ruleOut(looked.bound, []);
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
    limits.nodes++;
    limits.nodesLeft--;
    limits.report(limits);
    let end = program.lp.solve(limits.stop);
    for (let k = 0; end === 'optimal'; k++) {
      this.readValues();
      const rows = this.cuts.find(this.value, EPS, CUTS_AT_ONCE);
      if (rows.length === 0 && k < 30)
        for (const t of [0.34, 0.51]) if (rows.length === 0) rows.push(...this.cuts.find(this.value, t, CUTS_AT_ONCE));
      let fresh = 0;
      for (const row of rows) if (program.addCut(row)) fresh++;
      if (fresh === 0 || limits.stop()) break;
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
    if (bound === null) return { bound, closed: false };
    if (!this.closes(bound) && end === 'optimal') this.planByReducedCost(bound);
    return { bound, closed: this.closes(bound) };
  }

  private closes(bound: ExactBound): boolean {
    return this.upper !== null && bound.total > (this.upper - 1) * bound.scale;
  }

  /** A plan that follows the values: what the program takes is nearly free. */
  private planAlong(): void {
    const { g, program, weight, value } = this;
    for (let a = 0; a < g.n; a++) {
      const j = program.column[a]!;
      if (j < 0) continue;
      weight[a] = g.cost[a]! * (1 - value[j]!) + 1e-4 * g.cost[a]! + (value[j]! > 0.5 ? 0 : 1e-3);
    }
    this.consider(this.planner.plan(weight, this.outHere()));
  }

  /** A plan that pays reduced costs: their sum is what the plan costs above the bound, shared supports counted right. */
  private planByReducedCost(bound: ExactBound): void {
    const { g, program, weight } = this;
    for (let a = 0; a < g.n; a++) {
      const j = program.column[a]!;
      if (j < 0) continue;
      weight[a] = program.head[j] === a ? Math.max(0, bound.reduced[j]!) / bound.scale + 1e-4 * program.cost[j]! : 0;
    }
    this.consider(this.planner.plan(weight, this.outHere()));
  }

  private outHere(): Uint8Array {
    const { g, program, banned } = this;
    for (let a = 0; a < g.n; a++) banned[a] = program.column[a]! >= 0 && program.mark[program.column[a]!] === 2 ? 1 : 0;
    return banned;
  }

  /** Takes in what the program leans to, a few at a time, for a better plan; leaves no trace but the plan. */
  private dive(): void {
    const { program, limits, value } = this;
    const taken: number[] = [];
    for (let step = 0; step < 12 && !limits.stop(); step++) {
      let most = -1;
      const before = taken.length;
      for (let j = 0; j < this.columns; j++) {
        if (program.mark[j] !== 0 || value[j]! < EPS || value[j]! > 1 - EPS) continue;
        if (most < 0 || value[j]! > value[most]!) most = j;
        if (value[j]! > 0.75) taken.push(j);
      }
      if (most < 0) break;
      if (taken.length === before) taken.push(most);
      for (let k = before; k < taken.length; k++) program.fix(taken[k]!, 1);
      if (program.lp.solve(limits.stop) !== 'optimal' || program.lp.objective() >= this.upper! - 0.5) break;
      this.readValues();
      this.planAlong();
    }
    for (const j of taken) program.fix(j, 0);
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
    const below = this.visit();
    this.lower = Math.max(this.lower, Math.min(this.upper ?? Number.POSITIVE_INFINITY, below.lower));
    return { ...below.node, rounds: [...rounds, ...below.node.rounds] };
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
    const fixed: number[] = [];
    const below = this.explore(fixed);
    for (const k of fixed) this.program.fix(k, 0);
    return below;
  }

  private explore(fixed: number[]): { lower: number; node: ProofNode } {
    const { program, limits, trail } = this;
    const rounds: Prices[] = [];
    for (;;) {
      const { bound, closed } = this.look();
      if (bound === null) return { lower: 0, node: { rounds } };
      const lower = closed ? this.upper! : Math.ceil(bound.total / bound.scale);
      const note = (): void => void rounds.push(program.prices(bound, trail.ledger, trail.out));
      const stop = closed || limits.nodesLeft <= 0 || limits.stop();
      const fresh = stop ? 0 : this.ruleOut(bound, fixed);
      if (stop || fresh > 0) note();
      if (stop) return { lower, node: { rounds } };
      if (fresh > 0 && this.movedByRuling(fixed, fresh)) continue;
      const j = this.brancher.choose(program, this.value, bound.total / bound.scale, this.upper!, limits.stop);
      if (j < 0) {
        if (fresh === 0) note();
        return { lower, node: { rounds } };
      }
      const below = this.split(j);
      return { lower: below.lower, node: { rounds, branch: below.branch } };
    }
  }

  /** Whether one of the last `fresh` fixed columns had another value: then the program has something new to say. */
  private movedByRuling(fixed: readonly number[], fresh: number): boolean {
    for (let k = fixed.length - fresh; k < fixed.length; k++) {
      const j = fixed[k]!;
      if (Math.abs(this.value[j]! - (this.program.mark[j] === 1 ? 1 : 0)) > EPS) return true;
    }
    return false;
  }

  answer(proof: ProofNode): PartAnswer {
    const { g, plan } = this;
    const set: number[] = [];
    if (plan !== null) for (let a = 0; a < g.n; a++) if (plan.chosen[a] === 1 && g.forced[a] === 0) set.push(g.act[a]!);
    const upper = this.upper;
    return { upper, set, lower: Math.min(this.lower, upper ?? this.lower), proof };
  }
}
