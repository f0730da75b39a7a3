/**
 * Getting it off: what do you want off, the least to undo, in order, beside the drawn graph. List, tags and drawing
 * share one choice (in the address) and one lit thing (under the pointer), so each lights the other.
 */
import { useEffect, useMemo, useRef, useState } from 'react';
import type { Need } from '../../domain/rig/rig-types.ts';
import { recording } from '../../journal/commands.ts';
import type { OffAnswer } from '../../planning/answers.ts';
import { JobSheet } from '../sheet/job-sheet.tsx';
import type { Theme } from '../sheet/theme.ts';
import { farWords } from '../sheet/title-block.tsx';
import { useKeys, useRoving } from '../sheet/use-roving.ts';
import { didIt as didStep } from '../state/acts.ts';
import type { JobListed } from '../state/client.ts';
import type { OffReply } from '../state/planner-talk.ts';
import { useOpenJob } from '../state/use-job.tsx';
import { usePlan } from '../state/use-plan.ts';
import { useScreen } from '../state/use-screen.ts';
import { lowerFirst } from '../words/names.ts';
import { AnswerHead } from './answer-head.tsx';
import { NothingWanted, OffDrawing } from './off-drawing.tsx';
import { OffKeys, PhoneKeys } from './off-keys.tsx';
import { type Asking, OffLeaves } from './off-leaves.tsx';
import { offRows } from './off-rows.ts';
import { type PlanChange, planChange } from './plan-change.ts';
import { RowsView } from './rows-view.tsx';

export interface ScreenProps {
  readonly theme: Theme;
  readonly onTheme: (theme: Theme) => void;
  readonly jobs: readonly JobListed[];
}

const KEYS = [
  ['↑ ↓', 'row'],
  ['Enter', 'did it'],
  ['s', 'stuck'],
  ['u', 'undo'],
  ['w', 'why not'],
  ['d', 'drawing'],
  ['/', 'find'],
] as const;

export type Way = 'apart' | 'off';

export function goalNeed(part: string, way: Way): Need {
  return way === 'apart' ? { apart: part } : { off: part };
}

export function OffScreen({ theme, onTheme, jobs }: ScreenProps) {
  const open = useOpenJob();
  const { job, record, undo } = open;
  const screen = useScreen();
  const goalPart = job.names.find(screen.get('goal') ?? '')?.id ?? null;
  const way: Way = screen.get('way') === 'off' ? 'off' : 'apart';
  const [lit, setLit] = useState<string | null>(null);
  const [asking, setAsking] = useState<Asking | null>(null);
  const [finding, setFinding] = useState(false);
  const field = useRef<HTMLInputElement>(null);
  const focusList = useRef(false);

  const ask = useMemo(
    () =>
      goalPart === null
        ? null
        : { kind: 'off' as const, goal: goalNeed(goalPart, way), marginPercent: job.marginPercent },
    [goalPart, way, job.marginPercent],
  );
  const plan = usePlan<OffReply>(job, ask);
  const answer = plan.reply?.answer ?? null;
  const change = usePlanChange(answer, `${goalPart} ${way}`, open);
  const rows = useMemo(
    () =>
      plan.reply === null
        ? []
        : offRows({
            job,
            answer: plan.reply.answer,
            wires: plan.reply.wires,
            doneShown: plan.reply.doneShown,
            before: change?.before ?? null,
          }),
    [job, plan.reply, change],
  );
  const firstOpen = rows.find((r) => r.kind === 'step' && r.open)?.id ?? null;
  const wanted = screen.get('at');
  const selected = rows.some((r) => r.id === wanted) ? wanted : firstOpen;
  const row = rows.find((r) => r.id === selected) ?? null;

  const select = (id: string) => screen.set({ at: id });
  const choose = (part: string, next: Way = way) => {
    setFinding(false);
    focusList.current = true;
    screen.set({ goal: part, way: next === 'apart' ? null : next, at: null, view: null }, true);
  };
  const didIt = (note?: string) => {
    if (row?.kind !== 'step') return;
    if (!row.open) setAsking({ kind: 'why-not', action: row.id });
    else if (row.cautions.length > 0 && note === undefined)
      setAsking({ kind: 'word', action: row.id, cautions: row.cautions });
    else {
      record(didStep(row.id, note));
      screen.set({ at: null });
    }
  };
  const find = () => {
    setFinding(true);
    requestAnimationFrame(() => field.current?.focus());
  };
  const acts = {
    didIt: () => (row?.kind === 'gate' ? select(row.clearing[0] ?? row.holds[0] ?? row.id) : didIt()),
    // Saved first; what touches it is asked after.
    stuck: () => {
      if (row?.kind !== 'step') return;
      record(recording('stuck', { action: row.id }));
      setAsking({ kind: 'stuck', action: row.id });
    },
    stopped: () =>
      row !== null && setAsking({ kind: 'stopped', subject: row.kind === 'step' ? row.id : (goalPart ?? row.id) }),
    whyNot: () => row?.kind === 'step' && setAsking({ kind: 'why-not', action: row.id }),
    other: (kind: 'first' | 'nothing' | 'damage' | 'fact' | 'anyway') =>
      setAsking({ kind, action: row?.kind === 'step' ? row.id : (goalPart ?? '') }),
    ways: () => setAsking({ kind: 'ways' }),
    undo,
    find,
  };
  const roving = useRoving(
    'Steps, in order',
    rows.map((r) => r.id),
    selected,
    select,
    () => acts.didIt(),
  );
  useKeys({
    '/': find,
    s: acts.stuck,
    u: undo,
    w: acts.whyNot,
    d: () => screen.set({ view: screen.get('view') === 'drawing' ? null : 'drawing' }),
  });

  // Found by the keyboard: carry on in the list.
  useEffect(() => {
    if (!focusList.current || selected === null || document.activeElement !== document.body) return;
    focusList.current = false;
    document.querySelector<HTMLElement>(`[data-row="${CSS.escape(selected)}"]`)?.focus();
  }, [selected]);
  const view = {
    goalPart,
    way,
    plan,
    answer,
    change,
    rows,
    row,
    selected,
    lit,
    setLit,
    select,
    choose,
    acts,
    firstOpen,
  };
  return (
    <>
      <JobSheet
        view="off"
        name={goalPart === null ? 'Getting it off' : `Getting it off: ${job.names.part(goalPart)}`}
        under={goalPart === null ? farWords(job) : lowerFirst(job.names.part(goalPart))}
        ofJob={['at']}
        keys={KEYS}
        theme={theme}
        onTheme={onTheme}
        jobs={jobs}
        list={
          <>
            <AnswerHead view={view} finding={finding} onFinding={setFinding} field={field} />
            {goalPart === null ? (
              <NothingWanted view={view} />
            ) : (
              <RowsView job={job} rows={rows} lit={lit} selected={selected} roving={roving} onHover={setLit} />
            )}
            {goalPart !== null && <OffKeys view={view} />}
            {goalPart !== null && <PhoneKeys view={view} />}
          </>
        }
        draw={<OffDrawing view={view} screen={screen} />}
      />
      <OffLeaves asking={asking} onAsk={setAsking} view={view} onWord={didIt} />
      <p className="out-of-sight" role="status">
        {[farWords(job), change?.words, open.fromOthers].filter((w) => w != null).join('. ')}
      </p>
    </>
  );
}

export interface OffView {
  readonly goalPart: string | null;
  readonly way: Way;
  readonly plan: ReturnType<typeof usePlan<OffReply>>;
  readonly answer: OffAnswer | null;
  readonly change: PlanChange | null;
  readonly rows: ReturnType<typeof offRows>;
  readonly row: ReturnType<typeof offRows>[number] | null;
  readonly selected: string | null;
  readonly firstOpen: string | null;
  readonly lit: string | null;
  readonly setLit: (id: string | null) => void;
  readonly select: (id: string) => void;
  readonly choose: (part: string, way?: Way) => void;
  readonly acts: {
    readonly didIt: () => void;
    readonly stuck: () => void;
    readonly stopped: () => void;
    readonly whyNot: () => void;
    readonly other: (kind: 'first' | 'nothing' | 'damage' | 'fact' | 'anyway') => void;
    readonly ways: () => void;
    readonly undo: () => void;
    readonly find: () => void;
  };
}

/** Compares each answer with the one before for the same goal; what a change added stays marked until the next. */
function usePlanChange(
  answer: OffAnswer | null,
  goal: string,
  { job }: ReturnType<typeof useOpenJob>,
): PlanChange | null {
  const was = useRef<{ readonly goal: string; readonly answer: OffAnswer } | null>(null);
  const [change, setChange] = useState<PlanChange | null>(null);
  useEffect(() => {
    if (answer === null) return;
    const before = was.current;
    was.current = { goal, answer };
    if (before === null || before.goal !== goal) {
      setChange(null);
      return;
    }
    if (before.answer === answer) return;
    const next = planChange(before.answer, answer, new Set(job.done.keys()), job.names.strip);
    if (next !== null) setChange(next);
  }, [answer, goal, job]);
  return change;
}
