/** Counting, splitting, joining; sets; tools and rags in and out of a bay. */
import { useRef, useState } from 'react';
import { recording } from '../../journal/commands.ts';
import { stillInside } from '../../journal/custody.ts';
import { nameIn } from '../find/index-of.ts';
import { FindBox } from '../off/find-box.tsx';
import { Leaf } from '../sheet/leaf.tsx';
import { useOpenJob } from '../state/use-job.tsx';
import { NumberField } from './number-field.tsx';
import { chanceId } from './other-job.ts';

interface Props {
  readonly thing: string;
  readonly onLeave: () => void;
}

export function CountLeaf({ thing, onLeave }: Props) {
  const { record, snapshot } = useOpenJob();
  const was = snapshot.state.lotCounts.get(thing)?.count ?? null;
  const [count, setCount] = useState(was ?? 0);
  const say = (how: 'by-hand' | 'by-weight' | 'on-photograph') => {
    record(recording('counted', { lot: thing, count, how }));
    onLeave();
  };
  return (
    <Leaf title={`Count: ${nameIn(snapshot.state, thing)}`} onLeave={onLeave}>
      <p className="lede">
        {was === null
          ? 'Not counted before.'
          : `${was} are noted. Another number stays in sight until it is explained.`}
      </p>
      <NumberField label="Counted" value={count} least={0} onChange={setCount} />
      <div className="keys-line">
        <button type="button" className="key go" onClick={() => say('by-hand')}>
          By hand
        </button>
        <button type="button" className="key" onClick={() => say('by-weight')}>
          By weight
        </button>
        <button type="button" className="key" onClick={() => say('on-photograph')}>
          On a photograph
        </button>
      </div>
    </Leaf>
  );
}

export function SplitLeaf({ thing, onLeave }: Props) {
  const { record, snapshot } = useOpenJob();
  const { state } = snapshot;
  const all = state.lotCounts.get(thing)?.count ?? null;
  const [count, setCount] = useState(1);
  const bags = [...state.bags.keys()].slice(-12).reverse();
  const split = (bag: string | null) => {
    const to = bag === null ? {} : { to: { bag } };
    record(recording('lot-split', { lot: thing, into: chanceId('lot'), count, ...to }));
    onLeave();
  };
  return (
    <Leaf title={`Split: ${nameIn(state, thing)}`} onLeave={onLeave}>
      <NumberField label="Take out" value={count} most={all ?? undefined} onChange={setCount} />
      <h3>Into</h3>
      <div className="choices">
        <button type="button" className="key go" onClick={() => split(null)}>
          Leave both in this bag
          <small>a lot of its own</small>
        </button>
        {bags.map((b) => (
          <button type="button" key={b} className="key" onClick={() => split(b)}>
            {b}
          </button>
        ))}
      </div>
    </Leaf>
  );
}

export function JoinLeaf({ thing, onLeave }: Props) {
  const { record, snapshot } = useOpenJob();
  const { state } = snapshot;
  const root = state.lotCounts.get(thing)?.root;
  const family = [...state.lotCounts].filter(([lot, c]) => lot !== thing && c.root === root);
  return (
    <Leaf title={`Put together: ${nameIn(state, thing)}`} onLeave={onLeave}>
      <div className="choices">
        {family.map(([lot, c]) => (
          <button
            type="button"
            key={lot}
            className="key"
            onClick={() => {
              record(recording('lots-joined', { lot: thing, into: lot }));
              onLeave();
            }}
          >
            {nameIn(state, lot)}
            <small>{c.count === null ? 'not counted' : `× ${c.count}`}</small>
          </button>
        ))}
      </div>
    </Leaf>
  );
}

export function GoesLeaf({ subject, onLeave }: { readonly subject: string; readonly onLeave: () => void }) {
  const { record, job, snapshot } = useOpenJob();
  const field = useRef<HTMLInputElement>(null);
  return (
    <Leaf title={`${nameIn(snapshot.state, subject)} goes with`} onLeave={onLeave}>
      <p className="lede">Kept as one set: matched pieces, or the hardware of one joint.</p>
      <FindBox
        job={job}
        field={field}
        label="Find what it goes with"
        placeholder="number, name, bag"
        onFind={(other) => {
          record(recording('goes-with', { members: [subject, other] }));
          onLeave();
        }}
      />
    </Leaf>
  );
}

const TOOLS = ['rag', 'torch', 'mirror', 'spanner', 'bucking bar', 'phone'] as const;

/** Counted into a bay and out again. What is still inside heads the floor list until it is out. */
export function InsideLeaf({ zone, onLeave }: { readonly zone: string | null; readonly onLeave: () => void }) {
  const { record, snapshot } = useOpenJob();
  const { state } = snapshot;
  const [where, setWhere] = useState(zone ?? '');
  const [count, setCount] = useState(1);
  const [what, setWhat] = useState<string>('rag');
  const there = stillInside(state).filter((i) => i.zone === where);
  const say = (way: 'in' | 'out', item: string, n: number) =>
    record(recording('counted-inside', { zone: where.trim(), way, items: [{ what: item, count: n }] }));
  return (
    <Leaf title="Tools and rags, in and out" onLeave={onLeave}>
      <input
        className="find-field"
        aria-label="Which bay"
        placeholder="which bay: behind C14"
        value={where}
        onChange={(e) => setWhere(e.target.value)}
      />
      <div className="choices">
        {TOOLS.map((t) => (
          <button
            type="button"
            key={t}
            className={t === what ? 'key go' : 'key'}
            aria-pressed={t === what}
            onClick={() => setWhat(t)}
          >
            {t}
          </button>
        ))}
      </div>
      <NumberField label="How many" value={count} onChange={setCount} />
      <div className="keys-line">
        <button type="button" className="key go" disabled={where.trim() === ''} onClick={() => say('in', what, count)}>
          In
        </button>
        <button type="button" className="key" disabled={where.trim() === ''} onClick={() => say('out', what, count)}>
          Out
        </button>
      </div>
      {there.map((i) => (
        <p key={i.what} className="bag-tag">
          <b>STILL INSIDE</b> {i.count} × {i.what}
          <button type="button" className="link" onClick={() => say('out', i.what, Math.max(1, i.count))}>
            all out
          </button>
        </p>
      ))}
    </Leaf>
  );
}
