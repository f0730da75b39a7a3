import { expect, test } from 'vitest';
import { generate } from '../../../../fixtures/planning/random-instances.mjs';
import { checkCertificate } from './check-certificate.ts';
import type { CoreAnswer, ProofNode } from './problem-types.ts';
import { solveCore } from './solve-core.ts';

const p = generate({ family: 'local', parts: 300, or: 0.2, seed: 11, targets: 4 });
const solved = solveCore(p);
if (solved.kind !== 'optimal') throw new Error('the sample is solvable');
const answer: Extract<CoreAnswer, { kind: 'optimal' }> = { ...solved };
const { certificate } = answer;

test('the untouched answer passes', () => {
  expect(checkCertificate(p, answer)).toBeNull();
  expect(JSON.parse(JSON.stringify(certificate))).toEqual(certificate); // plain data: can be stored and sent
});

test('a bound one too high is not proved', () => {
  const gap = { ...answer, kind: 'gap' as const, lowerBound: answer.lowerBound + 1 };
  expect(checkCertificate(p, gap)).toMatch(/not proved/);
});

test('a set that misses an action, is in a wrong order, or costs something else is refused', () => {
  expect(checkCertificate(p, { ...answer, set: answer.set.slice(0, -1) })).not.toBeNull();
  expect(checkCertificate(p, { ...answer, set: [...answer.set].reverse() })).toMatch(/too early/);
  expect(checkCertificate(p, { ...answer, cost: answer.cost - 1 })).not.toBeNull();
  expect(checkCertificate({ ...p, banned: [answer.set[0]!] }, answer)).not.toBeNull();
});

test('a cut that leaves out an alternative leaks', () => {
  const at = certificate.cuts.findIndex((c) => c.any.length > 1 && c.within.length === 0);
  const cuts = certificate.cuts.map((c, k) => (k === at ? { ...c, any: c.any.slice(1) } : c));
  expect(checkCertificate(p, { ...answer, certificate: { ...certificate, cuts } })).toMatch(/leaks/);
});

test('a cut may not lean on its own members', () => {
  const cuts = [...certificate.cuts, { of: 0, any: [1], within: [1] }];
  expect(checkCertificate(p, { ...answer, certificate: { ...certificate, cuts } })).toMatch(/own members/);
});

test('without its prices a proof proves nothing', () => {
  const strip = (node: ProofNode): ProofNode => ({
    rounds: [],
    ...(node.split === undefined ? {} : { split: node.split.map((part) => ({ ...part, proof: strip(part.proof) })) }),
  });
  expect(checkCertificate(p, { ...answer, certificate: { ...certificate, proof: strip(certificate.proof) } })).toMatch(
    /not proved/,
  );
});

test('parts that share an action do not add up', () => {
  const split = certificate.proof.split!;
  const twice = { ...certificate.proof, split: [...split, split[0]!] };
  const gap = { ...answer, kind: 'gap' as const, lowerBound: answer.lowerBound + split[0]!.bound };
  expect(checkCertificate(p, { ...gap, certificate: { ...certificate, proof: twice } })).toMatch(/not proved/);
});
