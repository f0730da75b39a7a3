/** Why does this part not fit, or what would it do? Asked about any part that is off. */
import { useMemo, useRef, useState } from 'react';
import { FindBox } from '../off/find-box.tsx';
import { Leaf } from '../sheet/leaf.tsx';
import type { FitsReply } from '../state/planner-talk.ts';
import { useOpenJob } from '../state/use-job.tsx';
import { usePlan } from '../state/use-plan.ts';
import { fitsRows } from './fits-rows.ts';

export function AskFitLeaf({ action, onLeave }: { readonly action: string | null; readonly onLeave: () => void }) {
  const { job } = useOpenJob();
  const field = useRef<HTMLInputElement>(null);
  const [asked, setAsked] = useState(action);
  const ask = useMemo(() => (asked === null ? null : { kind: 'fits-one' as const, action: asked }), [asked]);
  const plan = usePlan<FitsReply>(job, ask);
  const entry = plan.reply?.answer.next.find((e) => e.action === asked) ?? null;
  const row = plan.reply === null ? null : (fitsRows(job, plan.reply.answer).find((r) => r.id === asked) ?? null);
  return (
    <Leaf title={asked === null ? 'Ask about a part' : job.names.refit(asked)} onLeave={onLeave}>
      <FindBox
        job={job}
        field={field}
        label="Ask about a part"
        placeholder="number, name or bag"
        onFind={(part) => setAsked(`remove:${part}`)}
        autoFocus={asked === null}
      />
      {plan.working && (
        <p className="lede" role="status">
          looking …
        </p>
      )}
      {plan.problem !== null && (
        <p className="lede">
          {plan.problem.message} {plan.problem.remedy}
        </p>
      )}
      {entry !== null && !entry.fits && (
        <>
          <p className="lede">It does not fit yet. In the way:</p>
          <ul className="say">
            {(entry.inTheWay ?? []).map((u) => (
              <li key={u.text}>{u.text}</li>
            ))}
          </ul>
        </>
      )}
      {row !== null && (
        <p className="lede">
          {row.harmful
            ? row.says.map((s) => (s.strong ? <b key={s.text}>{s.text}</b> : s.text))
            : 'It fits now. It locks nothing out and hides nothing that is still to be seen.'}
        </p>
      )}
      <div className="keys-line">
        <button type="button" className="key go" onClick={onLeave}>
          Back to the list
        </button>
      </div>
    </Leaf>
  );
}
