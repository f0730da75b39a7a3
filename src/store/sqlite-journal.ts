/**
 * The journal port on SQLite. One transaction per append, synchronous=FULL: an append that answered ok is on disk.
 * Several programs may record into one job: the head is read inside the write transaction.
 *
 * Order of one append: check drafts, BEGIN IMMEDIATE, place after the head, COMMIT (synced), head mark, answer.
 * A single entry, the common case, is first tried as one INSERT after the head we last knew. Were it not the head any
 * more, its `seq` would be taken, and were the entry there already, its `id`: both are unique, so the file itself refuses,
 * and the long way is gone. That saves five of six statements; `bench/journal.ts` holds it to the bare database.
 * Not chosen: collecting appends of several callers into one sync; it would be faster under load, but a shop records a few
 * entries a minute and each tap wants its answer.
 */
import type Database from 'better-sqlite3';
import { failed, ok, type Result } from '../domain/result.ts';
import { accept, EMPTY_HEAD, type EntryDraft, type Head, linkFault, type StoredEntry } from '../journal/entry.ts';
import { journalProblem } from '../journal/journal-problems.ts';
import { draftFault, moved, taken } from '../journal/memory-journal.ts';
import type { Clock, Journal } from '../journal/ports.ts';
import type { HeadMark } from './head-mark.ts';
import { nodeSha256Hex } from './machine.ts';
import type { Db } from './sqlite-file.ts';
import { diskProblem, storeProblem } from './store-problems.ts';

export type Row = [
  seq: number,
  recordedAt: string,
  body: string,
  digest: string,
  signature: string | null,
  prev: string,
  hash: string,
];

export const ROW_COLUMNS = 'seq, recorded_at, body, digest, signature, prev, hash';

/** A damaged file can give anything in any column; only what has the kinds of the table is an entry. */
export function isRow(row: readonly unknown[]): row is Row {
  const [seq, recordedAt, body, digest, signature, prev, hash] = row;
  const texts =
    typeof recordedAt === 'string' &&
    typeof body === 'string' &&
    typeof digest === 'string' &&
    typeof prev === 'string';
  return (
    Number.isSafeInteger(seq) &&
    texts &&
    typeof hash === 'string' &&
    (signature === null || typeof signature === 'string')
  );
}

export function storedOf([seq, recordedAt, body, digest, signature, prev, hash]: Row): StoredEntry {
  return { seq, recordedAt, body, digest, signature, prev, hash };
}

/** Why an append inside the transaction was refused; carried out of it so that SQLite rolls back. */
class Refused extends Error {
  constructor(readonly problem: ReturnType<typeof storeProblem>) {
    super(problem.message);
  }
}

function isTaken(thrown: unknown): boolean {
  const code = typeof thrown === 'object' && thrown !== null && 'code' in thrown ? String(thrown.code) : '';
  return (
    code === 'SQLITE_CONSTRAINT_PRIMARYKEY' || code === 'SQLITE_CONSTRAINT_UNIQUE' || code === 'SQLITE_CONSTRAINT_ROWID'
  );
}

export interface SqliteJournalOptions {
  readonly clock: Clock;
  readonly readOnly: boolean;
  /** Null when read-only. */
  readonly mark: HeadMark | null;
  /** The last entry that holds, where a later one does not: nothing behind it is given out. */
  readonly head?: Head;
  /** How often to look for entries of other programs; 0: never. */
  readonly pollMs?: number;
}

export class SqliteJournal implements Journal {
  private readonly headRow: Database.Statement;
  private readonly byId: Database.Statement;
  private readonly from: Database.Statement;
  private readonly insert: Database.Statement;
  private readonly place: (
    after: number | null,
    drafts: readonly EntryDraft[],
  ) => { all: StoredEntry[]; fresh: StoredEntry[] };
  private readonly followers = new Set<(entries: readonly StoredEntry[]) => void>();
  private seen = 0;
  /** The head as this program last saw it; others may have gone on since. */
  private known: Head | null = null;
  private timer: NodeJS.Timeout | null = null;

  constructor(
    private readonly db: Db,
    private readonly options: SqliteJournalOptions,
  ) {
    this.headRow = db.prepare('SELECT seq, hash FROM entry ORDER BY seq DESC LIMIT 1').raw();
    this.byId = db.prepare(`SELECT ${ROW_COLUMNS} FROM entry WHERE id = ?`).raw();
    this.from = db.prepare(`SELECT ${ROW_COLUMNS} FROM entry WHERE seq >= ? ORDER BY seq LIMIT ?`).raw();
    this.insert = db.prepare(`INSERT INTO entry (id, ${ROW_COLUMNS}) VALUES (?, ?, ?, ?, ?, ?, ?, ?)`);
    const transaction = db.transaction((after: number | null, drafts: readonly EntryDraft[]) =>
      this.placeAll(after, drafts),
    );
    this.place = (after, drafts) => transaction.immediate(after, drafts);
  }

  async append(afterSeq: number | null, drafts: readonly EntryDraft[]): Promise<Result<readonly StoredEntry[]>> {
    return this.appendNow(afterSeq, drafts);
  }

  /** The same without a promise, for the bench and for loops that are not interrupted. */
  appendNow(afterSeq: number | null, drafts: readonly EntryDraft[]): Result<readonly StoredEntry[]> {
    if (this.options.readOnly) return failed(storeProblem('JOURNAL_READ_ONLY', 'the journal is open for reading only'));
    for (const draft of drafts) {
      const fault = draftFault(draft, nodeSha256Hex);
      if (!fault.ok) return fault;
    }
    let placed: { all: StoredEntry[]; fresh: StoredEntry[] };
    try {
      placed = this.placeOne(afterSeq, drafts) ?? this.place(afterSeq, drafts);
    } catch (thrown) {
      if (thrown instanceof Refused) return failed(thrown.problem);
      return failed(diskProblem(thrown, 'recording'));
    }
    this.acknowledge(placed.fresh.at(-1));
    return ok(placed.all);
  }

  /** The entries are on disk already. A mark that cannot be written lags behind, which is harmless; it is no reason to say no. */
  private acknowledge(last: Head | undefined): void {
    if (last === undefined) return;
    this.known = { seq: last.seq, hash: last.hash };
    try {
      this.options.mark?.write({ seq: last.seq, hash: last.hash });
    } catch {
      // Written again with the next entry.
    }
    if (this.followers.size > 0) this.deliver();
  }

  /** Null: not one entry, or the head is not the one we knew, or the entry is there already. Nothing was written then. */
  private placeOne(
    after: number | null,
    drafts: readonly EntryDraft[],
  ): { all: StoredEntry[]; fresh: StoredEntry[] } | null {
    const [draft, ...more] = drafts;
    const head = this.known;
    if (draft === undefined || more.length > 0 || head === null || (after !== null && after !== head.seq)) return null;
    const s = accept(draft, head, this.options.clock.now(), nodeSha256Hex);
    try {
      this.insert.run(draft.id, s.seq, s.recordedAt, s.body, s.digest, s.signature, s.prev, s.hash);
    } catch (thrown) {
      if (isTaken(thrown)) return null;
      throw thrown;
    }
    return { all: [s], fresh: [s] };
  }

  private placeAll(after: number | null, drafts: readonly EntryDraft[]): { all: StoredEntry[]; fresh: StoredEntry[] } {
    let head = this.present();
    if (after !== null && after !== head.seq) throw new Refused(moved(after, head.seq));
    const all: StoredEntry[] = [];
    const fresh: StoredEntry[] = [];
    for (const draft of drafts) {
      const known = this.byId.get(draft.id) as Row | undefined;
      if (known !== undefined) {
        if (known[3] !== draft.digest) throw new Refused(taken(draft.id));
        all.push(storedOf(known));
        continue;
      }
      const s = accept(draft, head, this.options.clock.now(), nodeSha256Hex);
      this.insert.run(draft.id, s.seq, s.recordedAt, s.body, s.digest, s.signature, s.prev, s.hash);
      head = { seq: s.seq, hash: s.hash };
      all.push(s);
      fresh.push(s);
    }
    return { all, fresh };
  }

  /** Takes accepted entries in as they are (same chain), all or none. They must follow the head. For import and restore. */
  adoptNow(stored: readonly StoredEntry[], ids: readonly string[]): Result<number> {
    if (this.options.readOnly) return failed(storeProblem('JOURNAL_READ_ONLY', 'the journal is open for reading only'));
    const take = this.db.transaction(() => {
      let head = this.present();
      stored.forEach((s, i) => {
        const fault = linkFault(s, head, nodeSha256Hex);
        if (fault !== null) throw new Refused(journalProblem('CHAIN_BROKEN', fault));
        this.insert.run(ids[i], s.seq, s.recordedAt, s.body, s.digest, s.signature, s.prev, s.hash);
        head = { seq: s.seq, hash: s.hash };
      });
      return head;
    });
    try {
      const head = take.immediate();
      if (stored.length > 0) this.acknowledge(head);
      return ok(stored.length);
    } catch (thrown) {
      if (thrown instanceof Refused) return failed(thrown.problem);
      return failed(diskProblem(thrown, 'taking entries in'));
    }
  }

  async read(fromSeq: number, limit = Number.MAX_SAFE_INTEGER): Promise<Result<readonly StoredEntry[]>> {
    return this.readNow(fromSeq, limit);
  }

  readNow(fromSeq: number, limit = Number.MAX_SAFE_INTEGER): Result<readonly StoredEntry[]> {
    const last = this.options.head?.seq ?? Number.MAX_SAFE_INTEGER;
    try {
      const found: StoredEntry[] = [];
      if (fromSeq > last) return ok(found);
      for (const row of this.from.iterate(fromSeq, limit) as Iterable<Row>) {
        found.push(storedOf(row));
        // Not one row further: behind the last entry that holds the file may be unreadable.
        if (row[0] >= last) break;
      }
      return ok(found);
    } catch (thrown) {
      return failed(diskProblem(thrown, 'reading'));
    }
  }

  async head(): Promise<Result<Head>> {
    try {
      return ok(this.present());
    } catch (thrown) {
      return failed(diskProblem(thrown, 'reading'));
    }
  }

  private present(): Head {
    if (this.options.head !== undefined) return this.options.head;
    const row = this.headRow.get() as [number, string] | undefined;
    return row === undefined ? EMPTY_HEAD : { seq: row[0], hash: row[1] };
  }

  follow(cb: (entries: readonly StoredEntry[]) => void): () => void {
    if (this.followers.size === 0) this.seen = this.present().seq;
    this.followers.add(cb);
    this.watch();
    return () => {
      this.followers.delete(cb);
      if (this.followers.size === 0) this.stopWatching();
    };
  }

  /** Looks for entries that other programs recorded. SQLite's data_version says cheaply whether there can be any. */
  private watch(): void {
    const ms = this.options.pollMs ?? 1_000;
    if (this.timer !== null || ms === 0) return;
    let version = this.dataVersion();
    this.timer = setInterval(() => {
      const now = this.dataVersion();
      if (now !== version) this.deliver();
      version = now;
    }, ms);
    this.timer.unref();
  }

  private dataVersion(): number {
    return Number(this.db.pragma('data_version', { simple: true }));
  }

  private deliver(): void {
    const fresh = this.readNow(this.seen + 1);
    const last = fresh.ok ? fresh.value.at(-1) : undefined;
    if (!fresh.ok || last === undefined) return;
    this.seen = last.seq;
    for (const cb of [...this.followers]) cb(fresh.value);
  }

  private stopWatching(): void {
    if (this.timer !== null) clearInterval(this.timer);
    this.timer = null;
  }

  close(): void {
    this.stopWatching();
    this.followers.clear();
  }
}
