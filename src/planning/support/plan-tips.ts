/**
 * Will it tip: loads on the support points as it stands, or after every step of an order.
 *
 * A rig without points gets empty loads and no word about tipping: nothing is known, which is not the same as nothing
 * to fear. The statics are in `domain/statics-points.ts`; this file walks along the order and says which end to hold.
 */
import { type Problem, problem } from '../../domain/problem.ts';
import { failed, ok, type Result } from '../../domain/result.ts';
import { parseRemove, parseSet } from '../../domain/rig/rig-meaning.ts';
import type { ActionId, Rig, Situation } from '../../domain/rig/rig-types.ts';
import { besideLine } from '../../domain/statics-points.ts';
import type { PointLoad, Tipping, TipsAnswer, TipsStep } from '../answers.ts';
import { DEFAULT_MARGIN_PERCENT, type Margin, marginOf, restraintText, tippingOf } from './margin.ts';
import { type States, type SupportModel, supportModelOf, type WeightWalk } from './support-model.ts';

export interface TipsOptions {
  /** Share of the weight that every point is to carry, worst case over the doubt; 2 unless the shop says otherwise. */
  readonly marginPercent?: number;
  /** Steps to walk along; absent: as it stands. */
  readonly along?: readonly ActionId[];
}

function isKnown(rig: Rig): (action: ActionId) => boolean {
  const plain = new Set([...rig.attachments, ...rig.operations].map((x) => x.id));
  const parts = new Set(rig.parts.map((p) => p.id));
  return (action) => {
    const part = parseRemove(action);
    if (part !== null) return parts.has(part);
    const set = parseSet(action);
    if (set !== null) return rig.setups.some((s) => s.id === set.setup && s.states.includes(set.state));
    return plain.has(action);
  };
}

function checkActions(rig: Rig, lists: Readonly<Record<string, readonly ActionId[]>>): Problem | null {
  const known = isKnown(rig);
  for (const [where, list] of Object.entries(lists)) {
    const at = list.findIndex((a) => !known(a));
    if (at < 0) continue;
    return problem(
      'TIPS_UNKNOWN_ACTION',
      `"${list[at]}" is no action of this rig.`,
      'Write it as in the steps of a plan: j3, remove:p1, set:support=jacks.',
      `${where}[${at}]`,
    );
  }
  return null;
}

export function checkMargin(percent: number): Problem | null {
  if (percent >= 0 && percent < 50) return null;
  return problem(
    'TIPS_MARGIN',
    `A margin of ${percent} % is no share of the weight on one point.`,
    'Give the margin in per cent, from 0 to less than 50.',
    'margin',
  );
}

/** For each point the step at which it is lightest, if that is under the margin; and points that hold nothing sideways. */
class Restraints {
  private readonly lightest = new Map<string, { readonly load: PointLoad; readonly text: string }>();
  private readonly sideways = new Set<string>();

  constructor(private readonly model: SupportModel) {}

  note(walk: WeightWalk, margin: Margin): void {
    const { support, names } = this.model.inForce(walk.states);
    if (support === null) return;
    for (const load of margin.loads) {
      const worst = load.kg - load.plusMinus;
      const before = this.lightest.get(load.point)?.load;
      if (worst - margin.wantedKg >= -1e-9 || (before && before.kg - before.plusMinus <= worst)) continue;
      this.lightest.set(load.point, { load, text: restraintText(support, names, load) });
    }
    const off = besideLine(support, walk.weight());
    // A hand's breadth beside a row of points is more than their width; less than that is within how stands are built.
    if (off !== null && off.distance - off.plusMinus > 0.1) {
      const n = support.points.length;
      const what = n === 1 ? 'one point' : `${n} points ${support.geometry.rank === 0 ? 'on one spot' : 'in line'}`;
      this.sideways.add(`restrain it sideways: ${what}, and the weight lies beside ${n === 1 ? 'it' : 'them'}`);
    }
  }

  texts(): readonly string[] {
    const byWorst = [...this.lightest.values()].sort(
      (a, b) => a.load.kg - a.load.plusMinus - (b.load.kg - b.load.plusMinus),
    );
    return [...byWorst.map((l) => l.text), ...this.sideways];
  }
}

export function planTips(rig: Rig, situation: Situation, options: TipsOptions = {}): Result<TipsAnswer> {
  const percent = options.marginPercent ?? DEFAULT_MARGIN_PERCENT;
  const bad = checkMargin(percent) ?? checkActions(rig, { done: situation.done, along: options.along ?? [] });
  if (bad) return failed(bad);
  const model = supportModelOf(rig);
  const walk = model.walk(situation);
  const restraints = new Restraints(model);
  const stepAt = (action: ActionId | null): TipsStep => {
    const margin = marginOf(walk, percent);
    restraints.note(walk, margin);
    return { action, loads: margin.loads, least: margin.least, underMargin: margin.underMargin };
  };
  const steps = (options.along ?? [null]).map((action) => {
    if (action !== null) walk.apply(action);
    return stepAt(action);
  });
  return ok({ steps, restrain: restraints.texts() });
}

/**
 * Loads after more has been done: `done` may hold everything done so far or only what is new, since lifting twice is
 * lifting once; `states` say how it stands then. Empty where no point is in force.
 */
export function loadsAfter(
  rig: Rig,
  situation: Situation,
  done: Iterable<ActionId>,
  states: States,
): readonly PointLoad[] {
  const walk = supportModelOf(rig).walk(situation);
  for (const action of done) walk.apply(action);
  walk.states = { ...walk.states, ...states };
  return walk.loads();
}

/** Loads after each step of an order, in one walk. */
export function loadsAlong(
  rig: Rig,
  situation: Situation,
  order: readonly ActionId[],
): readonly (readonly PointLoad[])[] {
  const walk = supportModelOf(rig).walk(situation);
  return order.map((action) => {
    walk.apply(action);
    return walk.loads();
  });
}

/** The first step of an order that falls under the margin (null step: it does so already), or null. */
export function firstTipping(
  rig: Rig,
  situation: Situation,
  order: readonly ActionId[],
  marginPercent = DEFAULT_MARGIN_PERCENT,
): Tipping | null {
  const model = supportModelOf(rig);
  if (!model.hasPoints) return null;
  const walk = model.walk(situation);
  const start = tippingOf(model, walk, marginOf(walk, marginPercent), null);
  if (start) return start;
  for (const action of order) {
    walk.apply(action);
    if (!model.changesLoads(action)) continue;
    const tips = tippingOf(model, walk, marginOf(walk, marginPercent), action);
    if (tips) return tips;
  }
  return null;
}
