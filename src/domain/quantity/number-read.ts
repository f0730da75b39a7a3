/**
 * From written figures to a number: decimals, inch fractions (`3/8`, `1 1/4`, `1-1/4`, `1¼`), powers of ten, grouped
 * thousands.
 *
 * The trap is the mark. In a Spanish, French or German page `3.406` is three thousand; typed at this bench it is a
 * little over three. What cannot be told apart is a Problem with both readings, never a guess:
 *   1,080        asked (a decimal comma or a thousand)      12,5  0,125   decimal comma, nothing else fits
 *   1.080,5  1,080.5  1,234,567  1 080     one reading only
 *   3.406        a decimal point by the rule of this bench; but where `decimal` is `ask` it is asked, and where it is
 *                `comma` (a page in such a language) it is 3406.
 */
import { type Problem, problem } from '../problem.ts';
import { failed, ok, type Result } from '../result.ts';

/** Which mark parts the decimals in this text; `ask` where nobody has said. */
export type DecimalMark = 'point' | 'comma' | 'ask';

const VULGAR: Readonly<Record<string, string>> = {
  '½': '1/2',
  '⅓': '1/3',
  '⅔': '2/3',
  '¼': '1/4',
  '¾': '3/4',
  '⅕': '1/5',
  '⅖': '2/5',
  '⅗': '3/5',
  '⅘': '4/5',
  '⅙': '1/6',
  '⅚': '5/6',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
  '⅑': '1/9',
  '⅒': '1/10',
  '⅐': '1/7',
};

/** One kind of space, one minus, fractions written out. Thin spaces stay thin: between digits they group thousands. */
export function plainText(text: string): string {
  return text
    .replace(/[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞⅑⅒⅐]/g, (c) => ` ${VULGAR[c] ?? c}`)
    .replace(/⁄/g, '/')
    .replace(/[−‒–—]/g, '-')
    .replace(/[\u00a0\u2007\u2009\u202f\t\n\r]/g, ' ')
    .replace(/ {2,}/g, ' ')
    .trim();
}

// Grouped by single spaces, a run of digits and marks, or a bare mark with decimals.
const BODY = String.raw`(?:[1-9]\d{0,2}(?: \d{3})+(?![\d/])(?:[.,]\d+)?|\d[\d.,]*\d|\d[.,]?|[.,]\d+)`;
const START = new RegExp(
  String.raw`^([+-]?) ?(?:(?:(\d+)(?: |-| - ))?(\d+) ?/ ?(\d+)(?![\d.,])|(${BODY})(?:[eE]([+-]?\d+)(?![\d.])| ?[x×·*] ?10(?:\^([+-]?\d+)|([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)))?)`,
);

export interface LeadingNumber {
  readonly value: number;
  /** What stands after the figure, trimmed. */
  readonly rest: string;
  /** As written, for messages. */
  readonly figure: string;
  /** True for a point with exactly three decimals, which some pages use to part thousands: the caller may ask. */
  readonly pointOfThree: boolean;
}

/** Both readings of a figure whose mark can be either. */
export function ambiguous(figure: string, small: string, large: string): Problem {
  return problem(
    'NUMBER_AMBIGUOUS',
    `"${figure}" can be ${small} or ${large}.`,
    `Write ${large} for the large reading, or ${small}0 for the small one.`,
  );
}

const DECIMAL = /^\d*(?:\.\d*)?$/;

/** Digits and marks to plain decimal text, or a Problem. */
function withoutMarks(
  body: string,
  mark: DecimalMark,
): Result<{ readonly text: string; readonly pointOfThree: boolean }> {
  const plain = (text: string, pointOfThree = false) => ok({ text, pointOfThree });
  const tight = body.replace(/ /g, '');
  const points = tight.split('.').length - 1;
  const commas = tight.split(',').length - 1;
  if (points === 0 && commas === 0) return plain(tight);
  if (points > 0 && commas > 0) {
    // Two marks: the last one parts the decimals if the groups before it are whole.
    const [decimal, group] = tight.lastIndexOf('.') > tight.lastIndexOf(',') ? ['.', ','] : [',', '.'];
    const [head = '', tail = '', ...more] = tight.split(decimal);
    if (
      more.length === 0 &&
      /^\d{1,3}$/.test(head.split(group)[0] ?? '') &&
      head
        .split(group)
        .slice(1)
        .every((g) => /^\d{3}$/.test(g))
    )
      return plain(`${head.split(group).join('')}.${tail}`);
    return failed(
      problem(
        'QUANTITY_UNREADABLE',
        `"${body}" has its marks in no order that is known.`,
        'Write the figure with one decimal mark and no other.',
      ),
    );
  }
  const sign = points > 0 ? '.' : ',';
  const groups = tight.split(sign);
  const grouped =
    /^[1-9]\d{0,2}$/.test(groups[0] ?? '') && groups.slice(1).every((g) => /^\d{3}$/.test(g)) && !body.includes(' ');
  if (groups.length > 2) {
    if (grouped) return plain(groups.join(''));
    return failed(
      problem(
        'QUANTITY_UNREADABLE',
        `"${body}" has more than one decimal mark.`,
        'Write the figure with one decimal mark.',
      ),
    );
  }
  const small = groups.join('.');
  if (!grouped) return plain(small);
  const large = groups.join('');
  const isDecimal = (sign === '.') === (mark !== 'comma');
  if (mark === 'ask' || (mark === 'point' && sign === ',')) return failed(ambiguous(body, small, large));
  return plain(isDecimal ? small : large, sign === '.' && mark === 'point');
}

function fromFraction(whole: string | undefined, over: string, under: string, figure: string): Result<number> {
  if (Number(under) === 0)
    return failed(
      problem('FRACTION_BY_ZERO', `"${figure}" is written over nought.`, 'Correct the lower figure of the fraction.'),
    );
  return ok((Number(whole ?? '0') * Number(under) + Number(over)) / Number(under));
}

function notFinite(figure: string): Problem {
  return problem(
    'NUMBER_NOT_FINITE',
    `"${figure.slice(0, 40)}" is no finite number that can be held.`,
    'Give a finite figure.',
  );
}

/** The figure at the start of a text. The text has been through `plainText`. */
export function leadingNumber(text: string, mark: DecimalMark): Result<LeadingNumber> {
  if (/^[+-]? ?(nan|inf(inity)?|∞)(?![a-z])/i.test(text)) return failed(notFinite(text));
  const m = START.exec(text);
  if (!m)
    return failed(
      problem(
        'QUANTITY_UNREADABLE',
        `"${text.slice(0, 60)}" does not begin with a figure.`,
        'Write it as 12.5 mm, 3/8 in or 1 1/4 in.',
      ),
    );
  const [figure, sign, whole, over, under, body, e, caret, raised] = m;
  const rest = text.slice(figure.length).trim();
  const signed = (x: number): number => (sign === '-' ? -x : x);
  if (over !== undefined && under !== undefined) {
    const f = fromFraction(whole, over, under, figure);
    if (!f.ok) return f;
    if (!Number.isFinite(f.value)) return failed(notFinite(figure));
    return ok({ value: signed(f.value), rest, figure, pointOfThree: false });
  }
  const digits = withoutMarks(body ?? '', mark);
  if (!digits.ok) return digits;
  const { text: plain, pointOfThree } = digits.value;
  if (!DECIMAL.test(plain)) throw new Error(`internal: figure "${plain}" is not plain; report it`);
  const small =
    raised === undefined
      ? undefined
      : [...raised].map((c) => (c === '⁻' ? '-' : String('⁰¹²³⁴⁵⁶⁷⁸⁹'.indexOf(c)))).join('');
  const exponent = e ?? caret ?? small ?? '0';
  const value = Number(`${plain}e${exponent}`);
  const vanished = value === 0 && /[1-9]/.test(plain);
  if (!Number.isFinite(value) || vanished) return failed(notFinite(figure));
  return ok({ value: signed(value), rest, figure, pointOfThree: pointOfThree && exponent === '0' });
}
