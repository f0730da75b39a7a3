/**
 * Photographs and sounds on their way to the shop's machine: one by one, oldest first, again from the start of the one
 * that was cut off. Kept here until the machine has named the hash of what it took in; then the original goes and a small
 * picture stays. One page at a time sends (Web Locks), so two open pages do not send twice.
 */
import type { Problem } from '../../domain/problem.ts';
import { base, type MediaRow } from './base.ts';
import { sendMedia } from './client.ts';
import { mediaArrived, mediaBytes, thumbOf, waitingMedia } from './keep-media.ts';
import { inTurn } from './turn.ts';

export interface Waiting {
  readonly photos: number;
  readonly sounds: number;
}

export class Uploader {
  private running = false;
  private again = false;

  constructor(
    private readonly job: string,
    private readonly tell: (waiting: Waiting, problem: Problem | null) => void,
  ) {}

  async count(): Promise<void> {
    this.told(await waitingMedia(this.job), null);
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
        if (!(await inTurn(`witnessmark-media-${this.job}`, () => this.sendAll()))) return false;
      } while (this.again);
      return true;
    } finally {
      this.running = false;
    }
  }

  private async sendAll(): Promise<boolean> {
    for (;;) {
      const waiting = await waitingMedia(this.job);
      this.told(waiting, null);
      const row = waiting.find((r) => r.refused === undefined);
      if (row === undefined) return true;
      if (!(await this.sendOne(row))) return false;
    }
  }

  /** False: the machine is away; true: go on with the next one. */
  private async sendOne(row: MediaRow): Promise<boolean> {
    const bytes = await mediaBytes(this.job, row.hash);
    if (bytes === null) {
      await refuse(row, 'its bytes are not on this device any more');
      return true;
    }
    const sent = await sendMedia(this.job, row.what, row.mime, bytes);
    if (sent.ok && sent.value === row.hash) {
      await mediaArrived(row, row.what === 'photo' ? await thumbOf(bytes) : null);
      return true;
    }
    if (sent.ok) {
      await refuse(row, 'it arrived changed');
      return true;
    }
    if (WAITS.has(sent.problem.code)) return false;
    await refuse(row, sent.problem.message);
    this.told(await waitingMedia(this.job), sent.problem);
    return true;
  }

  private told(rows: readonly MediaRow[], problem: Problem | null): void {
    const photos = rows.filter((r) => r.what === 'photo').length;
    this.tell({ photos, sounds: rows.length - photos }, problem);
  }
}

/** Answers after which the same thing is tried again later: nothing is wrong with the photograph itself. */
const WAITS: ReadonlySet<string> = new Set([
  'AWAY',
  'NOT_PAIRED',
  'DEVICE_REVOKED',
  'TOO_MUCH',
  'INTERNAL',
  'ANSWER_UNREADABLE',
  'NO_SUCH_PLACE',
  'DISK_FULL',
  'JOURNAL_READ_ONLY',
]);

async function refuse(row: MediaRow, words: string): Promise<void> {
  await (await base()).put('media', { ...row, refused: words }).catch(() => undefined);
}
