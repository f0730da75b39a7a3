/** The phone's heading: which sheet, the network in words, undo, and the drawing. A tap on it opens the index. */
import { useState } from 'react';
import { Link } from 'wouter';
import type { JobListed } from '../state/client.ts';
import { useOpenJob } from '../state/use-job.tsx';
import type { Screen } from '../state/use-screen.ts';
import { Leaf } from './leaf.tsx';
import { type Light, LightSwitch } from './sheet.tsx';
import { farWords, jobChoices, Pick } from './title-block.tsx';
import { VIEWS } from './views.ts';

export interface PhoneTopProps {
  readonly sheet: string;
  readonly under: string;
  readonly screen: Screen;
  readonly light: Light;
  readonly jobs: readonly JobListed[];
  /** What the other half of the sheet is called. */
  readonly other?: string;
  /** Where a screen takes back more than the last entry: a whole gesture. */
  readonly undo?: { readonly act: () => void; readonly can: boolean };
}

export function PhoneTop({ sheet, under, screen, light, jobs, other = 'Drawing', undo: own }: PhoneTopProps) {
  const open = useOpenJob();
  const { job, network } = open;
  const undo = own ?? { act: open.undo, can: job.last !== null };
  const [index, setIndex] = useState(false);
  const isDraw = screen.get('show') === 'drawing';
  return (
    <header className="top">
      <button type="button" className="where" aria-haspopup="dialog" onClick={() => setIndex(true)}>
        <b>{sheet}</b> {job.invented && <i>· invented example</i>}
        <span className={network.away ? 'warn' : undefined}>
          {network.words} · {under}
        </span>
      </button>
      <button type="button" onClick={undo.act} disabled={!undo.can}>
        Undo
      </button>
      <button type="button" onClick={() => screen.set({ show: isDraw ? null : 'drawing' })}>
        {isDraw ? 'List' : other}
      </button>
      {index && <IndexLeaf screen={screen} light={light} jobs={jobs} onLeave={() => setIndex(false)} />}
    </header>
  );
}

interface IndexLeafProps {
  readonly screen: Screen;
  readonly light: Light;
  readonly jobs: readonly JobListed[];
  readonly onLeave: () => void;
}

function IndexLeaf({ screen, light, jobs, onLeave }: IndexLeafProps) {
  const { job, person, choosePerson } = useOpenJob();
  return (
    <Leaf title="Index of sheets" onLeave={onLeave}>
      <nav className="choices wide" aria-label="Index of sheets">
        {VIEWS.map((v) => (
          <Link key={v.id} href={`${v.path}${screen.search}`} className="key" onClick={onLeave}>
            {v.name}
          </Link>
        ))}
      </nav>
      <dl className="cells">
        <div>
          <dt>Job</dt>
          <dd>
            <Pick
              label="Job"
              value={job.id}
              onChange={(id) => screen.set({ job: id, at: null, fit: null, place: null }, true)}
              choices={jobChoices(jobs)}
            />
          </dd>
        </div>
        <div>
          <dt>In hand</dt>
          <dd>
            <Pick
              label="In hand"
              value={person}
              onChange={choosePerson}
              choices={job.people.map((p) => ({ id: p.id, name: p.name, more: p.role }))}
            />
          </dd>
        </div>
        <div>
          <dt>{job.phase === 'strip' ? 'Strip' : 'Refit'}</dt>
          <dd>{farWords(job)}</dd>
        </div>
      </dl>
      <LightSwitch {...light} />
      <div className="keys-line">
        <button type="button" className="key" onClick={onLeave}>
          Back to the sheet
        </button>
      </div>
    </Leaf>
  );
}
