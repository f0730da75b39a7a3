/**
 * A part on the bench: the part's own marks cut from its sheet, a shadow hatched under it, a scale bar, and the card of its
 * bag tied on. Where no sheet draws the part, the shut bag itself.
 */

import { CARD, dice, HIGH, INK, KRAFT, PENCIL, WIDE } from './grounds.ts';
import { fitted, letters, widthOf } from './lettering.ts';
import type { Sheet } from './read-sheets.ts';
import { toned } from './tones.ts';

export interface Card {
  readonly code: string;
  readonly number: string;
  readonly name: string;
  readonly hand: 'L' | 'R' | 'C';
  readonly count: number;
}

export interface PartBox {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

/** The middle of the picture that a part may fill. */
const ROOM = { x: 70, y: 50, w: 470, h: 430 } as const;
const LARGEST = 3.2;

/** A part with its box on the sheet, the tone of its material, and the card tied to it; no sheet: it is in its bag. */
export interface Lying {
  readonly line: string;
  readonly sheet: Sheet | null;
  readonly marks: string;
  readonly box: PartBox;
  readonly tone: string;
  readonly card: Card;
}

export function partPicture(it: Lying): string {
  const r = dice(it.line);
  const middle = { x: ROOM.x + ROOM.w / 2 + (r() - 0.5) * 24, y: ROOM.y + ROOM.h / 2 + (r() - 0.5) * 16 };
  const card = bagCard(it.card, 560 + r() * 10, 330 + r() * 30, (r() - 0.5) * 10);
  return `${lying(it, middle, ROOM, r, 'a')}${scaleBar(r)}${card}${foot()}`;
}

/** Up to four on a tray, each with its card before it. */
export function trayPicture(all: readonly Lying[]): string {
  const r = dice(all.map((x) => x.line).join());
  const cells = all.slice(0, 4).map((it, i) => {
    const x = i % 2 === 0 ? 40 : 420;
    const y = i < 2 ? 40 : 300;
    const room = { w: 190, h: 200 };
    const part = lying(it, { x: x + 95 + (r() - 0.5) * 12, y: y + 105 + (r() - 0.5) * 10 }, room, r, 'abcd'[i] ?? 'a');
    const card = `<g transform="translate(${(x + 206 + r() * 6).toFixed(0)} ${(y + 92 + r() * 12).toFixed(0)}) scale(.66)">${bagCard(it.card, 0, 0, (r() - 0.5) * 9)}</g>`;
    return part + card;
  });
  const tray = `<rect x="20" y="18" width="760" height="546" rx="10" fill="#8C8371" fill-opacity=".28" stroke="${INK}" stroke-width="2"/><rect x="30" y="28" width="740" height="526" rx="6" fill="none" stroke="${PENCIL}" stroke-width="1.2"/>`;
  return `${tray}${cells.join('')}${foot()}`;
}

interface Spot {
  readonly x: number;
  readonly y: number;
}

function lying(
  it: Lying,
  at: Spot,
  room: { readonly w: number; readonly h: number },
  r: () => number,
  key: string,
): string {
  if (it.sheet === null) return smallKraft(at, Math.min(room.w, room.h), r);
  const { box } = it;
  // What stands long and thin on the sheet is laid down on the bench.
  const laid = box.h > box.w * 1.6;
  const [w, h] = laid ? [box.h, box.w] : [box.w, box.h];
  const scale = Math.min(room.w / w, room.h / h, LARGEST);
  const lean = (r() - 0.5) * 9 + (laid ? 90 : 0);
  const [rx, ry] = [(w * scale) / 2 + 44, (h * scale) / 2 + 52];
  const marks = toned(it.marks, it.tone);
  const place = `translate(${at.x.toFixed(1)} ${at.y.toFixed(1)}) rotate(${lean.toFixed(1)}) scale(${scale.toFixed(3)}) translate(${(-box.x - box.w / 2).toFixed(1)} ${(-box.y - box.h / 2).toFixed(1)})`;
  return `${shadowOver(key, at.x - rx, at.y - ry, rx * 2, ry * 2)}<g filter="url(#sh${key})"><g class="on-${key}" transform="${place}">${lookOf(it, key)}${marks}</g></g>`;
}

/** The look of the sheet for this part alone, so that four parts of four materials lie on one tray. */
function lookOf(it: Lying, key: string): string {
  const look = toned(it.sheet?.look ?? '', it.tone);
  return look.replace(/(<style>)([\s\S]*?)(<\/style>)/g, (_, open: string, rules: string, shut: string) => {
    const own = rules.replace(
      /([^{}]+)\{/g,
      (_all, names: string) =>
        `${names
          .split(',')
          .map((n) => `.on-${key} ${n.trim()}`)
          .join(',')}{`,
    );
    return open + own + shut;
  });
}

/** The light falls from the upper left: what lies there throws its own outline to the lower right. */
function shadowOver(key: string, x: number, y: number, w: number, h: number): string {
  const area = `x="${x.toFixed(0)}" y="${y.toFixed(0)}" width="${w.toFixed(0)}" height="${h.toFixed(0)}"`;
  return `<defs><filter id="sh${key}" filterUnits="userSpaceOnUse" color-interpolation-filters="sRGB" ${area}><feDropShadow dx="12" dy="16" stdDeviation="7" flood-color="#1E170B" flood-opacity=".55"/></filter></defs>`;
}

/** A steel rule of ten fields; the length of a field is not to scale with anything real and says so by having no unit. */
function scaleBar(r: () => number): string {
  const x = 70 + r() * 12;
  const y = 522;
  const fields = Array.from(
    { length: 10 },
    (_, i) => `<rect x="${i * 26}" y="0" width="26" height="9" fill="${i % 2 === 0 ? INK : CARD}"/>`,
  ).join('');
  const ticks = Array.from({ length: 11 }, (_, i) => `M${i * 26} 9v${i % 5 === 0 ? 13 : 7}`).join('');
  const numbers = [0, 5, 10]
    .map((n) => letters(String(n), { x: n * 26, y: 33, size: 9, colour: INK, anchor: 'middle' }))
    .join('');
  return `<g transform="translate(${x.toFixed(1)} ${y}) rotate(${((r() - 0.5) * 1.6).toFixed(2)})"><rect x="-9" y="-8" width="278" height="48" fill="#EEE9DA" stroke="${PENCIL}" stroke-width="1"/>${fields}<rect width="260" height="9" fill="none" stroke="${INK}" stroke-width="1"/><path d="${ticks}" stroke="${INK}" stroke-width="1"/>${numbers}</g>`;
}

/** The card that hangs on the bag: code, number, name, hand by shape, count. */
export function bagCard(card: Card, x: number, y: number, lean: number): string {
  const w = 208;
  const h = 150;
  const code = letters(card.code, { x: 20, y: 66, size: 34, colour: INK, weight: 3.6 });
  const line = letters(card.number, { x: 20, y: 92, size: 13, colour: INK });
  const count =
    card.count > 1
      ? letters(`× ${card.count}`, { x: 20 + (widthOf(card.number) + 1) * 13, y: 92, size: 13, colour: INK })
      : '';
  const rows = fitted(card.name, w - 34, 10, 2)
    .map((t, i) => letters(t, { x: 20, y: 113 + i * 17, size: 10, colour: PENCIL, weight: 1.3 }))
    .join('');
  const hand = handMark(card.hand, w - 30, 84);
  const string = `<path d="M${w / 2} 16C${w / 2 - 20} -40 ${w / 2 - 90} -20 ${w / 2 - 110} -70" fill="none" stroke="#7A6B50" stroke-width="2"/>`;
  return `<g transform="translate(${x.toFixed(1)} ${y.toFixed(1)}) rotate(${lean.toFixed(1)})"><path d="M8 12H${w + 6}V${h + 8}H8Z" fill="#2A2113" fill-opacity=".28"/><path d="M12 0H${w - 12}L${w} 12V${h}H0V12Z" fill="${CARD}" stroke="${PENCIL}" stroke-width="1.4"/><circle cx="${w / 2}" cy="16" r="5.5" fill="#B9A37C" stroke="${INK}" stroke-width="1.2"/>${string}<path d="M20 73H${w - 20}" stroke="${PENCIL}" stroke-width=".8"/>${code}${line}${count}${rows}${hand}</g>`;
}

/** Left, right, both: a point that shows the way, or a lozenge. */
function handMark(hand: Card['hand'], x: number, y: number): string {
  const path = { L: 'M8 -10V10L-10 0Z', R: 'M-8 -10V10L10 0Z', C: 'M0 -11L11 0L0 11L-11 0Z' }[hand];
  return `<path transform="translate(${x} ${y})" d="${path}" fill="${hand === 'C' ? 'none' : INK}" stroke="${INK}" stroke-width="1.8"/>`;
}

/** A shut kraft bag with its card. */
export function bagPicture(card: Card): string {
  const r = dice(card.code);
  const lean = ((r() - 0.5) * 8).toFixed(1);
  const creases = Array.from({ length: 16 }, () => {
    const x = 110 + r() * 300;
    const y = 150 + r() * 280;
    return `M${x.toFixed(0)} ${y.toFixed(0)}l${(20 + r() * 46).toFixed(0)} ${(16 + r() * 40).toFixed(0)}`;
  }).join('');
  const bag = `<path d="M92 118Q300 98 470 116L482 470Q290 494 84 468Z" fill="${KRAFT}" stroke="${INK}" stroke-width="2.2" stroke-linejoin="round"/>`;
  const fold = `<path d="M92 118Q300 98 470 116L472 172Q290 152 90 174Z" fill="#B8945F" stroke="${INK}" stroke-width="1.6"/>`;
  const lumps = `<path d="M150 400Q200 330 280 356T420 330M170 430Q260 390 400 420" fill="none" stroke="#6B5330" stroke-width="1.4" stroke-opacity=".7"/>`;
  return `${shadowOver('a', 50, 80, 480, 440)}<g filter="url(#sha)"><g transform="rotate(${lean} 290 300)">${bag}${fold}<path d="${creases}" stroke="#6B5330" stroke-width="1" stroke-opacity=".5"/>${lumps}<path d="M250 128l60 -3" stroke="#8E8E86" stroke-width="5"/></g></g>${bagCard(card, 500, 300, (r() - 0.5) * 10)}${scaleBar(r)}${foot()}`;
}

/** A bag among others on a tray. */
function smallKraft(at: Spot, size: number, r: () => number): string {
  const w = size * 0.82;
  const h = size * 0.8;
  const [x, y] = [at.x - w / 2, at.y - h / 2];
  const lean = ((r() - 0.5) * 10).toFixed(1);
  const creases = Array.from(
    { length: 7 },
    () =>
      `M${(x + w * (0.1 + r() * 0.6)).toFixed(0)} ${(y + h * (0.3 + r() * 0.5)).toFixed(0)}l${(8 + r() * 18).toFixed(0)} ${(6 + r() * 16).toFixed(0)}`,
  ).join('');
  return `<g transform="rotate(${lean} ${at.x.toFixed(0)} ${at.y.toFixed(0)})"><path d="M${x + 9} ${y + 12}h${w}v${h}h${-w}z" fill="#1E170B" fill-opacity=".3"/><path d="M${x} ${y}q${w / 2} -8 ${w} 0l3 ${h}q${-w / 2} 8 ${-w - 6} 0Z" fill="${KRAFT}" stroke="${INK}" stroke-width="1.6"/><path d="M${x} ${y}q${w / 2} -8 ${w} 0l1 ${h * 0.16}q${-w / 2} -8 ${-w - 2} 0Z" fill="#B8945F" stroke="${INK}" stroke-width="1.2"/><path d="${creases}" stroke="#6B5330" stroke-width="1" stroke-opacity=".6"/></g>`;
}

/** In the corner of every picture, on a strip of its own so that it can be read on anything. */
export function foot(width = WIDE, high = HIGH): string {
  const strip = `<rect x="${width - 196}" y="${high - 27}" width="188" height="21" fill="${CARD}" fill-opacity=".72"/>`;
  const words = letters(FOOT, { x: width - 16, y: high - 13, size: 7.5, colour: INK, weight: 0.9, anchor: 'end' });
  return strip + words;
}
const FOOT = 'drawn for the demonstration';
