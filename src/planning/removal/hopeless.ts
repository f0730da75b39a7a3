/**
 * Why something can never be so, as roots: facts nobody has settled, circles in which each waits for the other, states
 * that can no longer be entered, needs that never hold. What merely stands behind these is folded.
 *
 * Everything that can be reached at all is known (the relaxed walk with all permitted). What is left waits only for
 * more of the same; in that graph the roots are leaves, and circles that nothing outside could open.
 */

import { FALSE, KIND, TRUE } from '../rig-model/need-table.ts';
import type { RelaxedEnd } from './closure.ts';
import type { Question } from './question.ts';
import { isRefitOnly } from './replay.ts';
import { list, type Words } from './words.ts';

export type Root =
  | { readonly kind: 'fact'; readonly fact: string; readonly text: string }
  | { readonly kind: 'circular'; readonly actions: readonly string[]; readonly text: string }
  | { readonly kind: 'state'; readonly setup: string; readonly state: string; readonly text: string }
  | { readonly kind: 'never'; readonly text: string };

interface Waiting {
  readonly acts: Set<number>;
  readonly facts: Set<number>;
  /** setup * 1000 + state */
  readonly states: Set<number>;
}

export class Hopeless {
  private readonly roots = new Map<string, Root>();

  constructor(
    private readonly q: Question,
    private readonly end: RelaxedEnd,
    private readonly words: Words,
  ) {}

  /** Whether it can be so at some time, each thing for itself. */
  canBe(node: number): boolean {
    if (node === TRUE || node === FALSE) return node === TRUE;
    const { q } = this;
    const t = q.model.needs;
    const subject = t.subject[node]!;
    const items = t.items[node]!;
    switch (t.kind[node]) {
      case KIND.action:
        return this.canDo(subject);
      case KIND.fact:
        return q.now.facts[subject] === 1;
      case KIND.state:
        return items.some((s) => this.canEnter(subject, s));
      case KIND.all:
        return items.every((n) => this.canBe(n));
      default:
        return items.some((n) => this.canBe(n));
    }
  }

  canDo(action: number): boolean {
    const local = this.q.local(action);
    return this.q.now.done[action] === 1 || (local !== undefined && this.end.did[local] === 1);
  }

  private canEnter(setup: number, state: number): boolean {
    const local = this.q.setups.findIndex((s) => s.global === setup);
    return local < 0 ? this.q.now.states[setup] === state : this.end.entered[local]![state] === 1;
  }

  /** Roots of why the node, or the action, can never be so. */
  rootsOf(node: number): readonly Root[] {
    const first = this.gather(node, nothing());
    if (node === FALSE) this.never('what is asked for can never hold');
    return this.explore(first);
  }

  rootsOfAction(action: number): readonly Root[] {
    return this.explore({ ...nothing(), acts: new Set([action]) });
  }

  private explore(first: Waiting): readonly Root[] {
    const graph = new Map<number, readonly number[]>();
    const open: number[] = [];
    const follow = (w: Waiting): number[] => {
      for (const f of w.facts) this.fact(f);
      const next = [...w.acts, ...[...w.states].map((s) => ~s)];
      for (const n of next) if (!graph.has(n)) open.push(n);
      return next;
    };
    follow(first);
    for (let at = open.pop(); at !== undefined; at = open.pop()) {
      if (graph.has(at)) continue;
      graph.set(at, []);
      graph.set(at, follow(at >= 0 ? this.waitsOf(at) : this.waitsOfState(~at)));
    }
    for (const group of closedCircles(graph)) this.circle(group);
    const order = ['fact', 'circular', 'state', 'never'];
    return [...this.roots.values()].sort((a, b) => order.indexOf(a.kind) - order.indexOf(b.kind));
  }

  private waitsOf(action: number): Waiting {
    const { q, words } = this;
    const { model } = q;
    const out = nothing();
    const name = words.doing(model.id(action));
    if (isRefitOnly(q, action)) this.never(`${name} belongs to putting back and is not offered while taking apart`);
    else if (model.partOf(action) === model.places.root)
      this.never(`${words.thing(model.rig.root)} holds everything and is never lifted`);
    else {
      for (const c of q.now.conditionsOf(action)) {
        if (c.node === FALSE) this.never(`${name} has a need that can never hold`);
        else this.gather(c.node, out);
      }
      model.setups.forEach((s, i) => {
        const good = s.restsOn.flatMap((acts, state) => (acts.includes(action) ? [] : [state]));
        if (good.length === s.restsOn.length || good.some((state) => this.canEnter(i, state))) return;
        for (const state of good) out.states.add(i * 1000 + state);
        if (good.length === 0) this.never(`every state of ${words.thing(s.setup.id)} rests on what ${name} takes away`);
      });
      const local = q.local(action);
      if (local !== undefined && out.acts.size + out.facts.size + out.states.size === 0)
        this.never(`${name} asks for several things that never hold at the same time`);
    }
    return out;
  }

  private waitsOfState(code: number): Waiting {
    const { q, words } = this;
    const setup = Math.floor(code / 1000);
    const state = code % 1000;
    const rule = q.model.setups[setup]!;
    const out = nothing();
    const say = (why: string): void => {
      const named = { setup: rule.setup.id, state: rule.setup.states[state]! };
      const text = `${words.thing(named.setup)} can no longer be changed to ${named.state}: ${why}`;
      this.roots.set(text, { kind: 'state', ...named, text });
    };
    if (rule.restsOn[state]!.some((a) => q.now.done[a] === 1)) say('what it rests on has been taken away');
    else if (!rule.minutes.some((row, from) => row[state]! >= 0 && from !== state)) say('no change leads there');
    else {
      this.gather(rule.changeNeeds[state]!, out);
      rule.minutes.forEach((row, from) => {
        if (from !== state && row[state]! >= 0 && !this.canEnter(setup, from)) out.states.add(setup * 1000 + from);
      });
      if (rule.changeNeeds[state] === FALSE) say('what the change needs can never hold');
    }
    return out;
  }

  /** What a node that cannot be so waits for. */
  private gather(node: number, out: Waiting): Waiting {
    if (node === TRUE || node === FALSE || this.canBe(node)) return out;
    const t = this.q.model.needs;
    const subject = t.subject[node]!;
    switch (t.kind[node]) {
      case KIND.action:
        out.acts.add(subject);
        break;
      case KIND.fact:
        out.facts.add(subject);
        break;
      case KIND.state:
        for (const s of t.items[node]!) out.states.add(subject * 1000 + s);
        break;
      default:
        for (const n of t.items[node]!) this.gather(n, out);
    }
    return out;
  }

  private fact(fact: number): void {
    const { id, name } = this.q.model.rig.facts[fact]!;
    this.roots.set(`fact:${id}`, { kind: 'fact', fact: id, text: `waits for a person to settle: ${name ?? id}` });
  }

  private never(text: string): void {
    this.roots.set(text, { kind: 'never', text });
  }

  private circle(group: readonly number[]): void {
    const actions = group.map((n) => {
      if (n >= 0) return this.q.model.id(n);
      const s = this.q.model.setups[Math.floor(~n / 1000)]!.setup;
      return `set:${s.id}=${s.states[~n % 1000]!}`;
    });
    actions.sort();
    const names = actions.slice(0, 3).map((a) => this.words.doing(a));
    const more = actions.length > 3 ? ` (and ${actions.length - 3} more in the same circle)` : '';
    const text =
      actions.length === 1 ? `${names[0]} waits for itself` : `each waits for the other: ${list(names, 'and')}${more}`;
    this.roots.set(`circle:${actions.join()}`, { kind: 'circular', actions, text });
  }
}

function nothing(): Waiting {
  return { acts: new Set(), facts: new Set(), states: new Set() };
}

/** Strongly connected groups that wait for nothing outside themselves (Tarjan 1972, without recursion). */
export function closedCircles(graph: ReadonlyMap<number, readonly number[]>): number[][] {
  const index = new Map<number, number>();
  const low = new Map<number, number>();
  const group = new Map<number, number>();
  const stack: number[] = [];
  const groups: number[][] = [];
  for (const start of graph.keys()) {
    if (index.has(start)) continue;
    const calls = [{ node: start, next: 0 }];
    while (calls.length > 0) {
      const call = calls.at(-1)!;
      const { node } = call;
      if (call.next === 0) {
        index.set(node, index.size);
        low.set(node, index.get(node)!);
        stack.push(node);
      }
      const child = graph.get(node)![call.next++];
      if (child !== undefined) {
        if (!index.has(child)) calls.push({ node: child, next: 0 });
        else if (!group.has(child)) low.set(node, Math.min(low.get(node)!, index.get(child)!));
        continue;
      }
      calls.pop();
      const parent = calls.at(-1)?.node;
      if (parent !== undefined) low.set(parent, Math.min(low.get(parent)!, low.get(node)!));
      if (low.get(node) !== index.get(node)) continue;
      const members = stack.splice(stack.indexOf(node));
      for (const m of members) group.set(m, groups.length);
      groups.push(members);
    }
  }
  return groups.filter((members, g) => {
    const isCircle = members.length > 1 || graph.get(members[0]!)!.includes(members[0]!);
    return isCircle && members.every((m) => graph.get(m)!.every((n) => group.get(n) === g));
  });
}
