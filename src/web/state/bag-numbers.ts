/**
 * Bag codes for this device: from a block of the series that the shop's machine set aside for it, so that two devices
 * without network never give the same one. A new block is asked for while there is network and fewer than twenty are left.
 * Taking one is one transaction: two pages on one phone cannot both have it.
 */
import { type BagCode, bagCode } from '../../domain/bag-code.ts';
import { changeSetting, setting } from './base.ts';
import { askBagBlock } from './client.ts';

interface Block {
  readonly next: number;
  readonly to: number;
}

const BLOCK = 50;
const FEW = 20;
const keyOf = (job: string): string => `bags/${job}`;
const asking = new Map<string, Promise<void>>();

export async function nextBag(
  job: string,
  device: string,
  isUsed: (code: BagCode) => boolean,
): Promise<BagCode | null> {
  let took = await takeOne(job, isUsed);
  if (took.left < FEW) {
    const asked = refill(job, device);
    // Waited for only when there is none in hand.
    if (took.code === null) {
      await asked;
      took = await takeOne(job, isUsed);
    }
  }
  return took.code;
}

/** A device that took numbers before gets more as soon as there is network, so that a corner without it has some. */
export async function fillBags(job: string, device: string): Promise<void> {
  const blocks = await setting<readonly Block[]>(keyOf(job)).catch(() => undefined);
  if (blocks !== undefined && left(blocks) < FEW) await refill(job, device);
}

function left(blocks: readonly Block[]): number {
  return blocks.reduce((n, b) => n + (b.to - b.next + 1), 0);
}

function takeOne(
  job: string,
  isUsed: (code: BagCode) => boolean,
): Promise<{ readonly code: BagCode | null; readonly left: number }> {
  return changeSetting<readonly Block[], { readonly code: BagCode | null; readonly left: number }>(
    keyOf(job),
    (was) => {
      const numbers = (was ?? []).flatMap((b) => Array.from({ length: b.to - b.next + 1 }, (_, i) => b.next + i));
      const n = numbers.find((number) => !isUsed(bagCode(number)));
      if (n === undefined) return { next: [], answer: { code: null, left: 0 } };
      const rest = (was ?? []).filter((b) => b.to > n).map((b) => ({ next: Math.max(b.next, n + 1), to: b.to }));
      return { next: rest, answer: { code: bagCode(n), left: left(rest) } };
    },
  );
}

function refill(job: string, device: string): Promise<void> {
  const running = asking.get(job);
  if (running !== undefined) return running;
  const asked = (async () => {
    const got = await askBagBlock(job, BLOCK, device);
    if (!got.ok) return;
    const { from, to } = got.value;
    await changeSetting<readonly Block[], null>(keyOf(job), (was) => ({
      next: [...(was ?? []), { next: from, to }].toSorted((a, b) => a.next - b.next),
      answer: null,
    }));
  })().finally(() => asking.delete(job));
  asking.set(job, asked);
  return asked;
}
