/**
 * What came off goes into bags. INVENTED.
 *
 * One bag for each line of the list, as the shop does it; its code is the bag's, never the piece's: a piece is `P-10-03`,
 * a counted lot `L-02-07`. A line that comes off in several goes fills its bag again with a lot of its own, so that no
 * count is ever written over. What was not there (`nothing-here`) is in no bag, and what is foreign has a bag of its own.
 */
import { recording } from '../../src/journal/commands.ts';
import { type DemoLine, LINES, line, lineOf, positionsOf } from '../parts.ts';
import type { By, Recorder } from './act.ts';
import pins from './pins.json' with { type: 'json' };
import { kindOfPlace, SHELVES_OF_THE_SHOP, type WallId } from './places.ts';
import type { Picture } from './shots.ts';

/** Sits where one of ours should: bagged by itself, marked, never counted with ours. */
export const FOREIGN: ReadonlySet<string> = new Set(['08-12.2']);
const COUNT_NOTES: Readonly<Record<string, string>> = {
  '02-08': 'one missing, two bent',
  '02-22': 'two missing; covers for C13 starboard and the stern to be made',
  '02-23': 'six different lengths, each hole bagged by itself inside the bag',
  '08-12': 'three positions: one pin; a foreign bolt kept apart, one missing',
  '08-17': 'one missing',
  '11-06': 'three missing',
  '12-27': 'three missing; Spanish',
};

/** Photographed by itself: what the story turns on, and what fills a bench. */
const ALONE: ReadonlySet<string> = new Set(
  '01-01 01-10 02-02 02-04 02-06 02-09 03-04 03-14 04-12 05-01 05-02 06-01 06-14 07-01 07-05 08-01 08-02 08-05 08-08 09-14 09-16 10-01 10-02 10-03 10-05 10-07 10-09 10-12 10-14 10-18 10-20 11-01 11-02 11-05 11-12 11-13 12-01 12-26'.split(
    ' ',
  ),
);

const PINS = pins as unknown as Readonly<Record<string, readonly [sheet: string, x: number, y: number]>>;
export function pinOf(lineId: string): { readonly pin?: { sheet: string; x: number; y: number } } {
  const at = PINS[lineId];
  return at === undefined ? {} : { pin: { sheet: at[0], x: at[1], y: at[2] } };
}

export class Bagging {
  private readonly handled = new Set<string>();
  private readonly goes = new Map<string, number>();
  private readonly lotOf = new Map<string, string>();
  private readonly tray: { readonly line: DemoLine; readonly here: readonly string[] }[] = [];

  constructor(private readonly r: Recorder) {}

  /** Bags all that has come off since the last call. */
  now(by: By): void {
    const off = new Set(this.r.positionsOff());
    for (const l of LINES) {
      const came = positionsOf(l).filter((p) => off.has(p) && !this.handled.has(p));
      for (const p of came) this.handled.add(p);
      const here = came.filter((p) => !this.r.now.nothingHere.has(p) && !FOREIGN.has(p));
      if (here.length > 0) this.fill(by, l, here);
    }
    this.photographTray(by);
  }

  /** Small things are photographed four at a time, each with its card. */
  private photographTray(by: By): void {
    const all = this.tray.splice(0);
    const first = all[0];
    if (first === undefined) return;
    const bags = all.map((x) => x.line.bag);
    const subjects = [...all.flatMap((x) => x.here), ...bags];
    const picture: Picture = { show: 'tray', lines: all.map((x) => [x.line.id, x.here.length] as const) };
    this.r.photo(by, `tray-${first.line.id}`, picture, subjects, `Tray with the bags ${bags.join(', ')}`);
  }

  private fill(by: By, l: DemoLine, here: readonly string[]): void {
    const go = this.goes.get(l.id) ?? 0;
    this.goes.set(l.id, go + 1);
    const thing = l.qty === 1 ? this.piece(by, l) : this.lot(by, l, here, go);
    const first = go === 0 ? { opens: true, hand: l.hand, ...pinOf(l.id), place: kindOfPlace(l) } : {};
    this.r.record(by, recording('bagged', { bag: l.bag, of: [...here], things: [thing], ...first }), 0);
    if (go > 0) return;
    if (l.asFound !== '') this.r.note(by, l.id, `As found: ${l.asFound}`);
    if (ALONE.has(l.id)) {
      this.r.photo(
        by,
        `bag-${l.id}`,
        { show: 'part', line: l.id, count: here.length },
        [...here, l.bag],
        `${l.name}, bag ${l.bag}`,
      );
    } else this.tray.push({ line: l, here });
    if (this.tray.length === 4) this.photographTray(by);
  }

  private piece(by: By, l: DemoLine): string {
    const piece = `P-${l.id}`;
    const more = l.note === '' ? {} : { note: l.note };
    this.r.record(
      by,
      recording('piece-noted', { piece, name: l.name, line: l.id, position: l.id, hand: l.hand, ...more }),
      0,
    );
    return piece;
  }

  private lot(by: By, l: DemoLine, here: readonly string[], go: number): string {
    const lot = `L-${l.id}${go === 0 ? '' : `-${'bcdefg'[go - 1]}`}`;
    for (const p of here) this.lotOf.set(p, lot);
    const note = COUNT_NOTES[l.id] ?? l.note;
    const of = here[0] ?? l.id;
    this.r.record(
      by,
      recording('lot-noted', { lot, what: l.name, count: here.length, of, ...(note !== '' && { note }) }),
      0,
    );
    return lot;
  }

  /** Fitted again: the piece is back on the aircraft, and of a lot as many as went on. */
  fitted(by: By, positions: readonly string[]): void {
    for (const position of positions) {
      const l = lineOf(position);
      const to = { position };
      if (l.qty === 1) this.r.record(by, recording('moved', { what: `P-${l.id}`, to }), 0);
      else this.split(by, position);
    }
  }

  private split(by: By, position: string): void {
    const lot = this.lotOf.get(position);
    if (lot === undefined) throw new Error(`internal: ${position} is in no bag; report it`);
    this.r.record(by, recording('lot-split', { lot, into: `L-${position}`, count: 1, to: { position } }), 0);
  }

  /** Made new in the shop and fitted; what came off stays in its bag as the pattern. */
  madeNew(by: By, positions: readonly string[], note: string): void {
    for (const position of positions) {
      const l = lineOf(position);
      const piece = `N-${position}`;
      this.r.record(
        by,
        recording('piece-noted', { piece, name: `${l.name}, new`, line: l.id, position, hand: l.hand, note }),
        0,
      );
      this.r.record(by, recording('moved', { what: piece, to: { position } }), 0);
    }
  }

  /** The bags of these lines go to somebody outside, or come back to a place. */
  send(by: By, lineIds: readonly string[], to: { place: string; custodian?: string }, note: string): void {
    for (const id of lineIds) this.r.record(by, recording('moved', { what: line(id).bag, to, note }), 0);
  }
}

/** Which bags lie on which shelf of a wall now, for the drawing of it. */
export function bagsOnWall(r: Recorder, wall: WallId): Readonly<Record<string, readonly string[]>> {
  const on: Record<string, string[]> = {};
  for (const b of r.now.bags.values()) {
    if (b.where.is === 'held' && b.where.place !== undefined) (on[b.where.place] ??= []).push(b.code);
  }
  const places = SHELVES_OF_THE_SHOP.filter((s) => s.wall === wall).map((s) => s.place);
  if (wall === 'east') places.push('quarantine', 'bench');
  return Object.fromEntries(places.flatMap((p) => (on[p] === undefined ? [] : [[p, on[p]]])));
}
