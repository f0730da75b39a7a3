/**
 * Letters drawn with a pencil: each sign is a stroke path on a grid four wide and six high, baseline at 6. Chosen over a
 * typeface, so that a card looks lettered by hand and the pixels do not depend on which typefaces a machine has.
 */
const GLYPHS: Readonly<Record<string, string>> = {
  A: 'M0 6L2 0L4 6M.8 4H3.2',
  B: 'M0 6V0H2.2Q3.6 0 3.6 1.4Q3.6 2.8 2.2 2.8H0M2.2 2.8Q4 2.8 4 4.4Q4 6 2.2 6H0',
  C: 'M4 1.2Q3.4 0 2.1 0Q0 0 0 3Q0 6 2.1 6Q3.4 6 4 4.8',
  D: 'M0 0V6H1.8Q4 6 4 3Q4 0 1.8 0Z',
  E: 'M3.7 0H0V6H3.8M0 2.9H2.9',
  F: 'M3.7 0H0V6M0 2.9H2.9',
  G: 'M3.9 1.2Q3.3 0 2.1 0Q0 0 0 3Q0 6 2.2 6Q4 6 4 3.4H2.4',
  H: 'M0 0V6M4 0V6M0 2.9H4',
  I: 'M1 0V6',
  J: 'M3 0V4.4Q3 6 1.5 6Q.2 6 0 4.6',
  K: 'M0 0V6M3.8 0L.1 3.4M1.4 2.3L4 6',
  L: 'M0 0V6H3.6',
  M: 'M0 6L.4 0L2.2 4L4 0L4.4 6',
  N: 'M0 6V0L4 6V0',
  O: 'M2 0Q0 0 0 3Q0 6 2 6Q4 6 4 3Q4 0 2 0Z',
  P: 'M0 6V0H2.2Q4 0 4 1.6Q4 3.2 2.2 3.2H0',
  Q: 'M2 0Q0 0 0 3Q0 6 2 6Q4 6 4 3Q4 0 2 0ZM2.5 4.4L4.1 6.3',
  R: 'M0 6V0H2.2Q3.8 0 3.8 1.5Q3.8 3 2.2 3H0M2 3L4 6',
  S: 'M3.8 1Q3.3 0 2 0Q.2 0 .2 1.5Q.2 2.7 2 2.9Q4 3.2 4 4.5Q4 6 2 6Q.5 6 0 4.9',
  T: 'M0 0H4M2 0V6',
  U: 'M0 0V4Q0 6 2 6Q4 6 4 4V0',
  V: 'M0 0L2 6L4 0',
  W: 'M0 0L1.2 6L2.5 1.4L3.8 6L5 0',
  X: 'M0 0L4 6M4 0L0 6',
  Y: 'M0 0L2 2.8L4 0M2 2.8V6',
  Z: 'M0 0H4L0 6H4',
  '0': 'M2 0Q.1 0 .1 3Q.1 6 2 6Q3.9 6 3.9 3Q3.9 0 2 0Z',
  '1': 'M0 1.3L1.6 0V6',
  '2': 'M.2 1.3Q.6 0 2 0Q3.8 0 3.8 1.6Q3.8 2.8 2 4.2L.1 6H4',
  '3': 'M.3 .9Q1 0 2 0Q3.7 0 3.7 1.5Q3.7 2.8 1.8 2.8Q4 2.8 4 4.4Q4 6 2 6Q.5 6 0 5',
  '4': 'M3 6V0L0 4.2H4',
  '5': 'M3.7 0H.6L.3 2.7Q1 2.2 2 2.2Q4 2.2 4 4.1Q4 6 2 6Q.6 6 0 5.1',
  '6': 'M3.4 .3Q.1 .6 .1 4Q.1 6 2 6Q4 6 4 4.1Q4 2.4 2.2 2.4Q.4 2.4 .1 4.2',
  '7': 'M0 0H4L1.5 6',
  '8': 'M2 0Q.4 0 .4 1.4Q.4 2.7 2 2.8Q4 3 4 4.5Q4 6 2 6Q0 6 0 4.5Q0 3 2 2.8Q3.6 2.7 3.6 1.4Q3.6 0 2 0Z',
  '9': 'M3.9 1.9Q3.6 3.6 1.9 3.6Q0 3.6 0 1.8Q0 0 2 0Q3.9 0 3.9 2.2Q3.9 5.6 .8 5.9',
  '-': 'M.4 3.2H2.6',
  '·': 'M1 3.2H1.2',
  '.': 'M.6 5.9H.8',
  ',': 'M.9 5.6L.4 6.9',
  ':': 'M.8 2H1M.8 5.4H1',
  '/': 'M0 6.4L3 -.4',
  '(': 'M1.6 -.3Q0 3 1.6 6.4',
  ')': 'M0 -.3Q1.6 3 0 6.4',
  '×': 'M.3 1.8L3.3 5M3.3 1.8L.3 5',
  '°': 'M1 0Q.2 0 .2 .8Q.2 1.6 1 1.6Q1.8 1.6 1.8 .8Q1.8 0 1 0Z',
  '+': 'M.2 3.2H3.4M1.8 1.6V4.8',
  '"': 'M.6 0V1.4M1.8 0V1.4',
  '’': 'M.9 0L.5 1.4',
  "'": 'M.9 0L.5 1.4',
  '?': 'M.2 1.3Q.5 0 1.9 0Q3.6 0 3.6 1.5Q3.6 2.6 2 3.2V4.2M2 5.8V6',
  '=': 'M.2 2.4H3M.2 4H3',
};
const NARROW: Readonly<Record<string, number>> = {
  I: 2.6,
  '1': 3.2,
  '·': 2.6,
  '.': 2,
  ',': 2.2,
  ':': 2.4,
  "'": 2,
  '’': 2,
  '(': 2.6,
  ')': 2.6,
  '-': 4.2,
  M: 5.8,
  W: 6.4,
  ' ': 3,
  J: 4.4,
  '°': 3,
  '"': 3.4,
};
const ADVANCE = 5.4;

const plain = (text: string): readonly string[] => [
  ...text.toUpperCase().normalize('NFD').replace(/\p{M}/gu, '').replace(/[–—]/g, '-'),
];

/** How wide a text is, its height being 1. */
export function widthOf(text: string): number {
  return plain(text).reduce((sum, c) => sum + (NARROW[c] ?? ADVANCE), 0) / 6;
}

export interface Lettered {
  readonly x: number;
  readonly y: number;
  /** Height of a capital. */
  readonly size: number;
  readonly colour: string;
  readonly weight?: number;
  readonly anchor?: 'start' | 'middle' | 'end';
}

/** One line of letters; `y` is its baseline. A sign that is not known leaves a gap. */
export function letters(text: string, how: Lettered): string {
  const scale = how.size / 6;
  const shift = how.anchor === 'middle' ? 0.5 : how.anchor === 'end' ? 1 : 0;
  let pen = how.x - widthOf(text) * how.size * shift;
  const marks = plain(text).map((c, i) => {
    const path = GLYPHS[c];
    // A hand never keeps quite to the line; which way follows from the sign and its place.
    const waver = (((c.codePointAt(0) ?? 0) * 7 + i * 13) % 7) / 7 - 0.43;
    const at = `translate(${pen.toFixed(1)} ${(how.y - how.size + waver * how.size * 0.06).toFixed(1)}) scale(${scale.toFixed(3)})`;
    pen += (NARROW[c] ?? ADVANCE) * scale;
    return path === undefined ? '' : `<path transform="${at}" d="${path}"/>`;
  });
  const width = ((how.weight ?? how.size * 0.1) / scale).toFixed(2);
  return `<g fill="none" stroke="${how.colour}" stroke-width="${width}" stroke-linecap="round" stroke-linejoin="round">${marks.join('')}</g>`;
}

/** Words broken into at most `most` lines that fit; what does not fit is left out whole. */
export function fitted(text: string, width: number, size: number, most: number): readonly string[] {
  const rows: string[] = [];
  for (const word of text.split(' ')) {
    const longer = rows.length === 0 ? word : `${rows.at(-1)} ${word}`;
    if (rows.length > 0 && widthOf(longer) * size <= width) rows[rows.length - 1] = longer;
    else rows.push(word);
  }
  return rows.slice(0, most);
}
