/**
 * What stands on a label, before any layout. `id` is printed big and is all that the QR code holds: a code that carried
 * names would be wrong as soon as they are mended, and would tell strangers more than the label does.
 */
import type { HandWord } from './print-document.ts';

export const STICKER_KINDS = ['bag', 'jar', 'part', 'place', 'blank'] as const;
export const TAG_KINDS = ['open', 'do-not-clean', 'quarantine', 'hazard'] as const;
export type StickerKind = (typeof STICKER_KINDS)[number];
export type TagKind = (typeof TAG_KINDS)[number];
export type LabelKind = StickerKind | TagKind;

export interface Label {
  readonly kind: LabelKind;
  readonly id: string;
  readonly hand?: HandWord;
  readonly registration?: string;
  readonly station?: string;
  /** May be cut on the print. */
  readonly name?: string;
  /** The one word of a tag where it is not that of its kind: STORED ENERGY. */
  readonly word?: string;
  /** What is open, why it waits, what bites. */
  readonly says?: string;
  readonly who?: string;
  readonly when?: string;
  readonly invented: boolean;
}

export const TAG_WORD: Readonly<Record<TagKind, string>> = {
  open: 'OPEN',
  'do-not-clean': 'DO NOT CLEAN',
  quarantine: 'QUARANTINE',
  hazard: 'HAZARD',
};

/** What the tag asks for, in one line; the same on every tag of its kind. */
export const TAG_ASKS: Readonly<Record<TagKind, string>> = {
  open: 'Not finished. Ask who hung this tag; it comes off when the work is done and seen.',
  'do-not-clean': 'Dirt, paint and marks are evidence. Photograph and sample before anything is wiped.',
  quarantine: 'Not to be fitted, lent or thrown away until somebody with the right to it decides.',
  hazard: 'Local codes, the maker’s data and licensed people decide.',
};

export function isTag(kind: LabelKind): kind is TagKind {
  return (TAG_KINDS as readonly string[]).includes(kind);
}

/** Control characters and marks that turn the reading direction are taken out: a label must read as it is. */
export function onOneLine(text: string, most = 400): string {
  const plain = text
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is taken out
    .replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]+/g, ' ')
    .replace(/[\u200b-\u200f\u202a-\u202e\u2060-\u206f\ufeff\ufff9-\uffff]/g, '')
    .replace(/\s+/g, ' ')
    .trim();
  const letters = [...plain];
  return letters.length <= most ? plain : `${letters.slice(0, most - 1).join('')}…`;
}
