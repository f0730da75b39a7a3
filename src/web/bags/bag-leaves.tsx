/** The leaves of Bags and shelves: where to, how many, to which aircraft, which tag, tools in and out, labels. */
import type { EntryId } from '../../domain/ids.ts';
import { recording } from '../../journal/commands.ts';
import { ScanLeaf } from '../scan/scan-leaf.tsx';
import { Leaf } from '../sheet/leaf.tsx';
import { WordsLeaf } from '../sheet/words-leaf.tsx';
import { useOpenJob } from '../state/use-job.tsx';
import { type Asking, LABEL_FORMS, labelsHref, TAGS } from './bag-acts.ts';
import { CountLeaf, GoesLeaf, InsideLeaf, JoinLeaf, SplitLeaf } from './count-leaves.tsx';
import { MoveLeaf, RobLeaf } from './move-leaves.tsx';
import { NewRollLeaf } from './roll-leaf.tsx';

interface Props {
  readonly asking: Asking | null;
  readonly jobs: readonly { readonly id: string; readonly name: string }[];
  readonly onLeave: () => void;
  readonly onBag: (code: string) => void;
  readonly onPlaceNamed: (name: string) => void;
}

export function BagLeaves({ asking, jobs, onLeave, onBag, onPlaceNamed }: Props) {
  const { record } = useOpenJob();
  if (asking === null) return null;
  switch (asking.kind) {
    case 'move':
      return <MoveLeaf what={asking.what} name={asking.name} onLeave={onLeave} />;
    case 'rob':
      return <RobLeaf thing={asking.thing} jobs={jobs} onLeave={onLeave} />;
    case 'split':
      return <SplitLeaf thing={asking.thing} onLeave={onLeave} />;
    case 'count':
      return <CountLeaf thing={asking.thing} onLeave={onLeave} />;
    case 'join':
      return <JoinLeaf thing={asking.thing} onLeave={onLeave} />;
    case 'goes':
      return <GoesLeaf subject={asking.subject} onLeave={onLeave} />;
    case 'inside':
      return <InsideLeaf zone={asking.zone} onLeave={onLeave} />;
    case 'scan':
      return <ScanLeaf onBag={onBag} onLeave={onLeave} />;
    case 'explain':
      return (
        <WordsLeaf
          title="What became of the difference?"
          lede="Both counts stay in the record; this says why they differ."
          label="In words"
          go="Say so"
          quick={['found it', 'counted wrongly before', 'lost; looked everywhere', 'used on this aircraft']}
          onLeave={onLeave}
          onWords={(what) =>
            record(recording('difference-explained', { difference: asking.difference as EntryId, what }))
          }
        />
      );
    case 'place':
      return (
        <WordsLeaf
          title="A new place"
          lede="A shelf, rack, box, bench or shop outside. It can be marked on the photograph of the wall."
          label="What it is called"
          go="Add it"
          onLeave={onLeave}
          onWords={onPlaceNamed}
        />
      );
    case 'roll':
      return <NewRollLeaf onLeave={onLeave} />;
    case 'tag':
      return <TagLeaf subject={asking.subject} onLeave={onLeave} />;
    case 'labels':
      return <LabelsLeaf bags={asking.bags} onLeave={onLeave} />;
    default:
      return asking satisfies never;
  }
}

function TagLeaf({ subject, onLeave }: { readonly subject: string; readonly onLeave: () => void }) {
  const { record } = useOpenJob();
  return (
    <Leaf title="Hang a tag on it" onLeave={onLeave}>
      <div className="choices">
        {TAGS.map((t) => (
          <button
            type="button"
            key={t.tag}
            className={t.tag === 'hazard' ? 'key sig' : 'key'}
            onClick={() => {
              record(recording('tagged', { subject, tag: t.tag }));
              onLeave();
            }}
          >
            {t.word}
            <small>{t.says}</small>
          </button>
        ))}
      </div>
    </Leaf>
  );
}

function LabelsLeaf({ bags, onLeave }: { readonly bags: readonly string[]; readonly onLeave: () => void }) {
  const { job } = useOpenJob();
  return (
    <Leaf title={bags.length === 1 ? `A label for ${bags[0]}` : `Labels for ${bags.length} bags`} onLeave={onLeave}>
      <p className="lede">Opens as PDF, to be printed at its own size. Never stick a label on what will be plated.</p>
      <div className="choices">
        {LABEL_FORMS.map(([form, name]) => (
          <a key={form} className="key" href={labelsHref(job.id, bags, form)} target="_blank" rel="noreferrer">
            {name}
          </a>
        ))}
      </div>
    </Leaf>
  );
}
