/**
 * The larger drawings: the wall of racks, the eight sides of the walk round, a part where it sits, the keel with its grid
 * chalked on, the tear of side panel 9. All in the units of an 800 by 600 picture.
 */

import { BENCH_BOX, type Box, QUARANTINE_BOX, SHELVES_OF_THE_SHOP, type WallId } from '../history/places.ts';
import { ASSEMBLIES } from '../parts.ts';
import { foot, type PartBox } from './bench-picture.ts';
import { CARD, dice, HIGH, INK, KRAFT, PENCIL, WIDE } from './grounds.ts';
import { letters } from './lettering.ts';
import type { Sheet } from './read-sheets.ts';
import { toned } from './tones.ts';

const VIGNETTE = `<defs><radialGradient id="vg" cx=".42" cy=".36" r=".9"><stop offset=".35" stop-color="#FFFBEF" stop-opacity=".25"/><stop offset="1" stop-color="#2A2113" stop-opacity=".38"/></radialGradient></defs><rect width="${WIDE}" height="${HIGH}" fill="url(#vg)"/>`;

/** Boards of the shed, a window, the slate floor from `horizon` down. */
function shed(horizon: number, seed: string): string {
  const r = dice(seed);
  const boards = Array.from({ length: 24 }, (_, i) => {
    const x = i * 36 + r() * 6;
    return `M${x.toFixed(0)} 0V${horizon}`;
  }).join('');
  const slabs = Array.from({ length: 9 }, (_, i) => {
    const x = (i - 4) * 130;
    return `M${400 + x * 0.5} ${horizon}L${400 + x * 1.9} ${HIGH}`;
  }).join('');
  const rows = [0.25, 0.6].map((k) => `M0 ${horizon + (HIGH - horizon) * k}H${WIDE}`).join('');
  return `<rect width="${WIDE}" height="${horizon}" fill="#CFC6B2"/><path d="${boards}" stroke="#8F8670" stroke-width="1.2" stroke-opacity=".55"/><rect x="560" y="36" width="150" height="120" fill="#E9EBE3" stroke="${PENCIL}" stroke-width="5"/><path d="M635 36V156M560 96H710" stroke="${PENCIL}" stroke-width="3"/><rect y="${horizon}" width="${WIDE}" height="${HIGH - horizon}" fill="#A7A79E"/><path d="${slabs}${rows}" stroke="#75766F" stroke-width="1.2" stroke-opacity=".7" fill="none"/><path d="M0 ${horizon}H${WIDE}" stroke="${INK}" stroke-width="1.6" stroke-opacity=".6"/>`;
}

interface Side {
  readonly sheet: 'side' | 'front';
  readonly flip: boolean;
  /** Foreshortened and leaning away: a quarter view. */
  readonly squeeze: number;
  readonly lean: number;
  readonly says: string;
}
const SIDES: readonly Side[] = [
  { sheet: 'front', flip: false, squeeze: 1, lean: 0, says: 'bow' },
  { sheet: 'side', flip: true, squeeze: 0.74, lean: 7, says: 'starboard bow' },
  { sheet: 'side', flip: true, squeeze: 1, lean: 0, says: 'starboard' },
  { sheet: 'side', flip: true, squeeze: 0.74, lean: -7, says: 'starboard quarter' },
  { sheet: 'front', flip: true, squeeze: 1, lean: 0, says: 'stern' },
  { sheet: 'side', flip: false, squeeze: 0.74, lean: 7, says: 'port quarter' },
  { sheet: 'side', flip: false, squeeze: 1, lean: 0, says: 'port' },
  { sheet: 'side', flip: false, squeeze: 0.74, lean: -7, says: 'port bow' },
];
export const SIDE_WORDS: readonly string[] = SIDES.map((s) => s.says);

export function roundPicture(sheets: ReadonlyMap<string, Sheet>, side: number): string {
  const how = SIDES[side - 1];
  const sheet = how === undefined ? undefined : sheets.get(how.sheet);
  if (how === undefined || sheet === undefined) throw new Error(`internal: no side ${side} to draw; report it`);
  const scale = (740 / sheet.width) * how.squeeze;
  const high = sheet.height * (740 / sheet.width);
  const flip = how.flip ? -1 : 1;
  const at = `translate(400 ${(330 - high * 0.1).toFixed(0)}) skewY(${how.lean}) scale(${(scale * flip).toFixed(4)} ${(740 / sheet.width).toFixed(4)}) translate(${-sheet.width / 2} ${-sheet.height / 2})`;
  const shade = `<defs><filter id="fs" x="-.2" y="-2" width="1.4" height="5"><feGaussianBlur stdDeviation="14"/></filter></defs><ellipse cx="400" cy="${(330 + high * 0.33).toFixed(0)}" rx="${(300 * how.squeeze).toFixed(0)}" ry="20" fill="#2A2113" fill-opacity=".5" filter="url(#fs)"/>`;
  const card = `<g transform="translate(36 492) rotate(-2)"><rect width="170" height="62" fill="${CARD}" stroke="${PENCIL}" stroke-width="1.4"/>${letters(`side ${side} of 8`, { x: 14, y: 28, size: 14, colour: INK })}${letters(how.says, { x: 14, y: 49, size: 10, colour: PENCIL, weight: 1.2 })}</g>`;
  return `${bolder(sheet.look, 2)}${shed(395, `round-${side}`)}${shade}<g transform="${at}">${toned(sheet.drawn, '#EFEDE3')}</g>${VIGNETTE}${card}${foot()}`;
}

/** Lines of a whole aircraft made small would be too thin for a photograph. */
function bolder(look: string, by: number): string {
  return look.replace(/stroke-width:([\d.]+)/g, (_, w: string) => `stroke-width:${(Number(w) * by).toFixed(2)}`);
}

/** The sheet around a part, as it sits, with a chalk ring round it. */
export function inPlacePicture(sheet: Sheet, line: string, box: PartBox): string {
  const r = dice(`in ${line}`);
  const size = Math.max(box.w, (box.h * WIDE) / HIGH, 150);
  const scale = Math.min(WIDE / (size * 2), 3);
  const cx = box.x + box.w / 2;
  const cy = box.y + box.h / 2;
  const at = `translate(${(400 + (r() - 0.5) * 40).toFixed(0)} ${(300 + (r() - 0.5) * 30).toFixed(0)}) rotate(${((r() - 0.5) * 4).toFixed(1)}) scale(${scale.toFixed(3)}) translate(${-cx.toFixed(1)} ${-cy.toFixed(1)})`;
  const rx = Math.min(330, (box.w * scale) / 2 + 34);
  const ry = Math.min(250, (box.h * scale) / 2 + 30);
  const ring = `<path d="M${400 - rx} 300C${400 - rx} ${300 - ry * 1.3} ${400 + rx} ${300 - ry * 1.3} ${400 + rx} ${302}C${400 + rx} ${300 + ry * 1.35} ${400 - rx * 0.9} ${300 + ry * 1.3} ${400 - rx * 1.02} ${288}" fill="none" stroke="#FFFDF2" stroke-width="7" stroke-opacity=".9" stroke-linecap="round"/><path d="M${400 - rx} 300C${400 - rx} ${300 - ry * 1.3} ${400 + rx} ${300 - ry * 1.3} ${400 + rx} ${302}C${400 + rx} ${300 + ry * 1.35} ${400 - rx * 0.9} ${300 + ry * 1.3} ${400 - rx * 1.02} ${288}" fill="none" stroke="#A93418" stroke-width="2.4" stroke-opacity=".75" stroke-linecap="round"/>`;
  return `${sheet.look}<rect width="${WIDE}" height="${HIGH}" fill="#BDB6A4"/><g transform="${at}">${toned(sheet.drawn, '#E6E1D2')}</g>${VIGNETTE}${ring}${foot()}`;
}

/** The racks: a board for each shelf, the assembly on top, and the bags that lie there by their numbers. */
export function wallPicture(wall: WallId, bags: Readonly<Record<string, readonly string[]>>): string {
  const r = dice(wall);
  const shelves = SHELVES_OF_THE_SHOP.filter((s) => s.wall === wall);
  const back = `<rect width="${WIDE}" height="${HIGH}" fill="#C9C0AB"/>${Array.from({ length: 27 }, (_, i) => `<path d="M${i * 31} 0V${HIGH}" stroke="#938A73" stroke-opacity=".4" stroke-width="1"/>`).join('')}`;
  const racks = shelves.map((s) => shelf(px(s.box), bags[s.place] ?? [], r)).join('');
  const heads = [...new Set(shelves.map((s) => s.assembly))]
    .map((a) => {
      const first = px(shelves.find((s) => s.assembly === a)?.box ?? [0, 0, 0, 0]);
      const name = ASSEMBLIES.find((x) => x.id === a)?.name ?? '';
      const short = name.split(/ and |, | \(/)[0] ?? name;
      return `<rect x="${first.x}" y="${first.y - 34}" width="${first.w}" height="30" fill="${CARD}" stroke="${PENCIL}"/>${letters(a, { x: first.x + 8, y: first.y - 11, size: 15, colour: INK })}${letters(short.length > 14 ? short.slice(0, short.lastIndexOf(' ', 14)) : short, { x: first.x + 38, y: first.y - 14, size: 6.6, colour: PENCIL, weight: 1 })}`;
    })
    .join('');
  return `${back}${racks}${heads}${wall === 'east' ? below(bags, r) : floor()}${VIGNETTE}${foot()}`;
}

interface Px {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}
const px = ([x, y, w, h]: Box): Px => ({ x: x * WIDE, y: y * HIGH, w: w * WIDE, h: h * HIGH });

function shelf(b: Px, codes: readonly string[], r: () => number): string {
  const inside = `<rect x="${b.x}" y="${b.y}" width="${b.w}" height="${b.h}" fill="#8D8371" fill-opacity=".55"/>`;
  const each = Math.min(27, (b.w - 8) / Math.max(codes.length, 1));
  const lying = codes.map((c, i) => smallBag(b.x + 4 + i * each, b.y + b.h - 9, each - 2, c, r)).join('');
  const board = `<rect x="${b.x - 3}" y="${b.y + b.h - 9}" width="${b.w + 6}" height="8" fill="#A98B5D" stroke="${INK}" stroke-width="1"/><path d="M${b.x - 2} ${b.y - 4}V${b.y + b.h + 3}M${b.x + b.w + 2} ${b.y - 4}V${b.y + b.h + 3}" stroke="#5F4E33" stroke-width="4"/>`;
  return `${inside}${lying}${board}`;
}

function smallBag(x: number, foot_: number, w: number, code: string, r: () => number): string {
  const h = 34 + r() * 18;
  const lean = (r() - 0.5) * 3;
  const tone = ['#C9A877', '#D2B485', '#BF9C6A', '#D9C29A'][Math.floor(r() * 4)] ?? KRAFT;
  const top = foot_ - h;
  const number = code.slice(1, -1);
  const size = Math.min(7.5, (w - 5) / 2.6);
  return `<g transform="rotate(${lean.toFixed(1)} ${x} ${foot_})"><path d="M${x + 1} ${foot_}L${x} ${(top + 6).toFixed(1)}L${x + 2} ${top.toFixed(1)}H${x + w - 2}L${x + w} ${(top + 6).toFixed(1)}L${x + w - 1} ${foot_}Z" fill="${tone}" stroke="${INK}" stroke-width="1"/><path d="M${x} ${(top + 7).toFixed(1)}H${x + w}" stroke="${INK}" stroke-width=".7"/><rect x="${x + 2}" y="${(top + 11).toFixed(1)}" width="${w - 4}" height="13" fill="${CARD}" stroke="${PENCIL}" stroke-width=".6"/>${letters(number, { x: x + w / 2 + 0.6, y: top + 21, size, colour: INK, weight: 0.9, anchor: 'middle' })}</g>`;
}

function below(bags: Readonly<Record<string, readonly string[]>>, r: () => number): string {
  const cage = px(QUARANTINE_BOX);
  const bench = px(BENCH_BOX);
  const mesh = Array.from({ length: 30 }, (_, i) => `M${cage.x + i * 8} ${cage.y}V${cage.y + cage.h}`).join('');
  const kept = (bags.quarantine ?? [])
    .map((c, i) => smallBag(cage.x + 16 + i * 30, cage.y + cage.h - 6, 26, c, r))
    .join('');
  const lying = (bags.bench ?? []).map((c, i) => smallBag(bench.x + 20 + i * 34, bench.y + 26, 27, c, r)).join('');
  const word = `<rect x="${cage.x + 128}" y="${cage.y + 6}" width="106" height="19" fill="${CARD}" stroke="#A93418" stroke-width="1.6"/>${letters('quarantine', { x: cage.x + 181, y: cage.y + 20, size: 9, colour: '#A93418', weight: 1.3, anchor: 'middle' })}`;
  return `<rect x="${cage.x}" y="${cage.y}" width="${cage.w}" height="${cage.h}" fill="#6F695D"/>${kept}<path d="${mesh}" stroke="#D8D4C6" stroke-opacity=".55" stroke-width="1"/><rect x="${cage.x}" y="${cage.y}" width="${cage.w}" height="${cage.h}" fill="none" stroke="${INK}" stroke-width="2"/>${word}${lying}<rect x="${bench.x}" y="${bench.y + 26}" width="${bench.w}" height="13" fill="#B3925F" stroke="${INK}" stroke-width="1.4"/><path d="M${bench.x + 26} ${bench.y + 39}V${bench.y + bench.h}M${bench.x + bench.w - 26} ${bench.y + 39}V${bench.y + bench.h}" stroke="#6B5330" stroke-width="12"/>`;
}

function floor(): string {
  return `<rect y="520" width="${WIDE}" height="80" fill="#9C9C93"/><path d="M0 520H800M120 520L60 600M320 520L290 600M520 520L530 600M700 520L760 600" stroke="#6E6F69" stroke-width="1.4"/>`;
}

/** Chalked squares of the G-1 grid, a to h and 1 to 4; the corners in parts of the picture, clockwise from upper left. */
export const KEEL_CORNERS: readonly (readonly [number, number])[] = [
  [0.14, 0.26],
  [0.88, 0.22],
  [0.9, 0.73],
  [0.12, 0.77],
];

export function keelPicture(depth: readonly (readonly number[])[]): string {
  const r = dice('keel');
  const [a, b, c, d] = KEEL_CORNERS as readonly [Pt, Pt, Pt, Pt];
  const spot = (u: number, v: number): Pt => {
    const top = mix(a, b, u);
    const low = mix(d, c, u);
    const [x, y] = mix(top, low, v);
    return [x * WIDE, y * HIGH];
  };
  const rows = depth.length;
  const columns = depth[0]?.length ?? 1;
  const line = (from: Pt, to: Pt) =>
    `M${from[0].toFixed(1)} ${from[1].toFixed(1)}L${to[0].toFixed(1)} ${to[1].toFixed(1)}`;
  const chalk = [
    ...Array.from({ length: columns + 1 }, (_, i) => line(spot(i / columns, 0), spot(i / columns, 1))),
    ...Array.from({ length: rows + 1 }, (_, i) => line(spot(0, i / rows), spot(1, i / rows))),
  ].join('');
  const pits = depth
    .flatMap((row, v) =>
      row.flatMap((lost, u) =>
        Array.from({ length: Math.round(lost * 46) }, () => {
          const [x, y] = spot((u + r()) / columns, (v + r()) / rows);
          return `<ellipse cx="${x.toFixed(1)}" cy="${y.toFixed(1)}" rx="${(1 + r() * 4 * (0.5 + lost)).toFixed(1)}" ry="${(0.8 + r() * 2.6).toFixed(1)}" fill="#5E574A" fill-opacity="${(0.25 + r() * 0.4).toFixed(2)}"/>`;
        }),
      ),
    )
    .join('');
  const names = [
    ...Array.from({ length: columns }, (_, i) => sign('abcdefgh'[i] ?? '', spot((i + 0.5) / columns, -0.09))),
    ...Array.from({ length: rows }, (_, i) => sign(String(i + 1), spot(-0.035, (i + 0.58) / rows))),
  ].join('');
  const rivets = Array.from(
    { length: 26 },
    (_, i) =>
      `<circle cx="${18 + i * 31}" cy="${66 - i * 0.9}" r="6"/><circle cx="${18 + i * 31}" cy="${548 - i * 0.9}" r="6"/>`,
  ).join('');
  return `<rect width="${WIDE}" height="${HIGH}" fill="#B9BAB2"/><path d="M0 96L800 74V0H0ZM0 520L800 500V600H0Z" fill="#A6A79F"/><path d="M0 96L800 74M0 520L800 500" stroke="${INK}" stroke-width="1.6"/><g fill="#C9CAC2" stroke="${INK}" stroke-width="1.1">${rivets}</g>${pits}<path d="${chalk}" stroke="#FFFEF6" stroke-width="2.6" stroke-opacity=".92" fill="none" stroke-linecap="round"/>${names}${VIGNETTE}${foot()}`;
}

type Pt = readonly [number, number];
const mix = (p: Pt, q: Pt, k: number): Pt => [p[0] + (q[0] - p[0]) * k, p[1] + (q[1] - p[1]) * k];
const sign = (text: string, [x, y]: Pt): string =>
  letters(text, { x, y: y + 8, size: 17, colour: '#FFFEF6', weight: 2.6, anchor: 'middle' });

/** Side panel 9 starboard: skin torn from the lug, nine rivets pulled. */
export function tearPicture(): string {
  const hole = (x: number, y: number, pulled: boolean) =>
    pulled
      ? `<ellipse cx="${x}" cy="${y}" rx="9" ry="7" fill="#3B352A" stroke="${INK}" stroke-width="1.2"/><path d="M${x - 8} ${y - 6}l-5 -6M${x + 7} ${y + 6}l6 5" stroke="${INK}" stroke-width="1.2"/>`
      : `<circle cx="${x}" cy="${y}" r="7.5" fill="#CFCEC4" stroke="${INK}" stroke-width="1.2"/><path d="M${x - 4} ${y - 3}q4 -4 8 0" stroke="#fff" stroke-width="1.4" fill="none"/>`;
  const rows = Array.from({ length: 15 }, (_, i) => {
    const x = 66 + i * 48;
    return hole(x, 214, i >= 6 && i <= 10) + hole(x + 22, 246, i >= 6 && i <= 9);
  }).join('');
  const lug = `<path d="M520 80Q600 66 640 130L664 330Q610 372 556 330Z" fill="#AEB3B5" stroke="${INK}" stroke-width="2.2"/><ellipse cx="602" cy="176" rx="36" ry="32" fill="#4B463B" stroke="${INK}" stroke-width="2"/><path d="M640 150q10 20 4 52" stroke="#A93418" stroke-width="1.8" fill="none"/>`;
  const tear = `<path d="M560 262L498 274L470 266L418 292L380 288L330 318L284 316L236 342L276 338L330 340L376 318L424 318L466 296L504 300L560 300Z" fill="#2F2A22" stroke="${INK}" stroke-width="1.6" stroke-linejoin="round"/><path d="M560 262L498 274L470 266L418 292L380 288L330 318L284 316L236 342" stroke="#F6F4EA" stroke-width="4" fill="none" stroke-linejoin="round"/><path d="M560 300L504 304L466 300L424 322L376 322L330 344" stroke="#F6F4EA" stroke-width="2.4" fill="none"/>`;
  const rule = `<g transform="translate(150 430) rotate(-5)"><rect width="470" height="44" fill="#EDE6CF" stroke="${PENCIL}" stroke-width="1.4"/><path d="${Array.from({ length: 15 }, (_, i) => `M${18 + i * 31} 0v${i % 5 === 0 ? 22 : 13}`).join('')}" stroke="${INK}" stroke-width="1.4"/>${[0, 5, 10].map((n) => letters(String(n), { x: 18 + n * 31, y: 38, size: 10, colour: INK, anchor: 'middle' })).join('')}</g>`;
  return `<rect width="${WIDE}" height="${HIGH}" fill="#C2C3BA"/><path d="M0 188H800M0 270H240M0 520Q400 500 800 520V600H0Z" fill="none" stroke="${INK}" stroke-width="1.4"/><path d="M0 520Q400 500 800 520V600H0Z" fill="#A9A99F"/>${rows}${tear}${lug}${rule}${VIGNETTE}${foot()}`;
}
