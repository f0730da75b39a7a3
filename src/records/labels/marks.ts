/** The marks that every label is made of, and the one rule about room: a code is never printed under 6 mm. */
import { type Label, onOneLine } from './label.ts';
import type { Box, HandWord, Mark, TextMark } from './print-document.ts';

export interface LabelSize {
  readonly w: number;
  readonly h: number;
  readonly hole: boolean;
}

/** Height of the numerals of a code, mm. */
export const MARK_LEAST = 6;
/** Width of a letter of the code's face by its height: B612 bold, 0.64 of 0.75 em. A check letter W is wider. */
const LETTER_WIDTH = 0.64 / 0.75;
const WIDEST_MORE = 0.5;
/** Ids longer than this are words rather than codes, and may be smaller and run over lines. */
const CODE_LENGTH = 10;

export const HAND_WORD: Readonly<Record<HandWord, string>> = { L: 'PORT', R: 'STARBOARD', C: 'CENTRE' };

export function clamp(n: number, least: number, most: number): number {
  return Math.min(most, Math.max(least, n));
}

/** How high the numerals of this code can be in such a width. */
export function codeRoom(code: string, width: number): number {
  return width / ([...code].length * LETTER_WIDTH + WIDEST_MORE);
}

/** How wide a code is at this height; an id that is no code may be smaller and asks for no width. */
export function codeWidthAt(code: string, height: number): number {
  const letters = [...code].length;
  return letters > CODE_LENGTH ? 0 : height * (letters * LETTER_WIDTH + WIDEST_MORE);
}

/** The id, as large as its box lets it be; null when a code would come out under 6 mm. */
export function codeMark(label: Label, box: Box, across: 'left' | 'center' = 'left'): Mark | null {
  const id = onOneLine(label.id, 120);
  const isCode = [...id].length <= CODE_LENGTH;
  if (isCode && (codeRoom(id, box.w) < MARK_LEAST || box.h < MARK_LEAST)) return null;
  return {
    kind: 'text',
    text: id,
    face: 'num',
    weight: 700,
    // By its length, not by its letters: the codes of a roll are all of one size.
    most: isCode ? Math.max(MARK_LEAST, Math.min(box.h, codeRoom(id, box.w))) : box.h,
    least: isCode ? MARK_LEAST : 1.8,
    wraps: !isCode,
    across,
    down: isCode ? 'top' : 'horizon',
    colour: 'ink',
    ...box,
  };
}

interface How {
  readonly wraps?: boolean;
  readonly across?: TextMark['across'];
  readonly down?: TextMark['down'];
  readonly weight?: TextMark['weight'];
  readonly colour?: TextMark['colour'];
  readonly least?: number;
  readonly face?: TextMark['face'];
}

export function words(text: string, box: Box, most: number, how: How = {}): TextMark {
  return {
    kind: 'text',
    text: onOneLine(text),
    face: how.face ?? 'words',
    weight: how.weight ?? 500,
    most: Math.min(most, box.h),
    least: how.least ?? Math.min(1.5, most, box.h),
    wraps: how.wraps ?? false,
    across: how.across ?? 'left',
    down: how.down ?? 'top',
    colour: how.colour ?? 'ink',
    ...box,
  };
}

/** The title block of a label: aircraft and station at the left, hand in a word, and that it is invented. */
export function footMarks(label: Omit<Label, 'hand'> & { readonly hand?: HandWord | undefined }, box: Box): Mark[] {
  const left = [label.registration, label.station].filter((t) => t !== undefined && t !== '').join(' · ');
  const hand = label.hand === undefined ? '' : HAND_WORD[label.hand];
  const right = [hand, label.invented ? 'Invented example' : ''].filter((t) => t !== '').join(' · ');
  const letters = clamp(0.56 * box.h, 1.4, 2.6);
  const line = { y: box.y + box.h - letters - 0.3, h: letters };
  const leftPart = right === '' ? 1 : hand === '' ? 0.6 : 0.5;
  const half = left === '' ? box.w : box.w * (1 - leftPart);
  return [
    { kind: 'fill', colour: 'ink', x: box.x, y: box.y, w: box.w, h: 0.25 },
    ...(left === ''
      ? []
      : [words(left, { x: box.x, w: leftPart * box.w - 0.8, ...line }, letters, { weight: 700, least: 1.2 })]),
    ...(right === ''
      ? []
      : [
          words(right, { x: box.x + box.w - half, w: half, ...line }, letters, {
            across: 'right',
            weight: 500,
            least: 1.2,
          }),
        ]),
  ];
}
