import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isUlid, makeUlid, readEntryId, ulidAfter, ulidTime } from './ids.ts';

const chance = fc.uint8Array({ minLength: 10, maxLength: 10 });
const time = fc.integer({ min: 0, max: 2 ** 48 - 2 });

describe('ids', () => {
  // ULID specification (github.com/ulid/spec and the readme of its JavaScript form): time part and greatest time, from memory.
  it.each([
    [1469918176385, '01ARYZ6S41'],
    [281474976710655, '7ZZZZZZZZZ'],
  ])('writes the time %d as the specification does', (ms, text) => {
    expect(makeUlid(ms, new Uint8Array(10)).slice(0, 10)).toBe(text);
  });

  it('gives the time back and has the shape', () => {
    fc.assert(
      fc.property(time, chance, (ms, bytes) => {
        const id = makeUlid(ms, bytes);
        expect(isUlid(id)).toBe(true);
        expect(ulidTime(id)).toBe(ms);
      }),
    );
  });

  it('the next id sorts after and has the shape', () => {
    fc.assert(
      fc.property(time, chance, (ms, bytes) => {
        const id = makeUlid(ms, bytes);
        expect(ulidAfter(id) > id).toBe(true);
        expect(isUlid(ulidAfter(id))).toBe(true);
      }),
    );
    expect(ulidAfter(makeUlid(5, new Uint8Array(10).fill(255)))).toBe(makeUlid(6, new Uint8Array(10)));
  });

  it('says what an id looks like when it is not one', () => {
    const read = readEntryId('01ARYZ6S41TSV4RRFFQ69G5FAU!');
    expect(read.ok).toBe(false);
    if (!read.ok) expect(read.problem.code).toBe('ENTRY_ID_SHAPE');
  });
});
