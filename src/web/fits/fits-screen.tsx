/** What fits next: what may go back now, what each would lock out or hide, beside the drawing. */
import { useMemo, useState } from 'react';
import type { Command } from '../../journal/commands.ts';
import { Recorded } from '../off/off-keys.tsx';
import type { ScreenProps } from '../off/off-screen.tsx';
import { JobSheet } from '../sheet/job-sheet.tsx';
import { farWords } from '../sheet/title-block.tsx';
import { useKeys, useRoving } from '../sheet/use-roving.ts';
import type { JobView } from '../state/job-view.ts';
import { placeOf } from '../state/place-of.ts';
import type { FitsReply } from '../state/planner-talk.ts';
import { useOpenJob } from '../state/use-job.tsx';
import { type Plan, usePlan } from '../state/use-plan.ts';
import { useScreen } from '../state/use-screen.ts';
import { FitsDrawing } from './fits-drawing.tsx';
import { FitsHead, HANDS, things } from './fits-head.tsx';
import { FitsKeys } from './fits-keys.tsx';
import { type Asking, FitsLeaves } from './fits-leaves.tsx';
import { type FitsRow, fitsRows } from './fits-rows.ts';
import { FitsRowsView } from './fits-rows-view.tsx';

export interface FitsView {
  readonly rows: readonly FitsRow[];
  readonly all: readonly FitsRow[];
  readonly row: FitsRow | null;
  readonly selected: string | null;
  readonly lit: string | null;
  readonly setLit: (id: string | null) => void;
  readonly select: (id: string) => void;
  /** Two digits of an assembly, or `all`. */
  readonly place: string;
  readonly hand: string;
  readonly plan: Plan<FitsReply>;
}

const KEYS = [
  ['↑ ↓', 'row'],
  ['Enter', 'fitted'],
  ['t', 'trial fit'],
  ['w', 'why not'],
  ['u', 'undo'],
  ['/', 'ask'],
] as const;
const ASK = { kind: 'fits' } as const;

export function FitsScreen({ theme, onTheme, jobs }: ScreenProps) {
  const open = useOpenJob();
  const { job, record, undo } = open;
  const screen = useScreen();
  const plan = usePlan<FitsReply>(job, ASK);
  const [lit, setLit] = useState<string | null>(null);
  const [asking, setAsking] = useState<Asking | null>(null);
  const all = useMemo(() => (plan.reply === null ? [] : fitsRows(job, plan.reply.answer)), [job, plan.reply]);
  const place = screen.get('place') ?? placeOfWork(job, all);
  const hand = HANDS.find((h) => h.id === screen.get('hand'))?.id ?? '';
  const rows = useMemo(
    () => all.filter((r) => (place === 'all' || r.place === place) && (hand === '' || r.hand === hand)),
    [all, place, hand],
  );
  const wanted = screen.get('fit');
  const selected = rows.some((r) => r.id === wanted) ? wanted : (rows[0]?.id ?? null);
  const row = rows.find((r) => r.id === selected) ?? null;
  const select = (id: string) => screen.set({ fit: id });

  const fitIt = (stage: 'final' | 'trial', sure = false) => {
    if (row === null) return;
    if (row.harmful && !sure && stage === 'final') setAsking({ kind: 'sure', action: row.id });
    else record(fitCommand(row.id, stage));
  };
  const isTrial = row !== null && job.done.get(row.id)?.trial === true;
  const tryIt = () => {
    if (row !== null && isTrial) record({ kind: 'step', action: row.id, trial: true });
    else fitIt('trial');
  };
  const roving = useRoving(
    'What fits now',
    rows.map((r) => r.id),
    selected,
    select,
    () => fitIt('final'),
  );
  const why = () => setAsking(row === null ? { kind: 'ask', action: '' } : { kind: 'why', action: row.id });
  const askOther = () => setAsking({ kind: 'ask', action: '' });
  useKeys({ '/': askOther, t: tryIt, u: undo, w: why });
  const view: FitsView = { rows, all, row, selected, lit, setLit, select, place, hand, plan };
  const stopped = () => row !== null && setAsking({ kind: 'stopped', action: row.id });

  return (
    <>
      <JobSheet
        view="fits"
        count={plan.reply === null ? undefined : String(things(all))}
        ofJob={['fit', 'place', 'hand']}
        keys={KEYS}
        theme={theme}
        onTheme={onTheme}
        jobs={jobs}
        list={
          <>
            <FitsHead view={view} screen={screen} onAsk={askOther} />
            <FitsRowsView job={job} view={view} roving={roving} />
            <Recorded />
            <FitsKeys
              row={row}
              isTrial={isTrial}
              onFitted={() => fitIt('final')}
              onTrial={tryIt}
              onWhy={why}
              onStopped={stopped}
              onAsk={askOther}
            />
          </>
        }
        draw={<FitsDrawing view={view} screen={screen} />}
      />
      <FitsLeaves asking={asking} onAsk={setAsking} row={row} onSure={() => fitIt('final', true)} />
      <p className="out-of-sight" role="status">
        {[farWords(job), open.fromOthers].filter((w) => w != null).join('. ')}
      </p>
    </>
  );
}

/** Where work is going on; everywhere when nothing fits there. */
function placeOfWork(job: JobView, all: readonly FitsRow[]): string {
  const place = job.lastDone === null ? '' : placeOf(job, job.lastDone);
  return all.some((r) => r.place === place) ? place : 'all';
}

function fitCommand(action: string, stage: 'final' | 'trial'): Command {
  if (action.startsWith('set:')) return { kind: 'step', action, planned: true };
  return stage === 'trial' ? { kind: 'trial-fit', action } : { kind: 'refit', action, stage };
}
