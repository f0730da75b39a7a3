/** Where it is: a group, then one of its parts, last used first; or tapped on the drawing; or found by its name. */
import { useMemo, useRef, useState } from 'react';
import { sheetsOfJob } from '../drawing/catalogue.ts';
import { FindBox } from '../off/find-box.tsx';
import { NameWithHand } from '../sheet/hand-mark.tsx';
import { Leaf } from '../sheet/leaf.tsx';
import { groupsOf, partsIn } from './carried.ts';
import type { CatchView } from './use-catch.ts';

interface PlaceLeafProps {
  readonly view: CatchView;
  readonly onLeave: () => void;
}

const MOST_SHOWN = 40;

export function PlaceLeaf({ view, onLeave }: PlaceLeafProps) {
  const { open, carried, bag, parts, acts, screen, ask } = view;
  const { job } = open;
  const groups = useMemo(() => groupsOf(job), [job]);
  const [group, setGroup] = useState<string | null>(carried.group);
  const here = groups.find((g) => g.id === group);
  const field = useRef<HTMLInputElement>(null);
  const choose = (part: string) => {
    acts.name(part);
    onLeave();
  };
  const settle = (id: string, name: string) => {
    setGroup(id);
    screen.set({ sheet: null });
    if (bag === null) acts.carry({ ...carried, group: id, groupName: name, parts: [], pin: null });
  };
  const within = here === undefined ? [] : partsIn(job, here, carried.recent);
  return (
    <Leaf title={bag === null ? 'Where is this?' : 'Which part is it?'} onLeave={onLeave}>
      {!open.snapshot.ready && <p className="lede">The job is still being read. The bag can be saved without.</p>}
      {here === undefined ? (
        <ul className="place-list" aria-label="Units">
          {groups.map((g) => (
            <li key={g.id}>
              <button type="button" className="key" onClick={() => settle(g.id, g.name)}>
                {g.name}
                <small>{g.parts.length} parts</small>
              </button>
            </li>
          ))}
        </ul>
      ) : (
        <>
          <div className="place-head">
            <b>{here.name}</b>
            <button type="button" className="key" onClick={() => setGroup(null)}>
              Another unit
            </button>
          </div>
          <ul className="place-list" aria-label={`Parts of ${here.name}`}>
            {within.slice(0, MOST_SHOWN).map((id) => (
              <li key={id}>
                <button type="button" className="key" aria-pressed={parts.includes(id)} onClick={() => choose(id)}>
                  <NameWithHand name={job.names.part(id)} hand={job.names.hand(id)} />
                  <small>
                    {[id, job.done.has(`remove:${id}`) ? 'already off' : ''].filter((w) => w !== '').join(' · ')}
                  </small>
                </button>
              </li>
            ))}
          </ul>
        </>
      )}
      <FindBox job={job} field={field} label="Find the part" placeholder="or find it: number, name" onFind={choose} />
      <div className="keys-line across">
        {sheetsOfJob(job.invented).length > 0 && (
          <button
            type="button"
            className="key"
            onClick={() => {
              screen.set({ show: 'drawing' });
              onLeave();
            }}
          >
            On the drawing
          </button>
        )}
        {bag !== null && parts.length === 0 && (
          <button type="button" className="key" onClick={() => ask({ kind: 'new-part' })}>
            New part here
          </button>
        )}
        <button type="button" className="key" onClick={onLeave}>
          Leave it open
        </button>
      </div>
    </Leaf>
  );
}
