/**
 * Where tags hang: layered from the outside in, the wanted part at the bottom.
 *
 * Tags that ask for the same and are asked for by the same (six bolts of one lug) are strung on one wire below each
 * other, so that 40 steps stay readable; dagre lays out the strings. Not chosen: one layer as wide as its bolts, which
 * can only be read from afar.
 */
import { graphlib, layout } from '@dagrejs/dagre';
import type { ActionId } from '../../domain/rig/rig-types.ts';
import type { Wire } from './graph-model.ts';

export const TAG = { width: 246, height: 60, pitch: 66, goalHeight: 70, aside: 38 } as const;

export interface Placed {
  readonly id: ActionId;
  readonly x: number;
  readonly y: number;
  readonly height: number;
  /** Strung below another tag of the same string. */
  readonly strung: boolean;
}

export interface PlacedWire {
  readonly wires: readonly Wire[];
  readonly points: readonly { readonly x: number; readonly y: number }[];
}

export interface TagSheet {
  readonly width: number;
  readonly height: number;
  readonly tags: readonly Placed[];
  readonly wires: readonly PlacedWire[];
}

/** Groups tags with equal neighbours; the order of `shown` is kept inside a string. */
export function stringsOf(shown: readonly ActionId[], wires: readonly Wire[]): readonly (readonly ActionId[])[] {
  const key = (id: ActionId) => {
    const ins = wires.filter((w) => w.to === id).map((w) => `<${w.from}${w.way}`);
    const outs = wires.filter((w) => w.from === id).map((w) => `>${w.to}${w.way}`);
    return [...ins.sort(), ...outs.sort()].join(' ');
  };
  const groups = new Map<string, ActionId[]>();
  for (const id of shown) {
    const k = key(id);
    (groups.get(k) ?? groups.set(k, []).get(k)!).push(id);
  }
  return [...groups.values()].flatMap((ids) => (ids.length < 3 || key(ids[0]!) === '' ? ids.map((id) => [id]) : [ids]));
}

export interface TagToPlace {
  readonly id: ActionId;
  readonly isGoal: boolean;
  readonly hasAside: boolean;
}

export function placeTags(tags: readonly TagToPlace[], wires: readonly Wire[]): TagSheet {
  const shown = tags.map((t) => t.id);
  const goal = tags.find((t) => t.isGoal)?.id;
  const asides = new Set(tags.filter((t) => t.hasAside).map((t) => t.id));
  const strings = stringsOf(shown, wires);
  const home = new Map(strings.flatMap((ids, at) => ids.map((id) => [id, `s${at}`] as const)));
  const graph = new graphlib.Graph();
  graph.setGraph({ rankdir: 'TB', nodesep: 30, ranksep: 42, marginx: 16, marginy: 14, ranker: 'network-simplex' });
  graph.setDefaultEdgeLabel(() => ({}));
  for (const [at, ids] of strings.entries()) {
    const tall = ids.length === 1 && ids[0] === goal ? TAG.goalHeight : TAG.height;
    const aside = ids.some((id) => asides.has(id)) ? TAG.aside : 0;
    graph.setNode(`s${at}`, { width: TAG.width, height: tall + (ids.length - 1) * TAG.pitch + aside });
  }
  const between = new Map<string, Wire[]>();
  for (const w of wires) {
    const [v, to] = [home.get(w.from), home.get(w.to)];
    const key = `${v} ${to}`;
    if (v !== to) (between.get(key) ?? between.set(key, []).get(key)!).push(w);
  }
  for (const [key, same] of between) {
    const [v = '', w = ''] = key.split(' ');
    graph.setEdge(v, w, { weight: same.some((x) => x.way !== 'block') ? 3 : 1 });
  }
  layout(graph);
  const hung = strings.flatMap((ids, at) => {
    const box = graph.node(`s${at}`);
    return ids.map((id, i): Placed => ({
      id,
      x: box.x - TAG.width / 2,
      y: box.y - box.height / 2 + i * TAG.pitch,
      height: id === goal ? TAG.goalHeight : TAG.height,
      strung: i > 0,
    }));
  });
  const placed = [...between].map(([key, same]): PlacedWire => {
    const [v = '', w = ''] = key.split(' ');
    return { wires: same, points: graph.edge(v, w).points ?? [] };
  });
  const size = graph.graph();
  return { width: size.width ?? TAG.width, height: size.height ?? TAG.height, tags: hung, wires: placed };
}

/** A soft line through the points: straight ends, round bends. */
export function wirePath(points: PlacedWire['points']): string {
  const [first, ...rest] = points;
  if (!first) return '';
  const last = rest.at(-1) ?? first;
  if (rest.length < 2) return `M${first.x} ${first.y} L${last.x} ${last.y}`;
  let d = `M${first.x} ${first.y}`;
  for (let i = 0; i < rest.length - 1; i++) {
    const a = rest[i]!;
    const b = rest[i + 1]!;
    const end = i === rest.length - 2 ? b : { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
    d += ` Q${a.x} ${a.y} ${end.x} ${end.y}`;
  }
  return d;
}
