/**
 * Full enumeration over (done set, states): the cheapest way to a goal, what every way contains, the next ways. Method:
 * uniform-cost search with the done mask and the states as the node; no reduction of any kind. The first two measures
 * are functions of the done set, so only minutes depend on the road.
 */
import { type Act, allowed, allowedChange, type Change, type Here, type Meaning, moved } from './second-meaning.ts';

export type Cost = readonly [irreversible: number, disturbed: number, minutes: number];
export interface Way {
  readonly cost: Cost;
  readonly steps: readonly string[];
  readonly end: Here;
}
export const less = (a: Cost, b: Cost): boolean =>
  a[0] !== b[0] ? a[0] < b[0] : a[1] !== b[1] ? a[1] < b[1] : a[2] < b[2];

const disturbed = (m: Meaning, mask: number): Set<string> =>
  new Set(m.acts.flatMap((a) => ((mask & a.bit) !== 0 ? a.disturbs : [])));

export function losses(m: Meaning, from: number, to: number): readonly [number, number] {
  const before = disturbed(m, from);
  const fresh = [...disturbed(m, to)].filter((d) => !before.has(d));
  return [m.acts.filter((a) => a.irreversible && (to & ~from & a.bit) !== 0).length, fresh.length];
}

interface Node {
  readonly w: Here;
  readonly cost: Cost;
  readonly used: number;
  readonly back: Node | undefined;
  readonly by: string;
}
const stepsOf = (n: Node): string[] => (n.back ? [...stepsOf(n.back), n.by] : []);

export interface Limits {
  readonly without?: string;
  /** Tell ways apart by which changes of setup they used as well. */
  readonly keepUsed?: boolean;
  /** Calls for every goal world settled; stop when it returns true. */
  readonly reached: (n: Way, used: ReadonlySet<string>) => boolean;
}

/** Worlds in order of cost; the goal worlds are handed to `reached`. */
export function search(m: Meaning, from: Here, goal: (w: Here) => boolean, limits: Limits): void {
  const open: Node[] = [{ w: from, cost: [0, 0, 0], used: 0, back: undefined, by: '' }];
  const closed = new Set<string>();
  const key = (n: Node) => `${n.w.mask}|${n.w.states.join()}|${limits.keepUsed ? n.used : 0}`;
  while (open.length > 0) {
    let best = 0;
    for (let i = 1; i < open.length; i++) if (less(open[i]!.cost, open[best]!.cost)) best = i;
    const n = open[best]!;
    open[best] = open[open.length - 1]!;
    open.pop();
    if (closed.has(key(n))) continue;
    closed.add(key(n));
    if (goal(n.w)) {
      const used = new Set(stepsOf(n));
      if (limits.reached({ cost: n.cost, steps: stepsOf(n), end: n.w }, used)) return;
      if (limits.keepUsed) continue; // every longer way through here is a superset of this one
    }
    for (const next of nexts(m, from, n, limits.without)) if (!closed.has(key(next))) open.push(next);
  }
}

function* nexts(m: Meaning, from: Here, n: Node, without: string | undefined): Generator<Node> {
  for (const a of m.acts) {
    if (a.only === 'refit' || a.id === without || !allowed(m, a, n.w)) continue;
    const mask = n.w.mask | a.bit;
    const cost: Cost = [...losses(m, from.mask, mask), n.cost[2] + a.minutes];
    yield { w: { ...n.w, mask }, cost, used: n.used, back: n, by: a.id };
  }
  for (const [i, c] of m.changes.entries()) {
    if (c.id === without) continue;
    const minutes = allowedChange(m, c, n.w);
    if (minutes === undefined) continue;
    const cost: Cost = [n.cost[0], n.cost[1], n.cost[2] + minutes];
    yield { w: moved(n.w, c), cost, used: n.used | (1 << i), back: n, by: c.id };
  }
}

export function cheapest(m: Meaning, from: Here, goal: (w: Here) => boolean, without?: string): Way | undefined {
  let found: Way | undefined;
  search(m, from, goal, {
    ...(without === undefined ? {} : { without }),
    reached: (way) => {
      found = way;
      return true;
    },
  });
  return found;
}

/** The cheapest way whose set of actions contains none of the earlier ways' sets. */
export function nextBest(
  m: Meaning,
  from: Here,
  goal: (w: Here) => boolean,
  earlier: readonly (readonly string[])[],
  without?: string,
): Way | undefined {
  let found: Way | undefined;
  search(m, from, goal, {
    ...(without === undefined ? {} : { without }),
    keepUsed: true,
    reached: (way, used) => {
      if (earlier.some((e) => e.every((x) => used.has(x)))) return false;
      found = way;
      return true;
    },
  });
  return found;
}

/** The actions and changes that every way contains. */
export function everyWay(m: Meaning, from: Here, goal: (w: Here) => boolean, without?: string): string[] {
  const all = [...m.acts, ...m.changes].map((x: Act | Change) => x.id);
  const one = cheapest(m, from, goal, without);
  if (!one) return [];
  const blocked = (id: string) => {
    // A search that may use neither: the first is left out by asking for a goal world in which it is not done.
    const bit = without === undefined ? 0 : (m.bitOf.get(without) ?? 0);
    return cheapest(m, from, (w) => (w.mask & ~from.mask & bit) === 0 && goal(w), id) === undefined;
  };
  return all.filter((id) => one.steps.includes(id) && blocked(id));
}
