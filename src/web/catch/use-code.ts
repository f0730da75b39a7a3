/**
 * The code of the next bag. It is taken from this device's numbers once and kept until a bag has it, so that looking at
 * the screen and leaving it costs no number of the series.
 */
import { useCallback, useEffect, useState } from 'react';
import { type BagCode, isBagCode } from '../../domain/bag-code.ts';

export interface Code {
  readonly code: BagCode | null;
  /** True: none is left on this device and the shop's machine is away. */
  readonly isOut: boolean;
  /** The code now stands on a bag: gives it, and the next one comes. */
  readonly use: () => void;
  /** A bag was taken back, or a code stands on a pre-printed roll: that one is next. */
  readonly set: (code: BagCode) => void;
}

const key = (job: string) => `witnessmark-next-bag-${job}`;
const AGAIN_MS = 3_000;

export function useCode(job: string, nextBag: () => Promise<BagCode | null>, isUsed: (code: string) => boolean): Code {
  const [code, setCode] = useState<BagCode | null>(() => kept(job));
  const [isOut, setOut] = useState(false);
  const set = useCallback(
    (next: BagCode) => {
      localStorage.setItem(key(job), next);
      setCode(next);
      setOut(false);
    },
    [job],
  );
  const used = code !== null && isUsed(code);
  useEffect(() => {
    if (code !== null && !used) return;
    let current = true;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const ask = async () => {
      const got = await nextBag().catch(() => null);
      if (got !== null && !current) localStorage.setItem(key(job), got);
      if (!current) return;
      if (got !== null) set(got);
      else {
        setOut(true);
        timer = setTimeout(() => void ask(), AGAIN_MS);
      }
    };
    void ask();
    return () => {
      current = false;
      clearTimeout(timer);
    };
  }, [code, used, job, nextBag, set]);
  const use = useCallback(() => {
    localStorage.removeItem(key(job));
    setCode(null);
  }, [job]);
  return { code: used ? null : code, isOut, use, set };
}

function kept(job: string): BagCode | null {
  const had = localStorage.getItem(key(job));
  return had !== null && isBagCode(had) ? had : null;
}
