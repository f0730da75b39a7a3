/** The present screen is in the address: goal, way, row, view. Reloading or handing the address on loses nothing. */
import { useCallback, useMemo } from 'react';
import { useSearchParams } from 'wouter';

export interface Screen {
  readonly get: (key: string) => string | null;
  /** Null takes a key away. `push` leaves the screen before it behind the back button. */
  readonly set: (change: Readonly<Record<string, string | null>>, push?: boolean) => void;
  /** What the other sheet keeps: the job. */
  readonly search: string;
}

export function useScreen(): Screen {
  const [params, setParams] = useSearchParams();
  const set = useCallback(
    (change: Readonly<Record<string, string | null>>, push = false) =>
      setParams(
        (was) => {
          const next = new URLSearchParams(was);
          for (const [key, value] of Object.entries(change)) {
            if (value === null) next.delete(key);
            else next.set(key, value);
          }
          return next;
        },
        { replace: !push },
      ),
    [setParams],
  );
  const job = params.get('job');
  const text = params.toString();
  return useMemo(
    () => ({
      get: (key: string) => new URLSearchParams(text).get(key),
      set,
      search: job === null ? '' : `?job=${encodeURIComponent(job)}`,
    }),
    [text, set, job],
  );
}

/** An address of another view, with the job that this one shows. */
export function withJob(href: string, search: string): string {
  if (search === '') return href;
  return href.includes('?') ? `${href}&${search.slice(1)}` : `${href}${search}`;
}
