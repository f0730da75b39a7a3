/**
 * Which looks an action hides: unsigned, seen now, and not to be seen after it. A look that is signed with its joints
 * made (`whenFitted`) is hidden too by an action after which no way is left to have the joints made and still see: what
 * must be off to see it has to be reachable from the complete aircraft without releasing those joints. Read backwards
 * in time it is one more action, "not yet seen", whose need is `visible` and which those joints wait for.
 */
import { OR } from './gates.ts';
import type { Moment } from './moment.ts';
import { isWithin, type Reach } from './reach.ts';
import type { LookRule } from './refit-model.ts';

/** Per action the numbers of the looks it hides. Actions that hide nothing are absent. */
export function hiddenBy(moment: Moment): ReadonlyMap<number, readonly number[]> {
  const { model, world } = moment;
  const found = new Map<number, number[]>();
  const say = (x: number, look: number): void => {
    const list = found.get(x);
    if (!list) found.set(x, [look]);
    else if (!list.includes(look)) list.push(look);
  };
  for (const [x, looks] of model.looksOf) {
    if (world.done[x] === 0 || moment.recorded.stays[x] === 1) continue;
    for (const l of looks) if (moment.isOpen(model.looks[l]!) && goesWith(moment, x, model.looks[l]!)) say(x, l);
  }
  const movers = stateMovers(moment);
  model.looks.forEach((look, l) => {
    if (look.joints.length === 0 || !moment.isOpen(look)) return;
    for (const x of lastWays(moment, look, movers)) say(x, l);
  });
  return found;
}

function goesWith({ world }: Moment, x: number, look: LookRule): boolean {
  world.done[x] = 0;
  const seen = world.holds(look.visible);
  world.done[x] = 1;
  return !seen;
}

type Movers = ReadonlyMap<number, Reach>;

/** Actions whose return changes which states can be reached, with what can be reached then. */
function stateMovers(moment: Moment): Movers {
  const found = new Map<number, Reach>();
  const { world, recorded } = moment;
  if (!moment.model.looks.some((l) => l.joints.length > 0)) return found;
  for (const x of moment.model.stateMovers) {
    const reach = world.done[x] === 1 && recorded.stays[x] === 0 ? moment.reachWithout(x) : null;
    if (reach !== null) found.set(x, reach);
  }
  return found;
}

function openJoints({ world }: Moment, look: LookRule): readonly number[] {
  return look.joints.filter((j) => world.done[j] === 1);
}

/** Actions without which the look can never be signed with its joints made. */
function lastWays(moment: Moment, look: LookRule, movers: Movers): readonly number[] {
  const open = openJoints(moment, look);
  if (open.length === 0) return [];
  const ways = withMade(moment, open, () => {
    if (moment.closure.truth[look.visible] === 0) return null;
    return supportOf(moment, look.visible).filter((x) => !movers.has(x) && isLast(moment, look, x));
  });
  if (ways === null) return [];
  const byStates = [...movers.keys()].filter((x) => lostByStates(moment, look, open, x, movers.get(x)!));
  return [...ways, ...byStates];
}

/** Asks with some joints taken as made. */
function withMade<T>({ closure }: Moment, joints: readonly number[], ask: () => T): T {
  for (const j of joints) closure.remove(j);
  const answer = ask();
  for (const j of joints) closure.add(j);
  return answer;
}

function isLast({ closure }: Moment, look: LookRule, x: number): boolean {
  const fell = closure.trial(x);
  const gone = !closure.stands(look.visible);
  closure.settle(fell);
  return gone;
}

function lostByStates(moment: Moment, look: LookRule, open: readonly number[], x: number, reach: Reach): boolean {
  if (open.every((j) => j === x) && !goesWith(moment, x, look)) return false;
  return moment.closureWithout([...open, x], reach).truth[look.visible] === 0;
}

/**
 * The same question for one action after another along a refit. Of each look one derivation is remembered: while none
 * of its actions goes back, no other action can be the last way.
 */
export class LookWatch {
  private readonly ways = new Map<number, ReadonlySet<number> | null>();

  constructor(private readonly moment: Moment) {}

  /** Would x hide one of these looks? */
  hides(x: number, waiting: Iterable<number>): boolean {
    const { model, world } = this.moment;
    let reach: Reach | null | undefined;
    for (const l of waiting) {
      const look = model.looks[l]!;
      if (model.looksOf.get(x)?.includes(l) && world.holds(look.visible) && goesWith(this.moment, x, look)) return true;
      const open = openJoints(this.moment, look);
      if (open.length === 0 || (open.includes(x) && model.movesStates[x] === 0)) continue;
      const ways = this.waysOf(l, look, open);
      if (ways === null) continue;
      if (reach === undefined) reach = this.moment.reachWithout(x);
      if (reach !== null) {
        if (!ways.has(x) && isWithin(this.moment.reach, reach)) continue;
        if (lostByStates(this.moment, look, open, x, reach)) return true;
      } else if (ways.has(x) && withMade(this.moment, open, () => isLast(this.moment, look, x))) return true;
    }
    return false;
  }

  private waysOf(l: number, look: LookRule, open: readonly number[]): ReadonlySet<number> | null {
    let ways = this.ways.get(l);
    if (ways === undefined) {
      ways = withMade(this.moment, open, () =>
        this.moment.closure.truth[look.visible] === 1 ? new Set(supportOf(this.moment, look.visible)) : null,
      );
      this.ways.set(l, ways);
    }
    return ways;
  }

  /** x went back. */
  taken(x: number): void {
    for (const [l, ways] of this.ways) if (ways?.has(x) || this.moment.model.movesStates[x] === 1) this.ways.delete(l);
  }

  forget(): void {
    this.ways.clear();
  }
}

/** The actions of one derivation of the node: whatever all derivations need is among them. */
function supportOf(moment: Moment, node: number): readonly number[] {
  const { closure, wiring, model, recorded } = moment;
  const seen = new Set([node]);
  const actions: number[] = [];
  for (const v of seen) {
    if (v < model.size) {
      if (recorded.stays[v] === 1) continue;
      actions.push(v);
      if (recorded.forced[v] === 1) continue;
    }
    let oldest = -1;
    for (let i = wiring.childStart[v]!; i < wiring.childStart[v + 1]!; i++) {
      const c = wiring.child[i]!;
      if (closure.truth[c] === 0) continue;
      if (wiring.kind[v] !== OR) seen.add(c);
      else if (oldest < 0 || closure.rank[c]! < closure.rank[oldest]!) oldest = c;
    }
    if (oldest >= 0) seen.add(oldest);
  }
  return actions;
}
