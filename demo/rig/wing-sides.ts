/** Names and places that the files of the wing panels share: one side, ids, stations of ribs, what was found. INVENTED. */
import { at } from './author.ts';
import type { Side } from './hull-words.ts';

export interface WingSide extends Side {
  readonly wing: string;
  readonly float: string;
  readonly frontPin: string;
  readonly frontLift: string;
  readonly nFront: string;
  readonly nRear: string;
  readonly nRibs: string;
  readonly nWires: string;
  readonly nTubes: string;
  readonly nBow: string;
  readonly nAileron: string;
  readonly nBrackets: string;
  readonly nPins: string;
  readonly nBellcrank: string;
  readonly lamp: string;
  readonly samples: readonly number[];
  readonly gate: string;
  readonly drive: string;
  readonly balance: string;
}

export const RIBS = Array.from({ length: 14 }, (_, i) => i + 1);
export const BRACKET_RIBS = [8, 11, 14] as const;
const FOUND: Readonly<Record<string, string>> = {
  '04-j11a': 'woodworm',
  '04-j12a': 'broken; two left bows found in the box (Q-10)',
  '04-j14h': 'trailing edge bent',
  '04-j20p': 'bush loose',
  '04-j19p': 'marked "5" inside',
};
export const found = (id: string) => (FOUND[id] === undefined ? {} : { asFound: { note: FOUND[id] } });
export const jointId = (p: string, tail = '') => `${p.replace('04-', '04-j')}${tail}`;
export const ids = (s: WingSide) => ({
  cover: `cover-wing-${s.end}`,
  hole: `open-hand-hole-${s.end}`,
  wires: `slacken-drag-wires-${s.end}`,
  trestle: `trestle-wing-${s.end}`,
  sling: `sling-wing-${s.end}`,
  fold: `fold-wing-${s.end}`,
});
export const inWing = (s: WingSide, massKg: number, minutes: number, x: number, y: number) => ({
  within: s.wing,
  massKg,
  minutes,
  at: at(x, s.y * y, 2.4),
});
export const ribY = (n: number) => Number((0.9 + n * 0.32).toFixed(2));
