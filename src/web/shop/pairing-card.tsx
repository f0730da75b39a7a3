/** A code to let one device in: to be scanned from the screen, or typed. It works once and for ten minutes. */
import { useEffect, useState } from 'react';
import type { PairingCode } from './shop-client.ts';

export function PairingCard({ code }: { readonly code: PairingCode }) {
  const left = useMinutesLeft(code.endsAt);
  if (left <= 0) return <p className="quiet">The code has run out. Ask for another one.</p>;
  const address = code.links.plain[0] ?? code.links.tls[0] ?? '';
  return (
    <div className="pairing">
      <img alt={`QR code of ${address}`} src={`data:image/svg+xml,${encodeURIComponent(code.qr)}`} />
      <div>
        <p className="code">{code.code}</p>
        <p>
          Point the phone’s camera at the square, or open <b className="addr">{originOf(address)}</b> on it and type the
          code. It works once, for {left} more {left === 1 ? 'minute' : 'minutes'}.
        </p>
        <p className="quiet">
          To work without network the phone must trust this shop’s own certificate; its pairing page shows the steps.
          Compare the print of it there with this one, here in the shop, before you trust it:
        </p>
        <p className="print">{code.fingerprint}</p>
      </div>
    </div>
  );
}

function originOf(link: string): string {
  return link === '' ? 'the shop’s address' : new URL(link).host;
}

function useMinutesLeft(endsAt: string): number {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), 5_000);
    return () => clearInterval(timer);
  }, []);
  return Math.ceil((Date.parse(endsAt) - now) / 60_000);
}
