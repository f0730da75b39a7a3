/**
 * What a device does with its own entries until the shop's machine has them: pure decisions, no network and no clock, so
 * that a test can play every order of cuts, repeats and late answers (docs/adr/0013).
 *
 *   what is sent     always the oldest ones, in the order made: a late copy of an earlier request then only repeats what
 *                    is there already, and a device's own entries keep their order whatever the network does
 *   acknowledged     not sent again, still kept until it is seen in the shop's own entries
 *   refused          an answer about the entry itself; kept and shown, holds up none of the others
 *   anything else    (away, not paired, disk full, not understood) nothing is wrong with the entry: sent again later
 *
 * Not chosen: dropping an entry as soon as it is acknowledged; the answer says it was taken in, the copy shows it.
 */
import type { Problem } from '../../domain/problem.ts';
import type { Result } from '../../domain/result.ts';
import type { EntryDraft, StoredEntry } from '../../journal/entry.ts';
import { journalProblem } from '../../journal/journal-problems.ts';
import { reconcile } from '../../journal/sync.ts';

export interface Outbox {
  /** In the order made. */
  readonly drafts: readonly EntryDraft[];
  readonly acknowledged: ReadonlySet<string>;
  readonly refused: ReadonlyMap<string, Problem>;
  /** So many of the next ones go one by one, since a batch that held them was refused. */
  readonly alone: number;
}

export const EMPTY_OUTBOX: Outbox = {
  drafts: [],
  acknowledged: new Set(),
  refused: new Map(),
  alone: 0,
};

const MOST_IN_BATCH = 500;
const MOST_TEXT = 4_000_000;

export type AnswerMeans = 'taken' | 'refused' | 'away' | 'held';

/** Answers about the thing sent. Every other one is about the way or the machine, and the thing is sent again. */
const ABOUT_THE_THING: ReadonlySet<string> = new Set([
  'BODY_UNREADABLE',
  'DIGEST_DIFFERS',
  'ENTRY_UNREADABLE',
  'ENTRY_ID_TAKEN',
  'PHOTO_KIND',
  'PHOTO_MIXED',
  'PHOTO_CUT',
  'PHOTO_TOO_LARGE',
  'UPLOAD_TOO_LARGE',
  'SOUND_KIND',
  'SOUND_TOO_LARGE',
]);

export function answerMeans(answer: Result<unknown>): AnswerMeans {
  if (answer.ok) return 'taken';
  if (ABOUT_THE_THING.has(answer.problem.code)) return 'refused';
  return answer.problem.code === 'AWAY' ? 'away' : 'held';
}

/** Adds what was recorded; what is there already (by id) is not added again. */
export function addDrafts(outbox: Outbox, drafts: readonly EntryDraft[]): Outbox {
  const had = new Set(outbox.drafts.map((d) => d.id));
  const fresh = drafts.filter((d) => !had.has(d.id));
  return fresh.length === 0 ? outbox : { ...outbox, drafts: [...outbox.drafts, ...fresh] };
}

/** What an earlier page left, or the shop lost again: it was made before anything that waits here, so it goes first. */
export function addEarlier(outbox: Outbox, drafts: readonly EntryDraft[]): Outbox {
  const had = new Set(outbox.drafts.map((d) => d.id));
  const fresh = drafts.filter((d) => !had.has(d.id));
  if (fresh.length === 0) return outbox;
  // Acknowledged once, and lost since: to be sent again.
  const acknowledged = new Set([...outbox.acknowledged].filter((id) => !fresh.some((d) => d.id === id)));
  return { ...outbox, acknowledged, drafts: [...fresh, ...outbox.drafts] };
}

/** What is sent next; empty when there is nothing to send. */
export function nextBatch(outbox: Outbox): readonly EntryDraft[] {
  const batch: EntryDraft[] = [];
  const most = outbox.alone > 0 ? 1 : MOST_IN_BATCH;
  let text = 0;
  for (const draft of outbox.drafts) {
    if (outbox.acknowledged.has(draft.id) || outbox.refused.has(draft.id)) continue;
    text += draft.body.length;
    if (batch.length === most || (batch.length > 0 && text > MOST_TEXT)) break;
    batch.push(draft);
  }
  return batch;
}

/** `go-on`: ask for the next batch at once. `wait`: try again later. */
export function afterAnswer(
  outbox: Outbox,
  sent: readonly EntryDraft[],
  answer: Result<unknown>,
): { readonly outbox: Outbox; readonly next: 'go-on' | 'wait' } {
  if (answer.ok) {
    const acknowledged = new Set([...outbox.acknowledged, ...sent.map((d) => d.id)]);
    const alone = Math.max(0, outbox.alone - sent.length);
    return { outbox: { ...outbox, acknowledged, alone }, next: 'go-on' };
  }
  if (answerMeans(answer) !== 'refused') return { outbox, next: 'wait' };
  const [first, ...more] = sent;
  if (first === undefined || more.length > 0) return { outbox: { ...outbox, alone: sent.length }, next: 'go-on' };
  const refused = new Map(outbox.refused).set(first.id, answer.problem);
  return { outbox: { ...outbox, refused, alone: Math.max(0, outbox.alone - 1) }, next: 'go-on' };
}

/** The shop's entries were seen: ours among them have arrived for good. The same id with other content is a clash. */
export function afterArrivals(
  outbox: Outbox,
  arrived: readonly Pick<StoredEntry & { readonly id: EntryDraft['id'] }, 'id' | 'digest'>[],
): { readonly outbox: Outbox; readonly done: readonly string[] } {
  const { accepted, clashes } = reconcile(outbox.drafts, arrived);
  if (accepted.length === 0 && clashes.length === 0) return { outbox, done: [] };
  const done = new Set(accepted.map((d) => d.id as string));
  const refused = new Map(outbox.refused);
  for (const d of clashes)
    refused.set(d.id, journalProblem('ENTRY_ID_TAKEN', `the id ${d.id} belongs to another entry with other content`));
  const acknowledged = new Set([...outbox.acknowledged].filter((id) => !done.has(id)));
  const drafts = outbox.drafts.filter((d) => !done.has(d.id));
  return { outbox: { ...outbox, drafts, acknowledged, refused }, done: [...done] };
}

/**
 * The shop's journal was read to its end: what it acknowledged and does not hold counts for nothing and is sent again. (The
 * shop may have been put back from a backup in between; where the reading only came too early, sending again is harmless.)
 */
export function forgotten(outbox: Outbox): Outbox {
  return { ...outbox, acknowledged: new Set() };
}
