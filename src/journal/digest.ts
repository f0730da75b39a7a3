/**
 * RFC 8785 text and SHA-256, the same in browser, server and command line.
 *
 * Chosen: `canonicalize` and `@noble/hashes`, which need nothing from the machine. The disk side passes a faster `Hasher`
 * in where 100,000 entries are checked at opening. Not chosen: Web Crypto, which answers only asynchronously.
 */
import { sha256 } from '@noble/hashes/sha2.js';
import canonicalize from 'canonicalize';

/** SHA-256 of the UTF-8 bytes of a text, in lower-case hex. */
export type Hasher = (text: string) => string;

const HEX: readonly string[] = Array.from({ length: 256 }, (_, byte) => byte.toString(16).padStart(2, '0'));

export function toHex(bytes: Uint8Array): string {
  let text = '';
  for (const byte of bytes) text += HEX[byte];
  return text;
}

/** UTF-8 by hand: pure folders know no TextEncoder. A lone surrogate becomes U+FFFD, as everywhere else. */
export function utf8(text: string): Uint8Array {
  const bytes: number[] = [];
  for (const letter of text) {
    const code = letter.codePointAt(0) ?? 0;
    if (code < 0x80) bytes.push(code);
    else if (code < 0x800) bytes.push(0xc0 | (code >> 6), 0x80 | (code & 63));
    else if (code >= 0xd800 && code <= 0xdfff) bytes.push(0xef, 0xbf, 0xbd);
    else if (code < 0x10000) bytes.push(0xe0 | (code >> 12), 0x80 | ((code >> 6) & 63), 0x80 | (code & 63));
    else bytes.push(0xf0 | (code >> 18), 0x80 | ((code >> 12) & 63), 0x80 | ((code >> 6) & 63), 0x80 | (code & 63));
  }
  return Uint8Array.from(bytes);
}

export const sha256Hex: Hasher = (text) => toHex(sha256(utf8(text)));

/** RFC 8785 form of plain JSON data. Undefined members are left out, as JSON does. */
export function canonicalText(value: unknown): string {
  const text = canonicalize(value);
  if (text === undefined) throw new Error('internal: nothing to write as an entry; report it');
  return text;
}
