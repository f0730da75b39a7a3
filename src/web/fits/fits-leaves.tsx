/** What is said before something that would lock out or hide is recorded, and the other questions of What fits next. */
import { recording } from '../../journal/commands.ts';
import { Leaf } from '../sheet/leaf.tsx';
import { Refused } from '../sheet/refused.tsx';
import { WordsLeaf } from '../sheet/words-leaf.tsx';
import { useOpenJob } from '../state/use-job.tsx';
import { lowerFirst } from '../words/names.ts';
import { AskFitLeaf } from './ask-fit-leaf.tsx';
import type { FitsRow } from './fits-rows.ts';

export type Asking = { readonly kind: 'sure' | 'stopped' | 'ask' | 'why'; readonly action: string };

interface LeavesProps {
  readonly asking: Asking | null;
  readonly onAsk: (asking: Asking | null) => void;
  readonly row: FitsRow | null;
  readonly onSure: () => void;
}

export function FitsLeaves({ asking, onAsk, row, onSure }: LeavesProps) {
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
