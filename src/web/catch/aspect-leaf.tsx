/** One as-found question: picture buttons, the four answers that are no value, or words. A tap records and leaves. */
import { useState } from 'react';
import { type Found, NO_VALUES } from '../../domain/as-found/answers.ts';
import { type Aspect, aspectOf } from '../../domain/as-found/aspects.ts';
import { readShims, shimsText } from '../../domain/as-found/washer-stack.ts';
import { recording } from '../../journal/commands.ts';
import { factNow } from '../../journal/state.ts';
import { Leaf } from '../sheet/leaf.tsx';
import { foundName } from './gestures.ts';
import { Picture } from './pictures/picture.tsx';
import { StackAsk } from './stack-ask.tsx';
import type { CatchView } from './use-catch.ts';

/** What a leaf needs of its screen: the job, what is asked about, and how to record. */
export type AskedView = Pick<CatchView, 'open' | 'subject'> & { readonly acts: Pick<CatchView['acts'], 'record'> };

interface AspectLeafProps {
  readonly view: AskedView;
  readonly id: string;
  readonly onLeave: () => void;
}

export function AspectLeaf({ view, id, onLeave }: AspectLeafProps) {
  const aspect = aspectOf(id);
  const was = factNow(view.open.snapshot.state, view.subject, id)?.value ?? null;
  if (aspect === undefined) return null;
  const note = (found: Found) => {
    view.acts.record('Noted', recording('joint-noted', { subject: view.subject, aspects: { [id]: found } }));
    onLeave();
  };
  const text = was?.is === 'value' ? was.text : '';
  const value = (given: string) => note({ is: 'value', text: given });
  return (
    <Leaf title={aspect.question} onLeave={onLeave}>
      <p className="about">{foundName(view.open.job, view.subject)}</p>
      {aspect.form === 'choice' && <Choices aspect={aspect} now={text} onChoose={value} />}
      {aspect.form === 'stack' && <StackAsk was={text} draft={`${view.subject} ${id}`} onNote={value} />}
      {aspect.form === 'shims' && <ShimsAsk was={text} onNote={value} />}
      <ul className="pictures no-values" aria-label="Or one of four answers">
        {NO_VALUES.map((v) => (
          <li key={v.is}>
            <button
              type="button"
              className="key picture"
              aria-pressed={was?.is === v.is}
              onClick={() => note({ is: v.is })}
            >
              <span>{v.word}</span>
              <small>{v.more}</small>
            </button>
          </li>
        ))}
      </ul>
      {(aspect.form === 'text' || aspect.form === 'choice') && (
        <InWords was={text} example={aspect.example ?? 'in your own words'} onNote={value} />
      )}
    </Leaf>
  );
}

interface ChoicesProps {
  readonly aspect: Aspect;
  readonly now: string;
  readonly onChoose: (text: string) => void;
}

function Choices({ aspect, now, onChoose }: ChoicesProps) {
  return (
    <ul className="pictures" aria-label={aspect.question}>
      {aspect.choices.map((c) => (
        <li key={c.text}>
          <button type="button" className="key picture" aria-pressed={now === c.text} onClick={() => onChoose(c.text)}>
            <Picture of={c.picture} />
            {c.picture === 'number' ? <b className="figure">{c.text}</b> : <span>{c.text}</span>}
          </button>
        </li>
      ))}
    </ul>
  );
}

const THICKS = ['0.1', '0.2', '0.3', '0.5', '0.8', '1.0', '1.5', '2.0'] as const;

function ShimsAsk({ was, onNote }: { readonly was: string; readonly onNote: (text: string) => void }) {
  const first = readShims(was);
  const [count, setCount] = useState<number | null>(first.count);
  const [thick, setThick] = useState(first.thick);
  const text = shimsText(count, thick);
  return (
    <>
      <h3>How many</h3>
      <ul className="pictures four" aria-label="How many shims">
        {[1, 2, 3, 4, 5, 6, 7, 8].map((n) => (
          <li key={n}>
            <button type="button" className="key picture" aria-pressed={count === n} onClick={() => setCount(n)}>
              <b className="figure">{n}</b>
            </button>
          </li>
        ))}
      </ul>
      <h3>How thick, in mm, or as it is written</h3>
      <ul className="pictures four" aria-label="How thick">
        {THICKS.map((t) => (
          <li key={t}>
            <button type="button" className="key picture" aria-pressed={thick === t} onClick={() => setThick(t)}>
              <b className="figure small">{t}</b>
            </button>
          </li>
        ))}
      </ul>
      <div className="find">
        <div className="field">
          <input
            aria-label="Thickness as written"
            value={thick}
            onChange={(e) => setThick(e.target.value)}
            placeholder="0.5 brass"
          />
        </div>
      </div>
      <div className="keys-line">
        <button type="button" className="key go" disabled={text === ''} onClick={() => onNote(text)}>
          Note it{text === '' ? '' : `: ${text}`}
        </button>
      </div>
    </>
  );
}

interface InWordsProps {
  readonly was: string;
  readonly example: string;
  readonly onNote: (text: string) => void;
}

function InWords({ was, example, onNote }: InWordsProps) {
  const [words, setWords] = useState(was);
  return (
    <form
      onSubmit={(e) => {
        e.preventDefault();
        if (words.trim() !== '') onNote(words.trim());
      }}
    >
      <label className="cell-name" htmlFor="aspect-words">
        Or as you would write it
      </label>
      <div className="find">
        <div className="field">
          <input id="aspect-words" value={words} onChange={(e) => setWords(e.target.value)} placeholder={example} />
          <button type="submit" className="key" disabled={words.trim() === ''}>
            Note it
          </button>
        </div>
      </div>
    </form>
  );
}
