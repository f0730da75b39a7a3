/**
 * By which door a server is entered. `this-machine`: the listener on 127.0.0.1, nobody is paired, and the shop's devices
 * are managed here. `network`: the shop's network, plain or over TLS; nothing is answered before pairing.
 */
import type { ServerOptions as TlsOptions } from 'node:https';
import type { PairedDevice } from '../../store/index.ts';
import type { LanDesk, LanPlace } from './lan-desk.ts';

export type Door =
  | { readonly kind: 'this-machine'; readonly desk?: LanDesk }
  | { readonly kind: 'network'; readonly over: 'plain'; readonly desk: LanDesk }
  | {
      readonly kind: 'network';
      readonly over: 'tls';
      readonly desk: LanDesk;
      readonly certificate: LanPlace['certificate'];
    };

export type NetworkDoor = Extract<Door, { kind: 'network' }>;

declare module 'fastify' {
  interface FastifyRequest {
    /** The device that asks, once it is known; null at the door of this machine. */
    paired: PairedDevice | null;
  }
}

/** TLS 1.2 and newer; no older phone that runs the page is kept out by that. */
export function tlsOptions(certificate: LanPlace['certificate']): TlsOptions {
  return { cert: certificate.certificate, key: certificate.key, minVersion: 'TLSv1.2' };
}

/**
 * The device's cookie. Ports do not keep cookies apart, so each door has its own name; `__Host-` makes the browser
 * refuse one that is not Secure or was set for more than this host (RFC 6265bis 4.1.3.2).
 */
export function cookieName(over: 'plain' | 'tls'): string {
  return over === 'tls' ? '__Host-witnessmark' : 'witnessmark';
}
