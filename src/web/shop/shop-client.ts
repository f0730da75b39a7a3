/** What the page asks of the shop itself: who is paired, new codes, shutting a device out. Only this machine's door answers. */
import type { Problem } from '../../domain/problem.ts';
import { failed, ok, type Result } from '../../domain/result.ts';
import { AWAY } from '../state/client.ts';

export interface PairedDevice {
  readonly id: string;
  readonly name: string;
  readonly over: 'plain' | 'tls';
  readonly pairedAt: string;
  readonly lastSeen: string | null;
  readonly revokedAt: string | null;
}

export interface PairingCode {
  readonly code: string;
  readonly endsAt: string;
  readonly links: { readonly tls: readonly string[]; readonly plain: readonly string[] };
  /** An SVG made by our own server. */
  readonly qr: string;
  readonly fingerprint: string;
}

export interface Hello {
  readonly shop: string;
  readonly version: string;
  readonly addresses: { readonly tls: readonly string[]; readonly plain: readonly string[] };
  readonly device: { readonly id: string; readonly name: string } | null;
  readonly door: 'plain' | 'tls' | 'this-machine';
}

async function ask<T>(path: string, method: 'GET' | 'POST' = 'GET'): Promise<Result<T>> {
  const reply = await fetch(path, { method }).catch(() => null);
  if (reply === null) return failed(AWAY);
  const body: unknown = await reply.json().catch(() => null);
  if (reply.ok) return ok(body as T);
  const p = body as Partial<Problem> | null;
  return failed({
    code: p?.code ?? 'ANSWER_UNREADABLE',
    message: p?.message ?? `The shop’s machine answered ${reply.status}.`,
    remedy: p?.remedy ?? 'Look at the machine that serves this page.',
  });
}

export const fetchHello = () => ask<Hello>('/api/shop/hello');
export const fetchDevices = () => ask<readonly PairedDevice[]>('/api/shop/devices');
export const makeCode = () => ask<PairingCode>('/api/shop/pairing-codes', 'POST');
export const shutOut = (id: string) => ask<PairedDevice>(`/api/shop/devices/${encodeURIComponent(id)}/revoke`, 'POST');
