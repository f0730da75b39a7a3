/**
 * The answers to an as-found question. A value is the words as they were noted. "None was fitted", "not noted", "not
 * looked" and "unknown" are four different answers, and none of them is an empty field: whoever puts the joint together
 * in six years must know whether nothing was there or nobody looked.
 */
export type NoValue = 'none' | 'not-noted' | 'not-looked' | 'unknown';

/** A found value as a journal entry keeps it, as far as this folder reads it. */
export type Found = { readonly is: 'value'; readonly text: string } | { readonly is: NoValue };

export interface NoValueWords {
  readonly is: NoValue;
  readonly word: string;
  /** What the answer says, in one line below it. */
  readonly more: string;
}

export const NO_VALUES: readonly NoValueWords[] = [
  { is: 'none', word: 'None', more: 'looked: none was fitted' },
  { is: 'not-noted', word: 'Not noted', more: 'it was there, nobody wrote it down' },
  { is: 'not-looked', word: 'Not looked', more: 'nobody looked' },
  { is: 'unknown', word: 'Unknown', more: 'looked, could not tell' },
];

export function noValueWord(is: NoValue): string {
  return NO_VALUES.find((v) => v.is === is)?.word ?? is;
}
