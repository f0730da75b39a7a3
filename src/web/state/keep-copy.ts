/**
 * The copy of a job's entries on this device, so that the page opens without network. Kept in pieces of 2,000 entries in
 * the background, at most every three seconds; a new entry rewrites only the last piece. The state is folded anew at
 * opening, so a new version of the fold needs no old copy thrown away.
 */

import { readArrivals } from '../../app/sync/arrivals.ts';
import { EMPTY_HEAD, type StoredEntry } from '../../journal/entry.ts';
import { base, type SegmentRow } from './base.ts';

const PIECE = 2_000;
const EVERY_MS = 3_000;
/** The first time: a phone may be carried out of the Wi-Fi at once. */
const SOON_MS = 300;

const piecesOf = (job: string): IDBKeyRange => IDBKeyRange.bound([job, 0], [job, Number.MAX_SAFE_INTEGER]);

/** What is kept, up to the first place where it does not hold. */
export async function copyKept(job: string): Promise<readonly StoredEntry[]> {
  const rows: readonly SegmentRow[] = await (await base()).getAll('segments', piecesOf(job));
  const all = rows.toSorted((a, b) => a.piece - b.piece).flatMap((r) => r.entries);
  return readArrivals(EMPTY_HEAD, all).stored;
}

export async function dropCopy(job: string): Promise<void> {
  await (await base()).delete('segments', piecesOf(job));
}

/**
 * All pieces or none, so that a copy never ends in the middle of a job. A piece is left as it is where it is longer than
 * ours: another page of this device may be ahead of this one.
 */
async function keepPieces(job: string, pieces: ReadonlyMap<number, readonly StoredEntry[]>): Promise<void> {
  const tx = (await base()).transaction('segments', 'readwrite');
  for (const [piece, entries] of pieces) {
    const had = await tx.store.get([job, piece]);
    if (had === undefined || had.entries.length < entries.length)
      await tx.store.put({ job, piece, entries: [...entries] });
  }
  await tx.done;
}

export class CopyKeeper {
  /** Entries of pieces that are not written through, by place. */
  private readonly open = new Map<number, StoredEntry[]>();
  private timer: ReturnType<typeof setTimeout> | null = null;
  private isFirst = true;

  constructor(
    private readonly job: string,
    private readonly onFault: (thrown: unknown) => void,
  ) {}

  /** `kept`: they came from the copy; only the piece that is still growing is held. */
  add(stored: readonly StoredEntry[], kept = false): void {
    const last = stored.at(-1);
    if (last === undefined) return;
    const growing = Math.floor((last.seq - 1) / PIECE);
    for (const s of stored) {
      const piece = Math.floor((s.seq - 1) / PIECE);
      if (kept && piece !== growing) continue;
      const entries = this.open.get(piece);
      if (entries === undefined) this.open.set(piece, [s]);
      else entries.push(s);
    }
    if (!kept) this.timer ??= setTimeout(() => void this.write(), this.isFirst ? SOON_MS : EVERY_MS);
  }

  async write(): Promise<void> {
    if (this.timer !== null) clearTimeout(this.timer);
    this.timer = null;
    this.isFirst = false;
    const growing = Math.max(...this.open.keys());
    try {
      await keepPieces(this.job, this.open);
    } catch (thrown) {
      this.onFault(thrown);
      return;
    }
    for (const piece of [...this.open.keys()]) if (piece < growing) this.open.delete(piece);
  }

  /** Another journal than the one kept: begins again. */
  async forget(): Promise<void> {
    this.open.clear();
    await dropCopy(this.job).catch(() => undefined);
  }
}
