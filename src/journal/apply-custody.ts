/**
 * What entries about bags, places and counts do to the state. A thing has one `Where`: whatever is said last. Counts move
 * between lots of one family without the sum changing; what leaves the family or comes to it goes through its ledger.
 */
import { addTo, book, countLot, hold, lotOrNew, takeFrom, toWhere } from './custody-books.ts';
import type { Where } from './custody-state.ts';
import type { Entry } from './entry.ts';
import type { DataOf } from './kinds/kinds.ts';
import { saidOf, type Work } from './work.ts';

function knownThing(w: Work, id: string): boolean {
  const d = w.d;
  return d.held.has(id) || d.pieces.has(id) || d.lots.has(id) || d.positions.has(id) || d.rigParts.has(id);
}

function fault(w: Work, e: Entry, what: 'thing-unknown' | 'lot-unknown', id: string): void {
  w.list('custodyFaults').push({ what, id, said: saidOf(e) });
}

function bagged(w: Work, e: Entry, d: DataOf<'bagged'>): void {
  const said = saidOf(e);
  const now = w.d.bags.get(d.bag);
  const where: Where =
    d.place === undefined ? (now?.where ?? { is: 'held', custodian: e.by }) : { is: 'held', place: d.place };
  const clashes = d.opens === true && now !== undefined ? { clash: [...(now.clash ?? []), said] } : {};
  w.map('bags').set(d.bag, {
    ...now,
    code: d.bag,
    opened: now?.opened ?? said,
    of: [...new Set([...(now?.of ?? []), ...(d.of ?? [])])],
    ...(d.hand !== undefined && { hand: d.hand }),
    ...(d.pin !== undefined && { pin: d.pin }),
    ...(d.note !== undefined && { note: d.note }),
    where,
    ...clashes,
    said,
  });
  // Where nothing else was named, what came off is what is in the bag: a part or position stands for its piece.
  const things = d.things ?? (d.of ?? []).filter((id) => w.d.positions.has(id) || w.d.rigParts.has(id));
  for (const thing of things) {
    if (!knownThing(w, thing)) fault(w, e, 'thing-unknown', thing);
    hold(w, e, thing, { is: 'bag', bag: d.bag });
  }
}

function moved(w: Work, e: Entry, d: DataOf<'moved'>): void {
  const where = toWhere(d.to);
  const bag = w.d.bags.get(d.what);
  if (bag !== undefined) {
    w.map('bags').set(d.what, { ...bag, where, said: saidOf(e) });
    return;
  }
  if (!knownThing(w, d.what)) fault(w, e, 'thing-unknown', d.what);
  hold(w, e, d.what, where);
}

function lotSplit(w: Work, e: Entry, d: DataOf<'lot-split'>): void {
  if (!w.d.lotCounts.has(d.lot)) fault(w, e, 'lot-unknown', d.lot);
  const from = lotOrNew(w, d.lot);
  takeFrom(w, d.lot, d.count);
  const there = w.d.lotCounts.get(d.into);
  if (there === undefined) w.map('lotCounts').set(d.into, { count: d.count, root: from.root });
  else {
    cross(w, from.root, there.root, d.count);
    addTo(w, d.into, d.count);
  }
  const source = w.d.lots.get(d.lot);
  if (!w.d.lots.has(d.into))
    w.map('lots').set(d.into, {
      what: source?.what ?? d.lot,
      ...(source?.of !== undefined && { of: source.of }),
      lot: d.into,
      count: d.count,
      said: saidOf(e),
    });
  const where = d.to === undefined ? w.d.held.get(d.lot)?.where : toWhere(d.to);
  hold(w, e, d.into, where ?? { is: 'held' });
}

/** From one family to another: out of the one, into the other. */
function cross(w: Work, from: string, to: string, count: number): void {
  if (from === to) return;
  book(w, from, { out: count });
  book(w, to, { in: count });
}

function lotsJoined(w: Work, e: Entry, d: DataOf<'lots-joined'>): void {
  if (d.lot === d.into) return;
  const from = lotOrNew(w, d.lot);
  if (!w.d.lotCounts.has(d.lot)) fault(w, e, 'lot-unknown', d.lot);
  if (!w.d.lotCounts.has(d.into)) w.map('lotCounts').set(d.into, { count: null, root: d.into });
  const to = lotOrNew(w, d.into);
  if (from.count === null) {
    // Nobody knows how many came, so nobody knows how many there are now.
    if (to.count !== null) {
      book(w, to.root, { first: -to.count });
      w.map('lotCounts').set(d.into, { ...to, count: null });
    }
  } else {
    takeFrom(w, d.lot, from.count);
    cross(w, from.root, to.root, from.count);
    addTo(w, d.into, from.count);
  }
  const there = w.d.held.get(d.into)?.where;
  if (there !== undefined) hold(w, e, d.lot, there);
}

export const APPLY_CUSTODY = {
  bagged,
  moved,
  'lot-split': lotSplit,
  'lots-joined': lotsJoined,
  counted: (w: Work, e: Entry, d: DataOf<'counted'>) => {
    if (!w.d.lotCounts.has(d.lot)) fault(w, e, 'lot-unknown', d.lot);
    countLot(w, e, d.lot, d.count);
  },
  'difference-explained': (w: Work, e: Entry, d: DataOf<'difference-explained'>) => {
    const now = w.d.differences.get(d.difference);
    if (now !== undefined)
      w.map('differences').set(d.difference, { ...now, explained: { what: d.what, said: saidOf(e) } });
  },
  'place-noted': (w: Work, e: Entry, d: DataOf<'place-noted'>) => {
    w.map('places').set(d.place, { ...w.d.places.get(d.place), ...d, said: saidOf(e) });
  },
  'bags-set-aside': (w: Work, e: Entry, d: DataOf<'bags-set-aside'>) => {
    w.list('bagsSetAside').push({ ...d, said: saidOf(e) });
  },
  'goes-with': (w: Work, e: Entry, d: DataOf<'goes-with'>) => {
    w.list('goesWith').push({ ...d, said: saidOf(e) });
  },
  'counted-inside': (w: Work, e: Entry, d: DataOf<'counted-inside'>) => {
    w.push('inside', d.zone, { ...d, said: saidOf(e) });
  },
  tagged: (w: Work, e: Entry, d: DataOf<'tagged'>) => {
    w.map('tags').set(e.id, { id: e.id, ...d, said: saidOf(e) });
  },
  'tag-taken-off': (w: Work, e: Entry, d: DataOf<'tag-taken-off'>) => {
    const tag = w.d.tags.get(d.tag);
    if (tag !== undefined && tag.off === undefined) w.map('tags').set(d.tag, { ...tag, off: saidOf(e) });
  },
} as const;
