/**
 * Which step of a plan is for which: for each step the later steps that stand on it, with the rule that says so. Orders
 * for people and the reasons beside the steps both come from here.
 *
 * An `any` is supported by one of its alternatives only: what was so before the plan, else the one that came first.
 */
import type { ConditionRule, RigModel } from '../rig-model/compile.ts';
import { FALSE, KIND, TRUE } from '../rig-model/need-table.ts';
import { isChange, type Move } from './permit.ts';
import type { Question } from './question.ts';

export type LinkRule = ConditionRule | 'hold' | 'guard' | 'rests' | 'change' | 'goal';

export interface Link {
  /** Step that helps. */
  readonly from: number;
  /** Step that it helps; -1 for the goal itself. */
  readonly to: number;
  readonly rule: LinkRule;
  /** Joint, block, part, hazard, hold, guard or setup of the rule. */
  readonly source: number;
}

export class PlanLinks {
  readonly links: readonly Link[];
  /** Steps that each step stands on, access before joints. */
  readonly needs: readonly (readonly number[])[];
  readonly goalNeeds: readonly number[];
  private readonly model: RigModel;
  private readonly position: Map<number, number>;
  private readonly out: Link[] = [];

  constructor(
    private readonly q: Question,
    private readonly moves: readonly Move[],
    goal: number,
  ) {
    this.model = q.model;
    this.position = new Map(moves.flatMap((m, i) => (isChange(m) ? [] : [[q.acts[m]!, i] as const])));
    moves.forEach((move, i) => {
      if (isChange(move)) this.linkChange(move, i);
      else this.linkAct(q.acts[move]!, i);
    });
    this.link(goal, moves.length, -1, 'goal', -1);
    this.links = this.out;
    const needs = moves.map((): number[] => []);
    for (const joints of [false, true])
      for (const l of this.out)
        if (l.to >= 0 && (l.rule === 'attachment') === joints && !needs[l.to]!.includes(l.from))
          needs[l.to]!.push(l.from);
    this.needs = needs;
    this.goalNeeds = this.out.filter((l) => l.to < 0).map((l) => l.from);
  }

  private link(node: number, time: number, to: number, rule: LinkRule, source: number): void {
    for (const from of new Set(this.support(node, time) ?? [])) this.out.push({ from, to, rule, source });
  }

  private linkAct(action: number, i: number): void {
    if (action < 0) return;
    const { model, q } = this;
    for (const c of q.now.conditionsOf(action)) this.link(c.node, i, i, c.rule, c.source);
    model.setups.forEach((s, setup) => {
      if (!s.restsOn.some((list, state) => list.includes(action) && state !== this.stateAt(setup, i))) return;
      const was = this.lastChange(setup, i);
      if (was >= 0) this.out.push({ from: was, to: i, rule: 'rests', source: setup });
    });
    const act = q.local(action)!;
    for (const h of q.holds) {
      if (!h.joints.includes(act)) continue;
      const rule = model.holds[h.rule]!;
      const own = this.support(rule.node, i);
      if (own) for (const from of new Set(own)) this.out.push({ from, to: i, rule: 'hold', source: h.rule });
    }
    for (const g of q.guards) {
      if (!g.takers.some((list) => list.includes(act))) continue;
      const own = this.support(model.guards[g.rule]!.unless, i);
      if (own) for (const from of new Set(own)) this.out.push({ from, to: i, rule: 'guard', source: g.rule });
    }
  }

  private linkChange(move: Move, i: number): void {
    const c = this.q.changes[~move]!;
    const setup = this.q.setups[c.setup]!.global;
    this.link(this.model.setups[setup]!.changeNeeds[c.to]!, i, i, 'change', setup);
    const was = this.lastChange(setup, i);
    if (was >= 0) this.out.push({ from: was, to: i, rule: 'change', source: setup });
  }

  private lastChange(setup: number, time: number): number {
    for (let i = time - 1; i >= 0; i--) {
      const m = this.moves[i]!;
      if (isChange(m) && this.q.setups[this.q.changes[~m]!.setup]!.global === setup) return i;
    }
    return -1;
  }

  private stateAt(setup: number, time: number): number {
    const at = this.lastChange(setup, time);
    return at < 0 ? this.q.now.states[setup]! : this.q.changes[~this.moves[at]!]!.to;
  }

  /** Steps before `time` that make the node so; null when it is not. */
  private support(node: number, time: number): readonly number[] | null {
    if (node === TRUE) return [];
    if (node === FALSE) return null;
    const t = this.model.needs;
    const subject = t.subject[node]!;
    const items = t.items[node]!;
    switch (t.kind[node]) {
      case KIND.action:
        return this.q.now.done[subject] === 1 ? [] : this.before(subject, time);
      case KIND.fact:
        return this.q.now.facts[subject] === 1 ? [] : this.before(~subject, time);
      case KIND.state: {
        const at = this.lastChange(subject, time);
        return items.includes(this.stateAt(subject, time)) ? (at < 0 ? [] : [at]) : null;
      }
      case KIND.all: {
        const lists = items.map((n) => this.support(n, time));
        return lists.every((l) => l !== null) ? lists.flat() : null;
      }
      default: {
        let best: readonly number[] | null = null;
        for (const n of items) {
          const list = this.support(n, time);
          if (list && (best === null || Math.max(-1, ...list) < Math.max(-1, ...best))) best = list;
        }
        return best;
      }
    }
  }

  private before(action: number, time: number): readonly number[] | null {
    const at = this.position.get(action);
    return at !== undefined && at < time ? [at] : null;
  }
}
