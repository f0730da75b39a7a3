/**
 * What the solver notes down for the proof while it works: cuts by number, what it ruled in, in the order found. Noting
 * is cheap; the reasons ("within") are worked out only when somebody reads the certificate (see witness.ts).
 */
export interface NotedCut {
  readonly of: number;
  readonly any: readonly number[];
  /** actions ruled out by cost before this cut was found; it may lean on them */
  readonly out: readonly number[];
}

export class Ledger {
  private readonly cuts: NotedCut[] = [];
  private waiting: (() => void) | null = null;

  /** Notes that are cheap to write down when somebody asks. */
  later(write: () => void): void {
    this.waiting = write;
  }

  /** Everything noted. */
  all(): readonly NotedCut[] {
    this.waiting?.();
    this.waiting = null;
    return this.cuts;
  }

  note(of: number, any: readonly number[], out: readonly number[]): number {
    this.cuts.push({ of, any, out });
    return this.cuts.length - 1;
  }
}
