/** The rows of Getting it off. What a row says is decided in off-rows.ts; here it is only set in type. */
import { memo, useEffect, useRef } from 'react';
import { NameWithHand } from '../sheet/hand-mark.tsx';
import type { Roving } from '../sheet/use-roving.ts';
import type { JobView } from '../state/job-view.ts';
import { hourOf } from '../words/figures.ts';
import { firstName, handOf } from '../words/names.ts';
import type { GateRow, OffRow, StepRow } from './off-rows.ts';

export interface RowsViewProps {
  readonly job: JobView;
  readonly rows: readonly OffRow[];
  readonly lit: string | null;
  readonly selected: string | null;
  readonly roving: Roving;
  readonly onHover: (id: string | null) => void;
}

export function RowsView({ job, rows, lit, selected, roving, onHover }: RowsViewProps) {
  const list = useRef<HTMLOListElement>(null);
  useEffect(() => {
    if (selected === null) return;
    const row = list.current?.querySelector(`[data-row="${CSS.escape(selected)}"]`);
    // A gate right above belongs to the step: it must not stay half out of sight.
    const gate = row?.previousElementSibling;
    if (gate?.classList.contains('gate')) gate.scrollIntoView({ block: 'nearest' });
    row?.scrollIntoView({ block: 'nearest' });
  }, [selected]);
  return (
    <ol className="rows" ref={list} {...roving.listProps} onPointerLeave={() => onHover(null)}>
      {rows.map((row) => (
        <li
          key={row.id}
          className={`row ${rowClass(row)}${isLit(row, lit) ? ' lit' : ''}`}
          {...roving.rowProps(row.id)}
          onPointerEnter={() => onHover(row.id)}
        >
          <RowInside row={row} job={job} />
        </li>
      ))}
    </ol>
  );
}

function isLit(row: OffRow, lit: string | null): boolean {
  return lit !== null && (row.id === lit || (row.kind === 'gate' && row.clearing.includes(lit)));
}

function rowClass(row: OffRow): string {
  if (row.kind === 'gate') return row.passed ? 'gate passed' : 'gate';
  if (row.kind === 'tips') return 'gate';
  if (row.kind === 'done') return 'done';
  return row.open ? 'open' : 'shut';
}

const RowInside = memo(function RowInside({ row, job }: { readonly row: OffRow; readonly job: JobView }) {
  if (row.kind === 'step') return <StepInside row={row} job={job} />;
  if (row.kind === 'gate') return <GateInside row={row} />;
  if (row.kind === 'tips') {
    return (
      <>
        <span className="n" />
        <span>
          <span className="t">
            <span className="chip">Gate</span>It would tip here
          </span>
          <div className="w">{row.text}</div>
        </span>
      </>
    );
  }
  const { mark } = row;
  return (
    <>
      <span className="n" aria-hidden="true">
        ✓
      </span>
      <span>
        <span className="t">
          <NameWithHand name={job.names.strip(row.id)} hand={handOf(job.names, row.id)} />
        </span>
      </span>
      <span className="m">
        <span className="out-of-sight">done </span>
        {hourOf(mark.at)}{' '}
        <small>
          {firstName(mark.by)}
          {mark.pending ? ', saved here' : ''}
        </small>
      </span>
    </>
  );
});

function StepInside({ row, job }: { readonly row: StepRow; readonly job: JobView }) {
  return (
    <>
      <span className="n">{row.n}</span>
      <span>
        <span className="t">
          {row.isNew && <NewMark />}
          <NameWithHand name={job.names.strip(row.id)} hand={handOf(job.names, row.id)} />
        </span>
        {row.why !== '' && <div className="w">{row.why}</div>}
        {row.cautions.map((c) => (
          <div className="w harm" key={c}>
            <span className="chip">Caution</span>
            {c}
          </div>
        ))}
        {row.load !== null && <div className="w load">{row.load.words}</div>}
      </span>
      <span className="m">
        {row.step.minutes}
        <small>min</small>
        {row.load !== null && (
          <span className="kg" aria-hidden="true">
            {row.load.short}
          </span>
        )}
      </span>
    </>
  );
}

/** The draughtsman's revision mark: a small triangle in the margin of what changed. */
function NewMark() {
  return (
    <span className="rev" role="img" aria-label="new in the plan">
      <svg viewBox="0 0 20 17" aria-hidden="true">
        <path d="M10 1.5 18.5 16h-17Z" />
      </svg>
    </span>
  );
}

function GateInside({ row }: { readonly row: GateRow }) {
  return (
    <>
      <span className="n" />
      <span>
        <span className="t">
          <span className="chip">{row.passed ? 'Gate passed' : 'Gate'}</span>
          {row.title}
        </span>
        <div className="w">{row.why}</div>
      </span>
      <span className="m" />
    </>
  );
}
