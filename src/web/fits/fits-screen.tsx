/** What fits next: what may go back now, what each would lock out or hide, beside the drawing. */
import { useMemo, useState } from 'react';
import type { Command } from '../../journal/commands.ts';
import { recording } from '../../journal/commands.ts';
import { Stops } from '../off/answer-head.tsx';
import { Recorded } from '../off/off-keys.tsx';
import { Refused, WordsLeaf } from '../off/off-leaves.tsx';
import type { ScreenProps } from '../off/off-screen.tsx';
import { Leaf } from '../sheet/leaf.tsx';
import { PhoneTop } from '../sheet/phone-top.tsx';
import { Sheet } from '../sheet/sheet.tsx';
import { farWords, Pick, TitleBlock } from '../sheet/title-block.tsx';
import { useKeys, useRoving } from '../sheet/use-roving.ts';
import type { JobView } from '../state/job-view.ts';
import type { FitsReply } from '../state/planner-talk.ts';
import { useOpenJob } from '../state/use-job.tsx';
import { type Plan, usePlan } from '../state/use-plan.ts';
import { type Screen, useScreen } from '../state/use-screen.ts';
import { count } from '../words/figures.ts';
import { lowerFirst } from '../words/names.ts';
import { AskFitLeaf } from './ask-fit-leaf.tsx';
import { FitsDrawing } from './fits-drawing.tsx';
import { type FitsRow, fitsRows, placeOf } from './fits-rows.ts';
import { FitsRowsView } from './fits-rows-view.tsx';

type Asking = { readonly kind: 'sure' | 'stopped' | 'ask' | 'why'; readonly action: string };

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
  const { job, person, choosePerson, record, undo, network } = open;
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
  const roving = useRoving(
    'What fits now',
    rows.map((r) => r.id),
    selected,
    select,
    () => fitIt('final'),
  );
  const why = () => setAsking(row === null ? { kind: 'ask', action: '' } : { kind: 'why', action: row.id });
  const askOther = () => setAsking({ kind: 'ask', action: '' });
  useKeys({ '/': askOther, t: () => fitIt('trial'), u: undo, w: why });
  const view: FitsView = { rows, all, row, selected, lit, setLit, select, place, hand, plan };
  const stopped = () => row !== null && setAsking({ kind: 'stopped', action: row.id });

  return (
    <>
      <Sheet
        view="fits"
        search={screen.search}
        counts={{ fits: plan.reply === null ? undefined : String(things(all)) }}
        invented={job.invented}
        keys={KEYS}
        theme={theme}
        onTheme={onTheme}
        showDraw={screen.get('show') === 'drawing'}
        top={
          <PhoneTop
            sheet="What fits next"
            under={farWords(job)}
            screen={screen}
            light={{ theme, onTheme }}
            jobs={jobs}
          />
        }
        list={
          <>
            <FitsHead view={view} screen={screen} onAsk={askOther} />
            <FitsRowsView job={job} view={view} roving={roving} />
            <Recorded />
            <div className="acts">
              <button type="button" className="key go" disabled={row === null} onClick={() => fitIt('final')}>
                Fitted
              </button>
              <button type="button" className="key" disabled={row === null} onClick={() => fitIt('trial')}>
                Trial fit
              </button>
              <button type="button" className="key" onClick={why}>
                Why not?
              </button>
              <button type="button" className="key" disabled={row === null} onClick={stopped}>
                Stopped here
              </button>
            </div>
            <div className="bottom">
              <button type="button" className="key" onClick={why}>
                Why not?
              </button>
              <button type="button" className="key go" disabled={row === null} onClick={() => fitIt('final')}>
                Fitted
              </button>
              <button type="button" className="key" disabled={row === null} onClick={() => fitIt('trial')}>
                Trial fit
              </button>
            </div>
          </>
        }
        draw={<FitsDrawing view={view} screen={screen} />}
        title={
          <TitleBlock
            job={job}
            jobs={jobs}
            sheet="What fits next"
            person={person}
            network={network}
            onJob={(id) => screen.set({ job: id, fit: null, place: null, hand: null }, true)}
            onPerson={choosePerson}
          />
        }
      />
      <FitsLeaves asking={asking} onAsk={setAsking} row={row} onSure={() => fitIt('final', true)} />
      <p className="out-of-sight" role="status">
        {[farWords(job), open.fromOthers].filter((w) => w != null).join('. ')}
      </p>
    </>
  );
}

const HANDS = [
  { id: '', name: 'Both sides', more: null },
  { id: 'L', name: 'Port', more: null },
  { id: 'C', name: 'Centre', more: null },
  { id: 'R', name: 'Starboard', more: null },
] as const;

/** Rows stand for several things where they are alike. */
function things(rows: readonly FitsRow[]): number {
  return rows.reduce((sum, r) => sum + Math.max(1, r.alike.length), 0);
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

interface LeavesProps {
  readonly asking: Asking | null;
  readonly onAsk: (asking: Asking | null) => void;
  readonly row: FitsRow | null;
  readonly onSure: () => void;
}

function FitsLeaves({ asking, onAsk, row, onSure }: LeavesProps) {
  const { job, record } = useOpenJob();
  const leave = () => onAsk(null);
  if (asking === null) return <Refused />;
  if (asking.kind === 'ask') return <AskFitLeaf action={null} onLeave={leave} />;
  if (asking.kind === 'why') return <AskFitLeaf action={asking.action} onLeave={leave} />;
  if (asking.kind === 'stopped') {
    return (
      <WordsLeaf
        title="Stopped here"
        lede={`${job.names.refit(asking.action)}. How is it left? It stays on top of every sheet until somebody clears it.`}
        label="How it is left"
        go="Stopped here"
        quick={['nut finger-tight', 'in place, not wired', 'held by pins', 'wet with primer']}
        onLeave={leave}
        onWords={(state) => record(recording('stopped-here', { subject: asking.action, state }))}
      />
    );
  }
  if (row === null) return null;
  return <SureLeaf row={row} onLeave={leave} onSure={onSure} />;
}

/** It would lock out or hide: said before it is recorded. A look that is done can be said here, by whoever did it. */
function SureLeaf({
  row,
  onLeave,
  onSure,
}: {
  readonly row: FitsRow;
  readonly onLeave: () => void;
  readonly onSure: () => void;
}) {
  const { job, record } = useOpenJob();
  return (
    <Leaf title={row.name} onLeave={onLeave}>
      <p className="lede">{row.says.map((s) => (s.strong ? <b key={s.text}>{s.text}</b> : s.text))}</p>
      {row.entry.hides.length > 0 && (
        <>
          <h3>To be seen before it is fitted</h3>
          <div className="choices wide">
            {row.entry.hides.map((look) => (
              <button
                type="button"
                key={look}
                className="key"
                onClick={() => {
                  record({ kind: 'sign-look', look });
                  onLeave();
                }}
              >
                It was looked at: {lowerFirst(job.names.look(look))}
                <small>with your name, unsigned; it counts where the lead or an inspector says it</small>
              </button>
            ))}
          </div>
        </>
      )}
      <p className="lede">If the part is in already, record it: what happened is kept as it happened.</p>
      <div className="keys-line">
        <button type="button" className="key go" onClick={onLeave}>
          Leave it out
        </button>
        <button
          type="button"
          className="key sig"
          onClick={() => {
            onSure();
            onLeave();
          }}
        >
          It is fitted
        </button>
      </div>
    </Leaf>
  );
}

function FitsHead({
  view,
  screen,
  onAsk,
}: {
  readonly view: FitsView;
  readonly screen: Screen;
  readonly onAsk: () => void;
}) {
  const { job } = useOpenJob();
  const { plan, rows, all } = view;
  const bad = things(rows.filter((r) => r.harmful));
  const places = [...new Set(all.map((r) => r.place))].filter((p) => p !== '').sort();
  const choices = [
    { id: 'all', name: 'Everywhere', more: count(all.length, 'row') },
    ...places.map((p) => ({
      id: p,
      name: placeName(job.assemblies.get(p), p),
      more: count(all.filter((r) => r.place === p).length, 'row'),
    })),
  ];
  const order = plan.reply?.answer.order;
  return (
    <div className="wanted">
      <div className="lead-line">
        <div className="eyebrow">
          <Pick
            label="Where"
            value={view.place}
            choices={choices}
            onChange={(id) => screen.set({ place: id, fit: null })}
          />{' '}
          <Pick
            label="Side"
            value={view.hand}
            choices={HANDS}
            onChange={(id) => screen.set({ hand: id === '' ? null : id, fit: null })}
          />
        </div>
      </div>
      <h1 className="with-link">
        What fits next
        <button type="button" className="link" onClick={onAsk}>
          Ask about another part
        </button>
      </h1>
      <div className="answer">
        {plan.reply === null ? (
          <>
            <div className="big quiet" aria-hidden="true">
              …
            </div>
            <div className="proof" role="status">
              {plan.problem ? `${plan.problem.message} ${plan.problem.remedy}` : 'looking what fits'}
            </div>
          </>
        ) : (
          <>
            <div className="big">
              {things(rows)}
              <small>{rows.length === 1 ? 'fits now' : 'fit now'}</small>
            </div>
            {bad > 0 && (
              <div className="big signal">
                {bad}
                <small>would lock out or hide</small>
              </div>
            )}
            <div className="proof">
              <span>
                <b>{count(job.positions.off, 'position')} still off</b>
              </span>
              <span>
                {plan.working
                  ? 'looking again'
                  : order === null
                    ? (plan.reply.answer.reason ?? 'no order goes through')
                    : `an order of ${order?.length ?? 0} steps locks nothing out`}
              </span>
            </div>
          </>
        )}
      </div>
      <Stops />
    </div>
  );
}

export function placeName(name: string | undefined, id: string): string {
  return name === undefined ? `Assembly ${id}` : name;
}
