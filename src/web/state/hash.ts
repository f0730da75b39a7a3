/**
 * SHA-256 of bytes in this browser. Its own where there is one; on plain-http pages of the shop's network browsers have
 * none, so the same function in JavaScript stands in (a photograph of 5 MB takes it about a tenth of a second).
 */
import { sha256 } from '@noble/hashes/sha2.js';
import { toHex } from '../../journal/digest.ts';

export async function hashOf(bytes: ArrayBuffer): Promise<string> {
  // The type says it is always there; on a page without a lock it is not.
  const own = (globalThis.crypto as Partial<Crypto>).subtle;
  if (own === undefined) return toHex(sha256(new Uint8Array(bytes)));
  return toHex(new Uint8Array(await own.digest('SHA-256', bytes)));
}
