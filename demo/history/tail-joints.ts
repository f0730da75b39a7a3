/** The joints of the tail-wheel as they were found, looked at before the strip. INVENTED. */
import { recording } from '../../src/journal/commands.ts';
import type { DataOf } from '../../src/journal/kinds/kinds.ts';
import type { Recorder } from './act.ts';
import { JOSS } from './shop.ts';

type Aspects = DataOf<'joint-noted'>['aspects'];
const value = (text: string) => ({ is: 'value', text }) as const;
const NONE = { is: 'none' } as const;
const NOT_LOOKED = { is: 'not-looked' } as const;
const NOT_NOTED = { is: 'not-noted' } as const;

/** As found at the joints of the tail-wheel, looked at before the strip. */
const TAIL_JOINTS: readonly (readonly [joint: string, aspects: Aspects, note: string])[] = [
  [
    '10-j09',
    {
      'head-direction': value('heads aft'),
      'washer-stack': value('head · plate · C19 · plate · nut'),
      safetying: value('split pin, 2 of 4'),
      'threads-showing': value('2, 2, 1, 3'),
    },
    'rear flange of C19 lies over two heads',
  ],
  [
    '10-j10',
    {
      'head-direction': value('head outboard'),
      safetying: value('split pin'),
      clocking: value('flat up'),
      'match-mark-old': value('one dot'),
    },
    '',
  ],
  [
    '10-j11',
    {
      'head-direction': value('head inboard, other way than port'),
      safetying: value('wire round the shank'),
      clocking: NOT_NOTED,
      'match-mark-old': value('two dots'),
    },
    'bent: will not turn',
  ],
  [
    '10-j12p',
    {
      'head-direction': value('large end to port'),
      safetying: NONE,
      'match-mark-ours': value('paint pen, white line'),
    },
    '',
  ],
  [
    '10-j13',
    {
      'head-direction': value('head to port'),
      'washer-stack': value('head · thin · hub · thin · thick · nut'),
      safetying: value('split pins, both ends'),
      'threads-showing': value('1'),
    },
    '',
  ],
  ['10-j16a', { 'spring-length': value('about 150 hooked, eased 118'), clocking: value('hook open upward') }, ''],
  [
    '10-j17a',
    { 'spring-length': value('about 150 hooked, eased 131'), clocking: value('hook open downward') },
    'not as port (Q-13)',
  ],
  [
    '10-j19',
    {
      'head-direction': value('head forward'),
      safetying: value('tab washer, one tab broken'),
      'threads-showing': value('2'),
    },
    '',
  ],
  [
    '10-j06',
    { thread: value('M14'), 'thread-hand': { is: 'unknown' }, safetying: NONE, 'threads-showing': NOT_LOOKED },
    'a tool bolt in its place',
  ],
];

export function tailJoints(r: Recorder): void {
  for (const [subject, aspects, note] of TAIL_JOINTS) {
    r.record(JOSS, recording('joint-noted', { subject, aspects, ...(note !== '' && { note }) }), 4);
  }
  for (const id of ['10-09', '10-13', '10-19']) {
    r.photo(
      JOSS,
      `place-${id}`,
      { show: 'in-place', line: id },
      [id],
      'Where it sits, drawn apart so that it can be seen',
    );
  }
}
