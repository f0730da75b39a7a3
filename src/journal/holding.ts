/**
 * Which entries hold, and in which place (docs/adr/0004). Decided from the newest entry backwards, so that a withdrawal that
 * is itself withdrawn has no effect. A correction of the same kind takes the place of what it corrects.
 *
 *   log      A  B  w(B)  C corrects A          holds   C  (in A's place)   then w(B), which does nothing
 */
import type { EntryId } from '../domain/ids.ts';
import type { Entry } from './entry.ts';
import { splitKind } from './entry.ts';
import type { Withdrawal } from './state.ts';

export interface Holding {
  /** Entries that hold, each in the place where it counts. */
  readonly order: readonly Entry[];
  readonly withdrawn: ReadonlyMap<string, Withdrawal>;
}

export function takesBack(e: Entry): boolean {
  return e.corrects !== undefined || e.kind.startsWith('entry-withdrawn.v');
}

export function holding(log: readonly Entry[]): Holding {
  const places = new Map<string, number>();
  log.forEach((e, i) => {
    if (!places.has(e.id)) places.set(e.id, i);
  });
  const content: number[] = log.map((_, i) => i);
  const empty = new Uint8Array(log.length);
  const withdrawn = new Map<string, Withdrawal>();
  const earlier = (id: string | undefined, than: number): number => {
    const at = id === undefined ? undefined : places.get(id);
    return at !== undefined && at < than ? at : -1;
  };

  for (let i = log.length - 1; i >= 0; i -= 1) {
    const e = log[i] as Entry;
    const fate = withdrawn.get(e.id);
    if (fate?.how === 'withdrawn') continue;
    if (fate === undefined && e.kind.startsWith('entry-withdrawn.v')) {
      const data = e.data as { entry?: string; why?: string } | null;
      const at = earlier(data?.entry, i);
      const target = log[at];
      if (target !== undefined && !withdrawn.has(target.id)) {
        withdrawn.set(target.id, { by: e.id, how: 'withdrawn', ...(data?.why !== undefined && { why: data.why }) });
        empty[at] = 1;
      }
    }
    if (e.corrects !== undefined) correct(log, i, earlier(e.corrects, i), content, empty, withdrawn);
  }
  const order = log
    .map((_, i) => i)
    .filter((i) => empty[i] === 0)
    .map((i) => log[content[i] ?? i] as Entry);
  return { order, withdrawn };
}

function correct(
  log: readonly Entry[],
  at: number,
  target: number,
  content: number[],
  empty: Uint8Array,
  withdrawn: Map<string, Withdrawal>,
): void {
  const e = log[at] as Entry;
  const old = log[target];
  if (old === undefined) return;
  const fate = withdrawn.get(old.id);
  const holder = (log[content[at] ?? at] as Entry).id;
  if (splitKind(old.kind).name !== splitKind(e.kind).name) {
    if (fate === undefined) {
      withdrawn.set(old.id, { by: e.id, how: 'withdrawn' });
      empty[target] = 1;
    }
    return;
  }
  empty[at] = 1;
  if (fate === undefined) {
    withdrawn.set(old.id, { by: holder as EntryId, how: 'corrected' });
    content[target] = content[at] ?? at;
  } else if (!withdrawn.has(e.id)) {
    // Its target was withdrawn, or corrected again, after this correction was made.
    withdrawn.set(e.id, { by: fate.by, how: fate.how });
  }
}
