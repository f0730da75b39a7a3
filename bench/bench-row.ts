/** One figure of a benchmark, with the rival of the same run. `ratio` > 1: ours is better. */
export interface BenchRow {
  readonly id: string;
  readonly what: string;
  readonly ours: number;
  readonly rival: number | null;
  readonly rivalName: string | null;
  readonly unit: string;
  readonly ratio: number | null;
  readonly note?: string;
  readonly goal?: string;
  readonly met?: boolean;
}
