import { describe, expect, it } from 'vitest';
import { ASSEMBLIES, LINES, lineOf, NOTHING_HERE, POSITIONS, positionName, positionsOf } from './parts.ts';

/** The shop's own rule, written here a second time so that a slip in the table shows. */
function checkLetter(n: number): string {
  return 'ABCDEFGHJKLMNPRSTUVWXYZ'[(7 * n + 3) % 23] ?? '?';
}

describe('the invented parts list', () => {
  it('has 251 lines and 549 positions, each id once', () => {
    expect(LINES).toHaveLength(251);
    expect(POSITIONS).toHaveLength(549);
    expect(new Set(LINES.map((l) => l.id)).size).toBe(251);
    expect(new Set(POSITIONS).size).toBe(549);
  });

  it('has the counts of each assembly and each decision', () => {
    const count = (id: string) => {
      const lines = LINES.filter((l) => l.assembly === id);
      return [lines.length, lines.flatMap(positionsOf).length];
    };
    expect(ASSEMBLIES.map((a) => [a.id, ...count(a.id)])).toEqual([
      ['01', 25, 36],
      ['02', 25, 104],
      ['03', 21, 41],
      ['04', 21, 76],
      ['05', 12, 18],
      ['06', 16, 21],
      ['07', 20, 26],
      ['08', 20, 26],
      ['09', 28, 30],
      ['10', 21, 21],
      ['11', 15, 50],
      ['12', 27, 100],
    ]);
    const decided = new Map<string, number>();
    for (const l of LINES) decided.set(l.decision, (decided.get(l.decision) ?? 0) + 1);
    expect(Object.fromEntries(decided)).toEqual({
      repair: 52,
      'clean-plate': 49,
      make: 44,
      use: 38,
      replace: 36,
      open: 27,
      'grind-chrome': 3,
      'pattern-only': 2,
    });
  });

  it('has bag codes with the right check letter, one series, none twice', () => {
    const seen = new Set<number>();
    for (const l of LINES) {
      const match = /^B(\d{3,})([A-Z])$/.exec(l.bag);
      expect(match, l.id).not.toBeNull();
      const n = Number(match?.[1]);
      expect(match?.[2], l.bag).toBe(checkLetter(n));
      expect(seen.has(n), l.bag).toBe(false);
      seen.add(n);
    }
  });

  it('names positions by line, hand and number', () => {
    expect(positionName('02-08.3')).toBe('Lug bolt M10 special, starboard, 3 of 6');
    expect(positionName('10-03')).toBe('Main spring');
    expect(lineOf('02-08.3').id).toBe('02-08');
    expect(NOTHING_HERE).toEqual(['03-19']);
    expect(positionsOf(lineOf('03-19'))).toEqual([]);
  });
});
