/** What changed between two plans for the same goal, said in one line; null when only what was done has gone. */
import type { OffAnswer } from '../../planning/answers.ts';
import { clock, fewWords } from '../words/figures.ts';
import { lowerFirst } from '../words/names.ts';

export interface PlanChange {
  readonly added: readonly string[];
  readonly gone: readonly string[];
  readonly words: string;
  readonly before: ReadonlySet<string>;
}

export function planChange(
  was: OffAnswer,
  is: OffAnswer,
  done: ReadonlySet<string>,
  nameOf: (action: string) => string,
): PlanChange | null {
  const before = new Set(was.steps.map((s) => s.action));
  const now = new Set(is.steps.map((s) => s.action));
  const added = is.steps.filter((s) => !before.has(s.action)).map((s) => s.action);
  const gone = was.steps.filter((s) => !now.has(s.action) && !done.has(s.action)).map((s) => s.action);
  if (added.length === 0 && gone.length === 0) return null;
  const doneMinutes = was.steps
    .filter((s) => done.has(s.action) && !now.has(s.action))
    .reduce((sum, s) => sum + s.minutes, 0);
  const more = is.cost - (was.cost - doneMinutes);
  const parts = [
    added.length > 0
      ? `now also: ${fewWords(
          added.map((a) => lowerFirst(nameOf(a))),
          2,
        )}`
      : '',
    gone.length > 0
      ? `no longer: ${fewWords(
          gone.map((a) => lowerFirst(nameOf(a))),
          2,
        )}`
      : '',
    more === 0 ? '' : more > 0 ? `${clock(more)} h more` : `${clock(-more)} h less`,
  ];
  return { added, gone, words: `The plan changed: ${parts.filter((p) => p !== '').join(' · ')}.`, before };
}
