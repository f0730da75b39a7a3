/**
 * Big rigs in our own format for benchmarks: an invented aircraft of zones, each from skin to structure, with
 * assemblies, joints towards what lies deeper, access needs, alternatives, blocks, one setup and looks. Parts have a
 * hidden order from outside to inside, and every need looks outwards, so that all of it can be taken apart.
 *
 * The same seed gives the same rig on every machine.
 */
import type { ActionId, Attachment, Block, Look, Need, Part, Rig, Situation } from '../src/domain/rig/rig-types.ts';

export interface RigInstance {
  readonly parts: number;
  readonly seed?: number;
  /** Share of needs that are alternatives. */
  readonly or?: number;
  readonly zone?: number;
}

/** mulberry32, from memory. */
function dice(seed: number): () => number {
  let s = seed >>> 0;
  return () => {
    s = (s + 0x6d2b79f5) >>> 0;
    let t = Math.imul(s ^ (s >>> 15), 1 | s);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export function makeBenchRig({ parts: n, seed = 1, or = 0.1, zone = 60 }: RigInstance): Rig {
  const next = dice(seed * 7919 + n);
  const from = (lo: number, hi: number): number => lo + Math.floor(next() * (hi - lo + 1));
  const id = (p: number): string => `p${p}`;
  /** A part of the same zone that lies further out; the zone's own skin has none. */
  const outer = (p: number): number | null => (p % zone < 4 ? null : p - from(1, Math.min(p % zone, 24)));
  const access = (p: number): Need | undefined => {
    const first = outer(p);
    if (first === null) return undefined;
    if (next() >= or) return { off: id(first) };
    return { any: [{ off: id(first) }, ...Array.from({ length: from(1, 2) }, () => ({ off: id(outer(p) ?? first) }))] };
  };
  const within = new Map<number, number>();
  for (let p = 0; p < n; p++) {
    const holder = p + from(1, 8);
    if (next() < 0.3 && holder < n && Math.floor(holder / zone) === Math.floor(p / zone)) within.set(p, holder);
  }
  const parts: Part[] = [];
  const blocks: Block[] = [];
  for (let p = 0; p < n; p++) {
    const holder = within.get(p);
    const heavy = next() < 0.04;
    const needs: Need | undefined = heavy ? { setup: 'support', in: ['trestles', 'cradle'] } : undefined;
    parts.push({
      id: id(p),
      minutes: from(1, 30),
      ...(holder !== undefined && { within: id(holder) }),
      ...(needs && { needs }),
    });
    const by = outer(p);
    if (next() < 0.35 && by !== null && !holds(within, p, by) && !holds(within, by, p))
      blocks.push({ part: id(p), by: id(by), harm: `bends ${id(by)}` });
  }
  const attachments: Attachment[] = [];
  const join = (p: number, deeper: number): void => {
    const needs = next() < 0.3 ? access(p) : undefined;
    attachments.push({
      id: `j${attachments.length}`,
      joins: [id(p), deeper >= n ? 'airframe' : id(deeper)],
      kind: 'bolted',
      minutes: from(1, 15),
      ...(needs && { needs }),
    });
  };
  for (let p = 0; p < n; p++) {
    const last = (Math.floor(p / zone) + 1) * zone - 1;
    join(p, p >= last || next() < 0.2 ? n : Math.min(last, p + from(1, 12)));
    if (next() < 0.5) join(p, n);
  }
  const looks: Look[] = [];
  for (let p = zone >> 1; p < n; p += zone) looks.push({ id: `look${p}`, on: 'airframe', visible: { off: id(p) } });
  return {
    format: 'witnessmark-rig/1',
    invented: true,
    root: 'airframe',
    parts: [{ id: 'airframe' }, ...parts],
    attachments,
    operations: [],
    blocks,
    guards: [],
    setups: [{ id: 'support', states: ['wheels', 'trestles', 'cradle'], initial: 'trestles', minutes: 40 }],
    facts: [],
    looks,
  };
}

function holds(within: ReadonlyMap<number, number>, part: number, assembly: number): boolean {
  for (let at: number | undefined = part; at !== undefined; at = within.get(at)) if (at === assembly) return true;
  return false;
}

/** Taken apart from outside to inside in every zone, to the same depth: a share of what there is, in recorded order. */
export function takenApart(rig: Rig, share: number, zone = 60): Situation {
  const crossing = new Map<string, string[]>();
  const within = new Map(rig.parts.map((p) => [p.id, p.within]));
  const chain = (p: string): string[] => {
    const up = within.get(p);
    return up === undefined ? [p] : [p, ...chain(up)];
  };
  for (const a of rig.attachments) {
    const chains = a.joins.map(chain);
    for (const p of new Set(chains.flat())) {
      if (chains.every((c) => c.includes(p))) continue;
      const list = crossing.get(p);
      if (list) list.push(a.id);
      else crossing.set(p, [a.id]);
    }
  }
  const done = new Set<ActionId>();
  rig.parts.slice(1).forEach((p, i) => {
    if (i % zone >= share * zone) return;
    for (const j of crossing.get(p.id) ?? []) done.add(j);
    done.add(`remove:${p.id}`);
  });
  return { done: [...done] };
}
