/**
 * `fold(entries, from?) -> State`. The one meaning of the journal, shared by server, browser and command line.
 *
 *   fold(a ++ b) = fold(b, fold(a))
 *
 * Entries come in order of `seq`. Without withdrawals a batch is laid onto the state before it; a batch that takes
 * something back folds the whole log again (docs/adr/0004), so both ways are the same by construction. Never throws on
 * what was recorded: unknown kinds, newer versions and data that do not fit are kept, shown and counted.
 * Not chosen: checking the rig's rules here (see `contradictions.ts`), since the fold must not change when they do.
 */
import { APPLY_CAPTURE } from './apply-capture.ts';
import { APPLY_CUSTODY } from './apply-custody.ts';
import { APPLY_RECORD } from './apply-record.ts';
import { APPLY_RIG } from './apply-rig.ts';
import { APPLY_STEPS } from './apply-steps.ts';
import { APPLY_TRANSFERS } from './apply-transfers.ts';
import type { Entry, Head } from './entry.ts';
import { holding, takesBack } from './holding.ts';
import type { DataOf, KindName } from './kinds/kinds.ts';
import { EMPTY_STATE } from './make-state.ts';
import type { State } from './state.ts';
import { tell } from './upgrades.ts';
import { Work } from './work.ts';

/** Every kind has its function, or this does not compile. */
const APPLY: { readonly [K in KindName]: (w: Work, e: Entry, data: DataOf<K>) => void } = {
  ...APPLY_RECORD,
  ...APPLY_STEPS,
  ...APPLY_RIG,
  ...APPLY_CUSTODY,
  ...APPLY_TRANSFERS,
  ...APPLY_CAPTURE,
};

export function fold(entries: readonly Entry[], from: State = EMPTY_STATE): State {
  if (entries.length === 0) return from;
  if (entries.some(takesBack)) return foldWhole([...from.log, ...entries]);
  const w = new Work(from);
  const log = w.list('log');
  for (const e of entries) {
    log.push(e);
    apply(w, e);
  }
  w.d.head = headAfter(from.head, entries);
  return w.finish();
}

function foldWhole(log: readonly Entry[]): State {
  const { order, withdrawn } = holding(log);
  const w = new Work(EMPTY_STATE);
  for (const e of order) apply(w, e);
  w.d.log = log;
  w.d.withdrawn = withdrawn;
  w.d.head = headAfter(EMPTY_STATE.head, log);
  return w.finish();
}

function headAfter(head: Head, entries: readonly Entry[]): Head {
  const last = entries.findLast((e) => e.pending !== true);
  return last === undefined ? head : { seq: last.seq, hash: last.hash };
}

function apply(w: Work, e: Entry): void {
  const told = tell(e.kind, e.data);
  switch (told.is) {
    case 'known':
      (APPLY[told.name] as (w: Work, e: Entry, data: unknown) => void)(w, e, told.data);
      return;
    case 'unknown':
      w.list('unknown').push(e);
      return;
    case 'newer':
      w.list('newer').push(e);
      return;
    case 'unreadable':
      w.list('unreadable').push({ entry: e, why: told.why });
      return;
    default:
      told satisfies never;
  }
}
