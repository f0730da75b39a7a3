/**
 * Where tags hang: in layers from the outside in, never wider than the window, the wanted part at the bottom.
 *
 * Coffman and Graham's layering with a bound on the width (the bound is what the window holds at full size), so that a
 * tag keeps the size at which it can be read; a plan grows downwards instead and is scrolled. Tags that ask for the
 * same and are asked for by the same (six bolts of one lug) are strung on one wire. A wire that passes other layers
 * runs in a lane between or beside the tags. Not chosen: a layout library with layers as wide as their bolts.
 */
import type { ActionId } from '../../domain/rig/rig-types.ts';
import type { Wire } from './graph-model.ts';

export const TAG = { width: 246, strung: 6 } as const;
const GAP = 34;
const EDGE = 30;
const LAYER_GAP = 42;
const LANE = 7;

export interface TagToPlace {
  readonly id: ActionId;
  readonly height: number;
  /** Room for words below it. */
  readonly below: number;
}

export interface Placed {
  readonly id: ActionId;
  readonly x: number;
  readonly y: number;
  readonly height: number;
  /** Strung below another tag of the same string. */
  readonly strung: boolean;
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface PlacedWire {
  readonly wires: readonly Wire[];
  readonly d: string;
  /** Where words beside the wire stand. */
  readonly words: Point;
}

export interface TagSheet {
  readonly width: number;
  readonly height: number;
  readonly tags: readonly Placed[];
  readonly wires: readonly PlacedWire[];
}

interface Item {
  readonly tags: readonly TagToPlace[];
  readonly height: number;
  readonly before: Set<Item>;
  readonly after: Set<Item>;
  layer: number;
  x: number;
  y: number;
}

/** As many columns as the window holds at full size; two already where they fit at four fifths. */
export function columnsIn(width: number): number {
  const full = (w: number) => Math.floor((w - 2 * EDGE + GAP) / (TAG.width + GAP));
  return Math.max(1, full(width), Math.min(2, full(width / 0.8)));
}

export function placeTags(tags: readonly TagToPlace[], wires: readonly Wire[], columns: number): TagSheet {
  const items = itemsOf(tags, wires);
  const layers = layersOf(items, columns);
  const width = 2 * EDGE + columns * TAG.width + (columns - 1) * GAP;
  const height = placeLayers(layers, width, columns);
  const placed = items.flatMap((item) => {
    let y = item.y;
    return item.tags.map((tag, i): Placed => {
      const at = { id: tag.id, x: item.x, y, height: tag.height, strung: i > 0 };
      y += tag.height + TAG.strung;
      return at;
    });
  });
  return { width, height, tags: placed, wires: routed(items, layers, wires, width) };
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
  return [...groups].flatMap(([k, ids]) => (ids.length < 3 || k === '' ? ids.map((id) => [id]) : [ids]));
}

function itemsOf(tags: readonly TagToPlace[], wires: readonly Wire[]): readonly Item[] {
  const byId = new Map(tags.map((t) => [t.id, t]));
  const items = stringsOf(
    tags.map((t) => t.id),
    wires,
  ).map((ids): Item => {
    const own = ids.flatMap((id) => byId.get(id) ?? []);
    const tall = own.reduce((sum, t) => sum + t.height + t.below, 0) + (own.length - 1) * TAG.strung;
    return { tags: own, height: tall, before: new Set(), after: new Set(), layer: 0, x: 0, y: 0 };
  });
  const home = homeOf(items);
  for (const w of wires) {
    const from = home.get(w.from);
    const to = home.get(w.to);
    if (!from || !to || from === to) continue;
    from.after.add(to);
    to.before.add(from);
  }
  return items;
}

function homeOf(items: readonly Item[]): ReadonlyMap<ActionId, Item> {
  return new Map(items.flatMap((item) => item.tags.map((tag) => [tag.id, item] as const)));
}

/** From the goal upwards: an item is laid as low as its successors and the width allow. */
function layersOf(items: readonly Item[], columns: number): readonly (readonly Item[])[] {
  const fromBottom: Item[][] = [];
  const level = new Map<Item, number>();
  const order = [...items].reverse();
  const waiting = new Set(order);
  while (waiting.size > 0) {
    const ready = order.filter((i) => waiting.has(i) && [...i.after].every((a) => !waiting.has(a)));
    // What has waited longest for its successors goes first; a circle (never in a plan) would leave nothing ready.
    const next = ready.sort((a, b) => lowest(b, level) - lowest(a, level))[0] ?? order.find((i) => waiting.has(i));
    if (!next) break;
    let at = Math.max(0, ...[...next.after].map((a) => (level.get(a) ?? -1) + 1));
    while ((fromBottom[at]?.length ?? 0) >= columns) at += 1;
    (fromBottom[at] ??= []).push(next);
    level.set(next, at);
    waiting.delete(next);
  }
  return fromBottom.map((layer) => layer ?? []).reverse();
}

function lowest(item: Item, level: ReadonlyMap<Item, number>): number {
  return -Math.max(-1, ...[...item.after].map((a) => level.get(a) ?? -1));
}

/** Gives every item its place; the return value is the height of the sheet. */
function placeLayers(layers: readonly (readonly Item[])[], width: number, columns: number): number {
  const step = TAG.width + GAP;
  let y = 14;
  layers.forEach((layer, n) => {
    for (const item of layer) item.layer = n;
    const middle = (item: Item) => mean([...item.before].map((b) => b.x)) ?? mean([...item.after].map((b) => b.x));
    const row = [...layer].sort((a, b) => (middle(a) ?? 0) - (middle(b) ?? 0));
    const free = width - 2 * EDGE - (row.length * TAG.width + (row.length - 1) * GAP);
    const wish = mean(row.flatMap((item, at) => (middle(item) === undefined ? [] : [middle(item)! - at * step])));
    const centred = EDGE + free / 2;
    const start = row.length === columns ? EDGE : Math.min(EDGE + free, Math.max(EDGE, wish ?? centred));
    row.forEach((item, at) => {
      item.x = start + at * step;
      item.y = y;
    });
    y += Math.max(0, ...row.map((i) => i.height)) + LAYER_GAP;
  });
  return y - LAYER_GAP + 14;
}

function mean(values: readonly number[]): number | undefined {
  return values.length === 0 ? undefined : values.reduce((a, b) => a + b, 0) / values.length;
}

/** One drawn wire per pair of items. */
function routed(
  items: readonly Item[],
  layers: readonly (readonly Item[])[],
  wires: readonly Wire[],
  width: number,
): readonly PlacedWire[] {
  const home = homeOf(items);
  const pairs = new Map<string, { readonly from: Item; readonly to: Item; readonly wires: Wire[] }>();
  for (const w of wires) {
    const from = home.get(w.from);
    const to = home.get(w.to);
    if (!from || !to || from === to) continue;
    const key = `${items.indexOf(from)} ${items.indexOf(to)}`;
    (pairs.get(key) ?? pairs.set(key, { from, to, wires: [] }).get(key)!).wires.push(w);
  }
  const all = [...pairs.values()];
  const used: number[] = [];
  return all.map((pair) => {
    const outs = all.filter((p) => p.from === pair.from).sort((a, b) => a.to.x - b.to.x);
    const ins = all.filter((p) => p.to === pair.to).sort((a, b) => a.from.x - b.from.x);
    const start = { x: pair.from.x + port(outs.indexOf(pair), outs.length), y: pair.from.y + pair.from.height };
    const end = { x: pair.to.x + port(ins.indexOf(pair), ins.length), y: pair.to.y };
    const crossed = layers.slice(pair.from.layer + 1, pair.to.layer).flat();
    const lane = crossed.length === 0 || isFree(start.x, crossed) ? null : laneFor(start, end, crossed, width, used);
    if (lane !== null) used.push(lane);
    return {
      wires: pair.wires,
      d: path(start, end, lane ?? (crossed.length > 0 ? start.x : null)),
      words: wordsAt(start, end, lane),
    };
  });
}

function port(at: number, of: number): number {
  return TAG.width * (0.5 + (at - (of - 1) / 2) * Math.min(0.22, 0.7 / of));
}

function isFree(x: number, crossed: readonly Item[]): boolean {
  return crossed.every((item) => x < item.x - 5 || x > item.x + TAG.width + 5);
}

/** The nearest free lane: beside a tag that is passed, or at the edge of the sheet. */
function laneFor(start: Point, end: Point, crossed: readonly Item[], width: number, used: readonly number[]): number {
  const beside = crossed.flatMap((i) => [i.x - GAP / 2, i.x + TAG.width + GAP / 2]);
  const lanes = [...beside, EDGE / 2, width - EDGE / 2]
    .flatMap((x) => [x, x - LANE, x + LANE])
    .filter((x) => x > 2 && x < width - 2);
  const free = lanes.filter((x) => isFree(x, crossed) && !used.some((u) => Math.abs(u - x) < LANE - 1));
  const far = (x: number) => Math.abs(x - start.x) + Math.abs(x - end.x);
  return free.sort((a, b) => far(a) - far(b))[0] ?? width - EDGE / 2;
}

/** Soft at both ends, straight in its lane. */
function path(start: Point, end: Point, lane: number | null): string {
  const soft = LAYER_GAP * 0.62;
  if (lane === null) {
    return `M${start.x} ${start.y}C${start.x} ${start.y + soft} ${end.x} ${end.y - soft} ${end.x} ${end.y}`;
  }
  const top = start.y + LAYER_GAP;
  const low = end.y - LAYER_GAP;
  return (
    `M${start.x} ${start.y}C${start.x} ${start.y + soft} ${lane} ${top - soft} ${lane} ${top}` +
    `V${Math.max(top, low)}C${lane} ${Math.max(top, low) + soft} ${end.x} ${end.y - soft} ${end.x} ${end.y}`
  );
}

function wordsAt(start: Point, end: Point, lane: number | null): Point {
  if (lane === null) return { x: (start.x + end.x) / 2, y: (start.y + end.y) / 2 - 4 };
  return { x: lane, y: end.y - LAYER_GAP + 18 };
}
