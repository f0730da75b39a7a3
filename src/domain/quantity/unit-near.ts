/**
 * The nearest units to one that is not in the list, for the remedy of UNIT_UNKNOWN.
 *
 * Letters first (a wrong case or a plural counts little), then the number of single changes. Offered, never taken.
 */
import { NAMED_UNITS } from './unit-table.ts';

/** Products that people look for by name although they are built, not listed. */
const COMMON_PRODUCTS = [
  'N/mm^2',
  'N/mm',
  'N/m',
  'lbf/in',
  'lbf.in',
  'ft.lbf',
  'kg/m^3',
  'slug/ft^3',
  'ft/s',
  'm/s',
  'mm^2',
  'in^2',
  '1/min',
];

const CANDIDATES: readonly (readonly [string, string])[] = [
  ...NAMED_UNITS.flatMap((u) => [u.symbol, ...u.also].map((name) => [name, u.symbol] as const)),
  ...COMMON_PRODUCTS.map((p) => [p, p] as const),
];

function changes(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (const [i, ca] of [...a].entries()) {
    const next = [i + 1];
    for (const [j, cb] of [...b].entries())
      next.push(Math.min((next[j] ?? 0) + 1, (row[j + 1] ?? 0) + 1, (row[j] ?? 0) + (ca === cb ? 0 : 1)));
    row = next;
  }
  return row[b.length] ?? b.length;
}

export function nearestUnits(plain: string, most = 3): readonly string[] {
  if (plain.length === 0 || plain.length > 24) return [];
  const best = new Map<string, number>();
  for (const [name, symbol] of CANDIDATES) {
    const byLetter = changes(plain.toLowerCase(), name.toLowerCase());
    const limit = plain.length <= 2 ? 1 : 2;
    if (byLetter > limit) continue;
    const score = byLetter * 2 + changes(plain, name) / 10 + (name === symbol ? 0 : 0.05);
    best.set(symbol, Math.min(score, best.get(symbol) ?? Number.POSITIVE_INFINITY));
  }
  return [...best]
    .sort((a, b) => a[1] - b[1] || (a[0] < b[0] ? -1 : 1))
    .slice(0, most)
    .map(([symbol]) => symbol);
}
