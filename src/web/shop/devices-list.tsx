/** Phones and tablets that may record: when they were last here, and shutting one out (asked once more: it is for good). */
import { useState } from 'react';
import { Leaf } from '../sheet/leaf.tsx';
import { dayWords, hourOf } from '../words/figures.ts';
import type { PairedDevice } from './shop-client.ts';

interface Props {
  readonly devices: readonly PairedDevice[];
  readonly onShut: (id: string) => void;
}

export function DevicesList({ devices, onShut }: Props) {
  const [asking, setAsking] = useState<PairedDevice | null>(null);
  if (devices.length === 0) return <p className="quiet">No phone or tablet is paired yet.</p>;
  return (
    <>
      <ul className="devices">
        {devices.map((d) => (
          <li key={d.id} className={d.revokedAt === null ? undefined : 'out'}>
            <b>{d.name}</b>
            <span>{deviceWords(d)}</span>
            {d.revokedAt === null && (
              <button type="button" className="key sig" onClick={() => setAsking(d)}>
                Shut out
              </button>
            )}
          </li>
        ))}
      </ul>
      {asking !== null && (
        <Leaf title={`Shut out “${asking.name}”?`} onLeave={() => setAsking(null)}>
          <p>
            It can record nothing more from this moment on. What lies on it and was not sent stays on it. To let it in
            again it needs a new code.
          </p>
          <div className="keys-line">
            <button
              type="button"
              className="key sig"
              onClick={() => {
                onShut(asking.id);
                setAsking(null);
              }}
            >
              Shut it out
            </button>
            <button type="button" className="key" onClick={() => setAsking(null)}>
              Leave it
            </button>
          </div>
        </Leaf>
      )}
    </>
  );
}

export function deviceWords(d: PairedDevice): string {
  if (d.revokedAt !== null) return `■ shut out ${when(d.revokedAt)}`;
  const door = d.over === 'tls' ? 'works without network' : 'connected only';
  return `◇ ${door} · ${d.lastSeen === null ? 'not seen yet' : `last here ${when(d.lastSeen)}`}`;
}

function when(at: string): string {
  return `${dayWords(at.slice(0, 10))}, ${hourOf(at)}`;
}
