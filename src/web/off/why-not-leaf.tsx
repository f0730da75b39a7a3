/** Why an action is not allowed: the roots in words, the harm of forcing it, the cheapest way there. */
import { useMemo } from 'react';
import { Leaf } from '../sheet/leaf.tsx';
import type { WhyNotReply } from '../state/planner-talk.ts';
import { useOpenJob } from '../state/use-job.tsx';
import { usePlan } from '../state/use-plan.ts';
import { clock, count } from '../words/figures.ts';

export interface WhyNotProps {
  readonly action: string;
  readonly onLeave: () => void;
  readonly onAnyway?: () => void;
}

export function WhyNotLeaf({ action, onLeave, onAnyway }: WhyNotProps) {
  const { job } = useOpenJob();
  const ask = useMemo(() => ({ kind: 'why-not' as const, action }), [action]);
  const plan = usePlan<WhyNotReply>(job, ask);
  const answer = plan.reply?.answer ?? null;
  return (
    <Leaf title={job.names.strip(action)} onLeave={onLeave}>
      {plan.problem !== null && (
        <p className="lede">
          {plan.problem.message} {plan.problem.remedy}
        </p>
      )}
      {plan.working && (
        <p className="lede" role="status">
          looking …
        </p>
      )}
      {answer !== null &&
        (answer.allowed ? (
          <p className="lede">Nothing stands in the way. It can be done now.</p>
        ) : (
          <p className="lede">Not yet. In the way:</p>
        ))}
      {answer !== null && (
        <ul className="say">
          {answer.unmet.map((u) => (
            <li key={u.text}>{u.text}</li>
          ))}
          {answer.harm.map((h) => (
            <li key={h} className="harm">
              If it is forced: {h}
            </li>
          ))}
        </ul>
      )}
      {answer?.cheapestWay && answer.cheapestWay.actions.length > 0 && (
        <>
          <h3>
            First, {count(answer.cheapestWay.actions.length, 'step')}, {clock(answer.cheapestWay.cost)} h
          </h3>
          <ol className="plain">
            {answer.cheapestWay.actions.map((a) => (
              <li key={a}>{job.names.strip(a)}</li>
            ))}
          </ol>
        </>
      )}
      <div className="keys-line">
        <button type="button" className="key go" onClick={onLeave}>
          Back to the list
        </button>
        {answer !== null && !answer.allowed && onAnyway && (
          <button type="button" className="key sig" onClick={onAnyway}>
            It came off anyway
          </button>
        )}
      </div>
    </Leaf>
  );
}
