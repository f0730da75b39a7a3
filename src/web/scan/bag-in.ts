/** The bag code that a scanned or typed text holds. A label holds the code alone; an address ending in one passes too. */
import { type BagCode, readBagCode } from '../../domain/bag-code.ts';

export function bagIn(text: string): BagCode | null {
  const plain = readBagCode(text.trim());
  if (plain.ok) return plain.value;
  const last = /[?&]bag=([^&#]+)/.exec(text)?.[1] ?? '';
  const read = readBagCode(last);
  return read.ok ? read.value : null;
}
