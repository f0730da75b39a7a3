/** For tests: a clock and ids that count up, a person, and a journal that is only a list. No disk, no chance. */
import { type EntryId, makeUlid } from '../../domain/ids.ts';
import { must, type Result } from '../../domain/result.ts';
import type { Command } from '../commands.ts';
import { decide } from '../decide.ts';
import {
  accept,
  draftEntry,
  EMPTY_HEAD,
  type Entry,
  type EntryDraft,
  type Head,
  readStored,
  type Stamp,
  type StoredEntry,
} from '../entry.ts';
import { fold } from '../fold.ts';
import { type DataOf, fullKind, type KindName } from '../kinds/kinds.ts';
import { EMPTY_STATE } from '../make-state.ts';
import type { Clock } from '../ports.ts';
import type { State } from '../state.ts';

const START = Date.UTC(2026, 0, 5, 7, 0, 0);

export function isoAt(n: number): string {
  return `${new Date(START + n * 1000).toISOString().slice(0, 19)}+00:00`;
}

export function idAt(n: number): EntryId {
  const chance = new Uint8Array(10);
  new DataView(chance.buffer).setUint32(6, n * 7919);
  return makeUlid(START + n * 1000, chance);
}

export function stampAt(n: number, by = 'ana', device = 'tablet'): Stamp {
  return { id: idAt(n), at: isoAt(n), by, device };
}

export function countingClock(): Clock {
  let n = 0;
  return { now: () => isoAt((n += 1)) };
}

export function draftOf<K extends KindName>(
  n: number,
  name: K,
  data: DataOf<K>,
  by = 'ana',
  corrects?: EntryId,
): EntryDraft {
  return draftEntry(stampAt(n, by), fullKind(name), data, corrects);
}

/** Accepts drafts one after the other, as a journal does. */
export function chain(drafts: readonly EntryDraft[], from: Head = EMPTY_HEAD): StoredEntry[] {
  let head = from;
  return drafts.map((d) => {
    const stored = accept(d, head, isoAt(100_000 + head.seq));
    head = { seq: stored.seq, hash: stored.hash };
    return stored;
  });
}

export function entriesOf(drafts: readonly EntryDraft[], from: Head = EMPTY_HEAD): Entry[] {
  return chain(drafts, from).map((s) => must(readStored(s)));
}

/** A job in a test: give it commands, look at its state. */
export class Recorder {
  state: State = EMPTY_STATE;
  readonly stored: StoredEntry[] = [];
  private n = 0;

  constructor(private readonly by = 'ana') {}

  try(command: Command, by = this.by): Result<readonly EntryDraft[]> {
    return decide(this.state, command, stampAt((this.n += 10), by));
  }

  /** Decides and records; gives the entries. */
  do(command: Command, by = this.by): readonly Entry[] {
    return this.record(must(this.try(command, by)));
  }

  record(drafts: readonly EntryDraft[]): readonly Entry[] {
    const stored = chain(drafts, this.state.head);
    this.stored.push(...stored);
    const entries = stored.map((s) => must(readStored(s)));
    this.state = fold(entries, this.state);
    return entries;
  }

  note<K extends KindName>(name: K, data: DataOf<K>, by = this.by): Entry {
    return this.do({ kind: 'record', entry: name, data }, by)[0] as Entry;
  }
}

/** A leg held by two bolts, a cover over one of them, a look inside: a small rig for tests, not an aircraft. */
export const SMALL_RIG = {
  format: 'witnessmark-rig/1',
  root: 'airframe',
  parts: [
    { id: 'leg-r', name: 'Leg, starboard', hand: 'R', massKg: 31, at: { x: 7, y: 1.2, z: 0 } },
    { id: 'fork-r', name: 'Fork, starboard', within: 'leg-r' },
    { id: 'cover-r', name: 'Cover, starboard', hand: 'R' },
    { id: 'door', name: 'Door', hand: 'C', needs: { released: 'bolt-r-1' } },
  ],
  attachments: [
    {
      id: 'bolt-r-1',
      joins: ['leg-r', 'airframe'],
      kind: 'bolted',
      minutes: 10,
      needs: { off: 'cover-r' },
      asFound: { head: 'up' },
      threadHand: 'left',
    },
    {
      id: 'bolt-r-2',
      joins: ['leg-r', 'airframe'],
      minutes: 10,
      hazards: [{ kind: 'stored-energy', clearedBy: { fact: 'spring-measured-r' } }],
    },
    { id: 'pin-r', joins: ['fork-r', 'leg-r'] },
    { id: 'clip-r', joins: ['cover-r', 'airframe'], minutes: 1 },
    { id: 'hinge', joins: ['door', 'airframe'], minutes: 5 },
  ],
  operations: [
    { id: 'drain-r', name: 'Drain the leg', on: 'leg-r', minutes: 5 },
    { id: 'ream', name: 'Ream to size', on: 'door', only: 'refit' },
  ],
  blocks: [],
  guards: [],
  setups: [{ id: 'support', states: ['wheels', 'jacks'], initial: 'wheels' }],
  facts: [
    { id: 'spring-measured-r', name: 'Free length measured' },
    { id: 'inspector-here', given: true },
  ],
  looks: [
    {
      id: 'look-r',
      name: 'Behind the starboard cover',
      on: 'leg-r',
      visible: { off: 'cover-r' },
      whenFitted: ['bolt-r-2'],
    },
  ],
} as const;

/** A recorder whose job is open, with Ana (lead), Ben (apprentice), and the small rig as our own. */
export function openedRecorder(): Recorder {
  const r = new Recorder();
  r.note('job-opened', { job: 'test', name: 'Test job', invented: true });
  r.note('person-noted', { person: 'ana', name: 'Ana', role: 'lead' });
  r.note('person-noted', { person: 'ben', name: 'Ben', role: 'apprentice' });
  r.do({ kind: 'take-in-rig', rig: SMALL_RIG, standing: 'ours' });
  return r;
}
