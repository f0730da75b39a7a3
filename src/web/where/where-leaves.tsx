/** What is asked after a pin is set, never before: what sits there, its station and height, what the sheet is called. */
import { useRef, useState } from 'react';
import { FindBox } from '../off/find-box.tsx';
import { Leaf } from '../sheet/leaf.tsx';
import { useOpenJob } from '../state/use-job.tsx';

export function WhatSitsLeaf({
  isNothing,
  onLeave,
  onSubject,
}: {
  readonly isNothing: boolean;
  readonly onLeave: () => void;
  readonly onSubject: (subject: string) => void;
}) {
  const { job, snapshot } = useOpenJob();
  const field = useRef<HTMLInputElement>(null);
  const [words, setWords] = useState('');
  const bags = [...snapshot.state.bags.values()].slice(-3).reverse();
  return (
    <Leaf title={isNothing ? 'Nothing here. Of what?' : 'What sits here?'} onLeave={onLeave}>
      {job.find.length > 0 && (
        <FindBox
          job={job}
          field={field}
          autoFocus
          label="Find what sits here"
          placeholder="number, name, bag"
          onFind={onSubject}
        />
      )}
      {!isNothing && bags.length > 0 && (
        <>
          <h3>Or one of the last bags</h3>
          <div className="choices">
            {bags.map((b) => (
              <button type="button" key={b.code} className="key" onClick={() => onSubject(b.code)}>
                {b.code}
                <small>{b.note ?? job.names.part(b.of[0] ?? b.code)}</small>
              </button>
            ))}
          </div>
        </>
      )}
      <form
        onSubmit={(e) => {
          e.preventDefault();
          if (words.trim() !== '') onSubject(words.trim());
        }}
      >
        <label className="cell-name" htmlFor="what-sits">
          Or in your own words
        </label>
        <div className="find">
          <div className="field">
            <input id="what-sits" value={words} maxLength={200} onChange={(e) => setWords(e.target.value)} />
          </div>
        </div>
        <div className="keys-line">
          <button type="submit" className="key go" disabled={words.trim() === ''}>
            {isNothing ? 'None is fitted' : 'Pin it'}
          </button>
          <button type="button" className="key" onClick={onLeave}>
            Leave it
          </button>
        </div>
      </form>
    </Leaf>
  );
}

export function StationLeaf({
  name,
  station,
  height,
  onLeave,
  onSave,
}: {
  readonly name: string;
  readonly station: string;
  readonly height: string;
  readonly onLeave: () => void;
  readonly onSave: (station: string, height: string) => void;
}) {
  const [at, setAt] = useState(station);
  const [high, setHigh] = useState(height);
  return (
    <Leaf title="Station and height" onLeave={onLeave}>
      <p className="lede">{name}. As the aircraft’s own papers count them, or as measured.</p>
      <form
        className="two-fields"
        onSubmit={(e) => {
          e.preventDefault();
          onSave(at.trim(), high.trim());
        }}
      >
        <label>
          <span className="cell-name">Station</span>
          <input value={at} maxLength={80} placeholder="C9 + 120 mm" onChange={(e) => setAt(e.target.value)} />
        </label>
        <label>
          <span className="cell-name">Height</span>
          <input
            value={high}
            maxLength={80}
            placeholder="340 mm above the keel"
            onChange={(e) => setHigh(e.target.value)}
          />
        </label>
        <div className="keys-line">
          <button type="submit" className="key go" disabled={at.trim() === '' && high.trim() === ''}>
            Note it
          </button>
          <button type="button" className="key" onClick={onLeave}>
            Leave it
          </button>
        </div>
      </form>
    </Leaf>
  );
}
