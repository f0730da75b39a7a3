import { expect, it } from 'vitest';
import { problem } from '../../domain/problem.ts';
import { networkWords } from './network-words.ts';

const HERE = { awaySince: null, pending: 0, photosWaiting: 0, soundsWaiting: 0, problem: null, deviceProblem: null };

it.each([
  ['here', HERE],
  ['here · 3 photographs not yet copied to the office', { ...HERE, photosWaiting: 3 }],
  [
    'away 5 min · 2 to send · 1 photograph not yet copied to the office',
    { ...HERE, awaySince: 0, pending: 2, photosWaiting: 1 },
  ],
  ['away 2 h · 1 sound not yet copied to the office', { ...HERE, awaySince: -7_000_000, soundsWaiting: 1 }],
  [
    'No room. Make some. · 1 to send',
    { ...HERE, pending: 1, deviceProblem: problem('DEVICE_FULL', 'No room', 'Make some.') },
  ],
  [
    'kept here, not taken in: Shut out. Pair again.',
    { ...HERE, problem: problem('DEVICE_REVOKED', 'Shut out', 'Pair again.') },
  ],
])('%s', (words, told) => {
  expect(networkWords(told, 300_000).words).toBe(words);
});

it('a plain page of the shop’s network says that it works while connected only', () => {
  expect(networkWords(HERE, 0, false)).toEqual({ words: 'here · connected capture only', away: false });
});

it('where the browser did not promise to keep it, that is said while something waits', () => {
  const one = { ...HERE, photosWaiting: 1 };
  expect(networkWords(one, 0, true, 'while-there-is-room').words).toMatch(/only while the device has room$/);
  expect(networkWords(HERE, 0, true, 'while-there-is-room').words).toBe('here');
  expect(networkWords(one, 0, true, 'lasting').words).not.toMatch(/room/);
});
