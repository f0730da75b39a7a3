/**
 * One whole number for the three things that are compared: irreversible actions first, then newly disturbed settings,
 * then minutes (and, where facts count as actions, the number of facts last). Exact as long as everything together stays
 * below 2^50, which the core demands; beyond that the question is refused rather than rounded.
 */
import type { Question } from './question.ts';

export interface Weights {
  readonly fact: number;
  readonly minute: number;
  readonly setting: number;
  readonly irreversible: number;
}

export interface Price {
  readonly irreversible: number;
  readonly disturbed: number;
  readonly minutes: number;
}

const MOST = 2 ** 50;

/** `copies`: how many changes of each kind the problem offers. Null when the numbers grow too large. */
export function weightsFor(q: Question, copies: readonly number[]): Weights | null {
  const facts = q.acts.filter((a) => a < 0).length;
  const minute = facts + 1;
  let minutes = 0;
  for (const m of q.minutes) minutes += m;
  q.changes.forEach((c, k) => (minutes += c.minutes * Math.max(1, copies[k] ?? 1)));
  const setting = minute * (minutes + 1);
  const irreversible = setting * (q.settings.length + 1);
  const total = irreversible * (1 + q.irreversible.reduce((sum, i) => sum + i, 0));
  return total <= MOST ? { fact: 1, minute, setting, irreversible } : null;
}

export function weigh(price: Price, w: Weights): number {
  return price.irreversible * w.irreversible + price.disturbed * w.setting + price.minutes * w.minute;
}

export function unweigh(total: number, w: Weights): Price {
  const irreversible = Math.floor(total / w.irreversible);
  const disturbed = Math.floor((total - irreversible * w.irreversible) / w.setting);
  const rest = total - irreversible * w.irreversible - disturbed * w.setting;
  return { irreversible, disturbed, minutes: Math.floor(rest / w.minute) };
}

/** Less than zero when `a` is to be preferred. */
export function comparePrices(a: Price, b: Price): number {
  return a.irreversible - b.irreversible || a.disturbed - b.disturbed || a.minutes - b.minutes;
}

export function priceOf(q: Question, moves: readonly number[]): Price {
  const settings = new Set<number>();
  let irreversible = 0;
  let minutes = 0;
  for (const m of moves) {
    if (m < 0) {
      minutes += q.changes[~m]!.minutes;
      continue;
    }
    minutes += q.minutes[m]!;
    irreversible += q.irreversible[m]!;
    for (const s of q.disturbs[m]!) settings.add(s);
  }
  return { irreversible, disturbed: settings.size, minutes };
}
