import { describe, expect, it } from 'vitest';
import { ASPECTS } from '../../../domain/as-found/aspects.ts';
import { readStack, STACK_SORTS } from '../../../domain/as-found/washer-stack.ts';
import { readingOf } from '../measure-leaf.tsx';
import { isDrawn } from './picture.tsx';

describe('pictures', () => {
  it('there is one for every question and every choice that is not a figure', () => {
    const wanted = ASPECTS.flatMap((a) => [a.picture, ...a.choices.map((c) => c.picture)]).filter(
      (p) => p !== 'number',
    );
    expect(wanted.filter((p) => !isDrawn(p))).toEqual([]);
    expect(isDrawn('no such picture')).toBe(false);
  });
  it('every piece of the palette is known again when it is read', () => {
    expect(STACK_SORTS.map((s) => readStack(s)[0]?.sort)).toEqual([...STACK_SORTS]);
  });
});

describe('a reading', () => {
  it('keeps what was written, with SI beside it', () => {
    // The inch is 25.4 mm exactly (international yard and pound agreement of 1959; NIST SP 811, B.8).
    expect(readingOf('3/8 in')).toMatchObject({ text: '3/8 in', si: { value: 0.009525, unit: 'm' } });
    expect(readingOf('12.42 mm +/- 0.02 mm').text).toBe('12.42 mm +/- 0.02 mm');
  });
  it('is kept as written where it is no quantity', () => {
    expect(readingOf('about a thumb')).toEqual({ text: 'about a thumb' });
  });
});
