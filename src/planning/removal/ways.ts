/**
 * What every way contains, and the next cheapest ways.
 *
 * *Unavoidable*: the landmarks of the relaxed problem are in every plan; each other step is put to the test by
 * forbidding it. A way around found for one step clears every step it does without.
 * *Next ways*: a way that is no superset of the first lacks at least one of its avoidable steps; the cheapest over all
 * of these is the next one, and so on with what is left (Lawler). Only the topmost avoidable steps are forbidden: to
 * forbid a step that others of the plan stand on forbids them too, so it cannot give anything cheaper.
 */
import type { ActionId } from '../../domain/rig/rig-types.ts';
import { KIND } from '../rig-model/need-table.ts';
import { relaxedReach, type Wiring } from './closure.ts';
import { landmarks } from './core/landmarks.ts';
import { isChange, type Move, type Permit, permitAll } from './permit.ts';
import { prune } from './prune.ts';
import type { Question } from './question.ts';
import { type Limits, reach } from './reach.ts';
import { type RuleCut, relax } from './relaxation.ts';
import { findPlan } from './search.ts';
import { comparePrices, type Price } from './weights.ts';

export interface FoundWay {
  readonly moves: readonly Move[];
  readonly price: Price;
}

/** Actions that can be forbidden, by name: acts, and all changes into a state. */
export class Bans {
  readonly acts: Uint8Array;
  readonly changes: Uint8Array;

  constructor(
    private readonly q: Question,
    readonly ids: readonly ActionId[],
  ) {
    this.acts = new Uint8Array(q.size);
    this.changes = new Uint8Array(q.changes.length);
    const wanted = new Set(ids);
    for (const id of wanted) {
      const index = q.model.find(id);
      const act = index === null ? q.acts.findIndex((a, k) => a < 0 && q.id(k) === id) : q.local(index);
      if (act !== undefined && act >= 0) this.acts[act] = 1;
    }
    q.changes.forEach((c, k) => {
      if (wanted.has(q.changeId(c))) this.changes[k] = 1;
    });
  }

  permit(): Permit {
    const p = permitAll(this.q);
    return {
      acts: p.acts.map((v, a) => v - this.acts[a]!),
      changes: p.changes.map((v, k) => (this.changes[k] === 1 ? 0 : v)),
    };
  }
}

export function moveIds(q: Question, moves: readonly Move[]): ActionId[] {
  return moves.map((m) => (isChange(m) ? q.changeId(q.changes[~m]!) : q.id(m)));
}

/** The other way round; a change is known by the state that the setup is in at its turn. */
export function movesOf(q: Question, ids: readonly ActionId[]): Move[] {
  const acts = new Map(q.acts.map((_, a) => [q.id(a), a]));
  const states = q.setups.map((s) => s.now);
  return ids.map((id) => {
    const act = acts.get(id);
    if (act !== undefined) return act;
    const k = q.changes.findIndex((c) => q.changeId(c) === id && c.from === states[c.setup]);
    if (k < 0) throw new Error(`internal: ${id} is no step of this question; report it`);
    states[q.changes[k]!.setup] = q.changes[k]!.to;
    return ~k;
  });
}

/**
 * Acts looked at by all tests of one question together, so that thousands of parts with states do not wait long: beyond
 * it a step that only states, holds or guards make unavoidable may go unnamed; none is named wrongly.
 */
const MOST_TESTED = 600_000;

/** Nothing but plain needs: no hold or guard, and every state asked for is the present one. */
function isPlain(q: Question): boolean {
  const { table } = q;
  if (q.holds.length + q.guards.length > 0) return false;
  return table.kind.every(
    (kind, n) => kind !== KIND.state || table.items[n]!.includes(q.setups[table.subject[n]!]!.now),
  );
}

/** Steps of the plan without which the goal cannot be reached. */
export function unavoidable(w: Wiring, moves: readonly Move[], goal: number, limits: Limits): ActionId[] {
  const { q } = w;
  const { problem } = relax(q, [], [], { fact: 1, minute: 1, setting: 0, irreversible: 0 }, null);
  const sure = new Set<ActionId>();
  for (const a of landmarks(problem)) if (a < q.size) sure.add(q.id(a));
  if (isPlain(q)) return [...sure].sort();
  const now = Int32Array.from(q.setups, (s) => s.now);
  const open = new Set(moveIds(q, moves).filter((id) => !sure.has(id)));
  let work = MOST_TESTED;
  for (const id of [...open]) {
    if (!open.has(id)) continue;
    if ((work -= q.size) < 0) break;
    open.delete(id);
    const permit = new Bans(q, [id]).permit();
    if (!relaxedReach(w, permit.acts, permit.changes, null, now).reached) {
      sure.add(id);
      continue;
    }
    const other = reach(w, permit, limits);
    if (other === 'no') sure.add(id);
    if (other === 'no' || other === 'unknown') continue;
    const around = new Set(moveIds(q, prune(q, other, goal)));
    for (const o of [...open]) if (!around.has(o)) open.delete(o);
  }
  return [...sure].sort();
}

interface Candidate extends FoundWay {
  readonly bans: readonly ActionId[];
  readonly ids: ReadonlySet<ActionId>;
}

export interface NextWaysOptions {
  readonly count: number;
  readonly goal: number;
  readonly unavoidable: readonly ActionId[];
  readonly known: readonly RuleCut[];
  readonly nodeBudget?: number;
  readonly shouldStop?: () => boolean;
}

/** Acts looked at by all solves together, so that a large rig does not wait long for its second ways. */
const MOST_WORK = 60_000;
const LEAST_SOLVES = 6;

export function nextWays(w: Wiring, first: FoundWay, options: NextWaysOptions): FoundWay[] {
  if (options.count <= 0) return [];
  const { q } = w;
  const must = new Set(options.unavoidable);
  const asCandidate = (way: FoundWay, bans: readonly ActionId[]): Candidate => ({
    ...way,
    bans,
    ids: new Set(moveIds(q, way.moves)),
  });
  const out: Candidate[] = [asCandidate(first, [])];
  const queue: Candidate[] = [];
  const tried = new Set<string>();
  let solves = Math.max(LEAST_SOLVES, Math.floor(MOST_WORK / Math.max(1, q.size)));

  const branch = (from: Candidate, avoid: Candidate): void => {
    for (const id of topmost(
      w,
      from,
      [...avoid.ids].filter((i) => !must.has(i)),
    )) {
      const bans = [...from.bans, id].sort();
      if (tried.has(bans.join()) || solves <= 0) continue;
      tried.add(bans.join());
      solves--;
      const found = findPlan(q, { ...options, without: new Bans(q, bans), known: options.known });
      if (found.kind !== 'plan' || !found.proven) continue;
      queue.push(asCandidate({ moves: prune(q, found.moves, options.goal), price: found.price }, bans));
    }
    queue.sort((a, b) => comparePrices(a.price, b.price));
  };

  branch(out[0]!, out[0]!);
  while (out.length <= options.count) {
    const next = queue.shift();
    if (!next) break;
    const inside = out.find((o) => [...o.ids].every((id) => next.ids.has(id)));
    if (inside) {
      branch(next, inside);
      continue;
    }
    out.push(next);
    if (out.length <= options.count) branch(next, next);
  }
  return out.slice(1).map(({ moves, price }) => ({ moves, price }));
}

/** Of some steps, those on which no other of them stands. */
function topmost(w: Wiring, from: Candidate, ids: readonly ActionId[]): ActionId[] {
  const { q } = w;
  const now = Int32Array.from(q.setups, (s) => s.now);
  const byId = new Map(moveIds(q, from.moves).map((id, i) => [id, from.moves[i]!]));
  const moves = ids.map((id) => byId.get(id)!);
  const kills = ids.map((id) => {
    const permit = new Bans(q, [...from.bans, id]).permit();
    const { did, entered } = relaxedReach(w, permit.acts, permit.changes, null, now, true);
    return moves.map((m) => (isChange(m) ? entered[q.changes[~m]!.setup]![q.changes[~m]!.to] : did[m]) === 0);
  });
  return ids.filter((_, i) => !ids.some((_, j) => j !== i && kills[i]![j]! && !(kills[j]![i]! && i < j)));
}
