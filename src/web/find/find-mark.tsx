/** What stands where there is no picture: a small drawn sign for the sort of thing, so that a group is seen, not read. */
import type { FindKind } from './index-of.ts';

const PATHS: Readonly<Record<FindKind, string>> = {
  // A nut from above; a tied bag; counted washers; a shelf.
  part: 'M8 4h8l4 8-4 8H8l-4-8z M12 8.5a3.5 3.5 0 1 1 0 7 3.5 3.5 0 0 1 0-7z',
  bag: 'M6 21V9l3-2V4h6v3l3 2v12z M9 7h6',
  lot: 'M7 5a3 3 0 1 1 0 6 3 3 0 0 1 0-6z M17 5a3 3 0 1 1 0 6 3 3 0 0 1 0-6z M12 13a3 3 0 1 1 0 6 3 3 0 0 1 0-6z',
  place: 'M4 4v17 M20 4v17 M4 10h16 M4 18h16',
  // A written slip; a lens; a picture; a voice; a head and shoulders.
  note: 'M5 4h14v16H5z M8 9h8 M8 13h8 M8 17h4',
  found: 'M10 4a6 6 0 1 1 0 12 6 6 0 0 1 0-12z M14.5 14.5 21 21',
  photo: 'M4 6h16v13H4z M4 16l5-5 4 4 3-3 4 4',
  sound: 'M5 10v4 M9 6v12 M13 9v6 M17 4v16 M21 10v4',
  person: 'M12 4a4 4 0 1 1 0 8 4 4 0 0 1 0-8z M4 21c1-5 4-7 8-7s7 2 8 7',
};

export function FindMark({ kind }: { readonly kind: FindKind }) {
  return (
    <svg className="find-mark" viewBox="0 0 24 24" aria-hidden="true">
      <path d={PATHS[kind]} />
    </svg>
  );
}
