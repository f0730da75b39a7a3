/** Robbed and returned: things that go between two aircraft of one shop. Each job keeps its own half (docs/adr/0011). */
import { addTo, book, hold, lotOrNew, takeFrom } from './custody-books.ts';
import type { Where } from './custody-state.ts';
import type { Entry } from './entry.ts';
import type { DataOf } from './kinds/kinds.ts';
import { saidOf, type Work } from './work.ts';

function robbed(w: Work, e: Entry, d: DataOf<'robbed'>): void {
  const said = saidOf(e);
  if (w.d.transfers.has(d.transfer)) {
    w.list('custodyFaults').push({ what: 'transfer-doubled', id: d.transfer, said });
    return;
  }
  const { bag: _bag, ...rest } = d;
  w.map('transfers').set(d.transfer, { ...rest, owed: d.owed ?? false, returned: 0, said });
  if (d.way === 'out') goOut(w, e, d);
  else comeIn(w, e, d);
}

function goOut(w: Work, e: Entry, d: DataOf<'robbed'>): void {
  if (d.count === undefined) hold(w, e, d.thing, { is: 'job', job: d.job, transfer: d.transfer });
  else takeOut(w, d.thing, d.count);
}

function comeIn(w: Work, e: Entry, d: DataOf<'robbed'>): void {
  const where: Where = d.bag === undefined ? { is: 'held', custodian: e.by } : { is: 'bag', bag: d.bag };
  const said = saidOf(e);
  if (d.count === undefined) {
    if (!w.d.pieces.has(d.thing))
      w.map('pieces').set(d.thing, {
        piece: d.thing,
        ...(d.name !== undefined && { name: d.name }),
        ...(d.position !== undefined && { position: d.position }),
        said,
      });
    hold(w, e, d.thing, where);
    return;
  }
  if (!w.d.lots.has(d.thing))
    w.map('lots').set(d.thing, { lot: d.thing, what: d.name ?? d.thing, count: d.count, said });
  if (!w.d.lotCounts.has(d.thing)) w.map('lotCounts').set(d.thing, { count: 0, root: d.thing });
  bringIn(w, d.thing, d.count);
  if (!w.d.held.has(d.thing)) hold(w, e, d.thing, where);
}

function takeOut(w: Work, lot: string, count: number): void {
  const { root } = lotOrNew(w, lot);
  takeFrom(w, lot, count);
  book(w, root, { out: count });
}

function bringIn(w: Work, lot: string, count: number): void {
  const { root } = lotOrNew(w, lot);
  addTo(w, lot, count);
  book(w, root, { in: count });
}

/** `out` in the job that has had it, `in` in the job that gave it. More than was robbed is recorded, and seen in the counts. */
function robbedReturned(w: Work, e: Entry, d: DataOf<'robbed-returned'>): void {
  const said = saidOf(e);
  const t = w.d.transfers.get(d.transfer);
  if (t === undefined || t.way === d.way) {
    w.list('custodyFaults').push({ what: 'transfer-unknown', id: d.transfer, said });
    return;
  }
  const open = (t.count ?? 1) - t.returned;
  const count = d.count ?? open;
  if (count <= 0) return;
  w.map('transfers').set(d.transfer, { ...t, returned: t.returned + count });
  if (t.count !== undefined) (d.way === 'in' ? bringIn : takeOut)(w, t.thing, count);
  else if (d.way === 'in') hold(w, e, t.thing, { is: 'held', custodian: e.by });
  else hold(w, e, t.thing, { is: 'job', job: t.job, transfer: t.transfer });
}

export const APPLY_TRANSFERS = { robbed, 'robbed-returned': robbedReturned } as const;
