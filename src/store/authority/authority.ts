/**
 * The shop's own certificate authority: made once, kept in the vault, and the server's certificate renewed by it when the
 * name or an address changed or it ends within thirty days. People trust the authority once on each phone; a renewed
 * server certificate then needs nothing more from them.
 *
 * Addresses that were once in the certificate are not kept: a certificate says where the shop is, not where it was.
 */
import { X509Certificate } from 'node:crypto';
import type { Issued } from './issue.ts';
import { issueAuthority, issueLeaf } from './issue.ts';
import type { Vault } from './vault.ts';

const RENEW_BEFORE_MS = 30 * 86_400_000;

export interface ShopCertificate {
  /** The authority's certificate: for people's phones. */
  readonly authority: string;
  /** SHA-256 of the authority's certificate as DER, `AB:CD:…`: for comparing by eye. */
  readonly fingerprint: string;
  readonly certificate: string;
  readonly key: string;
  /** Names first, then addresses. */
  readonly names: readonly string[];
  readonly endsAt: string;
}

export interface CertificateWish {
  readonly shop: string;
  readonly name: string;
  readonly addresses: readonly string[];
  readonly now: Date;
}

export async function shopCertificate(vault: Vault, wish: CertificateWish): Promise<ShopCertificate> {
  const authority = await theAuthority(vault, wish);
  const names = [...new Set([wish.name, 'localhost', ...wish.addresses, '127.0.0.1'])];
  const wanted = JSON.stringify({ names, by: fingerprintOf(authority.certificate) });
  let leaf = keptLeaf(vault, wanted, wish.now);
  if (leaf === null) {
    leaf = await issueLeaf(authority, names, wish.now);
    vault.put({ 'leaf-certificate': leaf.certificate, 'leaf-key': leaf.key, 'leaf-for': wanted });
  }
  return {
    authority: authority.certificate,
    fingerprint: fingerprintOf(authority.certificate),
    certificate: leaf.certificate,
    key: leaf.key,
    names,
    endsAt: endOf(leaf.certificate).toISOString(),
  };
}

/** The authority's certificate where one was made, for `pair` and `devices` while another program serves. */
export function keptFingerprint(vault: Vault): string | null {
  const kept = vault.get('ca-certificate');
  return kept === null ? null : fingerprintOf(kept);
}

async function theAuthority(vault: Vault, wish: CertificateWish): Promise<Issued> {
  const kept = keptAuthority(vault, wish.now);
  if (kept !== null) return kept;
  // One that has ended is replaced: the phones must trust the new one, and the server says so by its fingerprint.
  const made = await issueAuthority(wish.shop, wish.now);
  const values = { 'ca-certificate': made.certificate, 'ca-key': made.key };
  if (vault.get('ca-certificate') === null) vault.putIfNone('ca-certificate', values);
  else vault.put(values);
  return keptAuthority(vault, wish.now) ?? made;
}

function keptAuthority(vault: Vault, now: Date): Issued | null {
  const certificate = vault.get('ca-certificate');
  const key = vault.get('ca-key');
  if (certificate === null || key === null) return null;
  return endOf(certificate).getTime() - now.getTime() > RENEW_BEFORE_MS ? { certificate, key } : null;
}

function keptLeaf(vault: Vault, wanted: string, now: Date): Issued | null {
  const certificate = vault.get('leaf-certificate');
  const key = vault.get('leaf-key');
  if (certificate === null || key === null || vault.get('leaf-for') !== wanted) return null;
  return endOf(certificate).getTime() - now.getTime() > RENEW_BEFORE_MS ? { certificate, key } : null;
}

function endOf(pem: string): Date {
  return new Date(new X509Certificate(pem).validTo);
}

export function fingerprintOf(pem: string): string {
  return new X509Certificate(pem).fingerprint256;
}
