/** Rows of What fits next, grouped by place; harm in the signal colour and in words. */
import { Fragment, useEffect, useRef } from 'react';
import { HandMark } from '../sheet/hand-mark.tsx';
import type { Roving } from '../sheet/use-roving.ts';
import type { JobView } from '../state/job-view.ts';
import { listWords } from '../words/figures.ts';
import { handOf, lowerFirst } from '../words/names.ts';
import { placeName } from './fits-head.tsx';
import type { FitsRow } from './fits-rows.ts';
import type { FitsView } from './fits-screen.tsx';

export interface FitsRowsProps {
  readonly job: JobView;
  readonly view: FitsView;
  readonly roving: Roving;
}

export function FitsRowsView({ job, view, roving }: FitsRowsProps) {
  const list = useRef<HTMLDivElement>(null);
  const { rows, lit, selected, setLit } = view;
  useEffect(() => {
    if (selected !== null)
      list.current?.querySelector(`[data-row="${CSS.escape(selected)}"]`)?.scrollIntoView({ block: 'nearest' });
  }, [selected]);
  const places = [...new Set(rows.map((r) => r.place))];
  return (
    <div className="rows" ref={list} {...roving.listProps} onPointerLeave={() => setLit(null)}>
      {places.map((place) => {
        const here = rows.filter((r) => r.place === place);
        const name = place === '' ? 'Not in the parts list' : placeName(job.assemblies.get(place), place);
        return (
          <Fragment key={place}>
            {/* biome-ignore lint/a11y/useSemanticElements: a group of options, not of fields */}
            <div role="group" aria-label={name}>
              <div className="place" aria-hidden="true">
                <span>
                  {place} {name}
                </span>
                <span className="num">{here.length}</span>
              </div>
              {here.map((row) => (
                <div
                  key={row.id}
                  className={`row fit${row.harmful ? ' harmful' : ''}${lit === row.id ? ' lit' : ''}`}
                  {...roving.rowProps(row.id)}
                  onPointerEnter={() => setLit(row.id)}
                >
                  <FitInside row={row} job={job} />
                </div>
              ))}
            </div>
          </Fragment>
        );
      })}
      {rows.length === 0 && view.plan.reply !== null && (
        <p className="w quiet">Nothing fits here now. Ask about a part to see what stands in its way.</p>
      )}
    </div>
  );
}

function FitInside({ row, job }: { readonly row: FitsRow; readonly job: JobView }) {
  return (
    <>
      <span className="k">
        <HandMark hand={handOf(job.names, row.id)} />
      </span>
      <span>
        <span className="t">{row.name}</span>
        <div className="w">
          {row.says.map((s) => (s.strong ? <b key={s.text}>{s.text}</b> : <Fragment key={s.text}>{s.text}</Fragment>))}
        </div>
        {row.lastSight.length > 0 && (
          <div className="w">
            <span className="chip">Last sight</span>have it seen first:{' '}
            {listWords(row.lastSight.map((l) => lowerFirst(job.names.look(l))))}
          </div>
        )}
      </span>
      <span className={row.harmful ? 'state signal' : 'state'}>
        <b>{row.state[0]}</b>
        {row.state[1]}
      </span>
    </>
  );
}
