/**
 * The time a camera wrote, as text. Cameras are set wrong and most write no zone, so nothing is converted: the text is
 * kept, whether a zone stands in it is said, and pictures are put in order by the text.
 */
import type { TakenTime } from './pile-types.ts';

/** `2025:09:15 10:02:11`, or with hyphens; the rest may be a part of a second and a zone. */
const DATED = /^(\d{4})[:-](\d{2})[:-](\d{2})[ T](\d{2}):(\d{2}):(\d{2})/;
const ZONED = /(?:[+-]\d{2}:?\d{2}|Z)$/;

export function takenTime(asWritten: string | undefined): TakenTime {
  const text = asWritten?.trim() ?? '';
  // CIPA DC-008: a camera that does not know the time fills the places with blanks; many fill them with zeros.
  if (/^[\s0:-]*$/.test(text)) return { asWritten: null, words: 'no time written', zone: 'no-time' };
  if (ZONED.test(text)) return { asWritten: text, words: text, zone: 'written' };
  return { asWritten: text, words: `${text}, zone not written`, zone: 'not-written' };
}

/** Later texts sort later; what is no time of the usual form comes after all that are, and no time at all last. */
export function timeKey(time: TakenTime): string {
  if (time.asWritten === null) return '~~';
  const hit = DATED.exec(time.asWritten);
  return hit === null ? `~${time.asWritten}` : hit.slice(1, 7).join('');
}

/** Names as people count: IMG_2 before IMG_10. */
export function compareNames(a: string, b: string): number {
  const x = a.match(/\d+|\D+/g) ?? [];
  const y = b.match(/\d+|\D+/g) ?? [];
  for (let i = 0; i < Math.min(x.length, y.length); i += 1) {
    const [p = '', q = ''] = [x[i], y[i]];
    if (p === q) continue;
    if (/^\d/.test(p) && /^\d/.test(q)) {
      const [m, n] = [p.replace(/^0+/, ''), q.replace(/^0+/, '')];
      if (m.length !== n.length) return m.length - n.length;
      if (m !== n) return m < n ? -1 : 1;
    }
    return p < q ? -1 : 1;
  }
  if (x.length !== y.length) return x.length - y.length;
  return a < b ? -1 : a > b ? 1 : 0;
}
