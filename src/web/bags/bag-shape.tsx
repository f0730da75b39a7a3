/** A shape for each sort of whereabouts, so that no colour has to say it. */
import type { BagShape } from './bags-rows.ts';

const PATHS: Readonly<Record<BagShape, string>> = {
  // A shelf with a bag on it; a bag in the air; a person; a box with an arrow out; a wing; two arrows.
  here: 'M2 20h20 M6 20V9h12v11 M9 9V6h6v3',
  loose: 'M6 21V10h12v11z M9 10V7h6v3 M3 3l3 3 M21 3l-3 3',
  person: 'M12 4a4 4 0 1 1 0 8 4 4 0 0 1 0-8z M4 21c1-5 4-7 8-7s7 2 8 7',
  outside: 'M3 9h10v12H3z M13 12l8-8 M15 4h6v6',
  aircraft: 'M2 14 22 8l-6 6v5l-3-3-11-2z',
  job: 'M3 8h15 M14 4l4 4-4 4 M21 16H6 M10 12l-4 4 4 4',
};

export function BagMark({ shape }: { readonly shape: BagShape }) {
  return (
    <svg className="bag-mark" viewBox="0 0 24 24" aria-hidden="true">
      <path d={PATHS[shape]} />
    </svg>
  );
}
