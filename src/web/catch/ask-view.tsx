/**
 * After the bag: it is saved. What else was seen is asked with pictures, one tap each, and every question may be left
 * unasked; the next bag is always one tap away.
 */
import { ASPECTS, aspectName, foundWords } from '../../domain/as-found/aspects.ts';
import { factNow } from '../../journal/state.ts';
import { Photo } from '../photo/photo.tsx';
import { didIt } from '../state/acts.ts';
import { count, hourOf, listWords } from '../words/figures.ts';
import { lowerFirst } from '../words/names.ts';
import { foundName, impliedSteps, nameIt } from './gestures.ts';
import { Picture } from './pictures/picture.tsx';
import { codeClass, HandKey } from './shoot-view.tsx';
import type { Asking, CatchView } from './use-catch.ts';

interface AskProps {
  readonly view: CatchView;
  readonly bag: string;
}

export function AskView({ view, bag }: AskProps) {
  const { acts, ask } = view;
  return (
    <div className="catch">
      <div className="asked">
        <SavedHead view={view} bag={bag} />
        <ItIsOff view={view} />
        <h2 className="eyebrow ask-head">What else did you see? Each may be left</h2>
        <AboutLine view={view} />
        <AspectGrid view={view} />
        <h2 className="eyebrow ask-head">Or say</h2>
        <SayGrid view={view} bag={bag} />
      </div>
      <div className="bottom keys-of-catch">
        <button type="button" className="key" aria-haspopup="dialog" onClick={() => ask({ kind: 'voice' })}>
          Voice note
        </button>
        <button type="button" className="key go" onClick={acts.next}>
          Next bag
        </button>
        <button type="button" className="key" onClick={acts.addPhoto}>
          Add photo
        </button>
      </div>
    </div>
  );
}

function SavedHead({ view, bag }: AskProps) {
  const { open, parts, ask } = view;
  const { state } = open.snapshot;
  const saved = state.bags.get(bag);
  const photos = state.photos.get(bag) ?? [];
  const words = [
    saved === undefined ? 'saved' : `saved ${hourOf(saved.opened.at)}`,
    photos.length === 0 ? 'no photograph' : count(photos.length, 'photograph'),
    saved?.note ?? '',
  ];
  return (
    <>
      {photos.length > 0 && (
        <ul className="saved-photos" aria-label={`Photographs of ${bag}`}>
          {photos.map((p, i) => (
            <li key={p.hash}>
              <Photo hash={p.hash} size="thumb" alt={`Photograph ${i + 1} of ${bag}`} />
            </li>
          ))}
        </ul>
      )}
      <div className="code-line">
        <div>
          <h1 className={codeClass(bag)}>{bag}</h1>
          <p className="saved-line">{words.filter((w) => w !== '').join(' · ')}</p>
        </div>
        <HandKey
          hand={saved?.hand ?? null}
          onHand={(hand) => hand !== null && view.acts.record(`${bag}: hand`, nameIt(bag, [], hand))}
        />
      </div>
      <button type="button" className="place-line" aria-haspopup="dialog" onClick={() => ask({ kind: 'place' })}>
        <span>
          <b>{parts.length === 0 ? 'Which part is it?' : listWords(parts.map((p) => open.job.names.part(p)))}</b>
          <small>{parts.length === 0 ? 'not named yet; the record is complete without' : parts.join(' · ')}</small>
        </span>
        <span className="change">{parts.length === 0 ? 'name it' : 'add'}</span>
      </button>
    </>
  );
}

/** The rig follows the floor: one tap says that what is in the bag has come off. */
function ItIsOff({ view }: { readonly view: CatchView }) {
  const { open, parts, acts } = view;
  const steps = impliedSteps(open.job, parts);
  if (parts.length === 0 || !open.snapshot.ready) return null;
  if (steps.length === 0) return <p className="off-line quiet">Recorded as off.</p>;
  const joints = steps.filter((s) => !s.startsWith('remove:'));
  const hazards = joints.flatMap((j) => open.job.names.attachment(j)?.hazards ?? []);
  return (
    <button
      type="button"
      className="key off-key"
      onClick={() => acts.record('Recorded as off', ...steps.map((s) => ({ ...didIt(s), planned: null }) as const))}
    >
      It is off
      <small>
        {joints.length === 0
          ? 'records the part as lifted out'
          : `records ${count(joints.length, 'joint')} undone: ${lowerFirst(open.job.names.strip(joints[0] ?? ''))}${joints.length > 1 ? ' …' : ''}`}
      </small>
      {hazards.length > 0 && (
        <small className="signal">
          {listWords([...new Set(hazards.map((h) => h.kind.replaceAll('-', ' ')))])} was noted here; recorded as it
          happened
        </small>
      )}
    </button>
  );
}

/** Of which joint: only where there is a choice. */
function AboutLine({ view }: { readonly view: CatchView }) {
  const { found, foundChoices, ask, open } = view;
  if (foundChoices.length < 2) return null;
  return (
    <button
      type="button"
      className="place-line about-line"
      aria-haspopup="dialog"
      onClick={() => ask({ kind: 'about' })}
    >
      <span>
        <small>seen of</small>
        <b>{foundName(open.job, found)}</b>
      </span>
      <span className="change">another</span>
    </button>
  );
}

function AspectGrid({ view }: { readonly view: CatchView }) {
  const { open, found: subject, ask } = view;
  return (
    <ul className="pictures" aria-label="As found">
      {ASPECTS.map((a) => {
        const now = factNow(open.snapshot.state, subject, a.id);
        return (
          <li key={a.id}>
            <button
              type="button"
              className="key picture"
              aria-haspopup="dialog"
              onClick={() => ask({ kind: 'aspect', aspect: a.id })}
            >
              <Picture of={a.picture} />
              <span>{aspectName(a.id)}</span>
              {now !== null && <b className="answer-word">{foundWords(a.id, now.value)}</b>}
            </button>
          </li>
        );
      })}
    </ul>
  );
}

type SayKind = Exclude<Asking['kind'], 'aspect' | 'stuck'>;

const SAY: readonly { readonly words: string; readonly asking: SayKind }[] = [
  { words: 'Goes with …', asking: 'goes-with' },
  { words: 'Had to come off first', asking: 'first' },
  { words: 'Measure', asking: 'measure' },
  { words: 'Stopped here', asking: 'stopped' },
  { words: 'Our damage', asking: 'damage' },
  { words: 'New part here', asking: 'new-part' },
  { words: 'Scan a bag', asking: 'scan' },
];

function SayGrid({ view, bag }: AskProps) {
  const { acts, ask, open, parts } = view;
  const offered = SAY.filter((s) => s.asking !== 'new-part' || (parts.length === 0 && open.snapshot.ready));
  return (
    <ul className="pictures says" aria-label={`Say of ${bag}`}>
      {offered.map((s) => (
        <li key={s.asking}>
          <button type="button" className="key picture" aria-haspopup="dialog" onClick={() => ask({ kind: s.asking })}>
            {s.words}
          </button>
        </li>
      ))}
      <li>
        <button type="button" className="key picture" onClick={acts.nothing}>
          Nothing behind it
        </button>
      </li>
      <li>
        <button type="button" className="key picture sig" aria-haspopup="dialog" onClick={acts.stuck}>
          Stuck
        </button>
      </li>
    </ul>
  );
}
