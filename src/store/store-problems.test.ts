import { expect, it } from 'vitest';
import { diskProblem } from './store-problems.ts';

it.each([
  ['SQLITE_BUSY', 'JOURNAL_BUSY'],
  ['SQLITE_FULL', 'DISK_FULL'],
  ['ENOSPC', 'DISK_FULL'],
  ['SQLITE_IOERR_WRITE', 'DISK_TROUBLE'],
  ['EIO', 'DISK_TROUBLE'],
])('what the disk says as %s is told as %s', (thrown, code) => {
  const told = diskProblem(Object.assign(new Error('x'), { code: thrown }), 'writing');
  expect([told.code, told.message.includes('writing')]).toEqual([code, true]);
});

it('does not swallow our own mistakes', () => {
  expect(() => diskProblem(new TypeError('ours'), 'writing')).toThrow('ours');
});
