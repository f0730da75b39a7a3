/** What is said besides the bag: what it goes with, what came off first, half done, our damage, a new part, a roll. */
import { useState } from 'react';
import { readBagCode } from '../../domain/bag-code.ts';
import type { AttachmentKind } from '../../domain/rig/rig-types.ts';
import { recording } from '../../journal/commands.ts';
import { FirstLeaf } from '../off/part-leaves.tsx';
import { Leaf } from '../sheet/leaf.tsx';
import { WordsLeaf } from '../sheet/words-leaf.tsx';
import { hourOf, listWords } from '../words/figures.ts';
import { newPart, ourDamage, stoppedHere } from './gestures.ts';
import type { CatchView } from './use-catch.ts';

interface SayLeafProps {
  readonly view: CatchView;
  readonly onLeave: () => void;
}

const MOST_BAGS = 12;

/** The bags of today stand first: what goes together was mostly bagged together. */
export function GoesWithLeaf({ view, onLeave }: SayLeafProps) {
  const { open, subject, bag, acts } = view;
  const { state } = open.snapshot;
  const me = bag ?? subject;
  const others = [...state.bags.values()]
    .filter((b) => b.code !== me)
    .sort((a, b) => b.opened.at.localeCompare(a.opened.at))
    .slice(0, MOST_BAGS);
  return (
    <Leaf title="Goes with" onLeave={onLeave}>
      <p className="lede">Kept as a set: {bag ?? open.job.names.part(subject)} and the one you tap.</p>
      <ul className="place-list" aria-label="Bags, newest first">
        {others.map((b) => (
          <li key={b.code}>
            <button
              type="button"
              className="key"
              onClick={() => {
                acts.record(`Set: ${me} and ${b.code}`, recording('goes-with', { members: [me, b.code] }));
                onLeave();
              }}
            >
              <span className="num">{b.code}</span>
              <small>
                {[
                  hourOf(b.opened.at),
                  listWords(b.of.map((p) => open.job.names.part(p))) || b.note || 'no part named',
                ].join(' · ')}
              </small>
            </button>
          </li>
        ))}
      </ul>
      {others.length === 0 && <p className="lede">This is the first bag.</p>}
      <LeaveKey onLeave={onLeave} />
    </Leaf>
  );
}

/** Needs a part, since an order is between parts: without one, the place is asked first. */
export function CameFirstLeaf({ view, onLeave }: SayLeafProps) {
  const part = view.parts[0];
  if (part !== undefined) return <FirstLeaf action={`remove:${part}`} onLeave={onLeave} />;
  return (
    <Leaf title="Had to come off first" onLeave={onLeave}>
      <p className="lede">Before what? Name the part of this bag, then say what had to come off before it.</p>
      <div className="keys-line across">
        <button type="button" className="key go" onClick={() => view.ask({ kind: 'place' })}>
          Name the part
        </button>
        <button type="button" className="key" onClick={onLeave}>
          Leave it
        </button>
      </div>
    </Leaf>
  );
}

const HALF_DONE = ['nut finger-tight', 'pin half out', 'held by hand tools', 'under load', 'loose, not lifted'];

export function StopLeaf({ view, onLeave }: SayLeafProps) {
  const { subject, acts, open } = view;
  return (
    <WordsLeaf
      title="Stopped here"
      lede={`${subject === 'job' ? 'Here' : open.job.names.part(subject)}. How is it left? It heads the next shift until somebody clears it; a photograph on the strip goes with it.`}
      label="How it is left"
      go="Stopped here"
      quick={HALF_DONE}
      onLeave={onLeave}
      onWords={(words) => acts.withShots((shots) => stoppedHere(subject, words, shots), 'Stopped here: saved')}
    />
  );
}

const HURT = ['scratched', 'dented', 'thread hurt', 'torn', 'broken', 'paint or fabric marked'];

export function DamageLeaf({ view, onLeave }: SayLeafProps) {
  const { subject, acts, open } = view;
  return (
    <WordsLeaf
      title="Our damage"
      lede={`${subject === 'job' ? 'Here' : open.job.names.part(subject)}. It gets an honest entry of its own; nobody is asked why.`}
      label="What was hurt"
      go="Record it"
      quick={HURT}
      onLeave={onLeave}
      onWords={(words) => acts.withShots((shots) => ourDamage(subject, words, shots), 'Our damage: saved')}
    />
  );
}

const HELD_BY: readonly { readonly kind: AttachmentKind; readonly words: string }[] = [
  { kind: 'bolted', words: 'bolt or screw' },
  { kind: 'pinned', words: 'pin' },
  { kind: 'threaded', words: 'its own thread' },
  { kind: 'riveted', words: 'rivets' },
  { kind: 'clamped', words: 'clamp' },
  { kind: 'pressed', words: 'press fit' },
  { kind: 'lashed', words: 'lashing' },
  { kind: 'other', words: 'not noted' },
];

/** The rig grows: a part nobody had named, and how it was held, in two taps. A name may come later. */
export function NewPartLeaf({ view, onLeave }: SayLeafProps) {
  const { open, bag, carried, acts } = view;
  const { job } = open;
  const [name, setName] = useState('');
  const near = [...carried.recent, carried.group ?? ''].filter((id) => job.names.find(id) !== undefined).slice(0, 5);
  const [on, setOn] = useState(near[0] ?? job.rig.root);
  if (bag === null) return null;
  const add = (joint: AttachmentKind) => {
    const says = { name: name.trim() || `Part in bag ${bag}`, on, joint, hand: carried.hand };
    acts.record('The rig has a new part', ...newPart(bag, { part: `part-${bag}`, joint: `joint-${bag}` }, says));
    onLeave();
  };
  return (
    <Leaf title="New part here" onLeave={onLeave}>
      <label className="cell-name" htmlFor="new-part">
        What is it? May stay open
      </label>
      <div className="find">
        <div className="field">
          <input
            id="new-part"
            value={name}
            onChange={(e) => setName(e.target.value)}
            placeholder={`Part in bag ${bag}`}
          />
        </div>
      </div>
      <h3>What was it on?</h3>
      <ul className="place-list" aria-label="What it was on">
        {[...new Set([...near, job.rig.root])].map((id) => (
          <li key={id}>
            <button type="button" className="key" aria-pressed={on === id} onClick={() => setOn(id)}>
              {job.names.part(id)}
            </button>
          </li>
        ))}
      </ul>
      <h3>Held by? A tap saves it</h3>
      <ul className="pictures four" aria-label="Held by">
        {HELD_BY.map((h) => (
          <li key={h.kind}>
            <button type="button" className="key picture" onClick={() => add(h.kind)}>
              <span>{h.words}</span>
            </button>
          </li>
        ))}
      </ul>
      <LeaveKey onLeave={onLeave} />
    </Leaf>
  );
}

/** No number is left on this device: one from the pre-printed roll is taken, with its check letter. */
export function RollLeaf({ view, onLeave }: SayLeafProps) {
  const [text, setText] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const { code, open } = view;
  return (
    <Leaf title="A number from the roll" onLeave={onLeave}>
      <p className="lede">
        No number is left on this device and the shop’s machine does not answer. Take the next label of a pre-printed
        roll. The photographs on the strip are kept.
      </p>
      <form
        onSubmit={(e) => {
          e.preventDefault();
          const read = readBagCode(text);
          if (!read.ok) return setProblem(`${read.problem.message}. ${read.problem.remedy}`);
          if (open.snapshot.state.bags.has(read.value)) return setProblem(`${read.value} stands on a bag already.`);
          code.set(read.value);
          onLeave();
        }}
      >
        <label className="cell-name" htmlFor="roll-code">
          What stands on the label
        </label>
        <div className="find">
          <div className="field">
            <input
              id="roll-code"
              className="num"
              autoCapitalize="characters"
              autoComplete="off"
              value={text}
              onChange={(e) => setText(e.target.value)}
              placeholder="B105C"
            />
          </div>
        </div>
        {problem !== null && (
          <p className="signal" role="alert">
            {problem}
          </p>
        )}
        <div className="keys-line across">
          <button type="submit" className="key go" disabled={text.trim() === ''}>
            Use it
          </button>
          <button type="button" className="key" onClick={onLeave}>
            Leave it
          </button>
        </div>
      </form>
    </Leaf>
  );
}

export function LeaveKey({ onLeave }: { readonly onLeave: () => void }) {
  return (
    <div className="keys-line across">
      <button type="button" className="key" onClick={onLeave}>
        Leave it
      </button>
    </div>
  );
}
