/**
 * Upgrades of old entries, run on reading; what is stored stays as it was. Each step leads one version up and is pure.
 * A released upgrade is never edited. Not chosen: rewriting the journal once, which would break every digest.
 */
import type { z } from 'zod';
import { failed, ok, type Result } from '../domain/result.ts';
import type { Entry } from './entry.ts';
import { splitKind } from './entry.ts';
import { journalProblem } from './journal-problems.ts';
import { type DataOf, isKindName, KINDS, type KindName } from './kinds/kinds.ts';
import { stepDoneV1, type stepDoneV2 } from './kinds/step-kinds.ts';

interface Upgrade {
  readonly from: z.ZodType;
  readonly up: (data: never) => unknown;
}

function upgrade<S extends z.ZodType>(from: S, up: (data: z.infer<S>) => unknown): Upgrade {
  return { from, up: up as (data: never) => unknown };
}

/** Old full kind -> shape of then, and the way to the next version. */
export const UPGRADES: Readonly<Record<string, Upgrade>> = {
  'step-done.v1': upgrade(stepDoneV1, stepDoneTo2),
};

/** v1 knew only `unplanned: true`; silence meant that nobody said. Forcing carried no words: the harm was not noted. */
function stepDoneTo2(d: z.infer<typeof stepDoneV1>): z.infer<typeof stepDoneV2> {
  return {
    action: d.action,
    planned: d.unplanned === undefined ? null : !d.unplanned,
    ...(d.forced === true && { forced: { harm: null } }),
    ...(d.note !== undefined && { note: d.note }),
    ...(d.minutes !== undefined && { minutes: d.minutes }),
  };
}

export type Told =
  | { [K in KindName]: { readonly is: 'known'; readonly name: K; readonly data: DataOf<K> } }[KindName]
  | { readonly is: 'unknown' }
  /** A kind we know in a version we do not. */
  | { readonly is: 'newer' }
  | { readonly is: 'unreadable'; readonly why: string };

/** What an entry tells in today's words. Unknown, newer and unreadable ones are told apart and never dropped. */
export function tell(kind: string, data: unknown): Told {
  const { name, version } = splitKind(kind);
  if (!isKindName(name)) return { is: 'unknown' };
  const row = KINDS[name];
  if (version > row.version) return { is: 'newer' };
  let now = data;
  for (let v = version; v < row.version; v += 1) {
    const step = UPGRADES[`${name}.v${v}`];
    if (step === undefined) return { is: 'unreadable', why: `nothing leads from ${name}.v${v} onwards` };
    const old = step.from.safeParse(now);
    if (!old.success) return { is: 'unreadable', why: issueText(old.error) };
    now = step.up(old.data as never);
  }
  const read = row.shape.safeParse(now);
  if (!read.success) return { is: 'unreadable', why: issueText(read.error) };
  return { is: 'known', name, data: read.data } as Told;
}

/** Checks data for a new entry of today's version; the first fault becomes a Problem with its place. */
export function readData<K extends KindName>(name: K, data: unknown): Result<DataOf<K>> {
  const read = KINDS[name].shape.safeParse(data);
  if (read.success) return ok(read.data as DataOf<K>);
  const issue = read.error.issues[0];
  const where = issue === undefined || issue.path.length === 0 ? name : issue.path.join('.');
  return failed(journalProblem('ENTRY_DATA', `${name}: ${issueText(read.error)}`, undefined, where));
}

export function issueText(error: z.ZodError): string {
  const issue = error.issues[0];
  if (issue === undefined) return 'does not fit its kind';
  const where = issue.path.join('.');
  const what = issue.message.replace(/^Invalid input: /, '').replace(/^Invalid /, 'unexpected ');
  return where === '' ? what : `${where}: ${what}`;
}

export function isOf(entry: Entry, name: KindName): boolean {
  return splitKind(entry.kind).name === name;
}
