/**
 * From one situation to the next: what differs, and whose answer can have changed by it. What x locks out is decided by
 * what can be reached upwards from x in the wiring and by the other supports of what is met there. So when some nodes
 * changed, only actions below them, or below what they support, have to be asked again.
 */
import type { Closure, Wiring } from './closure.ts';
import type { Recorded } from './recorded.ts';

/** Actions done in one and not in the other; null where more than that differs, or too many do. */
export function changedActions(a: Recorded, b: Recorded, most: number): readonly number[] | null {
  if (a.onFacts.size > 0 || b.onFacts.size > 0) return null;
  const { world } = a;
  const other = b.world;
  if (!same(world.facts, other.facts) || !same(world.states, other.states) || !same(world.waived, other.waived))
    return null;
  const changed: number[] = [];
  for (let x = 0; x < world.done.length; x++) {
    if (world.done[x] !== other.done[x]) {
      changed.push(x);
      if (changed.length > most) return null;
    } else if (a.forced[x] !== b.forced[x] || a.stays[x] !== b.stays[x]) return null;
  }
  return changed;
}

function same(a: ArrayLike<number>, b: ArrayLike<number>): boolean {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

/** The nodes, what they support directly, and everything that holds below. */
export function nodesBelow(wiring: Wiring, closure: Closure, nodes: readonly number[]): ReadonlySet<number> {
  const found = new Set(nodes);
  for (const v of nodes) {
    for (let i = wiring.parentStart[v]!; i < wiring.parentStart[v + 1]!; i++) found.add(wiring.parent[i]!);
  }
  for (const v of found) {
    for (let i = wiring.childStart[v]!; i < wiring.childStart[v + 1]!; i++) {
      const c = wiring.child[i]!;
      if (closure.truth[c] === 1) found.add(c);
    }
  }
  return found;
}
