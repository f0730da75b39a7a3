/** The strip: what was shot and is not bagged yet. Shown at once, kept at once, there again after a reload. */
import { useCallback, useEffect, useRef, useState } from 'react';
import type { KeptPhoto } from '../state/keep-media.ts';
import type { Recorded } from '../state/use-job.tsx';
import type { Shot } from './gestures.ts';
import { dropLoose, keepLoose, looseShots } from './loose-shots.ts';

export interface Shown {
  readonly key: string;
  /** The picture as shot; null after a reload, when it is shown from where it is kept. */
  readonly url: string | null;
  /** Null while its bytes are being kept. */
  readonly shot: Shot | null;
}

export interface Shots {
  readonly shown: readonly Shown[];
  readonly add: (blob: Blob) => void;
  /** Hands over all shots, once their bytes are kept; the strip is empty then. */
  readonly take: () => Promise<readonly Shot[]>;
  readonly giveBack: (shots: readonly Shot[]) => void;
  /** Shots that were handed over: forgotten once their entries are kept, back in the strip where they were refused. */
  readonly settle: (shots: readonly Shot[], recorded: Promise<Recorded>) => void;
  readonly drop: (key: string) => void;
  /** Left out last, and not yet brought back: undo does. */
  readonly leftOut: Shot | null;
}

export function useShots(job: string, keepPhoto: (blob: Blob) => Promise<KeptPhoto>): Shots {
  const [shown, setShown] = useState<readonly Shown[]>([]);
  const latest = useRef<readonly Shown[]>([]);
  const keeping = useRef(new Set<Promise<unknown>>());
  const number = useRef(0);
  const [leftOut, setLeftOut] = useState<Shot | null>(null);
  const show = useCallback((next: readonly Shown[]) => {
    latest.current = next;
    setShown(next);
  }, []);

  useEffect(() => {
    let current = true;
    void looseShots(job).then(
      (kept) => {
        if (!current) return;
        const known = new Set(latest.current.map((s) => s.shot?.hash));
        const loose = kept.filter((s) => !known.has(s.hash)).map((shot) => ({ key: shot.hash, url: null, shot }));
        show([...loose, ...latest.current]);
      },
      () => undefined,
    );
    return () => {
      current = false;
    };
  }, [job, show]);

  const add = useCallback(
    (blob: Blob) => {
      number.current += 1;
      const key = `new-${number.current}`;
      show([...latest.current, { key, url: URL.createObjectURL(blob), shot: null }]);
      const kept = keepPhoto(blob).then(
        async (shot) => {
          await keepLoose(job, [shot]).catch(() => undefined);
          show(latest.current.map((s) => (s.key === key ? { ...s, shot } : s)));
        },
        // Why it could not be kept stands in the heading and in `refused`.
        () => show(latest.current.filter((s) => s.key !== key)),
      );
      keeping.current.add(kept);
      void kept.finally(() => keeping.current.delete(kept));
    },
    [job, keepPhoto, show],
  );

  const take = useCallback(async () => {
    await Promise.all(keeping.current);
    const shots = latest.current.flatMap((s) => (s.shot === null ? [] : [s.shot]));
    for (const s of latest.current) if (s.url !== null) URL.revokeObjectURL(s.url);
    show([]);
    setLeftOut(null);
    return [...new Map(shots.map((s) => [s.hash, s])).values()];
  }, [show]);

  const giveBack = useCallback(
    (shots: readonly Shot[]) => {
      void keepLoose(job, shots).catch(() => undefined);
      setLeftOut(null);
      const had = new Set(latest.current.map((s) => s.shot?.hash));
      const back = shots.filter((s) => !had.has(s.hash)).map((shot) => ({ key: shot.hash, url: null, shot }));
      show([...back, ...latest.current]);
    },
    [job, show],
  );

  const settle = useCallback(
    (shots: readonly Shot[], recorded: Promise<Recorded>) => {
      const hashes = shots.map((s) => s.hash);
      void recorded.then((became) => {
        if (became === 'refused') giveBack(shots);
        if (became === 'kept') void dropLoose(job, hashes).catch(() => undefined);
      });
    },
    [job, giveBack],
  );

  const drop = useCallback(
    (key: string) => {
      const gone = latest.current.find((s) => s.key === key);
      setLeftOut(gone?.shot ?? null);
      if (gone?.shot) void dropLoose(job, [gone.shot.hash]).catch(() => undefined);
      show(latest.current.filter((s) => s.key !== key));
    },
    [job, show],
  );
  return { shown, add, take, giveBack, settle, drop, leftOut };
}
