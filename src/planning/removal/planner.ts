/**
 * Questions about taking one rig apart, with the compiled rig kept between them: the browser asks again after every
 * change. Each answer is worked out from the situation alone; nothing else is remembered.
 */
import { type Problem, problem } from '../../domain/problem.ts';
import { failed, ok, type Result } from '../../domain/result.ts';
import type { ActionId, Need, Rig, Situation } from '../../domain/rig/rig-types.ts';
import type { OffAnswer, Step, Tipping, Way } from '../answers.ts';
import { PLANNING_PROBLEMS } from '../planning-problems.ts';
import { compile, type RigModel } from '../rig-model/compile.ts';
import { Moment } from '../rig-model/moment.ts';
import { orderWithoutTipping } from '../support/order-without-tipping.ts';
import { firstTipping, loadsAlong } from '../support/plan-tips.ts';
import { relaxedReach, Wiring } from './closure.ts';
import { Hopeless } from './hopeless.ts';
import { PlanLinks } from './links.ts';
import { orderForPeople } from './order.ts';
import { isChange, type Move, permitAll } from './permit.ts';
import { prune } from './prune.ts';
import { Question } from './question.ts';
import { reasonsFor } from './reasons.ts';
import { type Found, findPlan, type OffProof, type SearchOptions } from './search.ts';
import { type FoundWay, moveIds, movesOf, nextWays, unavoidable } from './ways.ts';
import { comparePrices, type Price } from './weights.ts';
import { list, Words } from './words.ts';

export interface OffOptions {
  /** Most steps of each search; beyond it the answer carries both bounds. */
  readonly nodeBudget?: number;
  /** How many of the next cheapest ways; 2 unless asked otherwise. */
  readonly nextWays?: number;
  /** Share of the weight that every support point is to carry. */
  readonly marginPercent?: number;
  readonly onProgress?: (p: { readonly lower: number; readonly upper: number | null; readonly nodes: number }) => void;
  readonly shouldStop?: () => boolean;
}

export interface ProvenOff {
  readonly answer: OffAnswer;
  readonly proof: OffProof;
  readonly question: Question;
}

export type Plan = Extract<Found, { kind: 'plan' }>;

/** For what is asked beside the plan itself (unavoidable, next ways, facts): a tenth of what the plan may take. */
const SIDE_BUDGET = 6000;

export class Planner {
  readonly model: RigModel;
  readonly words: Words;

  constructor(readonly rig: Rig) {
    this.model = compile(rig);
    this.words = new Words(rig);
  }

  off(situation: Situation, goal: Need, options: OffOptions = {}): Result<OffAnswer> {
    const proven = this.offProven(situation, goal, options);
    return proven.ok ? ok(proven.value.answer) : proven;
  }

  offProven(situation: Situation, goal: Need, options: OffOptions = {}): Result<ProvenOff> {
    const now = Moment.of(this.model, situation);
    const node = this.model.need(goal, [this.model.places.root]);
    const q = new Question(this.model, now, node);
    const found = findPlan(q, searchOptions(options));
    if (found.kind !== 'plan') return failed(this.noPlan(q, node, found, options));
    const waitsFor = this.waitsFor(q, node, found.price, options);
    const moves = prune(q, found.moves, node);
    const ordered = orderForPeople(q, moves, node);
    const tipping = this.order(situation, q, ordered, options);
    const wiring = new Wiring(q);
    const limits = limitsOf(options);
    const sure = unavoidable(wiring, moves, node, limits);
    const price = found.price;
    const next = found.proven
      ? nextWays(
          wiring,
          { moves, price },
          {
            count: options.nextWays ?? 2,
            goal: node,
            unavoidable: sure,
            known: found.proof.cuts,
            ...sideOptions(options),
          },
        )
      : [];
    const answer: OffAnswer = {
      cost: price.minutes,
      irreversible: price.irreversible,
      disturbed: price.disturbed,
      proven: found.proven,
      lowerBound: lowerMinutes(found),
      steps: this.steps(situation, q, tipping.moves, node),
      unavoidable: sure,
      nextWays: next.map((way) => this.way(q, way, node)),
      waitsFor,
      tipsAt: tipping.tipsAt,
    };
    return ok({ answer, proof: found.proof, question: q });
  }

  way(q: Question, way: FoundWay, goal: number): Way {
    return { cost: way.price.minutes, actions: moveIds(q, orderForPeople(q, way.moves, goal)) };
  }

  /** Facts not given that would make a way possible, or a cheaper one. */
  waitsFor(q: Question, goal: number, price: Price | null, options: OffOptions): string[] {
    const free = new Question(this.model, q.now, goal, { freeFacts: true });
    if (!free.acts.some((a) => a < 0)) return [];
    const found = findPlan(free, sideOptions(options));
    if (found.kind !== 'plan' || (price && comparePrices(found.price, price) >= 0)) return [];
    const used = prune(free, found.moves, goal).flatMap((m) => (isChange(m) || !free.isFact(m) ? [] : [free.acts[m]!]));
    return used.map((a) => this.rig.facts[~a]!.id).sort();
  }

  noPlan(q: Question, goal: number, found: Exclude<Found, Plan>, options: OffOptions): Problem {
    const of = (code: keyof typeof PLANNING_PROBLEMS, message: string): Problem =>
      problem(code, message, PLANNING_PROBLEMS[code].remedy);
    if (found.kind === 'too-large')
      return of('PLAN_TOO_LARGE', 'Minutes and losses of this rig are too large to compare exactly.');
    if (found.kind === 'open')
      return of('NO_WAY_YET', `No way was found within the budget; any way takes ${found.lower.minutes} min or more.`);
    const facts = this.waitsFor(q, goal, null, options);
    if (facts.length > 0)
      return of(
        'NO_WAY_OFF',
        `No way as things are. It waits for: ${list(
          facts.map((f) => `${this.words.thing(f)} (${f})`),
          'and',
        )}.`,
      );
    return of('NO_WAY_OFF', `No way leads there: ${this.rootTexts(q, goal).join('; ')}.`);
  }

  hopeless(q: Question, wiring: Wiring): Hopeless {
    const all = permitAll(q);
    const now = Int32Array.from(q.setups, (s) => s.now);
    return new Hopeless(q, relaxedReach(wiring, all.acts, all.changes, null, now, true), this.words);
  }

  private rootTexts(q: Question, goal: number): string[] {
    const hopeless = this.hopeless(q, new Wiring(q));
    if (!hopeless.canBe(goal)) return hopeless.rootsOf(goal).map((r) => r.text);
    const { rig } = this;
    const rules = [
      ...q.guards.map(
        (g) =>
          `the guard of ${list(
            rig.guards[g.rule]!.notTogether.map((p) => this.words.thing(p)),
            'and',
          )}`,
      ),
      ...q.holds.map((h) => `the hold of ${this.words.thing(q.model.places.ids[q.model.holds[h.rule]!.of]!)}`),
      ...q.setups.map((s) => `the changes of ${this.words.thing(q.model.setups[s.global]!.setup.id)}`),
    ];
    return [`each thing could be done by itself, but no order keeps ${list([...new Set(rules)], 'and')}`];
  }

  private order(
    situation: Situation,
    q: Question,
    moves: readonly Move[],
    options: OffOptions,
  ): { readonly moves: readonly Move[]; readonly tipsAt: Tipping | null } {
    const ids = moveIds(q, moves);
    const margin = options.marginPercent === undefined ? {} : { marginPercent: options.marginPercent };
    if (firstTipping(this.rig, situation, ids, options.marginPercent) === null) return { moves, tipsAt: null };
    const start = Moment.of(this.model, situation);
    const base = situation.done.length;
    // Asked for one list after another, each mostly the last one and a step more: so the moment is carried along.
    let walked: readonly ActionId[] = [];
    let at = start;
    const allowed = (done: readonly ActionId[], action: ActionId): boolean => {
      const goesOn = walked.length <= done.length - base && walked.every((a, i) => done[base + i] === a);
      if (!goesOn) {
        walked = [];
        at = start;
      }
      if (walked.length < done.length - base) {
        at = at.copy();
        for (const a of done.slice(base + walked.length)) at.doAction(a);
        walked = done.slice(base);
      }
      return at.allowed(action);
    };
    const answer = orderWithoutTipping(this.rig, situation, ids, allowed, margin);
    const order = movesOf(q, answer.order);
    if (answer.kind === 'holds') return { moves: order, tipsAt: null };
    return { moves: order, tipsAt: { ...answer.tipsAt, text: `${answer.tipsAt.text} ${answer.proposal}` } };
  }

  private steps(situation: Situation, q: Question, moves: readonly Move[], goal: number): Step[] {
    const ids = moveIds(q, moves);
    const why = reasonsFor(q, moves, new PlanLinks(q, moves, goal), this.words);
    const loads = loadsAlong(this.rig, situation, ids);
    return moves.map((move, i): Step => {
      const action = ids[i]!;
      const base = { action, name: this.words.step(action), why: why[i]!, loads: loads[i]! };
      if (isChange(move)) return { ...base, kind: 'set', minutes: q.changes[~move]!.minutes, hazards: [] };
      const index = q.acts[move]!;
      const { model } = this;
      const kind = index < model.joints ? 'release' : model.partOf(index) >= 0 ? 'remove' : 'operation';
      const hazards =
        kind === 'release'
          ? this.rig.attachments[index]!.hazards
          : kind === 'operation'
            ? this.rig.operations[model.operationOf(index)]!.hazards
            : [];
      return { ...base, kind, minutes: q.minutes[move]!, hazards: (hazards ?? []).map((h) => this.words.hazard(h)) };
    });
  }
}

export function searchOptions(options: OffOptions): SearchOptions {
  return {
    ...(options.nodeBudget !== undefined && { nodeBudget: options.nodeBudget }),
    ...(options.shouldStop && { shouldStop: options.shouldStop }),
    ...(options.onProgress && { onProgress: options.onProgress }),
  };
}

/** For the questions beside the plan. */
export function sideOptions(options: OffOptions): SearchOptions {
  const { shouldStop, nodeBudget } = options;
  return { nodeBudget: Math.min(nodeBudget ?? SIDE_BUDGET, SIDE_BUDGET), ...(shouldStop && { shouldStop }) };
}

export function limitsOf(options: OffOptions): { left: number; readonly stop: () => boolean } {
  return { left: Math.min(options.nodeBudget ?? SIDE_BUDGET, SIDE_BUDGET), stop: options.shouldStop ?? (() => false) };
}

/** Least minutes of any way with the losses and disturbances that are reported. */
function lowerMinutes(found: Plan): number {
  const { price, lower } = found;
  if (found.proven) return price.minutes;
  return price.irreversible === lower.irreversible && price.disturbed === lower.disturbed ? lower.minutes : 0;
}
