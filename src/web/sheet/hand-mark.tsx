/** ◀ ◆ ▶: left, centre, right as seen from the pilot's seat. Drawn, since few fonts have them and shape is the message. */
import type { Hand } from '../../domain/rig/rig-types.ts';

export const HAND_PATH: Readonly<Record<Hand, string>> = {
  L: 'M13 1V15L2 8Z',
  C: 'M8 0.5 15.5 8 8 15.5 0.5 8Z',
  R: 'M3 1V15L14 8Z',
};

export const HAND_WORD: Readonly<Record<Hand, string>> = { L: 'left', C: 'centre', R: 'right' };

export function HandMark({ hand }: { readonly hand: Hand | undefined }) {
  if (hand === undefined) return null;
  return (
    <svg className="hand" viewBox="0 0 16 16" role="img" aria-label={HAND_WORD[hand]}>
      <path d={HAND_PATH[hand]} />
    </svg>
  );
}

/** A name and its hand: the mark never stands alone on the next line. */
export function NameWithHand({ name, hand }: { readonly name: string; readonly hand: Hand | undefined }) {
  if (hand === undefined) return name;
  const at = name.lastIndexOf(' ') + 1;
  return (
    <>
      {name.slice(0, at)}
      <span className="whole">
        {name.slice(at)} <HandMark hand={hand} />
      </span>
    </>
  );
}
