/**
 * One open job in this browser: the copy of the shop's entries, our own pending ones laid over it, and the state both
 * fold to. Save first (IndexedDB), show at once, send when it can be sent. What arrives from others moves the copy on
 * and the overlay is laid again (docs/adr/0006).
 */
import type { Problem } from '../../domain/problem.ts';
import type { Result } from '../../domain/result.ts';
import { asPending, type Entry, type EntryDraft, readStored, type StoredEntry } from '../../journal/entry.ts';
import { fold } from '../../journal/fold.ts';
import { EMPTY_STATE } from '../../journal/make-state.ts';
import type { State } from '../../journal/state.ts';
import { fetchEntries, followUrl, sendDrafts } from './client.ts';
import { dropPending, keepPending, pendingOf } from './keep.ts';
import { keepMedia, mediaKey } from './keep-media.ts';
import { Uploader } from './uploader.ts';

export interface JobSnapshot {
  readonly state: State;
  readonly ready: boolean;
  readonly pending: number;
  /** Photographs and sounds made here that the shop's machine does not have yet. */
  readonly photosWaiting: number;
  readonly soundsWaiting: number;
  /** Null: connected. Otherwise since when (ms) the shop's machine has not answered. */
  readonly awaySince: number | null;
  readonly problem: Problem | null;
  /** Changes when entries by somebody else arrive: who and what, for the screen reader and the margin. */
  readonly arrived: { readonly n: number; readonly last: Entry | null };
}

const RETRY_MS = [500, 1000, 2000, 5000, 10_000] as const;

export class JobStore {
  private copy: State = EMPTY_STATE;
  private pending: readonly EntryDraft[] = [];
  private snapshot: JobSnapshot = {
    state: EMPTY_STATE,
    ready: false,
    pending: 0,
    photosWaiting: 0,
    soundsWaiting: 0,
    awaySince: null,
    problem: null,
    arrived: { n: 0, last: null },
  };
  private readonly listeners = new Set<() => void>();
  private source: EventSource | null = null;
  private sending = false;
  /** Kept and shown here, but not taken in by the shop's machine; tried again when the page is opened anew. */
  private readonly refused = new Set<string>();
  private tries = 0;
  private timer: ReturnType<typeof setTimeout> | null = null;
  private closed = false;
  private overlay: { readonly copy: State; readonly pending: readonly EntryDraft[]; readonly state: State } | null =
    null;

  readonly uploader: Uploader;

  constructor(readonly job: string) {
    this.uploader = new Uploader(job, (waiting, problem) =>
      this.show({
        photosWaiting: waiting.photos,
        soundsWaiting: waiting.sounds,
        ...(problem !== null && { problem }),
      }),
    );
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };
  readonly get = (): JobSnapshot => this.snapshot;

  async open(): Promise<void> {
    this.closed = false;
    this.pending = await pendingOf(this.job).catch(() => []);
    void this.uploader.count();
    await this.catchUp();
    if (this.closed) return;
    this.follow();
    void this.send();
  }

  close(): void {
    this.closed = true;
    this.source?.close();
    this.source = null;
    if (this.timer) clearTimeout(this.timer);
  }

  /** Records: shown at once; resolves when it is kept on this device. */
  async record(drafts: readonly EntryDraft[]): Promise<void> {
    this.pending = [...this.pending, ...drafts];
    this.show({});
    await keepPending(this.job, drafts).catch(() => undefined);
    void this.send();
  }

  /** Keeps a photograph or a sound on this device, then sends it when it can be sent. Rejects with `KeepFault`. */
  async keep(what: 'photo' | 'sound', info: { readonly hash: string; readonly mime: string }, bytes: ArrayBuffer) {
    const { hash, mime } = info;
    const row = { key: mediaKey(this.job, hash), job: this.job, hash, what, mime, bytes: bytes.byteLength };
    try {
      await keepMedia({ ...row, keptAt: Date.now(), waiting: 1 }, bytes);
    } finally {
      await this.uploader.count();
      void this.uploader.run();
    }
  }

  private async catchUp(): Promise<void> {
    const got = await fetchEntries(this.job, this.copy.head.seq);
    if (this.closed) return;
    if (got.ok) this.take(got.value, false);
    else if (got.problem.code !== 'AWAY') this.show({ problem: got.problem, ready: true });
    else {
      this.away();
      this.later(() => void this.catchUp().then(() => this.follow()));
    }
  }

  private follow(): void {
    if (this.closed || this.source || !this.snapshot.ready) return;
    const source = new EventSource(followUrl(this.job, this.copy.head.seq));
    this.source = source;
    source.addEventListener('open', () => {
      this.tries = 0;
      this.show({ awaySince: null });
      void this.send();
      void this.uploader.run();
    });
    const take = (e: Event) => {
      if (e instanceof MessageEvent) this.take([JSON.parse(String(e.data)) as StoredEntry], true);
    };
    source.addEventListener('message', take);
    source.addEventListener('entry', take);
    source.addEventListener('error', () => {
      // The browser's own reconnect asks from the first address again; ours asks from where we are.
      source.close();
      this.source = null;
      this.away();
      this.later(() => void this.catchUp().then(() => this.follow()));
    });
  }

  private take(stored: readonly StoredEntry[], live: boolean): void {
    const entries: Entry[] = [];
    let at = this.copy.head.seq;
    for (const s of stored) {
      if (s.seq <= at) continue;
      if (s.seq > at + 1) {
        // One was missed on the way: fetch from where we are, never fold over a gap.
        void this.catchUp();
        break;
      }
      at = s.seq;
      const read = readStored(s);
      if (read.ok) entries.push(read.value);
    }
    const arrivedIds = new Set(entries.map((e) => e.id));
    const ours = this.pending.filter((d) => arrivedIds.has(d.id)).map((d) => d.id);
    const others = entries.filter((e) => !ours.includes(e.id));
    this.copy = fold(entries, this.copy);
    this.pending = this.pending.filter((d) => !arrivedIds.has(d.id));
    if (ours.length > 0) void dropPending(ours).catch(() => undefined);
    const arrived =
      live && others.length > 0
        ? { n: this.snapshot.arrived.n + others.length, last: others.at(-1) ?? null }
        : this.snapshot.arrived;
    this.show({ ready: true, arrived, awaySince: null });
  }

  private async send(): Promise<void> {
    const batch = this.pending.filter((d) => !this.refused.has(d.id));
    if (this.sending || batch.length === 0 || this.closed) return;
    this.sending = true;
    const sent = await this.sendAll(batch);
    this.sending = false;
    if (this.closed) return;
    if (sent.ok) {
      this.tries = 0;
      this.show({ awaySince: null, ...(this.refused.size === 0 && { problem: null }) });
      await this.catchUp();
      if (this.pending.some((d) => !this.refused.has(d.id))) void this.send();
    } else if (sent.problem.code === 'AWAY') {
      this.away();
      this.later(() => void this.send());
    } else {
      this.show({ problem: sent.problem });
    }
  }

  /** All at once; where one of them is refused, one by one, so that it holds up none of the others. */
  private async sendAll(batch: readonly EntryDraft[]): Promise<Result<void>> {
    const sent = await sendDrafts(this.job, batch);
    if (sent.ok || sent.problem.code === 'AWAY') return sent;
    if (batch.length === 1) {
      for (const d of batch) this.refused.add(d.id);
      return sent;
    }
    let last: Result<void> = sent;
    for (const draft of batch) {
      const one = await sendDrafts(this.job, [draft]);
      if (!one.ok && one.problem.code === 'AWAY') return one;
      if (!one.ok) this.refused.add(draft.id);
      if (!one.ok) last = one;
    }
    if (!last.ok) await this.catchUp();
    return last;
  }

  private away(): void {
    this.show({ awaySince: this.snapshot.awaySince ?? Date.now() });
  }

  private later(act: () => void): void {
    if (this.timer) clearTimeout(this.timer);
    const wait = RETRY_MS[Math.min(this.tries, RETRY_MS.length - 1)] ?? 10_000;
    this.tries += 1;
    this.timer = setTimeout(() => {
      if (!this.closed) {
        act();
        void this.send();
      }
    }, wait);
  }

  private show(change: Partial<JobSnapshot>): void {
    this.snapshot = { ...this.snapshot, ...change, state: this.laidOver(), pending: this.pending.length };
    for (const listener of this.listeners) listener();
  }

  /** Copy and pending entries folded together; kept while neither changed, so that a plan is not asked for twice. */
  private laidOver(): State {
    if (this.pending.length === 0) return this.copy;
    if (this.overlay?.copy !== this.copy || this.overlay.pending !== this.pending) {
      const state = fold(this.pending.map(asPending), this.copy);
      this.overlay = { copy: this.copy, pending: this.pending, state };
    }
    return this.overlay.state;
  }
}
