/**
 * For tests: devices, a shop's machine and the wire between them, played step by step. The decisions are those of the page
 * (outbox.ts, arrivals.ts); what stands here in place of a browser is a disk with room for so much, a memory that a crash
 * empties, and a clock that runs wrong. The wire holds every message until a step delivers, repeats or loses it.
 */
import { bagCode } from '../../../domain/bag-code.ts';
import { type EntryId, makeUlid } from '../../../domain/ids.ts';
import { problem } from '../../../domain/problem.ts';
import { failed, must, ok, type Result } from '../../../domain/result.ts';
import {
  draftEntry,
  type Entry,
  type EntryDraft,
  type Head,
  readDraft,
  type StoredEntry,
} from '../../../journal/entry.ts';
import { fold } from '../../../journal/fold.ts';
import { EMPTY_STATE } from '../../../journal/make-state.ts';
import { MemoryJournal } from '../../../journal/memory-journal.ts';
import type { State } from '../../../journal/state.ts';
import { isOtherJournal, leftBehind, readArrivals } from '../arrivals.ts';
import {
  addDrafts,
  addEarlier,
  afterAnswer,
  afterArrivals,
  answerMeans,
  EMPTY_OUTBOX,
  forgotten,
  nextBatch,
  type Outbox,
} from '../outbox.ts';

export type Ask =
  | { readonly kind: 'send'; readonly batch: readonly EntryDraft[] }
  | { readonly kind: 'read'; readonly after: number }
  | { readonly kind: 'photo'; readonly hash: string };
export type Told =
  | { readonly kind: 'send'; readonly batch: readonly EntryDraft[]; readonly answer: Result<unknown> }
  | { readonly kind: 'read'; readonly answer: Result<readonly StoredEntry[]>; readonly head: Head }
  | { readonly kind: 'photo'; readonly hash: string; readonly answer: Result<unknown> };
export type Message =
  | { readonly to: 'shop'; readonly device: Device; readonly ask: Ask }
  | { readonly to: 'device'; readonly device: Device; readonly told: Told };

const REVOKED = problem('DEVICE_REVOKED', 'the device was shut out', 'Pair it again.');

export class Shop {
  readonly photos = new Set<string>();
  readonly shutOut = new Set<string>();
  journal = new MemoryJournal({ now: () => this.time() });
  private ticks = 0;

  private time(): string {
    this.ticks += 1;
    return new Date(Date.UTC(2026, 3, 14, 8) + this.ticks * 1000).toISOString();
  }

  async entries(): Promise<readonly StoredEntry[]> {
    return must(await this.journal.read(1));
  }

  /** Put back from a backup: everything after `seq` is gone. */
  async putBack(seq: number): Promise<void> {
    const kept = (await this.entries()).slice(0, seq);
    this.journal = new MemoryJournal({ now: () => this.time() });
    for (const s of kept) must(await this.journal.append(null, [must(readDraft(s.body, s.digest))]));
  }

  async answer(device: Device, ask: Ask): Promise<Told> {
    const isOut = this.shutOut.has(device.name);
    switch (ask.kind) {
      case 'send': {
        const answer = isOut ? failed(REVOKED) : await this.journal.append(null, ask.batch);
        return { kind: 'send', batch: ask.batch, answer };
      }
      case 'read': {
        const head = must(await this.journal.head());
        const answer = isOut ? failed(REVOKED) : await this.journal.read(ask.after + 1);
        return { kind: 'read', answer, head };
      }
      case 'photo':
        if (!isOut) this.photos.add(ask.hash);
        return { kind: 'photo', hash: ask.hash, answer: isOut ? failed(REVOKED) : ok(ask.hash) };
    }
  }
}

export class Device {
  /** Paired anew, it has another name. */
  name: string;
  /** Runs wrong by so much, and may be set while the device is in use. */
  clockAheadMs = 0;
  /** So many more entries and photographs fit. */
  room = Number.POSITIVE_INFINITY;
  /** In the order made, for the check at the end. */
  readonly made: EntryDraft[] = [];
  readonly photosMade: string[] = [];
  /** Said to be held only while the page is open, and gone with it. */
  readonly toldLost = new Set<string>();
  outbox: Outbox = EMPTY_OUTBOX;
  state: State = EMPTY_STATE;
  copy: StoredEntry[] = [];
  private unkept: readonly EntryDraft[] = [];
  private readonly disk = { drafts: [] as EntryDraft[], photos: new Set<string>(), copy: [] as StoredEntry[] };
  private readonly heldPhotos = new Set<string>();
  private count = 0;

  constructor(
    readonly place: number,
    private readonly rig: { ticks: number },
  ) {
    this.name = `phone-${place}`;
  }

  record(id?: EntryId): void {
    this.count += 1;
    const ms = Date.UTC(2026, 3, 14, 8) + this.rig.ticks * 1000 + this.clockAheadMs;
    const chance = Uint8Array.from([this.place, this.count, this.count >> 8, 0, 0, 0, 0, 0, 0, 0]);
    const stamp = { id: id ?? makeUlid(ms, chance), at: new Date(ms).toISOString(), by: 'ana', device: this.name };
    const data = { bag: bagCode(1 + (this.count % 3)), what: `${this.place}/${this.count}` };
    const draft = draftEntry(stamp, 'note.v1', { text: JSON.stringify(data) });
    this.made.push(draft);
    this.outbox = addDrafts(this.outbox, [draft]);
    this.keep([draft]);
  }

  /** As the page keeps: with what did not fit before; where it does not fit, it is said and held in memory. */
  private keep(drafts: readonly EntryDraft[]): void {
    const all = [...this.unkept, ...drafts];
    if (all.length > this.room) {
      this.unkept = all;
      for (const d of all) this.toldLost.add(d.id);
      return;
    }
    this.room -= all.length;
    this.disk.drafts.push(...all);
    for (const d of all) this.toldLost.delete(d.id);
    this.unkept = [];
  }

  photograph(): void {
    this.count += 1;
    const hash = `photo-${this.place}-${this.count}`;
    this.photosMade.push(hash);
    if (this.room >= 1) {
      this.room -= 1;
      this.disk.photos.add(hash);
    } else {
      this.heldPhotos.add(hash);
      this.toldLost.add(hash);
    }
  }

  photosHere(): readonly string[] {
    return [...this.disk.photos, ...this.heldPhotos];
  }

  asks(): readonly Ask[] {
    const batch = nextBatch(this.outbox);
    const [photo] = this.photosHere();
    return [
      ...(batch.length > 0 ? [{ kind: 'send', batch } as const] : []),
      ...(photo !== undefined ? [{ kind: 'photo', hash: photo } as const] : []),
      { kind: 'read', after: this.state.head.seq },
    ];
  }

  hear(told: Told): void {
    switch (told.kind) {
      case 'send':
        this.outbox = afterAnswer(this.outbox, told.batch, told.answer).outbox;
        return;
      case 'photo':
        if (answerMeans(told.answer) !== 'taken') return;
        if (this.disk.photos.delete(told.hash)) this.room += 1;
        this.heldPhotos.delete(told.hash);
        return;
      case 'read':
        if (told.answer.ok) this.takeIn(told.answer.value, told.head);
    }
  }

  private takeIn(stored: readonly StoredEntry[], head: Head): void {
    const arrivals = readArrivals(this.state.head, stored);
    if (arrivals.fault === 'other' || (isOtherJournal(head, this.state.head) && arrivals.stored.length === 0)) {
      // Only an answer that holds the whole journal can replace the copy; otherwise it is asked for anew, whole.
      if (stored[0]?.seq === 1 || head.seq === 0) this.beginAgain(stored);
      else this.needsAll = true;
      return;
    }
    this.copy = [...this.copy, ...arrivals.stored];
    this.disk.copy = this.copy;
    this.fold(arrivals.entries);
    this.outbox = forgotten(this.outbox);
  }

  /** The next reading asks for everything. */
  needsAll = false;

  private beginAgain(stored: readonly StoredEntry[]): void {
    this.needsAll = false;
    const lost = leftBehind(this.copy, stored);
    this.outbox = forgotten(addEarlier(this.outbox, lost));
    this.keep(lost);
    this.state = EMPTY_STATE;
    this.copy = [...stored];
    this.disk.copy = this.copy;
    this.fold(readArrivals(EMPTY_STATE.head, stored).entries);
  }

  private fold(entries: readonly Entry[]): void {
    this.state = fold(entries, this.state);
    const { outbox, done } = afterArrivals(this.outbox, entries);
    this.outbox = outbox;
    const gone = new Set(done);
    const left = this.disk.drafts.filter((d) => !gone.has(d.id));
    this.room += this.disk.drafts.length - left.length;
    this.disk.drafts = left;
    this.unkept = this.unkept.filter((d) => !gone.has(d.id));
  }

  /** The page is closed or the battery is empty: what is on the disk is there, the rest is gone. */
  crash(tapsBeforeRead = false): void {
    this.unkept = [];
    this.heldPhotos.clear();
    const left = [...this.disk.drafts];
    this.outbox = EMPTY_OUTBOX;
    if (tapsBeforeRead) this.record();
    this.outbox = addEarlier(this.outbox, left);
    this.copy = this.disk.copy;
    this.state = fold(readArrivals(EMPTY_STATE.head, this.copy).entries, EMPTY_STATE);
  }
}
