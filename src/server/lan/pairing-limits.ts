/**
 * How often a code may be guessed: five wrong ones from an address in ten minutes, forty from all together. With 30^8
 * codes (about 2^39) and a code's life of ten minutes, forty guesses hit one with a chance below one in ten thousand
 * million. A stranger can so keep others from pairing for ten minutes; they cannot come in. Time is given in.
 */
const WINDOW_MS = 10 * 60_000;
export const WRONG_PER_ADDRESS = 5;
export const WRONG_IN_ALL = 40;

export class PairingLimits {
  private wrong: { readonly address: string; readonly ms: number }[] = [];

  /** What stands in the way of another try from this address now. */
  refusal(address: string, at: string): 'address' | 'all' | null {
    const since = Date.parse(at) - WINDOW_MS;
    this.wrong = this.wrong.filter((w) => w.ms > since);
    if (this.wrong.filter((w) => w.address === address).length >= WRONG_PER_ADDRESS) return 'address';
    return this.wrong.length >= WRONG_IN_ALL ? 'all' : null;
  }

  noteWrong(address: string, at: string): void {
    this.wrong.push({ address, ms: Date.parse(at) });
  }
}

/** Requests refused for want of pairing, counted per address: beyond the limit even the refusal is short. */
export class RefusalCount {
  private from = 0;
  private counts = new Map<string, number>();

  constructor(
    private readonly most: number,
    private readonly windowMs = 60_000,
  ) {}

  /** True when this address has asked too often in the current window. */
  isOver(address: string, at: string): boolean {
    const ms = Date.parse(at);
    if (ms - this.from >= this.windowMs || this.counts.size > 5_000) {
      this.from = ms;
      this.counts = new Map();
    }
    const n = (this.counts.get(address) ?? 0) + 1;
    this.counts.set(address, n);
    return n > this.most;
  }
}
