/** The shapes that stand with the words on the floor: each tells its sort without colour. */
import type { FloorShape } from './floor-rows.ts';

const PATHS: Readonly<Record<FloorShape, string>> = {
  // A tag on its wire, hanging open.
  open: 'M6 4h8l8 8-8 8H6z M9.5 12h.01',
  hazard: 'M12 3 22 21H2z M12 9v6 M12 18h.01',
  tag: 'M4 6h10l6 6-6 6H4z M8 12h.01',
  stuck: 'M5 5l14 14 M19 5 5 19 M12 2v20',
  inside: 'M4 4h16v16H4z M9 9h6v6H9z',
  away: 'M12 3a9 9 0 1 0 9 9 M12 7v5l4 3',
  next: 'M5 12h14 M13 6l6 6-6 6',
  came: 'M4 12h10 M10 6l-6 6 6 6 M20 4v16',
};

export function FloorMark({ shape }: { readonly shape: FloorShape }) {
  return (
    <svg className={`floor-mark ${shape}`} viewBox="0 0 24 24" aria-hidden="true">
      <path d={PATHS[shape]} />
    </svg>
  );
}
