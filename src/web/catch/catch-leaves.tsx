/** Which leaf lies over the capture screen. Each may be left at once; what was saved is saved. */
import { ScanLeaf } from '../scan/scan-leaf.tsx';
import { Leaf } from '../sheet/leaf.tsx';
import { Refused } from '../sheet/refused.tsx';
import { AspectLeaf } from './aspect-leaf.tsx';
import { foundName } from './gestures.ts';
import { MeasureLeaf } from './measure-leaf.tsx';
import { PlaceLeaf } from './place-leaf.tsx';
import { CameFirstLeaf, DamageLeaf, GoesWithLeaf, NewPartLeaf, RollLeaf, StopLeaf } from './say-leaves.tsx';
import { StuckLeaf } from './stuck-leaf.tsx';
import type { Asking, CatchView } from './use-catch.ts';
import { VoiceLeaf } from './voice-leaf.tsx';

interface CatchLeavesProps {
  readonly view: CatchView;
  readonly onBag: (bag: string) => void;
}

export function CatchLeaves({ view, onBag }: CatchLeavesProps) {
  const { asking } = view;
  const leave = () => view.ask(null);
  if (asking === null) return <Refused />;
  switch (asking.kind) {
    case 'aspect':
      return <AspectLeaf view={{ ...view, subject: view.found }} id={asking.aspect} onLeave={leave} />;
    case 'stuck':
      return <StuckLeaf view={view} subject={asking.subject} saved={asking.saved} onLeave={leave} />;
    case 'place':
      return <PlaceLeaf view={view} onLeave={leave} />;
    case 'about':
      return <AboutLeaf view={view} onLeave={leave} />;
    case 'more':
      return <MoreLeaf view={view} onLeave={leave} />;
    case 'goes-with':
      return <GoesWithLeaf view={view} onLeave={leave} />;
    case 'first':
      return <CameFirstLeaf view={view} onLeave={leave} />;
    case 'stopped':
      return <StopLeaf view={view} onLeave={leave} />;
    case 'damage':
      return <DamageLeaf view={view} onLeave={leave} />;
    case 'measure':
      return <MeasureLeaf view={view} onLeave={leave} />;
    case 'voice':
      return <VoiceLeaf view={view} onLeave={leave} />;
    case 'new-part':
      return <NewPartLeaf view={view} onLeave={leave} />;
    case 'scan':
      return <ScanLeaf onBag={onBag} onLeave={leave} />;
    case 'roll':
      return <RollLeaf view={view} onLeave={leave} />;
    default:
      return asking satisfies never;
  }
}

/** Which joint of the part, the part itself, or the bag as a whole. */
function AboutLeaf({ view, onLeave }: { readonly view: CatchView; readonly onLeave: () => void }) {
  return (
    <Leaf title="Seen of what?" onLeave={onLeave}>
      <ul className="place-list" aria-label="Joints and parts of this bag">
        {view.foundChoices.map((id) => (
          <li key={id}>
            <button
              type="button"
              className="key"
              aria-pressed={id === view.found}
              onClick={() => {
                view.askAbout(id);
                onLeave();
              }}
            >
              {foundName(view.open.job, id)}
            </button>
          </li>
        ))}
      </ul>
    </Leaf>
  );
}

interface OtherKey {
  readonly words: string;
  readonly more: string;
  readonly asking: Asking | null;
}

const OTHER: readonly OtherKey[] = [
  { words: 'Nothing here', more: 'looked; with the photographs on the strip', asking: null },
  { words: 'Stopped here', more: 'left half done; heads the next shift', asking: { kind: 'stopped' } },
  { words: 'Our damage', more: 'we hurt something; an honest entry', asking: { kind: 'damage' } },
  { words: 'Voice note', more: 'kept as sound', asking: { kind: 'voice' } },
  { words: 'Measure', more: 'as it reads, with its unit', asking: { kind: 'measure' } },
  { words: 'Scan a bag', more: 'or type its code', asking: { kind: 'scan' } },
  { words: 'Number from a roll', more: 'a label that is printed already', asking: { kind: 'roll' } },
];

function MoreLeaf({ view, onLeave }: { readonly view: CatchView; readonly onLeave: () => void }) {
  return (
    <Leaf title="Something else" onLeave={onLeave}>
      <div className="choices wide">
        {OTHER.map((o) => (
          <button
            type="button"
            key={o.words}
            className="key"
            onClick={() => {
              if (o.asking === null) view.acts.nothing();
              view.ask(o.asking);
            }}
          >
            {o.words}
            <small>{o.more}</small>
          </button>
        ))}
      </div>
    </Leaf>
  );
}
