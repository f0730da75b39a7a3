/** The index of the job as it is now: made anew a moment after the record changed, the old one serving until then. */
import { useEffect, useRef, useState } from 'react';
import type { State } from '../../journal/state.ts';
import { type FindIndex, makeFindIndex } from './find-index.ts';
import { findDocs } from './index-of.ts';

const QUIET_MS = 400;

export function useFindIndex(state: State): FindIndex | null {
  const [index, setIndex] = useState<FindIndex | null>(null);
  const wait = useRef(0);
  useEffect(() => {
    let current = true;
    const timer = setTimeout(() => {
      wait.current = QUIET_MS;
      void makeFindIndex(findDocs(state)).then((made) => {
        if (current) setIndex(made);
      });
    }, wait.current);
    return () => {
      current = false;
      clearTimeout(timer);
    };
  }, [state]);
  return index;
}
