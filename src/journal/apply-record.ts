/** What entries about people, parts, notes and pictures do to the state. One function per kind; see `fold.ts`. */
import { countLot, hold, toWhere } from './custody-books.ts';
import type { Entry } from './entry.ts';
import type { DataOf } from './kinds/kinds.ts';
import type { FoundValue } from './kinds/shared-shapes.ts';
import { countWaitingSignatures } from './signing.ts';
import { factKey } from './state.ts';
import { saidOf, type Work } from './work.ts';

type Apply<K extends keyof typeof APPLY_RECORD> = (w: Work, e: Entry, d: DataOf<K>) => void;

function noted<T extends object>(e: Entry, d: T): T & { readonly said: ReturnType<typeof saidOf> } {
  return { ...d, said: saidOf(e) };
}

export function addFact(
  w: Work,
  e: Entry,
  subject: string,
  aspect: string,
  value: FoundValue,
  more: { tool?: string; note?: string },
): void {
  const key = factKey(subject, aspect);
  if (!w.d.facts.has(key)) w.push('aspects', subject, aspect);
  w.push('facts', key, { value, ...more, said: saidOf(e) });
}

/** Noting a piece or lot again moves it only where it says where it is. */
function holdNoted(
  w: Work,
  e: Entry,
  thing: string,
  d: { readonly place?: string; readonly custodian?: string },
): void {
  const says = d.place !== undefined || d.custodian !== undefined;
  if (says || !w.d.held.has(thing)) hold(w, e, thing, toWhere(d));
}

export const APPLY_RECORD = {
  'job-opened': (w: Work, e: Entry, d: DataOf<'job-opened'>) => {
    w.d.job = noted(e, d);
  },
  'person-noted': (w: Work, e: Entry, d: DataOf<'person-noted'>) => {
    w.map('people').set(d.person, noted(e, d));
    countWaitingSignatures(w, d.person);
  },
  'device-noted': (w: Work, e: Entry, d: DataOf<'device-noted'>) => {
    w.map('devices').set(d.device, noted(e, d));
  },
  'margin-set': (w: Work, _e: Entry, d: DataOf<'margin-set'>) => {
    w.d.marginPercent = d.percent;
  },
  'part-line-noted': (w: Work, e: Entry, d: DataOf<'part-line-noted'>) => {
    w.map('lines').set(d.line, noted(e, d));
  },
  'position-noted': (w: Work, e: Entry, d: DataOf<'position-noted'>) => {
    w.map('positions').set(d.position, noted(e, d));
  },
  'piece-noted': (w: Work, e: Entry, d: DataOf<'piece-noted'>) => {
    w.map('pieces').set(d.piece, noted(e, d));
    holdNoted(w, e, d.piece, d);
  },
  'lot-noted': (w: Work, e: Entry, d: DataOf<'lot-noted'>) => {
    w.map('lots').set(d.lot, noted(e, d));
    countLot(w, e, d.lot, d.count);
    holdNoted(w, e, d.lot, d);
  },
  'joint-noted': (w: Work, e: Entry, d: DataOf<'joint-noted'>) => {
    const more = d.note === undefined ? {} : { note: d.note };
    for (const [aspect, value] of Object.entries(d.aspects)) addFact(w, e, d.subject, aspect, value, more);
  },
  'reading-noted': (w: Work, e: Entry, d: DataOf<'reading-noted'>) => {
    const value: FoundValue = { is: 'value', text: d.text, ...(d.si !== undefined && { si: d.si }) };
    addFact(w, e, d.subject, d.aspect, value, {
      ...(d.tool !== undefined && { tool: d.tool }),
      ...(d.note !== undefined && { note: d.note }),
    });
  },
  'photo-taken': (w: Work, e: Entry, d: DataOf<'photo-taken'>) => {
    const photo = noted(e, d);
    for (const subject of d.of) w.push('photos', subject, photo);
    w.map('photosByHash').set(d.hash, photo);
  },
  note: (w: Work, e: Entry, d: DataOf<'note'>) => {
    w.push('notes', d.subject ?? 'job', noted(e, d));
  },
  'nothing-here': (w: Work, e: Entry, d: DataOf<'nothing-here'>) => {
    w.map('nothingHere').set(d.subject, noted(e, d));
  },
  'our-damage': (w: Work, e: Entry, d: DataOf<'our-damage'>) => {
    w.list('damages').push(noted(e, d));
  },
  'stopped-here': (w: Work, e: Entry, d: DataOf<'stopped-here'>) => {
    w.map('stops').set(e.id, { id: e.id, ...d, said: saidOf(e) });
  },
  'stop-cleared': (w: Work, e: Entry, d: DataOf<'stop-cleared'>) => {
    const stop = w.d.stops.get(d.stop);
    if (stop !== undefined && stop.cleared === undefined) w.map('stops').set(d.stop, { ...stop, cleared: saidOf(e) });
  },
  'contradiction-settled': (w: Work, e: Entry, d: DataOf<'contradiction-settled'>) => {
    w.map('contradictionsSettled').set(d.contradiction, noted(e, d));
  },
  'loss-accepted': (w: Work, e: Entry, d: DataOf<'loss-accepted'>) => {
    w.list('losses').push(noted(e, d));
  },
  /** Decided before the fold runs (`holding.ts`); in its own place it does nothing. */
  'entry-withdrawn': (_w: Work, _e: Entry, _d: DataOf<'entry-withdrawn'>) => {},
} as const;

export type RecordApply = { readonly [K in keyof typeof APPLY_RECORD]: Apply<K> };
