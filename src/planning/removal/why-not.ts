/**
 * "Why can I not do this now": roots in words, what every way there contains, the cheapest way and the next ones, and
 * the harm of forcing it.
 */
import { failed, ok, type Result } from '../../domain/result.ts';
import type { ActionId, Need, Rig, Situation } from '../../domain/rig/rig-types.ts';
import type { Unmet, Way, WhyNotAnswer } from '../answers.ts';
import { Moment, readSet } from '../rig-model/moment.ts';
import { Wiring } from './closure.ts';
import type { Root } from './hopeless.ts';
import { plannerOf } from './plan-off.ts';
import { limitsOf, type OffOptions, type Plan, type Planner, searchOptions, sideOptions } from './planner.ts';
import { prune } from './prune.ts';
import { Question } from './question.ts';
import { findPlan } from './search.ts';
import { type Against, foldToRoots, Hindrances } from './unmet.ts';
import { type FoundWay, nextWays, unavoidable } from './ways.ts';
import { sentence } from './words.ts';

export type WhyNotOptions = OffOptions;

export function whyNot(
  rig: Rig,
  situation: Situation,
  action: ActionId,
  options: WhyNotOptions = {},
): Result<WhyNotAnswer> {
  return askWhyNot(plannerOf(rig), situation, action, options);
}

export function askWhyNot(
  planner: Planner,
  situation: Situation,
  action: ActionId,
  options: WhyNotOptions = {},
): Result<WhyNotAnswer> {
  const { model, words } = planner;
  const now = Moment.of(model, situation);
  const none = { cheapestWay: null, nextWays: [], unavoidable: [], harm: [] };
  const closed = closedBecause(planner, now, action);
  if (closed) return ok({ action, allowed: false, unmet: [closed], ...none });
  if (now.allowed(action))
    return ok({ action, allowed: true, unmet: [], ...none, cheapestWay: { cost: 0, actions: [] } });

  const against = new Hindrances(model, now, words).of(action);
  const harm = [...new Set(against.flatMap((a) => (a.harm === undefined ? [] : [a.harm])))].sort();
  const goal = goalOf(planner, action);
  const q = new Question(model, now, goal, { unweighed: action });
  const found = findPlan(q, searchOptions(options));
  if (found.kind === 'too-large' || found.kind === 'open') return failed(planner.noPlan(q, goal, found, options));
  if (found.kind === 'plan' && found.moves.length === 0)
    return ok({ action, allowed: false, unmet: foldToRoots(model, now, against, model.find(action)), ...none, harm });
  if (found.kind === 'impossible') {
    const unmet = hopelessRoots(planner, q, goal, action, against);
    return ok({ action, allowed: false, unmet, ...none, harm });
  }
  const ways = waysThere(planner, q, goal, action, found, options);
  return ok({ action, allowed: false, unmet: foldToRoots(model, now, against, model.find(action)), ...ways, harm });
}

/** Reasons that no way leads round. */
function closedBecause(planner: Planner, now: Moment, action: ActionId): Unmet | null {
  const { model, words } = planner;
  const set = readSet(model, action);
  if (set) return null;
  const index = model.find(action);
  if (index === null) return { need: { any: [] }, kind: 'part', text: `${action} is no action of this rig.` };
  const done: Need =
    index < model.joints
      ? { released: action }
      : model.partOf(index) >= 0
        ? { apart: action.slice(7) }
        : { done: action };
  if (now.done[index] === 1)
    return { need: done, kind: 'part', text: `${sentence(words.doing(action))} has been done already.` };
  if (model.partOf(index) === model.places.root)
    return {
      need: { any: [] },
      kind: 'part',
      text: `${words.thing(model.rig.root)} holds everything and is never lifted.`,
    };
  const operation = model.rig.operations[model.operationOf(index)];
  if (operation?.only === 'refit')
    return {
      need: { any: [] },
      kind: 'part',
      text: `${sentence(words.doing(action))} belongs to putting back and is not offered while taking apart.`,
    };
  return null;
}

function goalOf(planner: Planner, action: ActionId): number {
  const { model } = planner;
  const set = readSet(model, action);
  if (!set) return model.needs.action(model.find(action)!);
  const rule = model.setups[set.setup]!;
  return model.needs.state(set.setup, [set.state], rule.setup.states.length);
}

/** The ways without the action itself, which stands last in each. */
function waysThere(
  planner: Planner,
  q: Question,
  goal: number,
  action: ActionId,
  found: Plan,
  options: WhyNotOptions,
): Pick<WhyNotAnswer, 'cheapestWay' | 'nextWays' | 'unavoidable'> {
  const moves = prune(q, found.moves, goal);
  const wiring = new Wiring(q);
  const sure = unavoidable(wiring, moves, goal, limitsOf(options));
  const first: FoundWay = { moves, price: found.price };
  const next = found.proven
    ? nextWays(wiring, first, {
        count: options.nextWays ?? 2,
        goal,
        unavoidable: sure,
        known: found.proof.cuts,
        ...sideOptions(options),
      })
    : [];
  const without = (way: FoundWay): Way => {
    const { cost, actions } = planner.way(q, way, goal);
    return { cost, actions: actions.slice(0, actions.lastIndexOf(action)) };
  };
  return { cheapestWay: without(first), nextWays: next.map(without), unavoidable: sure.filter((a) => a !== action) };
}

/** Where no way leads there: the roots of what can never be met, each once. */
function hopelessRoots(
  planner: Planner,
  q: Question,
  goal: number,
  action: ActionId,
  against: readonly Against[],
): Unmet[] {
  const hopeless = planner.hopeless(q, new Wiring(q));
  if (hopeless.canBe(goal)) return foldToRoots(q.model, q.now, against, q.model.find(action));
  const out = new Map<string, Unmet>();
  for (const a of against) {
    if (hopeless.canBe(a.node)) continue;
    const roots = hopeless.rootsOf(a.node);
    const own = roots.filter((r) => r.kind === 'fact' && mentions(a.need, r.fact));
    if (roots.length === 0 || own.length === roots.length) {
      out.set(a.text, { need: a.need, kind: a.kind, text: `${sentence(a.text)}.` });
      continue;
    }
    for (const r of roots) if (!out.has(r.text)) out.set(r.text, asUnmet(r, a));
  }
  if (out.size === 0) for (const r of hopeless.rootsOf(goal)) out.set(r.text, asUnmet(r, null));
  return [...out.values()];
}

function asUnmet(r: Root, behind: Against | null): Unmet {
  const text = `${sentence(r.text)}${behind ? ` (behind it: ${behind.text})` : ''}.`;
  switch (r.kind) {
    case 'fact':
      return { need: { fact: r.fact }, kind: 'fact', text };
    case 'state':
      return { need: { setup: r.setup, in: [r.state] }, kind: 'setup', text };
    case 'circular':
      return { need: behind?.need ?? { any: [] }, kind: 'circular', text };
    case 'never':
      return { need: behind?.need ?? { any: [] }, kind: behind?.kind ?? 'part', text };
    default:
      return r satisfies never;
  }
}

function mentions(need: Need, fact: string): boolean {
  if ('all' in need) return need.all.some((n) => mentions(n, fact));
  if ('any' in need) return need.any.some((n) => mentions(n, fact));
  return 'fact' in need && need.fact === fact;
}
