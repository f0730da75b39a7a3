/**
 * A print as data: pages of labels, each a list of marks by millimetres, and the port that makes a PDF of it. What stands
 * where is worked out here (pure, tested without a typesetter); the typesetter only fits each text into its box. Not chosen:
 * a layout written in the typesetter's own language, which nothing else could draw or check.
 *
 * Measures are millimetres from the upper left corner: of the page for a label, of the label for a mark. Sizes of letters
 * are the height of a capital or a numeral, since that is what is read from afar; a font's "size" is not.
 */
import type { Result } from '../../domain/result.ts';

/** `black`: roll printers have one ink, and anything paler comes out as a pattern of dots. */
export type Ink = 'black' | 'colour';
export type MarkColour = 'ink' | 'second' | 'signal' | 'paper';
export type HandWord = 'L' | 'R' | 'C';

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

export interface TextMark extends Box {
  readonly kind: 'text';
  readonly text: string;
  /** `num`: codes and numbers; `words`: everything else. */
  readonly face: 'num' | 'words';
  readonly weight: 500 | 600 | 700;
  /** The largest and the least height of capitals; what does not fit at the least is cut, with an ellipsis. */
  readonly most: number;
  readonly least: number;
  /** May run over several lines. */
  readonly wraps: boolean;
  readonly across: 'left' | 'center' | 'right';
  readonly down: 'top' | 'horizon' | 'bottom';
  readonly colour: MarkColour;
}

export type Mark =
  | TextMark
  /** A QR code of this text; the quiet zone is inside the box. */
  | (Box & { readonly kind: 'qr'; readonly text: string })
  /** The hand as a shape: a triangle that points to its side, a diamond for the centre. */
  | (Box & { readonly kind: 'hand'; readonly hand: HandWord })
  | (Box & { readonly kind: 'fill'; readonly colour: MarkColour })
  | (Box & { readonly kind: 'frame'; readonly line: number; readonly colour: MarkColour })
  /** Slanting bars: something stands in the way here. */
  | (Box & { readonly kind: 'hatch'; readonly colour: MarkColour })
  /** Where the wire goes through; to be punched where the stock has none. */
  | (Box & { readonly kind: 'hole' });

export interface PlacedLabel extends Box {
  readonly marks: readonly Mark[];
}

export interface PrintDocument {
  readonly title: string;
  readonly page: { readonly w: number; readonly h: number };
  readonly ink: Ink;
  readonly pages: readonly (readonly PlacedLabel[])[];
  /** ISO 8601; goes into the file, so the same document gives the same bytes. */
  readonly madeAt: string;
}

export interface Printer {
  pdf(document: PrintDocument): Promise<Result<Uint8Array>>;
}
