/**
 * A job that is served: its journal and photographs, and its state folded once and moved on as entries come, by this
 * program or another. One queue for what comes in, so that two entries cannot overtake each other in the fold.
 */
import { ok, type Result } from '../domain/result.ts';
import {
  EMPTY_COPY,
  type EntryDraft,
  type Journal,
  type LocalCopy,
  type Photographs,
  type Sounds,
  type State,
  type StoredEntry,
  takeIn,
} from '../journal/index.ts';

export interface JobSource {
  readonly id: string;
  readonly journal: Journal;
  readonly photographs: Photographs;
  /** Absent where only photographs are kept. */
  readonly sounds?: Sounds;
}

export type Listener = (entries: readonly StoredEntry[]) => void;

export class HostedJob {
  private copy: LocalCopy = EMPTY_COPY;
  private work: Promise<unknown> = Promise.resolve();
  private readonly listeners = new Set<Listener>();
  private readonly stop: () => void;

  private constructor(readonly source: JobSource) {
    this.stop = source.journal.follow(() => void this.catchUp());
  }

  static async open(source: JobSource): Promise<Result<HostedJob>> {
    const job = new HostedJob(source);
    const read = await job.catchUp();
    return read.ok ? ok(job) : read;
  }

  get id(): string {
    return this.source.id;
  }

  get state(): State {
    return this.copy.state;
  }

  /** Entries after `seq`, from memory: they were read and checked when they came. */
  after(seq: number, limit: number): readonly StoredEntry[] {
    return this.copy.stored.slice(seq, seq + limit);
  }

  async append(drafts: readonly EntryDraft[], afterSeq: number | null = null): Promise<Result<readonly StoredEntry[]>> {
    const accepted = await this.source.journal.append(afterSeq, drafts);
    if (!accepted.ok) return accepted;
    const read = await this.catchUp();
    return read.ok ? accepted : read;
  }

  /** With what another program recorded a moment ago; otherwise it comes by itself. */
  refresh(): Promise<Result<void>> {
    return this.catchUp();
  }

  listen(listener: Listener): () => void {
    this.listeners.add(listener);
    return () => void this.listeners.delete(listener);
  }

  close(): void {
    this.stop();
    this.listeners.clear();
  }

  /** Reads what the journal has beyond the fold; calls are done one after the other. */
  private catchUp(): Promise<Result<void>> {
    const next = this.work.then(() => this.readOn());
    this.work = next.catch(() => undefined);
    return next;
  }

  private async readOn(): Promise<Result<void>> {
    const arrived = await this.source.journal.read(this.copy.state.head.seq + 1);
    if (!arrived.ok) return arrived;
    if (arrived.value.length === 0) return ok(undefined);
    const taken = takeIn(this.copy, arrived.value);
    if (!taken.ok) return taken;
    this.copy = taken.value;
    for (const listener of this.listeners) listener(arrived.value);
    return ok(undefined);
  }
}
