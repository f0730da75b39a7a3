/**
 * The difference of two clocks from one question and answer: the shop's time belongs to the middle of the wait (as in
 * RFC 5905, with one exchange). Pure; a slow answer says nothing and gives null.
 */
export interface ClockReading {
  /** This device's clock when it asked and when it was answered, in ms. */
  readonly asked: number;
  readonly answered: number;
  readonly shop: number;
}

const FAR_MS = 30_000;
const SLOW_MS = 10_000;

/** Device clock minus the shop's, in ms; null where the answer took too long or the clock was set meanwhile. */
export function skewOf(r: ClockReading): number | null {
  const took = r.answered - r.asked;
  if (took < 0 || took > SLOW_MS || Number.isNaN(r.shop)) return null;
  return Math.round(r.asked + took / 2 - r.shop);
}

/** Worth noting: more than half a minute from what was noted before (nothing noted: from no difference). */
export function isFarOff(skew: number, noted: number): boolean {
  return Math.abs(skew - noted) > FAR_MS;
}
