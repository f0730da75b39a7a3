/** The title block: which job, which sheet, in whose hands, the network in words, how far, which day. */
import { Button, ListBox, ListBoxItem, Popover, Select } from 'react-aria-components';
import type { JobView, Person } from '../state/job-view.ts';
import { dayWords } from '../words/figures.ts';

export interface JobChoice {
  readonly id: string;
  readonly name: string;
  readonly invented: boolean;
  /** The day it stands on; absent where an older list is kept on the device. */
  readonly day?: string;
}

export interface TitleBlockProps {
  readonly job: JobView;
  readonly jobs: readonly JobChoice[];
  readonly sheet: string;
  readonly person: string;
  readonly network: { readonly words: string; readonly away: boolean };
  readonly onJob: (id: string) => void;
  readonly onPerson: (id: string) => void;
}

export function TitleBlock({ job, jobs, sheet, person, network, onJob, onPerson }: TitleBlockProps) {
  return (
    <footer className="title-place">
      <dl className="title">
        <div>
          <dt>Job</dt>
          <dd>
            <Pick label="Job" value={job.id} onChange={onJob} choices={jobChoices(jobs)} />
          </dd>
        </div>
        <div>
          <dt>Sheet</dt>
          <dd>{sheet}</dd>
        </div>
        <div>
          <dt>In hand</dt>
          <dd>
            <Pick label="In hand" value={person} onChange={onPerson} choices={people(job.people)} />
          </dd>
        </div>
        <div>
          <dt>Network</dt>
          <dd className={network.away ? 'warn' : undefined}>
            <span role="status" className="told">
              {network.words}
            </span>
          </dd>
        </div>
        <div>
          <dt>{job.phase === 'strip' ? 'Strip' : 'Refit'}</dt>
          <dd>{farWords(job)}</dd>
        </div>
        <div>
          <dt>Day</dt>
          <dd>{dayWords(job.day)}</dd>
        </div>
      </dl>
    </footer>
  );
}

/** "QX-OLA, invented example"; what a job says of itself in brackets is said once. */
export function jobWords(j: JobChoice): string {
  const name = j.name.replace(/ *\(invented example\)/i, '');
  return j.invented ? `${name}, invented example` : name;
}

/** Two copies of one job are told apart by the day they stand on; a job without entries by its folder. */
export function jobChoices(jobs: readonly JobChoice[]): readonly Choice[] {
  return jobs.map((j) => ({
    id: j.id,
    name: jobWords(j),
    more: j.day === undefined || j.day === '' ? `folder ${j.id}` : `as it stands on ${dayWords(j.day)}`,
  }));
}

export function farWords(job: JobView): string {
  const { total, off } = job.positions;
  return job.phase === 'strip' ? `${off} of ${total} positions off` : `${total - off} of ${total} positions in`;
}

function people(all: readonly Person[]): readonly Choice[] {
  return all.map((p) => ({ id: p.id, name: p.name, more: p.role }));
}

export interface Choice {
  readonly id: string;
  readonly name: string;
  readonly more: string | null;
}

interface PickProps {
  readonly label: string;
  readonly value: string;
  readonly choices: readonly Choice[];
  readonly onChange: (id: string) => void;
}

export function Pick({ label, value, choices, onChange }: PickProps) {
  const now = choices.find((c) => c.id === value);
  return (
    <Select aria-label={label} selectedKey={value} onSelectionChange={(key) => key !== null && onChange(String(key))}>
      <Button className="pick">
        <span>{now?.name ?? 'nobody yet'}</span>
      </Button>
      <Popover className="slip" placement="top start" offset={10}>
        <ListBox items={choices}>
          {(c) => (
            <ListBoxItem id={c.id} textValue={c.name} className="item">
              {c.name}
              {c.more !== null && <small>{c.more}</small>}
            </ListBoxItem>
          )}
        </ListBox>
      </Popover>
    </Select>
  );
}
