/**
 * The other half of a robbery, for the other aircraft's own journal. Kept on this device first and sent at once where the
 * shop's machine answers; otherwise it waits with the rest that is kept for that job.
 */
import type { DataOf } from '../../journal/kinds/kinds.ts';
import { unseenDraft } from '../state/acts.ts';
import { sendDrafts } from '../state/client.ts';
import { dropPending, keepPending } from '../state/keep.ts';

export async function recordInOther(
  job: string,
  kind: 'robbed' | 'robbed-returned',
  data: DataOf<'robbed'> | DataOf<'robbed-returned'>,
  by: string,
  day: string,
): Promise<void> {
  const draft = unseenDraft(kind, data, by, day);
  if (!draft.ok) throw new Error(`internal: ${draft.problem.message}; report it`);
  await keepPending(job, [draft.value]);
  const sent = await sendDrafts(job, [draft.value]);
  if (sent.ok) await dropPending([draft.value.id]);
}

/** An id for a transfer or a place: ten bytes of chance, readable aloud if need be. */
export function chanceId(head: string): string {
  const bytes = crypto.getRandomValues(new Uint8Array(10));
  return `${head}-${[...bytes].map((b) => b.toString(16).padStart(2, '0')).join('')}`;
}
