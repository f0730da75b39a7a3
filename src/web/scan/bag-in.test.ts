import { describe, expect, it } from 'vitest';
import { bagCode } from '../../domain/bag-code.ts';
import { bagIn } from './bag-in.ts';

describe('a bag code in a scanned text', () => {
  it('is the text itself, however it was printed', () => {
    expect(bagIn(bagCode(105))).toBe(bagCode(105));
    expect(bagIn(` ${bagCode(105).toLowerCase()} `)).toBe(bagCode(105));
  });
  it('is taken from the address of a bag', () => {
    expect(bagIn(`https://shop.local:4378/bags?job=x&bag=${bagCode(7)}`)).toBe(bagCode(7));
  });
  it('is not guessed at', () => {
    expect(bagIn('hello')).toBeNull();
    const good = bagCode(105);
    const wrong = good.slice(0, -1) + (good.endsWith('A') ? 'B' : 'A');
    expect(bagIn(wrong)).toBeNull();
    expect(bagIn('https://elsewhere.example/?bag=')).toBeNull();
  });
});
