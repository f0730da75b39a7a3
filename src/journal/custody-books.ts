/**
 * The books that custody is kept in: where a thing is, how many of a lot there are, and the balance of each family of lots.
 * Used by the functions that apply entries; nothing else changes these maps.
 */
import type { Ledger, LotCount, Where } from './custody-state.ts';
import type { Entry } from './entry.ts';
import type { DataOf } from './kinds/kinds.ts';
import { saidOf, type Work } from './work.ts';

const NOTHING: Ledger = { first: 0, differences: 0, out: 0, in: 0 };

export function toWhere(to: DataOf<'moved'>['to']): Where {
  if (to.bag !== undefined) return { is: 'bag', bag: to.bag };
  if (to.position !== undefined) return { is: 'position', position: to.position };
  return {
    is: 'held',
    ...(to.place !== undefined && { place: to.place }),
    ...(to.custodian !== undefined && { custodian: to.custodian }),
  };
}

export function hold(w: Work, e: Entry, thing: string, where: Where): void {
  w.map('held').set(thing, { where, said: saidOf(e) });
}

export function book(w: Work, root: string, change: Partial<Ledger>): void {
  const now = w.d.ledgers.get(root) ?? NOTHING;
  w.map('ledgers').set(root, {
    first: now.first + (change.first ?? 0),
    differences: now.differences + (change.differences ?? 0),
    out: now.out + (change.out ?? 0),
    in: now.in + (change.in ?? 0),
  });
}

export function lotOrNew(w: Work, lot: string): LotCount {
  return w.d.lotCounts.get(lot) ?? { count: null, root: lot };
}

/** Adds to a lot that was counted; one that was not stays uncounted, and what came leaves the known counts. */
export function addTo(w: Work, lot: string, count: number): void {
  const now = lotOrNew(w, lot);
  if (now.count === null) book(w, now.root, { first: -count });
  else w.map('lotCounts').set(lot, { ...now, count: now.count + count });
}

/** Takes from a lot; where it was not counted, what is taken is counted now for the first time. */
export function takeFrom(w: Work, lot: string, count: number): void {
  const now = lotOrNew(w, lot);
  if (now.count === null) book(w, now.root, { first: count });
  else w.map('lotCounts').set(lot, { ...now, count: now.count - count });
}

/** A lot was noted or counted: its first count, or a difference to the one before. */
export function countLot(w: Work, e: Entry, lot: string, count: number | null): void {
  const known = w.d.lotCounts.get(lot);
  const now = known ?? { count: null, root: lot };
  if (count === null) {
    if (known === undefined) w.map('lotCounts').set(lot, now);
    return;
  }
  w.map('lotCounts').set(lot, { ...now, count });
  if (now.count === null) book(w, now.root, { first: count });
  else if (now.count !== count) {
    book(w, now.root, { differences: count - now.count });
    w.map('differences').set(e.id, { id: e.id, lot, was: now.count, is: count, said: saidOf(e) });
  }
}
