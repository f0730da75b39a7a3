/**
 * What is asked about a joint after it is bagged: aspect by aspect, in the order in which a hand meets it. Choices are
 * words of the trade; each is kept as the words themselves, so that a record reads without this table.
 *
 * `form` says how an answer is given: one of the choices, a stack in order, a count with a thickness, or a text as
 * written. Any other words are taken for any aspect. Words: common practice, no source.
 */
import { type Found, noValueWord } from './answers.ts';
import { readStack, stackWords } from './washer-stack.ts';

export type AspectForm = 'choice' | 'stack' | 'shims' | 'text';

export interface Choice {
  /** Kept in the record and shown on the picture button. */
  readonly text: string;
  /** Which line drawing stands on the button. */
  readonly picture: string;
}

export interface Aspect {
  readonly id: string;
  /** On the picture button. */
  readonly short: string;
  readonly question: string;
  readonly form: AspectForm;
  readonly picture: string;
  readonly choices: readonly Choice[];
  /** For a text: what may stand there, as an example. */
  readonly example?: string;
}

function choice(text: string, picture: string): Choice {
  return { text, picture };
}

export const ASPECTS: readonly Aspect[] = [
  {
    id: 'head-direction',
    short: 'head which way',
    question: 'Which way did the head point?',
    form: 'choice',
    picture: 'head',
    choices: [
      choice('up', 'head-up'),
      choice('down', 'head-down'),
      choice('forward', 'head-forward'),
      choice('aft', 'head-aft'),
      choice('outboard', 'head-out'),
      choice('inboard', 'head-in'),
    ],
  },
  {
    id: 'washer-stack',
    short: 'washers in order',
    question: 'What lay on it, head to nut?',
    form: 'stack',
    picture: 'stack',
    choices: [],
  },
  {
    id: 'shims',
    short: 'shims',
    question: 'How many shims, how thick?',
    form: 'shims',
    picture: 'shims',
    choices: [],
  },
  {
    id: 'thread-hand',
    short: 'thread hand',
    question: 'Which hand is the thread?',
    form: 'choice',
    picture: 'thread',
    choices: [choice('right', 'thread-right'), choice('left', 'thread-left')],
  },
  {
    id: 'thread',
    short: 'thread form',
    question: 'Which form is the thread?',
    form: 'choice',
    picture: 'thread-form',
    choices: [
      choice('metric', 'thread-60'),
      choice('BSF', 'thread-55'),
      choice('BSW', 'thread-55'),
      choice('BA', 'thread-47'),
      choice('UNF', 'thread-60'),
      choice('square', 'thread-square'),
    ],
    example: 'M8 × 1, or 3/8 BSF',
  },
  {
    id: 'safetying',
    short: 'safetied how',
    question: 'What kept it from turning?',
    form: 'choice',
    picture: 'safety',
    choices: [
      choice('split pin', 'split-pin'),
      choice('locking wire', 'wire'),
      choice('tab washer', 'tab'),
      choice('spring washer', 'spring-washer'),
      choice('peened over', 'peen'),
      choice('lock nut', 'lock-nut'),
      choice('stiff nut', 'stiff-nut'),
      choice('taper pin', 'taper-pin'),
    ],
  },
  {
    id: 'clocking',
    short: 'clocking',
    question: 'Where did it point, as on a clock, seen from the head?',
    form: 'choice',
    picture: 'clock',
    choices: [12, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11].map((h) => choice(`${h} o’clock`, `clock-${h}`)),
  },
  {
    id: 'threads-showing',
    short: 'threads showing',
    question: 'How many threads or turns were showing?',
    form: 'choice',
    picture: 'showing',
    choices: ['0', '1', '2', '3', '4', '5', '6', '7', '8'].map((n) => choice(n, 'number')),
    example: '2 1/2',
  },
  {
    id: 'cable-tension',
    short: 'cable tension',
    question: 'What was the cable tension, as the gauge read?',
    form: 'text',
    picture: 'cable',
    choices: [],
    example: '140 N at 12 °C',
  },
  {
    id: 'spring-length',
    short: 'spring length',
    question: 'How long was the spring, and in which state?',
    form: 'text',
    picture: 'spring',
    choices: [],
    example: '186 mm free',
  },
  {
    id: 'match-mark-old',
    short: 'old match marks',
    question: 'Marks that were there before us: what, where?',
    form: 'choice',
    picture: 'mark-old',
    choices: [
      choice('punch dots', 'dots'),
      choice('scribed line', 'scribe'),
      choice('paint line', 'paint'),
      choice('pencil line', 'pencil'),
      choice('stamped number', 'stamp'),
    ],
    example: 'two dots at the lug, one at the fork',
  },
  {
    id: 'match-mark-ours',
    short: 'our match marks',
    question: 'Marks that we made: in what, where?',
    form: 'choice',
    picture: 'mark-ours',
    choices: [choice('paint line', 'paint'), choice('pencil line', 'pencil'), choice('tied-on tag', 'tie')],
    example: 'white paint across lug and fork',
  },
];

export function aspectOf(id: string): Aspect | undefined {
  return ASPECTS.find((a) => a.id === id);
}

/** What an aspect is called in a list; one that is not in the table is called as it was written. */
export function aspectName(id: string): string {
  return aspectOf(id)?.short ?? id.replaceAll('-', ' ');
}

/** A found value in words, for a list or the button of its aspect. */
export function foundWords(aspect: string, found: Found): string {
  if (found.is !== 'value') return noValueWord(found.is).toLowerCase();
  return aspectOf(aspect)?.form === 'stack' ? stackWords(readStack(found.text)) : found.text;
}
