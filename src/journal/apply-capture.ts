/** What sounds, measurements, tables, pins and what was tried do to the state. All are facts; nothing is replaced. */
import { addFact } from './apply-record.ts';
import { pinKey } from './custody-state.ts';
import type { Entry } from './entry.ts';
import type { DataOf } from './kinds/kinds.ts';
import { saidOf, type Work } from './work.ts';

/** One reading says itself; repeats stand beside each other as written, and none of them is the value in SI. */
function measured(w: Work, e: Entry, d: DataOf<'measured'>): void {
  w.push('measurements', d.subject, { ...d, said: saidOf(e) });
  const [only, ...more] = d.readings;
  const si = more.length === 0 ? only?.si : undefined;
  const text = d.readings.map((r) => r.text).join(' · ');
  addFact(
    w,
    e,
    d.subject,
    d.aspect,
    { is: 'value', text, ...(si !== undefined && { si }) },
    {
      ...(d.instrument !== undefined && { tool: d.instrument }),
      ...(d.note !== undefined && { note: d.note }),
    },
  );
}

export const APPLY_CAPTURE = {
  'sound-kept': (w: Work, e: Entry, d: DataOf<'sound-kept'>) => {
    for (const subject of d.of) w.push('sounds', subject, { ...d, said: saidOf(e) });
  },
  measured,
  'thickness-noted': (w: Work, e: Entry, d: DataOf<'thickness-noted'>) => {
    w.push('thicknesses', d.subject, { ...d, said: saidOf(e) });
  },
  'dial-noted': (w: Work, e: Entry, d: DataOf<'dial-noted'>) => {
    w.push('dials', d.subject, { ...d, said: saidOf(e) });
  },
  'datum-read': (w: Work, e: Entry, d: DataOf<'datum-read'>) => {
    w.push('datums', d.datum, { ...d, said: saidOf(e) });
  },
  'sheet-added': (w: Work, e: Entry, d: DataOf<'sheet-added'>) => {
    w.map('sheets').set(d.sheet, { ...d, said: saidOf(e) });
  },
  'pin-set': (w: Work, e: Entry, d: DataOf<'pin-set'>) => {
    w.map('pins').set(pinKey(d.subject, d.pin.sheet), { ...d, said: saidOf(e) });
  },
  tried: (w: Work, e: Entry, d: DataOf<'tried'>) => {
    w.push('tried', d.stuck, { ...d, said: saidOf(e) });
  },
  freed: (w: Work, e: Entry, d: DataOf<'freed'>) => {
    w.map('freed').set(d.stuck, saidOf(e));
  },
} as const;
