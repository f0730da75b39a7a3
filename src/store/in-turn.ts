/**
 * A gate: at most so many at once, the rest wait in the order they came. Decoding a photograph takes tens to hundreds of
 * megabytes for a moment, so two at a time keep a small machine standing however many phones send. Work that weighs as
 * much as all places waits until it is alone. Not chosen: a pool of processes, which is more memory to begin with.
 */
export class Gate {
  private free: number;
  private readonly waiting: { readonly weight: number; readonly go: () => void }[] = [];

  constructor(private readonly places: number) {
    this.free = places;
  }

  /** For tests: how many places are taken now. */
  get taken(): number {
    return this.places - this.free;
  }

  async inTurn<T>(work: () => Promise<T>, weight = 1): Promise<T> {
    const own = Math.min(weight, this.places);
    await this.enter(own);
    try {
      return await work();
    } finally {
      this.free += own;
      this.letIn();
    }
  }

  private enter(weight: number): Promise<void> {
    if (this.waiting.length === 0 && this.free >= weight) {
      this.free -= weight;
      return Promise.resolve();
    }
    return new Promise((go) => this.waiting.push({ weight, go }));
  }

  /** The first in the row, never a lighter one behind it: otherwise a heavy one could wait for ever. */
  private letIn(): void {
    for (let first = this.waiting[0]; first !== undefined && this.free >= first.weight; first = this.waiting[0]) {
      this.waiting.shift();
      this.free -= first.weight;
      first.go();
    }
  }
}
