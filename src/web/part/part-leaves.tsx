/** What can be said of a part from its card: measured, noted, tagged, found; and the tables of figures. */
import { useState } from 'react';
import { type Command, recording } from '../../journal/commands.ts';
import { TAG_WORDS } from '../../journal/kinds/custody-kinds.ts';
import { type AskedView, AspectLeaf } from '../catch/aspect-leaf.tsx';
import { MeasureLeaf } from '../catch/measure-leaf.tsx';
import { Leaf } from '../sheet/leaf.tsx';
import { WordsLeaf } from '../sheet/words-leaf.tsx';
import { useOpenJob } from '../state/use-job.tsx';
import { Choice, DatumLeaf } from './datum-page.tsx';
import { DialLeaf } from './dial.tsx';
import { photosOf } from './part-card.tsx';
import { subjectsOf } from './part-facts.ts';
import { ThicknessLeaf } from './thickness-leaf.tsx';

export type PartAsking =
  | { readonly kind: 'measure' | 'note' | 'tag' | 'thickness' | 'dial' | 'datum' }
  | { readonly kind: 'aspect'; readonly subject: string; readonly aspect: string }
  | { readonly kind: 'fact'; readonly fact: string };

interface PartLeavesProps {
  readonly part: string;
  readonly asking: PartAsking | null;
  readonly onLeave: () => void;
}

export function PartLeaves({ part, asking, onLeave }: PartLeavesProps) {
  const open = useOpenJob();
  const { job, snapshot, record } = open;
  const asked = (subject: string): AskedView => ({
    open,
    subject,
    acts: { record: (_words: string, ...commands: readonly Command[]) => record(...commands) },
  });
  if (asking === null) return null;
  switch (asking.kind) {
    case 'measure':
      return <MeasureLeaf view={asked(part)} onLeave={onLeave} />;
    case 'aspect':
      return <AspectLeaf view={asked(asking.subject)} id={asking.aspect} onLeave={onLeave} />;
    case 'note':
      return (
        <WordsLeaf
          title="Note"
          lede="In your own words. It is never changed; a later note stands beside it."
          label="What is to be remembered"
          go="Note it"
          onLeave={onLeave}
          onWords={(text) => record(recording('note', { subject: part, text }))}
        />
      );
    case 'fact':
      return (
        <WordsLeaf
          title={job.names.fact(asking.fact)}
          lede="Settled by a person who knows it, in a few words: how it is known."
          label="How it is known"
          go="Settle it"
          quick={['Measured', 'Seen']}
          onLeave={onLeave}
          onWords={(note) => record(recording('fact-settled', { fact: asking.fact, note }))}
        />
      );
    case 'tag':
      return <TagLeaf part={part} onLeave={onLeave} />;
    case 'thickness':
      return (
        <ThicknessLeaf
          subject={part}
          photos={photosOf(snapshot.state, subjectsOf(snapshot.state, job, part))}
          onLeave={onLeave}
        />
      );
    case 'dial':
      return <DialLeaf subject={part} onLeave={onLeave} />;
    case 'datum':
      return <DatumLeaf onLeave={onLeave} />;
    default:
      return asking satisfies never;
  }
}

function TagLeaf({ part, onLeave }: { readonly part: string; readonly onLeave: () => void }) {
  const { record } = useOpenJob();
  const [tag, setTag] = useState<(typeof TAG_WORDS)[number] | null>(null);
  const [says, setSays] = useState('');
  const save = () => {
    if (tag === null) return;
    record(recording('tagged', { subject: part, tag, ...(says.trim() !== '' && { says: says.trim() }) }));
    onLeave();
  };
  return (
    <Leaf title="Hang a tag on it" onLeave={onLeave}>
      <Choice label="Which tag" all={TAG_WORDS} now={tag} onChoose={setTag} />
      <form
        className="few-fields one"
        onSubmit={(e) => {
          e.preventDefault();
          save();
        }}
      >
        <label>
          <span className="cell-name">What it says; may stay empty</span>
          <input value={says} maxLength={200} onChange={(e) => setSays(e.target.value)} />
        </label>
        <div className="keys-line">
          <button type="submit" className="key go" disabled={tag === null}>
            Hang it
          </button>
          <button type="button" className="key" onClick={onLeave}>
            Leave it
          </button>
        </div>
      </form>
    </Leaf>
  );
}
