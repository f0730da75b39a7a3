/** A tap that could not be recorded, said once, with what to do instead. */
import { useState } from 'react';
import { useOpenJob } from '../state/use-job.tsx';
import { Leaf } from './leaf.tsx';

export function Refused() {
  const { refused } = useOpenJob();
  const [left, setLeft] = useState<unknown>(null);
  if (refused === null || refused === left) return null;
  return (
    <Leaf title="That was not recorded" onLeave={() => setLeft(refused)}>
      <p className="lede">{refused.message}</p>
      <p className="lede">{refused.remedy}</p>
      <div className="keys-line">
        <button type="button" className="key go" onClick={() => setLeft(refused)}>
          Back to the list
        </button>
      </div>
    </Leaf>
  );
}
