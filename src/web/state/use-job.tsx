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
import type { BagCode } from '../../domain/bag-code.ts';
import type { Problem } from '../../domain/problem.ts';
import { ok, type Result } from '../../domain/result.ts';
import type { Command } from '../../journal/commands.ts';
import type { EntryDraft } from '../../journal/entry.ts';
import type { DataOf, KindName } from '../../journal/kinds/kinds.ts';
import { nameOf } from '../../journal/state.ts';
import { canBeKept } from '../offline/page-worker.ts';
import { hourOf } from '../words/figures.ts';
import { draftsOf, unseenDraft, unseenDrafts } from './acts.ts';
import { nextBag } from './bag-numbers.ts';
import { type JobSnapshot, JobStore } from './job-store.ts';
import type { JobView } from './job-view.ts';
import { dayKept, deviceId, keepDay, keepPerson, personKept } from './keep.ts';
import { type KeptPhoto, type KeptSound, readPhoto, readSound } from './keep-media.ts';
import { networkWords } from './network-words.ts';
import { lasting } from './persist.ts';
import { entryWords, viewOf } from './view-of.ts';
import { KeepFault } from './web-problems.ts';

/** `kept` on this device; `held` while the page is open, since it does not fit; `refused`: see `OpenJob.refused`. */
export type Recorded = 'kept' | 'held' | 'refused';

export interface OpenJob {
  readonly job: JobView;
  readonly snapshot: JobSnapshot;
  readonly person: string;
  readonly choosePerson: (id: string) => void;
  /** Shown at once; resolves with what became of it: nobody needs to wait, but nothing is to be forgotten before. */
  readonly record: (...commands: readonly Command[]) => Promise<Recorded>;
  /** Records before the job is read (`snapshot.ready` false): the data's shape is checked, its ids are not. */
  readonly recordUnseen: <K extends KindName>(kind: K, data: DataOf<K>) => void;
  /**
   * Keeps a photograph on this device, then sends it. Resolves when the bytes are on disk, with what a `photo-taken` entry
   * says of it. Does not reject where it does not fit: it is then held while the page is open, and the heading says so.
   * Rejects with `KeepFault` for what is no picture; `refused` then says why.
   */
  readonly keepPhoto: (blob: Blob) => Promise<KeptPhoto>;
  readonly keepSound: (blob: Blob) => Promise<KeptSound>;
  /** The next code of this device's block of the series. Null: used up and no network; ask for one from a roll. */
  readonly nextBag: () => Promise<BagCode | null>;
  /** Why the last tap could not be recorded; gone with the next one. */
  readonly refused: Problem | null;
  readonly undo: () => void;
  readonly network: { readonly words: string; readonly away: boolean };
  /** The last thing somebody else recorded, in words. */
  readonly fromOthers: string | null;
}

const JobContext = createContext<OpenJob | null>(null);
/** Called by the first screen that stands: an eager provider reads the job only then. */
const ShownContext = createContext<() => void>(() => undefined);

export function useOpenJob(): OpenJob {
  const open = useContext(JobContext);
  const shown = useContext(ShownContext);
  useEffect(shown, [shown]);
  if (open === null) throw new Error('internal: a screen stands outside its job; report it');
  return open;
}

/** For screens that open before the job does: inside an eager provider, `snapshot.ready` is false at first. */
export const useQuickJob = useOpenJob;

export function JobProvider({
  id,
  children,
  waiting,
  eager = false,
}: {
  readonly id: string;
  /** Shows the screens at once, on an empty state, and the job when it is read. */
  readonly eager?: boolean;
  readonly children: ReactNode;
  readonly waiting: ReactNode;
}) {
  const store = useMemo(() => new JobStore(id), [id]);
  const [isShown, shown] = useShown(eager);
  useEffect(() => {
    if (!isShown) return;
    void store.open();
    return () => store.close();
  }, [store, isShown]);
  const snapshot = useSyncExternalStore(store.subscribe, store.get);
  const [chosen, setChosen] = useState<string | null>(() => personKept(id));
  const { state } = snapshot;
  const [refused, setRefused] = useState<Problem | null>(null);
  const isKnown = chosen !== null && (state.people.has(chosen) || !snapshot.ready);
  const person = isKnown ? chosen : (state.people.keys().next().value ?? 'nobody');
  const job = useMemo(() => viewOf(id, state, person, deviceId()), [id, state, person]);

  const day = snapshot.ready ? demoDay(job) : dayKept(id);
  useEffect(() => {
    if (snapshot.ready) keepDay(id, day);
  }, [id, day, snapshot.ready]);
  const take = useCallback(
    async (made: Result<readonly EntryDraft[]>): Promise<Recorded> => {
      setRefused(made.ok ? null : made.problem);
      if (!made.ok) return 'refused';
      return (await store.record(made.value)) ? 'kept' : 'held';
    },
    [store],
  );
  const recordUnseen: OpenJob['recordUnseen'] = useCallback(
    (kind, data) => {
      const made = unseenDraft(kind, data, person, day);
      void take(made.ok ? ok([made.value]) : made);
    },
    [take, person, day],
  );
  const record = useCallback(
    (...commands: readonly Command[]) => {
      const { state: now, ready } = store.get();
      return take(ready ? draftsOf(now, commands, person, day) : unseenDrafts(commands, person, day));
    },
    [store, take, person, day],
  );
  const undo = useCallback(() => void record({ kind: 'undo-last' }), [record]);
  const choosePerson = useCallback(
    (next: string) => {
      keepPerson(id, next);
      setChosen(next);
    },
    [id],
  );
  const keepers = useKeepers(store, setRefused);
  const network = useNetwork(snapshot);
  const { last } = snapshot.arrived;
  const fromOthers =
    last === null ? null : `${hourOf(last.at)} ${nameOf(state, last.by)}: ${entryWords(last, job.names)}`;
  const open = useMemo(
    (): OpenJob => ({
      ...{ job, snapshot, person, choosePerson, record, recordUnseen, refused, undo, network, fromOthers },
      ...keepers,
    }),
    [job, snapshot, person, choosePerson, record, recordUnseen, refused, undo, network, fromOthers, keepers],
  );
  if (!snapshot.ready && !eager) return <>{snapshot.problem ? <NotOpened snapshot={snapshot} /> : waiting}</>;
  return (
    <JobContext.Provider value={open}>
      <ShownContext.Provider value={shown}>{children}</ShownContext.Provider>
    </JobContext.Provider>
  );
}

const LATEST_MS = 3_000;

/** Reading a job takes a phone longer than drawing the camera: it waits until the screen is painted, not longer. */
function useShown(eager: boolean): readonly [boolean, () => void] {
  const [isPainted, setPainted] = useState(false);
  useEffect(() => {
    const timer = setTimeout(() => setPainted(true), LATEST_MS);
    return () => clearTimeout(timer);
  }, []);
  const shown = useCallback(() => {
    requestAnimationFrame(() => setTimeout(() => setPainted(true), 0));
  }, []);
  return [isPainted || !eager, shown];
}

function useKeepers(
  store: JobStore,
  setRefused: (problem: Problem | null) => void,
): Pick<OpenJob, 'keepPhoto' | 'keepSound' | 'nextBag'> {
  return useMemo(() => {
    const words = (thrown: unknown): never => {
      if (thrown instanceof KeepFault) setRefused(thrown.problem);
      throw thrown;
    };
    return {
      keepPhoto: async (blob) => {
        const { info, bytes } = await readPhoto(blob).catch(words);
        await store.keep('photo', info, bytes);
        return info;
      },
      keepSound: async (blob) => {
        const { info, bytes } = await readSound(blob).catch(words);
        await store.keep('sound', info, bytes);
        return info;
      },
      nextBag: () => nextBag(store.job, deviceId(), (code) => store.get().state.bags.has(code)),
    };
  }, [store, setRefused]);
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
  const { awaySince } = snapshot;
  useEffect(() => {
    if (awaySince === null) return;
    const timer = setInterval(() => tick((n) => n + 1), 20_000);
    return () => clearInterval(timer);
  }, [awaySince]);
  return networkWords(snapshot, Date.now(), canBeKept(), lasting());
}
