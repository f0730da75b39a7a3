/**
 * One open job in this browser: the copy of the shop's entries, our own pending ones laid over it, and the state both
 * fold to. Save first (IndexedDB), show at once, send when it can be sent. What arrives from others moves the copy on
 * and the overlay is laid again (docs/adr/0006). What is sent, kept and tried again is decided in src/app/sync; this
 * holds the timers, the requests and the store.
 */
import { isOtherJournal, leftBehind, readArrivals } from '../../app/sync/arrivals.ts';
import {
  addDrafts,
  addEarlier,
  afterAnswer,
  afterArrivals,
  EMPTY_OUTBOX,
  forgotten,
  nextBatch,
  type Outbox,
} from '../../app/sync/outbox.ts';
import type { Problem } from '../../domain/problem.ts';
import { asPending, type Entry, type EntryDraft, type StoredEntry } from '../../journal/entry.ts';
import { fold } from '../../journal/fold.ts';
import { EMPTY_STATE } from '../../journal/make-state.ts';
import type { State } from '../../journal/state.ts';
import { fillBags } from './bag-numbers.ts';
import { fetchEntries, fetchJobs, sendDrafts } from './client.ts';
import { noteClock } from './clock-note.ts';
import { followEntries } from './follow.ts';
import { deviceId, dropPending, keepPending, pendingOf } from './keep.ts';
import { CopyKeeper, copyKept } from './keep-copy.ts';
import { keepMedia, mediaKey } from './keep-media.ts';
import { askToPersist } from './persist.ts';
import { inTurn } from './turn.ts';
import { Uploader } from './uploader.ts';
import { tryNextAddress } from './way.ts';
import { KeepFault, keepProblem } from './web-problems.ts';

export interface JobSnapshot {
  readonly state: State;
  readonly ready: boolean;
  readonly pending: number;
  /** Photographs and sounds made here that the shop's machine does not have yet. */
  readonly photosWaiting: number;
  readonly soundsWaiting: number;
  /** Null: connected. Otherwise since when (ms) the shop's machine has not answered. */
  readonly awaySince: number | null;
  /** Why the shop's machine does not take something in. */
  readonly problem: Problem | null;
  /** Why this device does not keep something; it is then held only while the page is open. */
  readonly deviceProblem: Problem | null;
  /** Changes when entries by somebody else arrive: who and what, for the screen reader and the margin. */
  readonly arrived: { readonly n: number; readonly last: Entry | null };
}

const TRIES_AT_ONE_ADDRESS = 3;
const RETRY_MS = [500, 1000, 2000, 5000, 10_000] as const;

export class JobStore {
  private copy: State = EMPTY_STATE;
  private outbox: Outbox = EMPTY_OUTBOX;
  private snapshot: JobSnapshot = {
    state: EMPTY_STATE,
    ready: false,
    pending: 0,
    photosWaiting: 0,
    soundsWaiting: 0,
    awaySince: null,
    problem: null,
    deviceProblem: null,
    arrived: { n: 0, last: null },
  };
  private readonly listeners = new Set<() => void>();
  private stopFollowing: (() => void) | null = null;
  private sending = false;
  private catching = false;
  /** Nothing is sent before what an earlier page left unsent is read: it goes first. */
  private isKeptRead = false;
  private unkept: readonly EntryDraft[] = [];
  private wayProblem: Problem | null = null;
  private mediaProblem: Problem | null = null;
  private tries = 0;
  private timer: ReturnType<typeof setTimeout> | null = null;
  private closed = true;
  private opening: Promise<void> | null = null;
  private readonly keeper: CopyKeeper;
  private readonly uploader: Uploader;
  private readonly others: BroadcastChannel;
  private overlay: { readonly copy: State; readonly drafts: readonly EntryDraft[]; readonly state: State } | null =
    null;

  constructor(readonly job: string) {
    this.keeper = new CopyKeeper(job, (thrown) =>
      this.show({ deviceProblem: keepProblem(thrown, 'the copy of the job') }),
    );
    this.uploader = new Uploader(job, (waiting, problem) => {
      this.mediaProblem = problem;
      const isEmpty = waiting.photos + waiting.sounds + this.outbox.drafts.length === 0;
      this.show({
        photosWaiting: waiting.photos,
        soundsWaiting: waiting.sounds,
        ...(isEmpty && { deviceProblem: null }),
      });
    });
    this.others = new BroadcastChannel(`witnessmark-${job}`);
    // Another page of this device recorded or kept something: read what is kept.
    this.others.onmessage = () => void this.readKept().then(() => this.goOn());
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };
  readonly get = (): JobSnapshot => this.snapshot;

  async open(): Promise<void> {
    this.closed = false;
    window.addEventListener('online', this.wake);
    document.addEventListener('visibilitychange', this.wake);
    this.opening ??= this.readCopy();
    await this.opening;
    if (this.closed) return;
    await this.catchUp(true);
    this.follow();
    this.goOn();
  }

  close(): void {
    this.closed = true;
    this.stopFollowing?.();
    this.stopFollowing = null;
    window.removeEventListener('online', this.wake);
    document.removeEventListener('visibilitychange', this.wake);
    if (this.timer) clearTimeout(this.timer);
    this.uploader.stop();
    void this.keeper.write().catch(() => undefined);
  }

  /** Records: shown at once; resolves when it is kept on this device, with false where it did not fit. */
  async record(drafts: readonly EntryDraft[]): Promise<boolean> {
    this.outbox = addDrafts(this.outbox, drafts);
    this.show({});
    await this.keepDrafts(drafts);
    void this.send();
    return !drafts.some((d) => this.unkept.includes(d));
  }

  /** With what did not fit before, in the order made; where that still does not fit, what was made now alone. */
  private async keepDrafts(drafts: readonly EntryDraft[]): Promise<void> {
    if (drafts.length === 0) return;
    const all = [...this.unkept, ...drafts];
    this.unkept = await keepPending(this.job, all).then(
      () => [],
      () =>
        keepPending(this.job, drafts).then(
          () => this.unkept,
          (thrown) => {
            this.show({ deviceProblem: keepProblem(thrown, 'what was recorded') });
            return all;
          },
        ),
    );
    this.others.postMessage('outbox');
  }

  /** Keeps a photograph or a sound on this device, then sends it when it can be sent. Rejects with `KeepFault`. */
  async keep(
    what: 'photo' | 'sound',
    info: { readonly hash: string; readonly mime: string },
    bytes: ArrayBuffer,
  ): Promise<void> {
    const { hash, mime } = info;
    const row = { key: mediaKey(this.job, hash), job: this.job, hash, what, mime, bytes: bytes.byteLength };
    try {
      await keepMedia({ ...row, keptAt: Date.now(), waiting: 1 }, bytes);
      this.others.postMessage('media');
      void askToPersist();
    } catch (thrown) {
      if (!(thrown instanceof KeepFault)) throw thrown;
      this.show({ deviceProblem: thrown.problem });
    }
    await this.uploader.count();
    void this.uploader.run();
  }

  /** The way to the machine may be open again: now, not when the timer ends. */
  private readonly wake = (): void => {
    if (document.visibilityState === 'hidden') void this.keeper.write().catch(() => undefined);
    else if (this.snapshot.awaySince !== null) this.retry();
  };

  private retry(): void {
    void this.catchUp(true).then(() => {
      this.follow();
      this.goOn();
    });
  }

  private goOn(): void {
    void this.send();
    void this.uploader.run();
  }

  private async readCopy(): Promise<void> {
    await this.readKept();
    const kept = await copyKept(this.job).catch(() => []);
    if (kept.length === 0) return;
    this.keeper.add(kept, true);
    this.takeEntries(kept, false);
  }

  private async readKept(): Promise<void> {
    const kept = await pendingOf(this.job).catch(() => []);
    this.outbox = this.isKeptRead ? addDrafts(this.outbox, kept) : addEarlier(this.outbox, kept);
    this.isKeptRead = true;
    await this.uploader.count();
    this.show({});
  }

  /** `anew`: also whether the shop's journal is still the one copied here. */
  private async catchUp(anew = false): Promise<void> {
    if (this.catching || this.closed) return;
    this.catching = true;
    try {
      const isOther = anew && (await this.isOther());
      const got = isOther ? null : await fetchEntries(this.job, this.copy.head.seq);
      if (this.closed) return;
      if (got === null) await this.beginAgain();
      else if (!got.ok) this.turnedAway(got.problem);
      else if (this.takeEntries(got.value, true) === 'other') await this.beginAgain();
      else {
        this.outbox = forgotten(this.outbox);
        this.isHere();
      }
    } finally {
      this.catching = false;
    }
  }

  private async isOther(): Promise<boolean> {
    if (this.copy.head.seq === 0) return false;
    const jobs = await fetchJobs();
    const head = jobs.ok ? jobs.value.find((j) => j.id === this.job)?.head : undefined;
    return head !== undefined && isOtherJournal(head, this.copy.head);
  }

  /** The shop's journal is not the one copied here: takes it whole, and sends again what it does not hold any more. */
  private async beginAgain(): Promise<void> {
    const got = await fetchEntries(this.job, 0);
    if (!got.ok) return this.turnedAway(got.problem);
    await this.keeper.write().catch(() => undefined);
    const lost = leftBehind(await copyKept(this.job).catch(() => []), got.value);
    this.outbox = forgotten(addEarlier(this.outbox, lost));
    await this.keepDrafts(lost);
    await this.keeper.forget();
    this.copy = EMPTY_STATE;
    this.takeEntries(got.value, true);
    this.isHere();
  }

  private follow(): void {
    if (this.closed || this.stopFollowing !== null || !this.snapshot.ready || this.snapshot.awaySince !== null) return;
    this.stopFollowing = followEntries(this.job, this.copy.head.seq, {
      onOpen: () => {
        this.tries = 0;
        this.isHere();
        this.goOn();
        void fillBags(this.job, deviceId());
        void noteClock(
          this.job,
          () => this.copy,
          async (drafts) => void (await this.record(drafts)),
        );
      },
      onEntries: (stored) => {
        const fault = this.takeEntries(stored, true, true);
        if (fault !== null) void this.catchUp(true);
      },
      onEnd: (problem) => {
        this.stopFollowing = null;
        this.turnedAway(problem);
      },
    });
  }

  private takeEntries(arrived: readonly StoredEntry[], toKeep: boolean, live = false): 'gap' | 'other' | null {
    const { stored, entries, fault } = readArrivals(this.copy.head, arrived);
    if (toKeep) this.keeper.add(stored);
    this.copy = fold(entries, this.copy);
    const mine = new Set(this.outbox.drafts.map((d) => d.id));
    const after = afterArrivals(this.outbox, entries);
    this.outbox = after.outbox;
    if (after.done.length > 0) void dropPending(after.done).catch(() => undefined);
    const foreign = live ? entries.filter((e) => !mine.has(e.id)) : [];
    const { arrived: was } = this.snapshot;
    const news = foreign.length > 0 ? { n: was.n + foreign.length, last: foreign.at(-1) ?? null } : was;
    this.show({ ready: this.snapshot.ready || this.copy.head.seq > 0, arrived: news });
    return fault;
  }

  /** Sends until nothing is left or the way is shut. One page of this device at a time. */
  private async send(): Promise<void> {
    if (this.sending || this.closed || !this.isKeptRead || nextBatch(this.outbox).length === 0) return;
    this.sending = true;
    const went = await inTurn(`witnessmark-send-${this.job}`, () => this.sendBatches()).catch(() => false);
    this.sending = false;
    if (went && !this.closed) await this.catchUp();
  }

  private async sendBatches(): Promise<boolean> {
    for (;;) {
      const batch = nextBatch(this.outbox);
      if (batch.length === 0) return true;
      const answer = await sendDrafts(this.job, batch);
      const { outbox, next } = afterAnswer(this.outbox, batch, answer);
      this.outbox = outbox;
      if (this.closed) return false;
      if (!answer.ok && next === 'wait') {
        this.turnedAway(answer.problem);
        return false;
      }
      if (answer.ok) this.tries = 0;
      if (answer.ok) this.isHere();
      else this.show({});
    }
  }

  private isHere(): void {
    this.wayProblem = null;
    this.show({ ready: true, awaySince: null });
  }

  private turnedAway(problem: Problem): void {
    const awaySince = this.snapshot.awaySince ?? Date.now();
    if (problem.code !== 'AWAY') this.wayProblem = problem;
    else if (this.tries % TRIES_AT_ONE_ADDRESS === TRIES_AT_ONE_ADDRESS - 1) tryNextAddress();
    this.show({ awaySince });
    if (this.timer) clearTimeout(this.timer);
    const wait = RETRY_MS[Math.min(this.tries, RETRY_MS.length - 1)] ?? 10_000;
    this.tries += 1;
    this.timer = setTimeout(() => {
      if (!this.closed) this.retry();
    }, wait);
  }

  private show(change: Partial<JobSnapshot>): void {
    const { drafts, refused } = this.outbox;
    const problem = this.wayProblem ?? [...refused.values()].at(-1) ?? this.mediaProblem;
    this.snapshot = { ...this.snapshot, ...change, state: this.laidOver(), pending: drafts.length, problem };
    for (const listener of this.listeners) listener();
  }

  /** Copy and pending entries folded together; kept while neither changed, so that a plan is not asked for twice. */
  private laidOver(): State {
    const { drafts } = this.outbox;
    if (drafts.length === 0) return this.copy;
    if (this.overlay?.copy !== this.copy || this.overlay.drafts !== drafts) {
      this.overlay = { copy: this.copy, drafts, state: fold(drafts.map(asPending), this.copy) };
    }
    return this.overlay.state;
  }
}
