/** A new place and its box on a photograph of the wall: named, photographed where there is none yet, marked, kept. */
import { createElement, type ReactNode, useRef, useState } from 'react';
import { recording } from '../../journal/commands.ts';
import { useOpenJob } from '../state/use-job.tsx';
import { chanceId } from './other-job.ts';
import type { Box } from './wall.tsx';

export interface Marking {
  readonly now: { readonly photo: string; readonly box: Box } | null;
  readonly words: string | null;
  readonly begin: (name: string) => void;
  readonly mark: (photo: string, box: Box) => void;
  readonly keep: () => void;
  /** The file field for a first photograph of the wall. */
  readonly input: ReactNode;
}

const FIRST_BOX: Box = [0.35, 0.4, 0.2, 0.12];

export function useMarking(): Marking {
  const { record, keepPhoto, snapshot } = useOpenJob();
  const [place, setPlace] = useState<string | null>(null);
  const [now, setNow] = useState<Marking['now']>(null);
  const file = useRef<HTMLInputElement>(null);

  const begin = (name: string) => {
    const id = chanceId('place');
    // Saved first: a place without a box is a place already.
    record(recording('place-noted', { place: id, name, kind: 'shelf' }));
    setPlace(id);
    const wall = [...snapshot.state.places.values()].find((p) => p.wall !== undefined)?.wall?.photo;
    if (wall === undefined) file.current?.click();
    else setNow({ photo: wall, box: FIRST_BOX });
  };
  const photographed = async (picked: File) => {
    const kept = await keepPhoto(picked);
    record(recording('photo-taken', { ...kept, of: ['job'], caption: 'The shop’s wall' }));
    setNow({ photo: kept.hash, box: FIRST_BOX });
  };
  const keep = () => {
    if (now !== null && place !== null)
      record(recording('place-noted', { place, wall: { photo: now.photo, box: [...now.box] } }));
    setNow(null);
    setPlace(null);
  };
  return {
    now,
    words: now === null ? null : 'drag a box round the shelf, or move it by the arrow keys (Shift: its size)',
    begin,
    mark: (photo, box) => setNow({ photo, box }),
    keep,
    input: createElement('input', {
      ref: file,
      type: 'file',
      accept: 'image/*',
      hidden: true,
      'aria-label': 'Photograph of the wall',
      onChange: (e: React.ChangeEvent<HTMLInputElement>) => {
        const picked = e.target.files?.[0];
        e.target.value = '';
        if (picked !== undefined) void photographed(picked).catch(() => undefined);
      },
    }),
  };
}
