/**
 * What is asked after the tap, never before it: each leaf can be left at once and nothing that was recorded is lost.
 */
import { recording } from '../../journal/commands.ts';
import { Leaf } from '../sheet/leaf.tsx';
import { Refused } from '../sheet/refused.tsx';
import { WordsLeaf } from '../sheet/words-leaf.tsx';
import { useOpenJob } from '../state/use-job.tsx';
import { lowerFirst } from '../words/names.ts';
import type { OffView } from './off-screen.tsx';
import { FirstLeaf, NothingLeaf, type OneAction, StuckLeaf } from './part-leaves.tsx';
import { WaysLeaf } from './ways-leaf.tsx';
import { WhyNotLeaf } from './why-not-leaf.tsx';

export type Asking =
  | { readonly kind: 'stuck'; readonly action: string }
  | { readonly kind: 'first' | 'nothing' | 'damage' | 'fact' | 'anyway' | 'why-not'; readonly action: string }
  | { readonly kind: 'word'; readonly action: string; readonly cautions: readonly string[] }
  | { readonly kind: 'stopped'; readonly subject: string }
  | { readonly kind: 'ways' };

export interface LeavesProps {
  readonly asking: Asking | null;
  readonly onAsk: (asking: Asking | null) => void;
  readonly view: OffView;
  readonly onWord: (note: string) => void;
}

export function OffLeaves({ asking, onAsk, view, onWord }: LeavesProps) {
  const leave = () => onAsk(null);
  if (asking === null) return <Refused />;
  switch (asking.kind) {
    case 'stuck':
      return <StuckLeaf action={asking.action} onLeave={leave} />;
    case 'first':
      return <FirstLeaf action={asking.action} onLeave={leave} />;
    case 'nothing':
      return <NothingLeaf action={asking.action} onLeave={leave} />;
    case 'damage':
      return <DamageLeaf action={asking.action} onLeave={leave} />;
    case 'fact':
      return <FactLeaf facts={view.answer?.waitsFor ?? []} onLeave={leave} />;
    case 'anyway':
      return <AnywayLeaf action={asking.action} onLeave={leave} />;
    case 'stopped':
      return <StoppedLeaf subject={asking.subject} onLeave={leave} />;
    case 'word':
      return (
        <WordLeaf
          cautions={asking.cautions}
          onLeave={leave}
          onWord={(note) => {
            onWord(note);
            leave();
          }}
        />
      );
    case 'why-not':
      return (
        <WhyNotLeaf
          action={asking.action}
          onLeave={leave}
          onAnyway={() => onAsk({ kind: 'anyway', action: asking.action })}
        />
      );
    case 'ways':
      return <WaysLeaf view={view} onLeave={leave} />;
    default:
      return asking satisfies never;
  }
}

function DamageLeaf({ action, onLeave }: OneAction) {
  const { job, record } = useOpenJob();
  return (
    <WordsLeaf
      title="Our damage"
      lede={`At: ${lowerFirst(job.names.strip(action))}. It gets an honest entry of its own; nobody is asked why.`}
      label="What was hurt"
      go="Record it"
      onLeave={onLeave}
      onWords={(what) =>
        record(recording('our-damage', { subject: action.replace(/^remove:/, ''), what, step: action }))
      }
    />
  );
}

const HALF_DONE = ['nut finger-tight', 'pin half out', 'held by hand tools', 'under load', 'loose, not lifted'];

function StoppedLeaf({ subject, onLeave }: { readonly subject: string; readonly onLeave: () => void }) {
  const { job, record } = useOpenJob();
  return (
    <WordsLeaf
      title="Stopped here"
      lede={`${job.names.strip(subject)}. How is it left? It stays on top of every sheet until somebody clears it.`}
      label="How it is left"
      go="Stopped here"
      quick={HALF_DONE}
      onLeave={onLeave}
      onWords={(state) => record(recording('stopped-here', { subject, state }))}
    />
  );
}

function AnywayLeaf({ action, onLeave }: OneAction) {
  const { job, record } = useOpenJob();
  return (
    <WordsLeaf
      title="It came off anyway"
      lede={`${job.names.strip(action)}. What happened is recorded as it happened. Where the rig says it could not, that is shown as a contradiction to settle.`}
      label="What gave way"
      go="Record it"
      quick={['nothing was hurt', 'harm not noted']}
      onLeave={onLeave}
      onWords={(harm) => record({ kind: 'force', action, harm: harm === 'harm not noted' ? null : harm })}
    />
  );
}

function FactLeaf({ facts, onLeave }: { readonly facts: readonly string[]; readonly onLeave: () => void }) {
  const { job, record } = useOpenJob();
  const open =
    facts.length > 0
      ? facts
      : job.rig.facts.filter((f) => !(job.situation.facts ?? []).includes(f.id) && f.given !== true).map((f) => f.id);
  return (
    <Leaf title="Settle a fact" onLeave={onLeave}>
      <p className="lede">Only a person can settle these. A tap says that it is so, with your name.</p>
      <div className="choices wide">
        {open.map((fact) => (
          <button
            type="button"
            key={fact}
            className="key"
            onClick={() => {
              record(recording('fact-settled', { fact }));
              onLeave();
            }}
          >
            {job.names.fact(fact)}
            {job.rig.facts.find((f) => f.id === fact)?.note && (
              <small>{job.rig.facts.find((f) => f.id === fact)?.note}</small>
            )}
          </button>
        ))}
      </div>
      {open.length === 0 && <p>Nothing waits for a person’s word here.</p>}
    </Leaf>
  );
}

interface WordLeafProps {
  readonly cautions: readonly string[];
  readonly onLeave: () => void;
  readonly onWord: (note: string) => void;
}

/** A hazard nothing in the rig clears: shown each time, and the person says that it was seen to. */
function WordLeaf({ cautions, onLeave, onWord }: WordLeafProps) {
  return (
    <Leaf title="Caution" onLeave={onLeave}>
      <ul className="say">
        {cautions.map((c) => (
          <li key={c} className="harm">
            {c}
          </li>
        ))}
      </ul>
      <p className="lede">Local rules, the maker’s data and licensed people decide.</p>
      <div className="keys-line">
        <button type="button" className="key go" onClick={() => onWord(`seen to: ${cautions.join('; ')}`)}>
          I have seen to it. Did it
        </button>
        <button type="button" className="key" onClick={onLeave}>
          Leave it
        </button>
      </div>
    </Leaf>
  );
}
