/** What fits now, in figures: how many, how many of them would do harm, and whether an order goes through. */

import { Stops } from '../off/answer-head.tsx';
import { Pick } from '../sheet/title-block.tsx';
import { useOpenJob } from '../state/use-job.tsx';
import type { Screen } from '../state/use-screen.ts';
import { count } from '../words/figures.ts';
import type { FitsRow } from './fits-rows.ts';
import type { FitsView } from './fits-screen.tsx';

export const HANDS = [
  { id: '', name: 'Both sides', more: null },
  { id: 'L', name: 'Port', more: null },
  { id: 'C', name: 'Centre', more: null },
  { id: 'R', name: 'Starboard', more: null },
] as const;

/** Rows stand for several things where they are alike. */
export function things(rows: readonly FitsRow[]): number {
  return rows.reduce((sum, r) => sum + Math.max(1, r.alike.length), 0);
}

export function FitsHead({
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
