/**
 * Counting and listing orders of small rigs, and the check of a given order.
 *
 * Counting is a walk over feasible sets: the number of orders that finish from a set is the sum over what may be done
 * next. Counting orders is #P-complete, so there is no short cut that stays exact; sets beyond the limit are refused.
 * Setups stay as they stand: changes of state are not counted.
 */
import { problem } from '../../domain/problem.ts';
import { failed, ok, type Result } from '../../domain/result.ts';
import type { ActionId, Rig, Situation } from '../../domain/rig/rig-types.ts';
import { PLANNING_PROBLEMS } from '../planning-problems.ts';
import { Moment } from '../rig-model/moment.ts';
import { plannerOf } from './plan-off.ts';
import { Hindrances } from './unmet.ts';
import { sentence } from './words.ts';

const MOST_SETS = 200_000;

/** In how many orders all of `actions` can be done. */
export function countOrders(rig: Rig, situation: Situation, actions: readonly ActionId[]): Result<bigint> {
  const counts = finishing(rig, situation, actions);
  return counts.ok ? ok(counts.value.get('') ?? 0n) : counts;
}

/** The orders themselves, at most `most` of them, in the order in which `actions` are given. */
export function listOrders(
  rig: Rig,
  situation: Situation,
  actions: readonly ActionId[],
  most: number,
): Result<readonly (readonly ActionId[])[]> {
  const counts = finishing(rig, situation, actions);
  if (!counts.ok) return counts;
  const wanted = [...new Set(actions)];
  const out: ActionId[][] = [];
  const extend = (at: Moment, done: readonly ActionId[]): void => {
    if (out.length >= most || !counts.value.get(keyOf(wanted, done))) return;
    if (done.length === wanted.length) {
      out.push([...done]);
      return;
    }
    for (const a of wanted) {
      if (done.includes(a) || !at.allowed(a)) continue;
      const next = at.copy();
      next.doAction(a);
      extend(next, [...done, a]);
    }
  };
  extend(Moment.of(plannerOf(rig).model, situation), []);
  return ok(out);
}

function keyOf(wanted: readonly ActionId[], done: readonly ActionId[]): string {
  return wanted.flatMap((a, i) => (done.includes(a) ? [i] : [])).join();
}

/** Per feasible set, the number of orders that finish from it. */
function finishing(rig: Rig, situation: Situation, actions: readonly ActionId[]): Result<ReadonlyMap<string, bigint>> {
  const wanted = [...new Set(actions)];
  const start = Moment.of(plannerOf(rig).model, situation);
  const layers: Map<string, { readonly at: Moment; readonly next: readonly string[] }>[] = [];
  let layer = new Map([['', { at: start, done: [] as readonly ActionId[] }]]);
  let sets = 0;
  while (layer.size > 0) {
    const following = new Map<string, { at: Moment; done: readonly ActionId[] }>();
    const edges = new Map<string, { readonly at: Moment; readonly next: readonly string[] }>();
    for (const [key, { at, done }] of layer) {
      if (++sets > MOST_SETS) return failed(tooLarge());
      const open = wanted.filter((a) => !done.includes(a) && at.allowed(a));
      const next = open.map((a) => {
        const then = [...done, a];
        const to = keyOf(wanted, then);
        if (!following.has(to)) {
          const moment = at.copy();
          moment.doAction(a);
          following.set(to, { at: moment, done: then });
        }
        return to;
      });
      edges.set(key, { at, next });
    }
    layers.push(edges);
    layer = following;
  }
  const counts = new Map<string, bigint>();
  const full = wanted.map((_, i) => i).join();
  for (const edges of layers.reverse())
    for (const [key, { next }] of edges)
      counts.set(key, key === full ? 1n : next.reduce((sum, to) => sum + (counts.get(to) ?? 0n), 0n));
  return ok(counts);
}

function tooLarge(): ReturnType<typeof problem> {
  const message = `There are more than ${MOST_SETS} feasible sets.`;
  return problem('COUNT_TOO_LARGE', message, PLANNING_PROBLEMS.COUNT_TOO_LARGE.remedy);
}

/** Whether each step of an order is allowed at its turn; the first that is not is named with what stands against it. */
export function validateSequence(
  rig: Rig,
  situation: Situation,
  sequence: readonly ActionId[],
): Result<readonly ActionId[]> {
  const { model, words } = plannerOf(rig);
  const at = Moment.of(model, situation);
  for (const [i, action] of sequence.entries()) {
    if (!at.allowed(action)) {
      const against = new Hindrances(model, at, words).of(action).map((a) => sentence(a.text));
      const why = against.length > 0 ? against.join('; ') : 'it has been done already, or is no action of this rig';
      const message = `${sentence(words.doing(action))} stands at place ${i + 1}: ${why}.`;
      return failed(problem('SEQUENCE_ORDER', message, PLANNING_PROBLEMS.SEQUENCE_ORDER.remedy, `sequence[${i}]`));
    }
    at.doAction(action);
  }
  return ok(sequence);
}
