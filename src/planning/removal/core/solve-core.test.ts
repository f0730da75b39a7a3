import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { generate } from '../../../../fixtures/planning/random-instances.mjs';
import { checkCertificate } from './check-certificate.ts';
import type { CoreAnswer, CoreProblem, CoreProgress } from './problem-types.ts';
import { solveCore } from './solve-core.ts';
import { enumerate, executable, reached, tinyProblem } from './testing/problems.ts';

interface Case {
  readonly id: string;
  readonly source: string;
  readonly cost: number[];
  readonly clauses: number[][][];
  readonly targets: number[];
  readonly params: { parts: number; or: number; seed: number; targets: number; family: 'local' | 'hard' };
  readonly expected: {
    readonly optimum: number;
    readonly optimalSets?: readonly (readonly number[])[];
    readonly set?: readonly number[];
  };
}
const file = new URL('../../../../fixtures/planning/planning-cases.json', import.meta.url);
const cases = (JSON.parse(readFileSync(file, 'utf8')) as { cases: Case[] }).cases;

/** Proved, and the proof holds. */
function proved(p: CoreProblem): Extract<CoreAnswer, { kind: 'optimal' }> {
  const answer = solveCore(p);
  if (answer.kind !== 'optimal') throw new Error(`not proved: ${answer.kind}`);
  expect(checkCertificate(p, answer)).toBeNull();
  return answer;
}

describe('against full enumeration (own, brute force over all subsets)', () => {
  test.each([0, 1, 2, 3])('1,000 tiny circular problems, block %i: same optimum, every proof holds', (block) => {
    const differences: string[] = [];
    for (let seed = block * 1000; seed < (block + 1) * 1000; seed++) {
      const p = tinyProblem(seed);
      const best = enumerate(p);
      const answer = solveCore(p);
      if (answer.kind === 'impossible') {
        const has = executable(p, () => true);
        if (best !== null) differences.push(`${seed}: said impossible, ${best} is possible`);
        if (answer.unreachable.length === 0 || answer.unreachable.some((t) => has.has(t)))
          differences.push(`${seed}: wrong targets named`);
        continue;
      }
      if (answer.kind !== 'optimal' || answer.cost !== best)
        differences.push(`${seed}: ${answer.cost} instead of ${best}`);
      const doubt = checkCertificate(p, answer);
      if (doubt !== null) differences.push(`${seed}: ${doubt}`);
    }
    expect(differences).toEqual([]);
  });
});

describe('worked cases', () => {
  // Source: public teaching module on selective disassembly, sec. 5 (blocking table and times); optimum recomputed, AND only
  test('sel-ev6: battery block of six parts', () => {
    const c = cases.find((k) => k.id === 'sel-ev6')!;
    const answer = proved(c);
    expect(answer.cost).toBe(c.expected.optimum);
    expect([...answer.set].sort((a, b) => a - b)).toEqual(c.expected.set);
  });

  // Source: own, exhaustive state enumeration (fixtures/planning/planning-cases.json, "andor-*")
  test.each(cases.filter((c) => c.id.startsWith('andor-')))('$id: optimum and one of the optimal sets', (c) => {
    const answer = proved(c);
    expect(answer.cost).toBe(c.expected.optimum);
    const got = [...answer.set].sort((a, b) => a - b).join();
    expect(c.expected.optimalSets!.map((s) => s.join())).toContain(got);
  });

  // Source: own generator; each optimum proved independently by two or three solvers (own branch and bound, highs, clingo),
  // named per case in fixtures/planning/planning-cases.json. The cases above 2,000 parts run in bench/planning-core.ts.
  test.each(cases.filter((c) => c.id.startsWith('gen-') && c.params.parts <= 2000))('$id', (c) => {
    const p = generate(c.params);
    expect(proved(p).cost).toBe(c.expected.optimum);
  });
});

describe('circular support', () => {
  // A (0) after B (1) or C (2); B after A or D (3): leaning on each other would cost 2, nothing could be started.
  const p: CoreProblem = { cost: [1, 1, 10, 20], clauses: [[[1, 2]], [[0, 3]], [], []], targets: [0, 1] };
  test('the pair that leans on itself is no answer', () => {
    const answer = proved(p);
    expect(answer.cost).toBe(12);
    expect(answer.set).toEqual([2, 0, 1]);
  });
});

describe('large whole-number costs (weights of a ranking, up to 2^50 together)', () => {
  test.each([1, 2, 3, 4, 5, 6])(
    'ranked costs, local 200 parts, no. %i: first the first cost, then the second',
    (seed) => {
      const base = generate({ family: 'local', parts: 200, or: 0.2, seed, targets: 5 });
      const first = proved({
        ...base,
        cost: base.cost.map((_, a) => (base.name[a]!.startsWith('remove') ? 1 : 0)),
      }).cost;
      const weight = 2 ** 34;
      const both = proved({
        ...base,
        cost: base.cost.map((c, a) => (base.name[a]!.startsWith('remove') ? weight : 0) + c),
      });
      expect(Math.floor(both.cost / weight)).toBe(first);
      const second = both.set.reduce((s, a) => s + base.cost[a]!, 0);
      expect(both.cost).toBe(first * weight + second);
    },
  );
});

describe('when time runs out', () => {
  const p = generate({ family: 'hard', parts: 500, or: 0.4, seed: 3, targets: 12 });
  const best = proved(p).cost;
  test.each([0, 1, 2, 3, 5, 8, 13])('stopped after %i looks: both bounds hold and are proved', (looks) => {
    const answer = solveCore(p, { nodeBudget: looks });
    if (answer.kind === 'impossible') throw new Error('possible');
    expect(checkCertificate(p, answer)).toBeNull();
    expect(answer.lowerBound).toBeLessThanOrEqual(best);
    expect(answer.cost ?? best).toBeGreaterThanOrEqual(best);
    expect(answer.kind === 'optimal').toBe(answer.cost === answer.lowerBound);
  });
  test('stopped at once: a plan and a bound all the same', () => {
    const answer = solveCore(p, { shouldStop: () => true });
    if (answer.kind === 'impossible') throw new Error('possible');
    expect(checkCertificate(p, answer)).toBeNull();
    expect(reached(p, new Set(answer.set))).toBe(true);
  });
  test('progress: the proved bound rises to the answer, the plan comes last', () => {
    const seen: CoreProgress[] = [];
    solveCore(p, { onProgress: (now) => seen.push(now) });
    expect(seen.length).toBeGreaterThan(1);
    seen.reduce((before, now) => {
      expect(now.lower).toBeGreaterThanOrEqual(before.lower);
      expect(now.nodes).toBeGreaterThanOrEqual(before.nodes);
      return now;
    });
    expect(seen.at(-1)).toMatchObject({ lower: best, upper: best });
  });
});

test('a cost that is no whole number is our own mistake', () => {
  expect(() => solveCore({ cost: [0.5], clauses: [[]], targets: [0] })).toThrow(/internal/);
  expect(() => solveCore({ cost: [2 ** 50, 1], clauses: [[], []], targets: [0] })).toThrow(/internal/);
});
