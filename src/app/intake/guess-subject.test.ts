import { describe, expect, it } from 'vitest';
import { must } from '../../domain/result.ts';
import { decide, EMPTY_STATE, overlay, recording, type State } from '../../journal/index.ts';
import { stampAt } from '../../journal/testing/recorder.ts';
import { subjectGuesser } from './guess-subject.ts';
import { compareNames, takenTime, timeKey } from './taken-time.ts';

function known(...lines: string[]): State {
  return lines.reduce<State>((s, line, n) => {
    const drafts = must(decide(s, recording('part-line-noted', { line, name: line }), stampAt(n + 1)));
    return overlay(s, drafts);
  }, EMPTY_STATE);
}

describe('what a photograph is of, by its name', () => {
  const guess = subjectGuesser(known('leg-r', '10-03', '10-03.1', '12'));
  it.each<[string, string[]]>([
    ['B105C.jpg', ['B105C']],
    ['b-105-c 2.jpg', ['B105C']],
    ['Tail/B105C/IMG_0001.JPG', ['B105C']],
    ['leg-r.jpg', ['leg-r']],
    ['LEG-R/IMG_1.jpg', ['leg-r']],
    ['B105C leg-r.jpg', ['B105C', 'leg-r']],
    ['10-03.jpg', ['10-03']],
    ['10-03.1 lower.jpg', ['10-03.1']],
    ['leg-r/B105C.jpg', ['B105C']],
  ])('%s is of %j', (name, of) => {
    expect(guess(name).of).toEqual(of);
    expect(guess(name).because).toMatch(/^guessed from the (file|folder) name/);
  });

  it.each([
    'B105D.jpg', // another letter than 105 has
    'IMG_0012.jpg', // an id of digits only is chance
    '2025-10-03.jpg', // a date
    '10-03.4.jpg', // another number that only begins alike
    'leg-rear.jpg',
    'bag105c.jpg',
    '105C.jpg',
  ])('%s is not guessed', (name) => {
    expect(guess(name)).toEqual({ of: [], because: 'no bag code and no recorded id in its name' });
  });

  it('two bags in one name are not guessed, and that is said', () => {
    expect(guess('B105C and B001L.jpg').of).toEqual([]);
    expect(guess('B105C and B001L.jpg').because).toMatch(/B105C and B001L; not guessed/);
  });
});

describe('the time a camera wrote', () => {
  it.each([
    ['2025:09:15 10:02:11', '2025:09:15 10:02:11, zone not written', 'not-written'],
    ['2025:09:15 10:02:11 +02:00', '2025:09:15 10:02:11 +02:00', 'written'],
    ['    :  :     :  :  ', 'no time written', 'no-time'], // CIPA DC-008: unknown is written as blanks
    ['0000:00:00 00:00:00', 'no time written', 'no-time'], // common practice of cameras, no source
    [undefined, 'no time written', 'no-time'],
  ])('%j is said as %j', (text, words, zone) => {
    expect(takenTime(text)).toMatchObject({ words, zone });
  });

  it('puts in order by the text, then by name as people count', () => {
    const texts = [undefined, 'yesterday', '2025:09:15 10:02:11', '2025-09-15 10:02:10'];
    expect(
      texts
        .map(takenTime)
        .sort((a, b) => (timeKey(a) < timeKey(b) ? -1 : 1))
        .map((t) => t.asWritten),
    ).toEqual(['2025-09-15 10:02:10', '2025:09:15 10:02:11', 'yesterday', null]);
    expect(['IMG_10', 'IMG_2', 'IMG_02', 'A'].sort(compareNames)).toEqual(['A', 'IMG_02', 'IMG_2', 'IMG_10']);
  });
});
