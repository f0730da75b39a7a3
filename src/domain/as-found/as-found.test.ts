import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_VALUES, noValueWord } from './answers.ts';
import { ASPECTS, aspectName, aspectOf, foundWords } from './aspects.ts';
import {
  printStack,
  readShims,
  readStack,
  STACK_SORTS,
  type StackPiece,
  shimsText,
  stackWords,
} from './washer-stack.ts';

describe('a washer stack', () => {
  it('reads as it is written on a label', () => {
    expect(readStack('washer 1.6 | shim 0.5 brass | lug | washer 1.0 | castle nut')).toEqual([
      { sort: 'washer', thick: '1.6' },
      { sort: 'shim', thick: '0.5', words: 'brass' },
      { sort: 'lug' },
      { sort: 'washer', thick: '1.0' },
      { sort: 'castle nut' },
    ]);
  });

  it('keeps the thickness as written, with its unit and its zero', () => {
    expect(readStack('washer 1/16 in steel | shim 3 thou')).toEqual([
      { sort: 'washer', thick: '1/16 in', words: 'steel' },
      { sort: 'shim', thick: '3 thou' },
    ]);
    expect(printStack(readStack('Washer  1.60 mm'))).toBe('washer 1.60 mm');
  });

  it('takes a spring washer for one, not for a washer', () => {
    expect(readStack('spring washer')[0]?.sort).toBe('spring washer');
    expect(readStack('thin nut | nut')).toEqual([{ sort: 'thin nut' }, { sort: 'nut' }]);
  });

  it('keeps what it has no word for', () => {
    expect(readStack('leather pad, oily | nutmeg')).toEqual([
      { sort: 'other', words: 'leather pad, oily' },
      { sort: 'other', words: 'nutmeg' },
    ]);
  });

  it('gives nothing for an empty line', () => {
    expect(readStack(' | ')).toEqual([]);
    expect(printStack([])).toBe('');
  });

  const piece: fc.Arbitrary<StackPiece> = fc.record(
    {
      sort: fc.constantFrom(...STACK_SORTS),
      thick: fc.constantFrom('1.6', '0.5', '1/16 in', '3 thou', '2 mm', '0,8'),
      words: fc.constantFrom('brass', 'steel', 'cupped', 'cadmium plated', 'fibre'),
    },
    { requiredKeys: ['sort'] },
  );
  it('reads back to what was written', () => {
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 12 }), (stack) => {
        expect(readStack(printStack(stack))).toEqual(stack);
      }),
    );
  });

  it('is settled after one writing, whatever was typed', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 80 }), (text) => {
        const once = printStack(readStack(text));
        expect(printStack(readStack(once))).toBe(once);
      }),
    );
  });

  it('loses none of what was typed between the bars', () => {
    const word = fc.stringMatching(/^[a-z]{1,8}$/);
    fc.assert(
      fc.property(fc.array(word, { maxLength: 8 }), (words) => {
        expect(stackWords(readStack(words.join(' | '))).replaceAll(', ', ' ')).toBe(words.join(' '));
      }),
    );
  });
});

describe('shims', () => {
  it('are a count and a thickness, either of which may be missing', () => {
    expect(shimsText(3, '0.5 brass')).toBe('3 × 0.5 brass');
    expect(shimsText(3, '')).toBe('3');
    expect(shimsText(null, '0.5')).toBe('0.5');
    expect(readShims('3 × 0.5 brass')).toEqual({ count: 3, thick: '0.5 brass' });
    expect(readShims('2')).toEqual({ count: 2, thick: '' });
    expect(readShims('0.5')).toEqual({ count: null, thick: '0.5' });
  });
});

describe('aspects', () => {
  it('have ids and choices that are all different', () => {
    expect(new Set(ASPECTS.map((a) => a.id)).size).toBe(ASPECTS.length);
    for (const a of ASPECTS) expect(new Set(a.choices.map((c) => c.text)).size, a.id).toBe(a.choices.length);
  });

  it('tell the four answers without a value apart', () => {
    const said = NO_VALUES.map((v) => foundWords('shims', { is: v.is }));
    expect(said).toEqual(['none', 'not noted', 'not looked', 'unknown']);
    expect(noValueWord('not-looked')).toBe('Not looked');
  });

  it('show a value as it was written, and one outside the table too', () => {
    expect(foundWords('safetying', { is: 'value', text: 'split pin' })).toBe('split pin');
    expect(foundWords('washer-stack', { is: 'value', text: 'washer 1.6 | nut' })).toBe('washer 1.6, nut');
    expect(foundWords('smell', { is: 'value', text: 'castor oil' })).toBe('castor oil');
    expect(aspectName('oil-level')).toBe('oil level');
    expect(aspectOf('thread-hand')?.choices.map((c) => c.text)).toEqual(['right', 'left']);
  });
});
