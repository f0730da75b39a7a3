/**
 * What the two doors to the shop's network share: the register of devices, where the shop is served now, its certificate,
 * and the count of wrong codes. One object for plain and TLS, so that a guesser cannot use both.
 */
import type { LanAddress, ServedAt, ShopCertificate, ShopFolder } from '../../store/index.ts';
import { PairingLimits } from './pairing-limits.ts';

export interface LanPlace {
  readonly name: string;
  readonly addresses: readonly LanAddress[];
  readonly plainPort: number;
  readonly tlsPort: number;
  readonly certificate: ShopCertificate;
}

export interface PairingLinks {
  /** Over TLS, the stable name first: offline too, once the phone trusts the shop's authority. */
  readonly tls: readonly string[];
  /** Plain: trusting the authority begins here, and what may be done while connected. */
  readonly plain: readonly string[];
}

export class LanDesk {
  readonly limits = new PairingLimits();
  /** Null until the network doors are open; never set where the shop is served to this machine only. */
  place: LanPlace | null = null;
  /** Called when a device was shut out here, so that its open streams end in the same moment. */
  readonly onRevoked = new Set<() => void>();

  constructor(
    readonly shop: ShopFolder,
    readonly version: string,
  ) {}

  /** Names under which the network doors may be asked. */
  hostNames(): readonly string[] {
    const place = this.place;
    return place === null ? [] : [place.name, 'localhost', '127.0.0.1', ...place.addresses.map((a) => a.address)];
  }

  /** Origins of this shop: those of its certificate, and those of pages that were paired (an address may have changed). */
  isOurOrigin(origin: string): boolean {
    const place = this.place;
    if (place === null) return false;
    const own = this.hostNames().some(
      (n) => origin === `https://${n}:${place.tlsPort}` || origin === `http://${n}:${place.plainPort}`,
    );
    return own || this.shop.register.origins().includes(origin);
  }
}

export function servedAtOf(place: LanPlace, at: string): ServedAt {
  const { name, plainPort, tlsPort } = place;
  return { name, addresses: place.addresses.map((a) => a.address), plainPort, tlsPort, at };
}

/** The code stands behind `#`, which a browser sends to nobody: it is in no log and crosses no wire until it is used. */
export function pairingLinks(served: Omit<ServedAt, 'at'>, code: string | null): PairingLinks {
  const tail = code === null ? '/' : `/pair#${code}`;
  return {
    tls: [served.name, ...served.addresses].map((n) => `https://${n}:${served.tlsPort}${tail}`),
    plain: [...served.addresses, served.name].map((n) => `http://${n}:${served.plainPort}${tail}`),
  };
}
