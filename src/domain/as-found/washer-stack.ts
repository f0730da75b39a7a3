/**
 * What lay on a bolt, in order from the head to the nut, as one line of text that people can write and read:
 *
 *   washer 1.6 | shim 0.5 brass | lug | washer 1.0 | castle nut
 *
 * Reading takes any text: a word that is not in the table is kept as a piece of its own sort, word for word, since what
 * was found must never be refused. Writing what was read gives a line that reads the same (a property test holds it).
 * Not chosen: a list in JSON, which nobody writes on a label.
 */
export const STACK_SORTS = [
  'washer',
  'shim',
  'lug',
  'plate',
  'nut',
  'castle nut',
  'stiff nut',
  'thin nut',
  'spring washer',
  'tab washer',
  'thick washer',
  'spacer',
  'bush',
] as const;
export type StackSort = (typeof STACK_SORTS)[number];

export interface StackPiece {
  /** `other`: the words are what was written. */
  readonly sort: StackSort | 'other';
  /** As written, without a unit where none was written: `1.6`, `1/16 in`. */
  readonly thick?: string;
  /** Material or any other words. */
  readonly words?: string;
}

/** Longest names first, so that a spring washer is not a washer with the word "spring". */
const BY_LENGTH = [...STACK_SORTS].sort((a, b) => b.length - a.length);
const THICK = /^(\d+(?:[.,]\d+)?(?:\/\d+)?(?: ?(?:mm|in|"|thou|gauge))?)(?: |$)/;

export function readStack(text: string): readonly StackPiece[] {
  return text
    .split('|')
    .map((piece) => piece.trim().replace(/\s+/g, ' '))
    .filter((piece) => piece !== '')
    .map(readPiece);
}

function readPiece(text: string): StackPiece {
  const lower = text.toLowerCase();
  const sort = BY_LENGTH.find((s) => lower === s || lower.startsWith(`${s} `));
  if (sort === undefined) return { sort: 'other', words: text };
  const rest = text.slice(sort.length).trim();
  const thick = THICK.exec(rest)?.[1];
  const more = (thick === undefined ? rest : rest.slice(thick.length)).trim();
  return { sort, ...(thick === undefined ? {} : { thick }), ...(more === '' ? {} : { words: more }) };
}

export function printStack(stack: readonly StackPiece[]): string {
  return stack
    .map(pieceWords)
    .filter((p) => p !== '')
    .join(' | ');
}

/** One piece as it stands in the line. A bar in somebody's words would cut the line there: it becomes a slash. */
export function pieceWords(piece: StackPiece): string {
  return [piece.sort === 'other' ? '' : piece.sort, piece.thick ?? '', piece.words ?? '']
    .map((w) => w.replaceAll('|', '/').trim().replace(/\s+/g, ' '))
    .filter((w) => w !== '')
    .join(' ');
}

/** For reading aloud and in a list: "washer 1.6, shim 0.5 brass, castle nut". */
export function stackWords(stack: readonly StackPiece[]): string {
  return stack.map(pieceWords).join(', ');
}

/** How wide and high a piece is drawn: half-height over the bolt, and thickness in the drawing's units. */
export interface PieceShape {
  readonly half: number;
  readonly wide: number;
  readonly form: 'plain' | 'hatched' | 'split' | 'tab' | 'nut' | 'castle';
}

const SHAPES: Readonly<Record<StackPiece['sort'], PieceShape>> = {
  washer: { half: 15, wide: 5, form: 'plain' },
  'thick washer': { half: 15, wide: 9, form: 'plain' },
  'spring washer': { half: 12, wide: 7, form: 'split' },
  'tab washer': { half: 15, wide: 4, form: 'tab' },
  shim: { half: 13, wide: 2.4, form: 'plain' },
  plate: { half: 24, wide: 7, form: 'hatched' },
  lug: { half: 24, wide: 18, form: 'hatched' },
  spacer: { half: 10, wide: 18, form: 'plain' },
  bush: { half: 9, wide: 18, form: 'hatched' },
  'castle nut': { half: 14, wide: 20, form: 'castle' },
  'stiff nut': { half: 14, wide: 19, form: 'nut' },
  'thin nut': { half: 14, wide: 9, form: 'nut' },
  nut: { half: 14, wide: 15, form: 'nut' },
  other: { half: 11, wide: 10, form: 'plain' },
};

export function pieceShape(piece: StackPiece): PieceShape {
  return SHAPES[piece.sort];
}

/** Shims: how many and how thick, as one line: `3 × 0.5 brass`. Either may be missing. */
export function shimsText(count: number | null, thick: string): string {
  const t = thick.trim();
  if (count === null) return t;
  return t === '' ? String(count) : `${count} × ${t}`;
}

export function readShims(text: string): { readonly count: number | null; readonly thick: string } {
  const hit = /^(\d{1,3})(?:\s*[×x]\s*(.*))?$/.exec(text.trim());
  return hit === null ? { count: null, thick: text.trim() } : { count: Number(hit[1]), thick: (hit[2] ?? '').trim() };
}
