/** What does not add up or is owed: short, too many, taken twice, still inside, robbed. Calm, in words, with what ends it. */
import { useState } from 'react';
import { recording } from '../../journal/commands.ts';
import { openDifferences, openTransfers, overdrawn, stillInside } from '../../journal/custody.ts';
import type { Transfer } from '../../journal/custody-state.ts';
import type { State } from '../../journal/state.ts';
import { nameIn } from '../find/index-of.ts';
import { useOpenJob } from '../state/use-job.tsx';
import { count } from '../words/figures.ts';
import type { Asking } from './bag-acts.ts';
import { recordInOther } from './other-job.ts';

interface Props {
  readonly state: State;
  readonly jobs: readonly { readonly id: string; readonly name: string }[];
  readonly isOpen: boolean;
  readonly onAsk: (asking: Asking) => void;
}

export function Matters({ state, jobs, isOpen, onAsk }: Props) {
  const [open, setOpen] = useState(isOpen);
  const differences = openDifferences(state);
  const over = overdrawn(state);
  const owed = openTransfers(state);
  const inside = stillInside(state);
  const all = differences.length + over.length + owed.length + inside.length;
  if (all === 0) return null;
  return (
    <details className="matters" open={open} onToggle={(e) => setOpen(e.currentTarget.open)}>
      <summary>{count(all, 'thing')} to settle: counts, debts, what is still inside</summary>
      {differences.map((d) => (
        <Line key={d.id} word={d.is < d.was ? 'SHORT' : 'OVER'} title={nameIn(state, d.lot)}>
          {d.was} noted, {d.is} counted
          <button type="button" className="key" onClick={() => onAsk({ kind: 'explain', difference: d.id })}>
            Say why
          </button>
        </Line>
      ))}
      {over.map((o) => (
        <Line key={o.lot} word="TOO MANY" title={nameIn(state, o.lot)}>
          {-o.count} more taken than there were
          <button type="button" className="key" onClick={() => onAsk({ kind: 'count', thing: o.lot })}>
            Count
          </button>
        </Line>
      ))}
      {inside.map((i) => (
        <Line key={`${i.zone} ${i.what}`} word="STILL INSIDE" title={`${i.count} × ${i.what}`}>
          {i.zone}
          <button type="button" className="key" onClick={() => onAsk({ kind: 'inside', zone: i.zone })}>
            Count out
          </button>
        </Line>
      ))}
      {owed.map((t) => (
        <Owed key={t.transfer} state={state} transfer={t} jobs={jobs} />
      ))}
    </details>
  );
}

interface OwedProps {
  readonly state: State;
  readonly transfer: Transfer;
  readonly jobs: Props['jobs'];
}

/** Given back: out of the one aircraft, into the other; both halves are recorded. */
function Owed({ state, transfer: t, jobs }: OwedProps) {
  const { record, job, person } = useOpenJob();
  const other = jobs.find((j) => j.id === t.job);
  const giveBack = () => {
    const here = t.way === 'out' ? 'in' : 'out';
    record(recording('robbed-returned', { transfer: t.transfer, way: here }));
    if (other === undefined) return;
    const there = { transfer: t.transfer, way: t.way };
    void recordInOther(t.job, 'robbed-returned', there, person, job.invented ? job.day : '');
  };
  const left = (t.count ?? 1) - t.returned;
  return (
    <Line word={t.way === 'out' ? 'OWED TO US' : 'WE OWE'} title={t.name ?? nameIn(state, t.thing)}>
      {t.count === undefined ? '' : `${left} of ${t.count} · `}
      {t.way === 'out' ? 'with' : 'from'} {other?.name ?? t.job}
      <button type="button" className="key" onClick={giveBack}>
        {t.way === 'out' ? 'It came back' : 'Gave it back'}
      </button>
    </Line>
  );
}

interface LineProps {
  readonly word: string;
  readonly title: string;
  readonly children: React.ReactNode;
}

function Line({ word, title, children }: LineProps) {
  return (
    <p className="matter">
      <b>{word}</b> <span>{title}</span> <small>{children}</small>
    </p>
  );
}
