/**
 * Whether the goal can be reached with what is permitted, exactly: setups, holds and guards included. Gives legal moves.
 *
 * Depth first over configurations. Whatever can be done without ever closing a door is done at once (nothing is lost by
 * it: no costs are counted here, permission is given). Doors are closed only by
 *   - releasing joints of a hold that does not yet hold for good: one joint is chosen to be the last (in every legal
 *     order one is), the others are then harmless;
 *   - taking off members of a guard that does not yet keep for good: likewise one member is chosen to go off last;
 *   - taking away what a state rests on, and changing state: these are tried one by one.
 * A configuration from which not even the relaxed walk reaches the goal is dropped, and one that has been met with at
 * least as much done. Everything tried is finite, so "cannot be reached" is a proof.
 *
 * Rules join in only once a way found without them breaks them; until then what they speak of is merely put off until
 * nothing else can be done. "No" without some of the rules is "no" with all of them; "yes" is replayed under all. Of
 * the dozens of holds on an aircraft a question mostly meets two or three.
 *
 * Not chosen: search over (set of done actions, states), which grows with every harmless action.
 */
import { relaxedReach, Truth, type Wiring } from './closure.ts';
import type { Move, Permit } from './permit.ts';
import { UNLIMITED } from './permit.ts';
import { prune } from './prune.ts';
import { doMove, mayMove, replay } from './replay.ts';

interface Path {
  readonly move: Move;
  readonly before: Path | null;
}

interface Config {
  readonly truth: Truth;
  readonly done: Uint8Array;
  readonly states: Int32Array;
  readonly used: Int32Array;
  /** Per hold, then per guard: the joint or member that goes last; -1 while open. */
  readonly last: Int32Array;
  path: Path | null;
}

export interface Limits {
  /** Configurations still to be looked at; shared by all questions of one call. */
  left: number;
  readonly stop: () => boolean;
}

export type Reached = readonly Move[] | 'no' | 'unknown';

class OutOfBudget extends Error {}

const DO = -1;
const WAIT = -2;
const RISKY = -3;
/** Only a sleeping rule speaks of it: done when nothing else can be. */
const LATER = -4;

export function reach(w: Wiring, permit: Permit, limits: Limits): Reached {
  try {
    for (;;) {
      const found = new Walk(w, permit, limits).run();
      if (found === 'no') return 'no';
      const moves = prune(w.q, found, w.q.wanted);
      if (replay(w.q, moves)?.holds(w.q.wanted)) return moves;
      if (!awaken(w, found)) throw new Error('internal: a way breaks no rule and cannot be walked; report it');
    }
  } catch (e) {
    if (e instanceof OutOfBudget) return 'unknown';
    throw e;
  }
}

/** Makes the rules active that the first refused move breaks. */
function awaken(w: Wiring, moves: readonly Move[]): boolean {
  const { q } = w;
  const at = q.now.copy();
  const refused = moves.find((m) => {
    if (!mayMove(q, at, m)) return true;
    doMove(q, at, m);
    return false;
  });
  if (refused === undefined) return false;
  const before = w.active.reduce((sum, v) => sum + v, 0);
  const guards = q.holds.length;
  const setups = guards + q.guards.length;
  if (refused >= 0) {
    for (const h of w.holdsOf[refused]!)
      if (at.refusesHold(q.model.holds[q.holds[h]!.rule]!, q.acts[refused]!)) w.active[h] = 1;
    for (const g of w.guardsOf[refused]!) w.active[guards + g] = 1;
  } else {
    q.guards.forEach((_, g) => {
      w.active[guards + g] = 1;
    });
    w.active[setups + q.changes[~refused]!.setup] = 1;
  }
  return w.active.reduce((sum, v) => sum + v, 0) > before;
}

class Walk {
  private readonly met = new Map<string, Uint8Array[]>();

  constructor(
    private readonly w: Wiring,
    private readonly permit: Permit,
    private readonly limits: Limits,
  ) {}

  run(): readonly Move[] | 'no' {
    const { q } = this.w;
    const states = Int32Array.from(q.setups, (s) => s.now);
    const truth = Truth.start(this.w, false);
    truth.standIn(states);
    const path = this.from({
      truth,
      done: new Uint8Array(q.size),
      states,
      used: new Int32Array(q.changes.length),
      last: new Int32Array(q.holds.length + q.guards.length).fill(-1),
      path: null,
    });
    if (path === 'no') return 'no';
    const moves: Move[] = [];
    for (let p = path; p !== null; p = p.before) moves.push(p.move);
    return moves.reverse();
  }

  private from(c: Config): Path | null | 'no' {
    if (--this.limits.left < 0 || this.limits.stop()) throw new OutOfBudget();
    const { q } = this.w;
    const { choose, risky } = this.close(c);
    if (c.truth.value[q.goal] === 1) return c.path;
    if (!relaxedReach(this.w, this.permit.acts, this.remaining(c), c.done, c.states).reached) return 'no';
    if (this.isMet(c)) return 'no';
    if (choose >= 0) return this.choices(c, choose);
    return this.moves(c, risky);
  }

  private remaining(c: Config): Int32Array {
    return this.permit.changes.map((n, k) => (n >= UNLIMITED ? 1 : n - c.used[k]!));
  }

  /**
   * Does everything harmless. Gives a rule that asks for a choice, and actions that close doors: of several that close
   * the same doors one is enough, since the others are harmless after it.
   */
  private close(c: Config): { readonly choose: number; readonly risky: readonly number[] } {
    const { q } = this.w;
    const { ready } = c.truth;
    let waiting: number[] = [];
    for (;;) {
      let moved = false;
      for (let a = ready.pop(); a !== undefined; a = ready.pop()) {
        if (c.done[a] === 1 || this.permit.acts[a] === 0 || c.truth.value[q.condition[a]!] === 0) continue;
        if (this.verdict(c, a) !== DO) {
          waiting.push(a);
          continue;
        }
        this.doAct(c, a);
        moved = true;
        if (c.truth.value[q.goal] === 1) return { choose: -1, risky: [] };
      }
      if (!moved) {
        const late = waiting.find((a) => c.done[a] === 0 && this.verdict(c, a) === LATER);
        if (late === undefined) break;
        this.doAct(c, late);
        if (c.truth.value[q.goal] === 1) return { choose: -1, risky: [] };
      }
      ready.push(...waiting);
      waiting = [];
    }
    let choose = -1;
    const risky = new Map<string, number>();
    for (const a of new Set(waiting)) {
      const v = this.verdict(c, a);
      if (v >= 0) choose = v;
      if (v === RISKY) risky.set(this.doorsClosedBy(c, a), a);
    }
    ready.push(...new Set(waiting));
    return { choose, risky: [...risky.values()] };
  }

  private doAct(c: Config, act: number): void {
    c.done[act] = 1;
    c.path = { move: act, before: c.path };
    c.truth.doAct(act);
  }

  /** DO, WAIT (refused as things are), RISKY (allowed, closes a door), LATER, or the rule that asks for a choice. */
  private verdict(c: Config, act: number): number {
    const { active, holdsOf, guardsOf, q } = this.w;
    let out = DO;
    let choose = -1;
    const worse = (v: number, rule: number): void => {
      if (v === DO) return;
      if (active[rule] === 0) out = out === DO ? LATER : out;
      else if (v >= 0) choose = v;
      else if (out !== WAIT) out = v;
    };
    for (const h of holdsOf[act]!) worse(this.holdVerdict(c, h, act), h);
    for (const g of guardsOf[act]!) worse(this.guardVerdict(c, g, act), q.holds.length + g);
    if (out === WAIT) return WAIT;
    if (choose >= 0) return choose;
    for (const spoiled of this.spoiledBy(c, act)) worse(RISKY, q.holds.length + q.guards.length + spoiled.setup);
    return out;
  }

  /** States that one could still enter and that the action makes impossible. */
  private spoiledBy(c: Config, act: number): { readonly setup: number; readonly state: number }[] {
    return this.w.spoils[act]!.flatMap(([setup, state]) => {
      if (this.isGone(c, setup, state)) return [];
      const into = this.w.changesInto[setup]![state]!;
      return into.some((k) => this.permit.changes[k]! > c.used[k]!) ? [{ setup, state }] : [];
    });
  }

  private doorsClosedBy(c: Config, act: number): string {
    if (this.w.guardsOf[act]!.length > 0) return `${act}`;
    return this.spoiledBy(c, act)
      .map((d) => `${d.setup}=${d.state}`)
      .join('/');
  }

  /** Can no longer be entered, as far as the rule is awake. */
  private isShut(c: Config, setup: number, state: number): boolean {
    const { q, active } = this.w;
    return (
      q.setups[setup]!.goneNow[state]! ||
      (active[q.holds.length + q.guards.length + setup] === 1 && this.isGone(c, setup, state))
    );
  }

  private isGone(c: Config, setup: number, state: number): boolean {
    const s = this.w.q.setups[setup]!;
    return s.goneNow[state]! || s.goneBy[state]!.some((a) => c.done[a] === 1);
  }

  private holdVerdict(c: Config, h: number, act: number): number {
    const { holds, table } = this.w.q;
    const hold = holds[h]!;
    const { value } = c.truth;
    if (value[hold.off] === 1 || (table.pure[hold.node] === 1 && value[hold.node] === 1)) return DO;
    let open = 0;
    for (const j of hold.joints) {
      if (c.done[j] === 1) continue;
      if (this.permit.acts[j] === 0) return DO;
      open++;
    }
    if (open === 1) return value[hold.node] === 1 ? DO : WAIT;
    const last = c.last[h]!;
    if (last < 0) return h;
    return last === act ? WAIT : DO;
  }

  private guardVerdict(c: Config, g: number, act: number): number {
    const { guards, holds, table } = this.w.q;
    const guard = guards[g]!;
    const { value } = c.truth;
    if (value[guard.together] === 1 || (table.pure[guard.unless] === 1 && value[guard.unless] === 1)) return DO;
    if (this.liftsTogether(guard.together, act)) return DO;
    let open = 0;
    let takes = false;
    let takesLast = false;
    const last = c.last[holds.length + g]!;
    for (const [m, off] of guard.offs.entries()) {
      if (value[off] === 1) continue;
      const takers = guard.takers[m]!;
      if (takers.includes(act)) {
        takes = true;
        if (m === last) takesLast = true;
      } else {
        if (!takers.some((a) => this.permit.acts[a] === 1)) return DO;
        open++;
      }
    }
    if (!takes) return DO;
    if (open === 0) {
      const then = c.truth.copy();
      then.doAct(act);
      return then.value[guard.unless] === 0 ? WAIT : table.pure[guard.unless] === 1 ? DO : RISKY;
    }
    if (last < 0) return holds.length + g;
    return takesLast ? WAIT : DO;
  }

  private liftsTogether(node: number, act: number): boolean {
    const leaf = this.w.leafOf[act]!;
    return node === leaf || this.w.q.table.items[node]!.includes(leaf);
  }

  private isMet(c: Config): boolean {
    const { q } = this.w;
    const closed: number[] = [];
    for (let a = 0; a < q.size; a++) if (c.done[a] === 1 && this.bearsOnRules(a)) closed.push(a);
    const gone = q.setups.map((s, i) => s.goneBy.map((_, state) => (this.isShut(c, i, state) ? 1 : 0)).join(''));
    const key = [c.states, c.used, c.last, closed, gone].map((list) => list.join()).join('|');
    const list = this.met.get(key) ?? [];
    if (list.some((done) => c.done.every((d, a) => d <= done[a]!))) return true;
    list.push(c.done.slice());
    this.met.set(key, list);
    return false;
  }

  private bearsOnRules(act: number): boolean {
    const { active, guardsOf, holdsOf, q } = this.w;
    return holdsOf[act]!.some((h) => active[h] === 1) || guardsOf[act]!.some((g) => active[q.holds.length + g] === 1);
  }

  private choices(c: Config, rule: number): Path | null | 'no' {
    const { holds, guards } = this.w.q;
    const hold = holds[rule];
    const guard = hold ? undefined : guards[rule - holds.length]!;
    const candidates = hold
      ? hold.joints.filter((j) => c.done[j] === 0)
      : guard!.offs.flatMap((off, m) => (c.truth.value[off] === 1 ? [] : [m]));
    for (const last of candidates) {
      const next = copyOf(c);
      next.last[rule] = last;
      const found = this.from(next);
      if (found !== 'no') return found;
    }
    return 'no';
  }

  private moves(c: Config, risky: readonly number[]): Path | null | 'no' {
    const { changes } = this.w.q;
    for (const k of changes.keys()) {
      if (!this.maySet(c, k)) continue;
      const next = copyOf(c);
      this.set(next, k);
      const found = this.from(next);
      if (found !== 'no') return found;
    }
    for (const a of risky) {
      const next = copyOf(c);
      this.doAct(next, a);
      const found = this.from(next);
      if (found !== 'no') return found;
    }
    return 'no';
  }

  private maySet(c: Config, k: number): boolean {
    const { q } = this.w;
    const change = q.changes[k]!;
    if (c.states[change.setup] !== change.from || this.permit.changes[k]! <= c.used[k]!) return false;
    if (this.isShut(c, change.setup, change.to)) return false;
    if (c.truth.value[q.setups[change.setup]!.needs[change.to]!] === 0) return false;
    const awake = q.guards.flatMap((_, g) => (this.w.active[q.holds.length + g] === 1 ? [g] : []));
    if (awake.length === 0) return true;
    const then = copyOf(c);
    this.set(then, k);
    return awake.every((g) => this.isBroken(c, g) || !this.isBroken(then, g));
  }

  private isBroken(c: Config, g: number): boolean {
    const guard = this.w.q.guards[g]!;
    const { value } = c.truth;
    return guard.offs.every((off) => value[off] === 1) && value[guard.together] === 0 && value[guard.unless] === 0;
  }

  private set(c: Config, k: number): void {
    const change = this.w.q.changes[k]!;
    c.states[change.setup] = change.to;
    if (this.permit.changes[k]! < UNLIMITED) c.used[k]!++;
    c.path = { move: ~k, before: c.path };
    c.truth.standIn(c.states);
  }
}

function copyOf(c: Config): Config {
  const truth = c.truth.copy();
  truth.ready.push(...c.truth.ready);
  return {
    truth,
    done: c.done.slice(),
    states: c.states.slice(),
    used: c.used.slice(),
    last: c.last.slice(),
    path: c.path,
  };
}
