/** For tests of the traps: the rig with exactly one element less, so that it is seen which one the answer rests on. */
import type { Block, Guard, Need, Rig } from '../../src/domain/rig/rig-types.ts';

function less<T>(list: readonly T[], isIt: (item: T) => boolean, what: string): readonly T[] {
  const rest = list.filter((x) => !isIt(x));
  if (rest.length !== list.length - 1)
    throw new Error(`internal: ${list.length - rest.length} of ${what}, not one; report it`);
  return rest;
}

export function withoutBlock(rig: Rig, part: string, by: string): Rig {
  return { ...rig, blocks: less<Block>(rig.blocks, (b) => b.part === part && b.by === by, `block ${part} by ${by}`) };
}

export function withoutGuard(rig: Rig, ...parts: readonly string[]): Rig {
  const same = (g: Guard) => [...g.notTogether].sort().join() === [...parts].sort().join();
  return { ...rig, guards: less<Guard>(rig.guards, same, `guard ${parts.join()}`) };
}

export function withoutLook(rig: Rig, id: string): Rig {
  return { ...rig, looks: less(rig.looks, (l) => l.id === id, `look ${id}`) };
}

export function withoutHold(rig: Rig, part: string): Rig {
  const found = rig.parts.find((p) => p.id === part);
  if (found?.hold === undefined) throw new Error(`internal: ${part} has no hold; report it`);
  const { hold: _hold, ...bare } = found;
  return { ...rig, parts: rig.parts.map((p) => (p.id === part ? bare : p)) };
}

/** The hazards of one joint gone. */
export function withoutHazards(rig: Rig, joint: string): Rig {
  const found = rig.attachments.find((a) => a.id === joint);
  if (found?.hazards?.length !== 1) throw new Error(`internal: ${joint} has not one hazard; report it`);
  const { hazards: _hazards, ...bare } = found;
  return { ...rig, attachments: rig.attachments.map((a) => (a.id === joint ? bare : a)) };
}

/** One need out of the `all` of a joint. */
export function withoutNeed(rig: Rig, joint: string, need: Need): Rig {
  const found = rig.attachments.find((a) => a.id === joint);
  const needs = found?.needs;
  if (found === undefined || needs === undefined) throw new Error(`internal: ${joint} has no needs; report it`);
  const same = (n: Need) => JSON.stringify(n) === JSON.stringify(need);
  if ('all' in needs) {
    const rest = less(needs.all, same, `need of ${joint}`);
    return { ...rig, attachments: rig.attachments.map((a) => (a === found ? { ...a, needs: { all: rest } } : a)) };
  }
  if (!same(needs)) throw new Error(`internal: ${joint} has not this need; report it`);
  const { needs: _needs, ...bare } = found;
  return { ...rig, attachments: rig.attachments.map((a) => (a === found ? bare : a)) };
}
