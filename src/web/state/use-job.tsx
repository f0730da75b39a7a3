/** The open job for the screens: view, network in words, person in hand, and the one way to record. */
import {
  createContext,
  type ReactNode,
  useCallback,
  useContext,
  useEffect,
  useMemo,
  useState,
  useSyncExternalStore,
} from 'react';
import type { Problem } from '../../domain/problem.ts';
import type { Command } from '../../journal/commands.ts';
import { nameOf } from '../../journal/state.ts';
import { hourOf } from '../words/figures.ts';
import { draftsOf } from './acts.ts';
import { type JobSnapshot, JobStore } from './job-store.ts';
import type { JobView } from './job-view.ts';
import { deviceId, keepPerson, personKept } from './keep.ts';
import { entryWords, viewOf } from './view-of.ts';

export interface OpenJob {
  readonly job: JobView;
  readonly snapshot: JobSnapshot;
  readonly person: string;
  readonly choosePerson: (id: string) => void;
  readonly record: (...commands: readonly Command[]) => void;
  /** Why the last tap could not be recorded; gone with the next one. */
  readonly refused: Problem | null;
  readonly undo: () => void;
  readonly network: { readonly words: string; readonly away: boolean };
  /** The last thing somebody else recorded, in words. */
  readonly fromOthers: string | null;
}

const JobContext = createContext<OpenJob | null>(null);

export function useOpenJob(): OpenJob {
  const open = useContext(JobContext);
  if (open === null) throw new Error('internal: a screen stands outside its job; report it');
  return open;
}

export function JobProvider({
  id,
  children,
  waiting,
}: {
  readonly id: string;
  readonly children: ReactNode;
  readonly waiting: ReactNode;
}) {
  const store = useMemo(() => new JobStore(id), [id]);
  useEffect(() => {
    void store.open();
    return () => store.close();
  }, [store]);
  const snapshot = useSyncExternalStore(store.subscribe, store.get);
  const [chosen, setChosen] = useState<string | null>(() => personKept(id));
  const { state } = snapshot;
  const [refused, setRefused] = useState<Problem | null>(null);
  const person = chosen !== null && state.people.has(chosen) ? chosen : (state.people.keys().next().value ?? 'nobody');
  const job = useMemo(() => viewOf(id, state, person, deviceId()), [id, state, person]);

  const record = useCallback(
    (...commands: readonly Command[]) => {
      const made = draftsOf(store.get().state, commands, person, demoDay(job));
      setRefused(made.ok ? null : made.problem);
      if (made.ok) void store.record(made.value);
    },
    [store, person, job],
  );
  const undo = useCallback(() => record({ kind: 'undo-last' }), [record]);
  const choosePerson = useCallback(
    (next: string) => {
      keepPerson(id, next);
      setChosen(next);
    },
    [id],
  );
  const network = useNetwork(snapshot);
  const { last } = snapshot.arrived;
  const fromOthers =
    last === null ? null : `${hourOf(last.at)} ${nameOf(state, last.by)}: ${entryWords(last, job.names)}`;
  const open = useMemo(
    (): OpenJob => ({ job, snapshot, person, choosePerson, record, refused, undo, network, fromOthers }),
    [job, snapshot, person, choosePerson, record, refused, undo, network, fromOthers],
  );
  if (!snapshot.ready) return <>{snapshot.problem ? <NotOpened snapshot={snapshot} /> : waiting}</>;
  return <JobContext.Provider value={open}>{children}</JobContext.Provider>;
}

/** An invented job keeps its own day; a real one has today. */
function demoDay(job: JobView): string {
  return job.invented ? job.day : '';
}

function NotOpened({ snapshot }: { readonly snapshot: JobSnapshot }) {
  return (
    <div className="alone" role="alert">
      <h1>The job could not be opened</h1>
      <p>{snapshot.problem?.message}</p>
      <p>{snapshot.problem?.remedy}</p>
    </div>
  );
}

function useNetwork(snapshot: JobSnapshot): OpenJob['network'] {
  const [, tick] = useState(0);
  const { awaySince, pending, problem } = snapshot;
  useEffect(() => {
    if (awaySince === null) return;
    const timer = setInterval(() => tick((n) => n + 1), 20_000);
    return () => clearInterval(timer);
  }, [awaySince]);
  const waiting = pending === 0 ? '' : ` · ${pending} to send`;
  if (problem !== null) return { words: `kept here, not taken in: ${problem.message} ${problem.remedy}`, away: true };
  if (awaySince === null) return { words: pending === 0 ? 'here' : `here${waiting}`, away: false };
  const minutes = Math.floor((Date.now() - awaySince) / 60_000);
  const since =
    minutes < 1 ? 'away just now' : minutes < 90 ? `away ${minutes} min` : `away ${Math.round(minutes / 60)} h`;
  return { words: `${since}${waiting}`, away: true };
}
