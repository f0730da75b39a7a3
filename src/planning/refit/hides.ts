/**
 * Which looks an action hides: unsigned, seen now, and not to be seen after it. A look that is signed with its joints
 * made (`whenFitted`) is hidden too by an action after which no way is left to have the joints made and still see: what
 * must be off to see it has to be reachable from the complete aircraft without releasing those joints. Read backwards
 * in time it is one more action, "not yet seen", whose need is `visible` and which those joints wait for.
 */
import { OR } from './gates.ts';
import type { Moment } from './moment.ts';
import type { LookRule } from './refit-model.ts';

/** Per action the numbers of the looks it hides, of `only` these where given. Actions that hide nothing are absent. */
export function hiddenBy(moment: Moment, only?: ReadonlySet<number>): ReadonlyMap<number, readonly number[]> {
  const { model, world } = moment;
  const asked = (look: number): boolean => only === undefined || only.has(look);
  const found = new Map<number, number[]>();
  const say = (x: number, look: number): void => {
    const list = found.get(x);
    if (!list) found.set(x, [look]);
    else if (!list.includes(look)) list.push(look);
  };
  for (const [x, looks] of model.looksOf) {
    if (world.done[x] === 0 || moment.recorded.stays[x] === 1) continue;
    for (const l of looks)
      if (asked(l) && moment.isOpen(model.looks[l]!) && goesWith(moment, x, model.looks[l]!)) say(x, l);
  }
  model.looks.forEach((look, l) => {
    if (!asked(l) || (only === undefined && !moment.isOpen(look))) return;
    for (const x of lastWays(moment, look)) say(x, l);
  });
  return found;
}

function goesWith({ world }: Moment, x: number, look: LookRule): boolean {
  world.done[x] = 0;
  const seen = world.holds(look.visible);
  world.done[x] = 1;
  return !seen;
}

/** Actions without which the look can never be signed with its joints made. */
function lastWays(moment: Moment, look: LookRule): readonly number[] {
  const { world, closure } = moment;
  const open = look.joints.filter((j) => world.done[j] === 1);
  if (open.length === 0) return [];
  for (const j of open) closure.remove(j);
  const ways = closure.truth[look.visible] === 1 ? supportOf(moment, look.visible) : [];
  const last = ways.filter((x) => {
    const fell = closure.trial(x);
    const gone = !closure.stands(look.visible);
    closure.settle(fell);
    return gone;
  });
  const couldBe = closure.truth[look.visible] === 1;
  for (const j of open) closure.add(j);
  if (!couldBe) return [];
  return [...last.filter((x) => moment.reachWithout(x) === null), ...lastByStates(moment, look, open)];
}

/** The same for actions that change which states can be reached: the closure is made again for each. */
function lastByStates(moment: Moment, look: LookRule, open: readonly number[]): readonly number[] {
  const { model, world, recorded } = moment;
  if (model.setups.length === 0) return [];
  return recorded.order.filter((x) => {
    if (world.done[x] === 0 || recorded.stays[x] === 1) return false;
    const reach = moment.reachWithout(x);
    return reach !== null && moment.closureWithout([...open, x], reach).truth[look.visible] === 0;
  });
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
