import fc from 'fast-check';
import { expect, test } from 'vitest';
import { generate } from '../../../../fixtures/planning/random-instances.mjs';
import { landmarks } from './landmarks.ts';
import { minimise } from './minimise.ts';
import type { CoreProblem } from './problem-types.ts';
import { closure, orderOf, reachesGoal } from './reach.ts';
import { solveCore } from './solve-core.ts';
import { executable, reached, tinyProblem } from './testing/problems.ts';

const problem = fc.integer({ min: 10_000, max: 5_000_000 }).map((seed) => tinyProblem(seed, 16));
const best = (p: CoreProblem): number => {
  const answer = solveCore(p);
  return answer.kind === 'impossible' ? Number.POSITIVE_INFINITY : answer.cost!;
};
const runs = { numRuns: 400 };

test('one clause more never lowers the optimum', () => {
  fc.assert(
    fc.property(problem, fc.nat(), fc.uniqueArray(fc.nat({ max: 3 }), { maxLength: 3 }), (p, at, list) => {
      const a = at % p.clauses.length;
      const clauses = p.clauses.map((c, i) => (i === a ? [...c, list] : c));
      expect(best({ ...p, clauses })).toBeGreaterThanOrEqual(best(p));
    }),
    runs,
  );
});

test('one alternative more never raises the optimum', () => {
  fc.assert(
    fc.property(problem, fc.nat(), fc.nat(), (p, at, extra) => {
      const a = at % p.clauses.length;
      const b = extra % p.clauses.length;
      const clauses = p.clauses.map((c, i) => (i === a ? c.map((or) => [...or, b]) : c));
      expect(best({ ...p, clauses })).toBeLessThanOrEqual(best(p));
    }),
    runs,
  );
});

test('banned: same as an action that can never be done; done: same as free and without conditions', () => {
  fc.assert(
    fc.property(problem, fc.nat(), (p, at) => {
      const a = at % p.clauses.length;
      const plain = { ...p, banned: [], done: [] };
      const never = { ...plain, clauses: p.clauses.map((c, i) => (i === a ? [[]] : c)) };
      expect(best({ ...plain, banned: [a] })).toBe(best(never));
      const given = {
        ...plain,
        clauses: p.clauses.map((c, i) => (i === a ? [] : c)),
        cost: Array.from(p.cost, (c, i) => (i === a ? 0 : c)),
      };
      expect(best({ ...plain, done: [a] })).toBe(best(given));
    }),
    runs,
  );
});

test('the optimum is at most the best with an action banned, equal for an action outside the set', () => {
  fc.assert(
    fc.property(problem, (p) => {
      const answer = solveCore(p);
      if (answer.kind === 'impossible') return;
      p.clauses.forEach((_, a) => {
        const without = best({ ...p, banned: [...(p.banned ?? []), a], done: (p.done ?? []).filter((d) => d !== a) });
        expect(without).toBeGreaterThanOrEqual(answer.cost!);
        if (!answer.set!.includes(a) && !(p.done ?? []).includes(a)) expect(without).toBe(answer.cost);
      });
    }),
    { numRuns: 150 },
  );
});

test('closure: the plain walk, closed under union, its ranks an executable order', () => {
  fc.assert(
    fc.property(problem, fc.infiniteStream(fc.boolean()), (p, coin) => {
      const among = Uint8Array.from(p.clauses, () => (coin.next().value ? 1 : 0));
      const other = Uint8Array.from(p.clauses, () => (coin.next().value ? 1 : 0));
      const { done, order } = closure(p, among);
      const walk = executable(p, (a) => among[a] === 1);
      expect([...done.keys()].filter((a) => done[a] === 1)).toEqual([...walk].sort((a, b) => a - b));
      const ranked = [...order.keys()].filter((a) => order[a]! >= 0).sort((a, b) => order[a]! - order[b]!);
      expect(orderOf(p, ranked)).not.toBeNull();
      const has = new Set(p.done);
      for (const a of ranked) {
        expect(p.clauses[a]!.every((c) => c.some((b) => has.has(b)))).toBe(true);
        has.add(a);
      }
      // two sets that can be done can be done together
      const union = executable(p, (a) => done[a] === 1 || closure(p, other).done[a] === 1);
      for (const a of [...walk, ...executable(p, (b) => other[b] === 1)]) expect(union.has(a)).toBe(true);
    }),
    runs,
  );
});

test('landmarks: exactly the actions without which the goal is out of reach', () => {
  fc.assert(
    fc.property(problem, (p) => {
      if (
        !reached(
          p,
          executable(p, () => true),
        )
      ) {
        expect(landmarks(p)).toEqual([]);
        return;
      }
      const done = new Set(p.done);
      const exact = p.clauses
        .map((_, a) => a)
        .filter(
          (a) =>
            !done.has(a) &&
            !reached(
              p,
              executable(p, (b) => b !== a),
            ),
        );
      expect(landmarks(p)).toEqual(exact);
    }),
    { numRuns: 1500 },
  );
});

test.each([11, 12, 13])('landmarks of generated problems, no. %i: by leaving out one at a time', (seed) => {
  const p = generate({ family: 'local', parts: 300, or: 0.3, seed, targets: 4 });
  const exact = p.clauses
    .map((_, a) => a)
    .filter((a) => {
      const among = new Uint8Array(p.clauses.length).fill(1);
      among[a] = 0;
      return !reachesGoal(p, closure(p, among).done);
    });
  expect(landmarks(p)).toEqual(exact);
});

test('minimise: reaches the goal, and without any one of its actions it would not', () => {
  fc.assert(
    fc.property(problem, (p) => {
      const { done, order } = closure(p);
      if (!reachesGoal(p, done)) return;
      const all = [...order.keys()].filter((a) => order[a]! >= 0);
      const small = minimise(p, all);
      expect(
        reached(
          p,
          executable(p, (a) => small.includes(a)),
        ),
      ).toBe(true);
      expect(orderOf(p, small)).toEqual(small);
      for (const out of small)
        expect(
          reached(
            p,
            executable(p, (a) => a !== out && small.includes(a)),
          ),
        ).toBe(false);
    }),
    runs,
  );
});

test('orderOf: null for a set that leans on itself or on something missing', () => {
  const p: CoreProblem = { cost: [1, 1, 1], clauses: [[[1]], [[0]], [[0, 1]]], targets: [2] };
  expect(orderOf(p, [0, 1, 2])).toBeNull();
  expect(orderOf({ ...p, done: [0] }, [2, 1])).toEqual([1, 2]);
  expect(orderOf({ ...p, banned: [1], done: [0] }, [1])).toBeNull();
});
