/** The last thing this person recorded here, in words, with its undo. One gesture may be several entries of one moment. */
import type { Entry } from '../../journal/entry.ts';
import type { State } from '../../journal/state.ts';
import { deviceId } from '../state/keep.ts';
import { useOpenJob } from '../state/use-job.tsx';
import { hourOf } from '../words/figures.ts';
import { historyWords } from './part-facts.ts';

const HERE =
  /^(pin-set|sheet-added|photo-taken|nothing-here|measured|thickness-noted|dial-noted|datum-read|note|tagged|tag-taken-off|joint-noted|fact-settled|stop-cleared)\./;
const GOES_TOGETHER = /^(photo-taken|sheet-added|pin-set|nothing-here)\./;

/** Newest first; entries made together at one moment are one gesture. Empty: nothing of theirs can be taken back here. */
export function lastGesture(state: State, person: string, device: string): readonly Entry[] {
  const own = state.log.filter((e) => e.by === person && e.device === device && !state.withdrawn.has(e.id));
  const last = own.at(-1);
  if (last === undefined || !HERE.test(last.kind)) return [];
  const before = own.at(-2);
  const isOne =
    before !== undefined &&
    before.at === last.at &&
    before.kind !== last.kind &&
    [before, last].every((e) => GOES_TOGETHER.test(e.kind));
  return isOne ? [last, before] : [last];
}

export interface TakeBack {
  readonly words: string | null;
  readonly at: string;
  readonly pending: boolean;
  readonly act: () => void;
  readonly can: boolean;
}

export function useTakeBack(): TakeBack {
  const { job, snapshot, person, record, undo } = useOpenJob();
  const gesture = lastGesture(snapshot.state, person, deviceId());
  const first = gesture.at(-1);
  if (first === undefined)
    return {
      words: job.last?.words ?? null,
      at: job.last?.at ?? '',
      pending: job.last?.pending ?? false,
      act: undo,
      can: job.last !== null,
    };
  return {
    words: historyWords(first, job).what,
    at: first.at,
    pending: gesture.some((e) => e.pending === true),
    act: () => record(...gesture.map((e) => ({ kind: 'withdraw', entry: e.id }) as const)),
    can: true,
  };
}

export function RecordedHere({ back }: { readonly back: TakeBack }) {
  const { fromOthers } = useOpenJob();
  return (
    <div className="recorded">
      <div className="both">
        {back.words === null ? (
          <span>Nothing recorded by you yet.</span>
        ) : (
          <span role="status">
            {hourOf(back.at)} · <b>{back.words}</b>
            {back.pending ? ' · saved here' : ''}
          </span>
        )}
        {fromOthers !== null && <span className="others">{fromOthers}</span>}
      </div>
      <button type="button" className="link" disabled={!back.can} onClick={back.act}>
        Undo
      </button>
    </div>
  );
}
