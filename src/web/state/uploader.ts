/**
 * Photographs and sounds on their way to the shop's machine: one by one, oldest first, again from the start of the one
 * that was cut off. Kept here until the machine has named the hash of what it took in; then the original goes and a small
 * picture stays. One page at a time sends (Web Locks), so two open pages do not send twice.
 */
import { answerMeans } from '../../app/sync/outbox.ts';
import type { Problem } from '../../domain/problem.ts';
import { ok } from '../../domain/result.ts';
import type { MediaRow } from './base.ts';
import { hasMedia, sendMedia } from './client.ts';
import { mediaArrived, mediaBytes, thumbOf, waitingMedia } from './keep-media.ts';
import { inTurn } from './turn.ts';
import { webProblem } from './web-problems.ts';

const AGAIN_MS = 15_000;
const ASK_FIRST_BYTES = 200_000;

export interface Waiting {
  readonly photos: number;
  readonly sounds: number;
}

export class Uploader {
  private running = false;
  private again = false;
  private timer: ReturnType<typeof setTimeout> | null = null;
  /** By key: what the machine said against it. Kept, and sent again when the page is opened anew. */
  private readonly refused = new Map<string, Problem>();

  constructor(
    private readonly job: string,
    private readonly tell: (waiting: Waiting, problem: Problem | null) => void,
  ) {}

  async count(): Promise<void> {
    this.told(await waitingMedia(this.job));
  }

  /** Sends what waits; resolves true when nothing is left that could be sent now. */
  async run(): Promise<boolean> {
    if (this.running) {
      this.again = true;
      return false;
    }
    this.running = true;
    try {
      do {
        this.again = false;
        if (await inTurn(`witnessmark-media-${this.job}`, () => this.sendAll())) continue;
        this.later();
        return false;
      } while (this.again);
      return true;
    } catch {
      // The device's own store did not answer; what is kept there is still there.
      this.later();
      return false;
    } finally {
      this.running = false;
    }
  }

  stop(): void {
    if (this.timer !== null) clearTimeout(this.timer);
    this.timer = null;
  }

  private later(): void {
    this.stop();
    this.timer = setTimeout(() => void this.run(), AGAIN_MS);
  }

  private async sendAll(): Promise<boolean> {
    for (;;) {
      const waiting = await waitingMedia(this.job);
      this.told(waiting);
      const row = waiting.find((r) => !this.refused.has(r.key));
      if (row === undefined) return true;
      if (!(await this.sendOne(row))) return false;
    }
  }

  /** False: the machine is away; true: go on with the next one. */
  private async sendOne(row: MediaRow): Promise<boolean> {
    const bytes = await mediaBytes(this.job, row.hash);
    if (bytes === null) {
      this.refused.set(row.key, webProblem('PHOTO_GONE'));
      return true;
    }
    // An answer may have been lost after the machine took it in: asked first where the bytes are many.
    const isThere = row.bytes > ASK_FIRST_BYTES && (await hasMedia(this.job, row.what, row.hash));
    const sent = isThere ? ok(row.hash) : await sendMedia(this.job, row.what, row.mime, bytes);
    if (sent.ok && sent.value === row.hash) {
      await mediaArrived(row, row.what === 'photo' ? await thumbOf(bytes) : null);
      return true;
    }
    if (sent.ok) {
      this.refused.set(row.key, webProblem('PHOTO_CHANGED'));
      return true;
    }
    if (answerMeans(sent) !== 'refused') return false;
    this.refused.set(row.key, sent.problem);
    return true;
  }

  private told(rows: readonly MediaRow[]): void {
    const photos = rows.filter((r) => r.what === 'photo').length;
    this.tell({ photos, sounds: rows.length - photos }, [...this.refused.values()].at(-1) ?? null);
  }
}
