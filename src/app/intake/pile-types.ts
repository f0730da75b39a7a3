/** A pile of photographs, from a folder or a ZIP, as the use case sees it; the store opens one (a port). */
import type { Problem } from '../../domain/problem.ts';
import type { Result } from '../../domain/result.ts';
import type { PhotoInfo } from '../../journal/ports.ts';

export interface PileFile {
  /** For showing; never a path to anything. Folders are parted by `/`. */
  readonly shown: string;
  readonly bytes: number;
  readonly notices: readonly Problem[];
  readonly refused: Problem | null;
}

export interface Pile {
  readonly name: string;
  readonly files: readonly PileFile[];
  /** What systems leave beside photographs (hidden files, folders of thumbnails), not looked at. */
  readonly passedOver: number;
  read(file: PileFile): Promise<Result<Uint8Array>>;
  close(): void;
}

export const PILE_WORDS = ['new', 'here-already', 'same-as', 'refused'] as const;
export type PileWord = (typeof PILE_WORDS)[number];

export interface TakenTime {
  /** The camera's text, or null where it wrote none. */
  readonly asWritten: string | null;
  /** For people: `2025:09:15 10:02:11, zone not written`. */
  readonly words: string;
  readonly zone: 'written' | 'not-written' | 'no-time';
}

export interface PileRow {
  readonly file: string;
  readonly what: PileWord;
  readonly photo: PhotoInfo | null;
  readonly taken: TakenTime;
  /** What it will be a photograph of. */
  readonly of: readonly string[];
  /** How that was found, or why nothing was guessed; in words. */
  readonly ofBecause: string;
  readonly sameAs?: string;
  readonly notices: readonly Problem[];
  readonly problem: Problem | null;
}

export interface PilePlan {
  readonly pile: string;
  /** In the order in which they are recorded. */
  readonly rows: readonly PileRow[];
  readonly counts: Readonly<Record<PileWord, number>>;
  readonly zoneNotWritten: number;
  readonly passedOver: number;
  readonly order: string;
}
