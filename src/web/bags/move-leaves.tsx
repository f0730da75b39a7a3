/** Where it goes, and to which other aircraft. One tap records; nothing asks twice. */
import { useState } from 'react';
import { recording } from '../../journal/commands.ts';
import { nameIn } from '../find/index-of.ts';
import { Leaf } from '../sheet/leaf.tsx';
import { useOpenJob } from '../state/use-job.tsx';
import { plain } from '../words/search.ts';
import { type Goal, move } from './bag-acts.ts';
import { NumberField } from './number-field.tsx';
import { chanceId, recordInOther } from './other-job.ts';

interface MoveProps {
  readonly what: string;
  readonly name: string;
  readonly onLeave: () => void;
}

export function MoveLeaf({ what, name, onLeave }: MoveProps) {
  const { record, snapshot, job } = useOpenJob();
  const [text, setText] = useState('');
  const { state } = snapshot;
  const go = (to: Goal) => {
    record(move(what, to));
    onLeave();
  };
  const says = (n: string) => plain(text) === '' || plain(n).includes(plain(text));
  const places = [...state.places.values()].filter((p) => says(p.name ?? p.place));
  const bag = state.bags.get(what);
  const sat =
    state.pieces.get(what)?.position ?? bag?.of.find((id) => state.positions.has(id) || state.rigParts.has(id));
  return (
    <Leaf title={`${name}: where to?`} onLeave={onLeave}>
      <input
        className="find-field"
        type="search"
        aria-label="Shelf, person or bag"
        placeholder="shelf or person"
        value={text}
        onChange={(e) => setText(e.target.value)}
      />
      <div className="choices places">
        {places.slice(0, 60).map((p) => (
          <button type="button" key={p.place} className="key" onClick={() => go({ place: p.place })}>
            {p.name ?? p.place}
            <small>{p.kind ?? 'place'}</small>
          </button>
        ))}
        {job.people
          .filter((p) => says(p.name))
          .map((p) => (
            <button type="button" key={p.id} className="key" onClick={() => go({ custodian: p.id })}>
              With {p.name}
              <small>{p.role}</small>
            </button>
          ))}
        {sat !== undefined && bag === undefined && (
          <button type="button" className="key" onClick={() => go({ position: sat })}>
            Back on the aircraft
            <small>{nameIn(state, sat)}</small>
          </button>
        )}
        {text.trim() !== '' && (
          <button type="button" className="key" onClick={() => go({ place: text.trim() })}>
            “{text.trim()}”<small>a place of its own name</small>
          </button>
        )}
      </div>
    </Leaf>
  );
}

interface RobProps {
  readonly thing: string;
  readonly jobs: readonly { readonly id: string; readonly name: string }[];
  readonly onLeave: () => void;
}

/** Both halves are recorded: out of this job, into the other. What is owed stays on the floor list of both. */
export function RobLeaf({ thing, jobs, onLeave }: RobProps) {
  const { record, snapshot, job, person } = useOpenJob();
  const { state } = snapshot;
  const lot = state.lotCounts.get(thing);
  const [count, setCount] = useState(lot?.count ?? 1);
  const [owed, setOwed] = useState(true);
  const others = jobs.filter((j) => j.id !== job.id);
  const rob = (other: string) => {
    const transfer = chanceId('robbed');
    const shared = { transfer, thing, ...(lot !== undefined && { count }), owed };
    const name = nameIn(state, thing);
    record(recording('robbed', { ...shared, way: 'out', job: other }));
    void recordInOther(
      other,
      'robbed',
      { ...shared, way: 'in', job: job.id, name },
      person,
      job.invented ? job.day : '',
    );
    onLeave();
  };
  return (
    <Leaf title={`${nameIn(state, thing)}: for which aircraft?`} onLeave={onLeave}>
      {lot !== undefined && (
        <NumberField label="How many" value={count} most={lot.count ?? undefined} onChange={setCount} />
      )}
      <label className="tick">
        <input type="checkbox" checked={owed} onChange={(e) => setOwed(e.target.checked)} />
        it, or its like, is to come back
      </label>
      <div className="choices">
        {others.map((j) => (
          <button type="button" key={j.id} className="key" onClick={() => rob(j.id)}>
            {j.name}
            <small>{j.id}</small>
          </button>
        ))}
        {others.length === 0 && <p className="quiet">The shop has no other aircraft yet.</p>}
      </div>
    </Leaf>
  );
}
