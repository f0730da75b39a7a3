/** The shop as the page knows it now; asked again after every act. */
import { useCallback, useEffect, useState } from 'react';
import type { Problem } from '../../domain/problem.ts';
import {
  fetchDevices,
  fetchHello,
  type Hello,
  makeCode,
  type PairedDevice,
  type PairingCode,
  shutOut,
} from './shop-client.ts';

export interface ShopNow {
  readonly hello: Hello | null;
  /** Null: this door does not tell. */
  readonly devices: readonly PairedDevice[] | null;
  readonly code: PairingCode | null;
  readonly problem: Problem | null;
  readonly newCode: () => void;
  readonly shut: (id: string) => void;
}

const LOOK_AGAIN_MS = 4_000;

export function useShop(): ShopNow {
  const [hello, setHello] = useState<Hello | null>(null);
  const [devices, setDevices] = useState<readonly PairedDevice[] | null>(null);
  const [code, setCode] = useState<PairingCode | null>(null);
  const [problem, setProblem] = useState<Problem | null>(null);

  const look = useCallback(async () => {
    const said = await fetchHello();
    if (said.ok) setHello(said.value);
    if (!said.ok || said.value.door !== 'this-machine') return;
    const list = await fetchDevices();
    if (list.ok) setDevices(list.value);
  }, []);
  useEffect(() => {
    void look();
    const timer = setInterval(() => void look(), LOOK_AGAIN_MS);
    return () => clearInterval(timer);
  }, [look]);

  const newCode = useCallback(() => {
    void makeCode().then((made) => {
      setCode(made.ok ? made.value : null);
      setProblem(made.ok ? null : made.problem);
    });
  }, []);
  const shut = useCallback(
    (id: string) => {
      void shutOut(id).then((done) => {
        setProblem(done.ok ? null : done.problem);
        void look();
      });
    },
    [look],
  );
  return { hello, devices, code, problem, newCode, shut };
}
