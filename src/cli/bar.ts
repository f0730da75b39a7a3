/** A bar on the terminal for work over a second: how near the proof is. Silent where there is no terminal. */
import type { Io } from './io.ts';

const WIDTH = 24;
const QUIET_MS = 800;

export class Bar {
  private readonly started = performance.now();
  private shown = false;

  constructor(private readonly io: Io) {}

  show(lower: number, upper: number | null): void {
    if (!this.io.isTerminal || performance.now() - this.started < QUIET_MS) return;
    const share = upper === null || upper === 0 ? 0 : Math.min(1, lower / upper);
    const full = Math.round(share * WIDTH);
    const ends = upper === null ? `at least ${lower}` : `between ${lower} and ${upper}`;
    this.io.err(`\r${'█'.repeat(full)}${'·'.repeat(WIDTH - full)}  ${ends} minutes   `);
    this.shown = true;
  }

  /** How many of a known number are done. */
  count(done: number, of: number, what: string): void {
    if (!this.io.isTerminal || performance.now() - this.started < QUIET_MS) return;
    const full = Math.round((of === 0 ? 1 : done / of) * WIDTH);
    this.io.err(`\r${'█'.repeat(full)}${'·'.repeat(WIDTH - full)}  ${done} of ${of} ${what}   `);
    this.shown = true;
  }

  clear(): void {
    if (this.shown) this.io.err(`\r${' '.repeat(70)}\r`);
    this.shown = false;
  }
}
