/** The next ways beside the least one: only what differs, so that two ways can be compared at a glance. */
import { Leaf } from '../sheet/leaf.tsx';
import { useOpenJob } from '../state/use-job.tsx';
import { clock } from '../words/figures.ts';
import type { OffView } from './off-screen.tsx';

export function WaysLeaf({ view, onLeave }: { readonly view: OffView; readonly onLeave: () => void }) {
  const { job } = useOpenJob();
  const { answer } = view;
  if (answer === null) return null;
  const least = new Set(answer.steps.map((s) => s.action));
  return (
    <Leaf title="Other ways" onLeave={onLeave}>
      <p className="lede">The least there is takes {clock(answer.cost)} h. Each way below is compared with it.</p>
      {answer.nextWays.map((way) => {
        const own = new Set(way.actions);
        const instead = [...least].filter((a) => !own.has(a));
        const added = way.actions.filter((a) => !least.has(a));
        return (
          <section key={way.actions.join()}>
            <h3>
              {clock(way.cost)} h, {clock(way.cost - answer.cost)} more
            </h3>
            <ul className="say">
              {added.map((a) => (
                <li key={a}>{job.names.strip(a)}</li>
              ))}
              {instead.length > 0 && (
                <li className="quiet">without: {instead.map((a) => job.names.strip(a)).join(' · ')}</li>
              )}
            </ul>
          </section>
        );
      })}
      <div className="keys-line">
        <button type="button" className="key go" onClick={onLeave}>
          Back to the least
        </button>
      </div>
    </Leaf>
  );
}
