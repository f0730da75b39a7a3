/**
 * What the floor needs to know first, as plain rows. Pure. Order is the message: what is half done, what can hurt, what is
 * not where it should be, what comes next, what came in. Nothing is hidden; long groups are counted and opened.
 */
import { nameOf, type State } from '../../journal/state.ts';
import type { JobView } from '../state/job-view.ts';
import { entryWords } from '../state/view-of.ts';
import { dayWords, hourOf } from '../words/figures.ts';
import { astray, type NotCopied, notCopied } from './astray-rows.ts';
import type { FloorRow } from './floor-row.ts';
import { inside, stops, stuck, tags } from './half-rows.ts';
import { energy, next } from './rig-rows.ts';

export type { FloorRow, FloorShape } from './floor-row.ts';

export interface FloorGroup {
  readonly id: 'open' | 'hurt' | 'astray' | 'next' | 'came';
  readonly name: string;
  readonly rows: readonly FloorRow[];
  readonly none: string;
}

const CAME = 6;

export function floorGroups(state: State, job: JobView, person: string, waits: NotCopied): readonly FloorGroup[] {
  return [
    {
      id: 'open',
      name: 'Left half done',
      rows: [...stops(state, job), ...inside(state, job), ...stuck(state, job)],
      none: 'Nothing was left half done.',
    },
    {
      id: 'hurt',
      name: 'Can hurt, or must be left as it is',
      rows: [...tags(state, job), ...energy(state, job)],
      none: 'No tag hangs.',
    },
    {
      id: 'next',
      name: 'Next here',
      rows: next(state, job),
      none: 'Nothing is free to be done here; see what holds it under Getting it off.',
    },
    {
      id: 'astray',
      name: 'Not where it should be',
      rows: [...notCopied(waits), ...astray(state)],
      none: 'Every bag is on a shelf and every count agrees.',
    },
    { id: 'came', name: 'What others recorded', rows: came(state, job, person), none: 'Nothing by others yet.' },
  ];
}

function came(state: State, job: JobView, person: string): FloorRow[] {
  const since = state.log.findLastIndex((e) => e.by === person);
  return state.log
    .slice(since + 1)
    .filter((e) => e.by !== person)
    .slice(-CAME)
    .reverse()
    .map(
      (e): FloorRow => ({
        id: `came ${e.id}`,
        shape: 'came',
        word: hourOf(e.at),
        title: entryWords(e, job.names),
        why: `${nameOf(state, e.by)}, ${dayWords(e.at)}`,
        href: '',
        photo: null,
        part: null,
      }),
    );
}
