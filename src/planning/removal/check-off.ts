/**
 * The judge of an answer: trusts neither the planner nor its compiled rig. Steps are walked under `RigMeaning`, sums are
 * made again, the bound is checked by the core's own judge, and each cut ("every plan does one of these") by walking
 * everything that can be done without it, for rigs small enough. Null when all holds, else what does not.
 */
import { changeMinutes, parseSet, RigMeaning, type World } from '../../domain/rig/rig-meaning.ts';
import type { ActionId, Need, Rig, Situation } from '../../domain/rig/rig-types.ts';
import type { OffAnswer } from '../answers.ts';
import { checkCertificate } from './core/check-certificate.ts';
import type { ProvenOff } from './planner.ts';
import { weigh } from './weights.ts';

export function checkSteps(rig: Rig, situation: Situation, goal: Need, answer: OffAnswer): string | null {
  const meaning = new RigMeaning(rig);
  const before = meaning.now(situation);
  let world = before;
  let minutes = 0;
  for (const step of answer.steps) {
    if (!meaning.allowed(step.action, world)) return `${step.action} is not allowed at its turn`;
    if (minutesOf(rig, step.action, world) !== step.minutes) return `${step.action} takes other minutes`;
    minutes += step.minutes;
    world = meaning.after(world, step.action);
  }
  if (!meaning.holds(goal, [rig.root], world)) return 'the steps do not reach the goal';
  if (minutes !== answer.cost) return `the steps take ${minutes} min, not ${answer.cost}`;
  const fresh = rig.attachments.filter((a) => world.done.has(a.id) && !before.done.has(a.id));
  const irreversible = fresh.filter((a) => a.loss === 'irreversible').length;
  const was = new Set(rig.attachments.filter((a) => before.done.has(a.id)).flatMap((a) => a.disturbs ?? []));
  const disturbed = new Set(fresh.flatMap((a) => a.disturbs ?? []).filter((s) => !was.has(s))).size;
  if (irreversible !== answer.irreversible) return `${irreversible} irreversible actions, not ${answer.irreversible}`;
  if (disturbed !== answer.disturbed) return `${disturbed} settings disturbed, not ${answer.disturbed}`;
  return null;
}

/** Steps and, where the answer says so, the proof that nothing is cheaper. `most`: moments to walk per cut. */
export function checkOff(rig: Rig, situation: Situation, goal: Need, off: ProvenOff, most = 50_000): string | null {
  const { answer, proof, question: q } = off;
  const steps = checkSteps(rig, situation, goal, answer);
  if (steps !== null || !answer.proven || answer.steps.length === 0) return steps;
  const { problem, core, weights } = proof;
  if (!problem || !core || !weights || core.kind === 'impossible') return 'there is no proof';
  const bound = checkCertificate(problem, core);
  if (bound !== null) return bound;
  const price = { irreversible: answer.irreversible, disturbed: answer.disturbed, minutes: answer.cost };
  if (core.lowerBound < weigh(price, weights)) return 'the bound lies under the price of the plan';
  for (const [k, cut] of proof.cuts.entries()) {
    const banned = new Set(cut.acts.map((a) => q.id(a)));
    const most_ = new Map(
      cut.changes.map((c) => {
        const change = q.changes[c.change]!;
        const from = q.model.setups[q.setups[change.setup]!.global]!.setup.states[change.from]!;
        return [`${from}>${q.changeId(change)}`, c.time - 1] as const;
      }),
    );
    if (reachesWithout(rig, situation, goal, banned, most_, most)) return `cut ${k} can be gone round`;
  }
  return null;
}

function minutesOf(rig: Rig, action: ActionId, world: World): number {
  const set = parseSet(action);
  if (set) {
    const setup = rig.setups.find((s) => s.id === set.setup)!;
    return changeMinutes(setup, world.states[setup.id]!, set.state) ?? Number.NaN;
  }
  const part = action.startsWith('remove:') ? rig.parts.find((p) => `remove:${p.id}` === action) : undefined;
  const thing = part ?? [...rig.attachments, ...rig.operations].find((x) => x.id === action);
  return thing?.minutes ?? 0;
}

/** Walks everything that can be done without some actions, and with some changes only so many times. */
function reachesWithout(
  rig: Rig,
  situation: Situation,
  goal: Need,
  banned: ReadonlySet<ActionId>,
  times: ReadonlyMap<string, number>,
  most: number,
): boolean {
  const meaning = new RigMeaning(rig);
  const actions = [
    ...rig.attachments.map((a) => a.id),
    ...rig.parts.filter((p) => p.id !== rig.root).map((p) => `remove:${p.id}`),
    ...rig.operations.filter((o) => o.only !== 'refit').map((o) => o.id),
    ...rig.setups.flatMap((s) => s.states.map((state) => `set:${s.id}=${state}`)),
  ].filter((a) => !banned.has(a));
  interface Node {
    readonly world: World;
    readonly used: ReadonlyMap<string, number>;
  }
  const keyOf = (n: Node): string =>
    [[...n.world.done].sort(), Object.values(n.world.states), [...times.keys()].map((t) => n.used.get(t) ?? 0)]
      .map((l) => l.join())
      .join('|');
  const first: Node = { world: meaning.now(situation), used: new Map() };
  const seen = new Set([keyOf(first)]);
  const open = [first];
  for (let node = open.pop(); node !== undefined; node = open.pop()) {
    if (meaning.holds(goal, [rig.root], node.world)) return true;
    if (seen.size > most) throw new Error('internal: the rig is too large for this check; report it');
    for (const action of actions) {
      const set = parseSet(action);
      const name = set ? `${node.world.states[set.setup]!}>${action}` : '';
      const count = (node.used.get(name) ?? 0) + 1;
      const limit = times.get(name);
      if ((limit !== undefined && count > limit) || !meaning.allowed(action, node.world)) continue;
      const used = limit === undefined ? node.used : new Map([...node.used, [name, count]]);
      const next: Node = { world: meaning.after(node.world, action), used };
      const key = keyOf(next);
      if (seen.has(key)) continue;
      seen.add(key);
      open.push(next);
    }
  }
  return false;
}
