/**
 * Setting bag numbers aside: one series for the whole shop, given out in blocks to devices and rolls, so that two phones
 * without a network never write the same code (docs/adr/0012). The block is recorded in the job as `bags-set-aside`, so a
 * job that is handed over still says which numbers are its own.
 *
 * The port `BagSeries` has two kinds. A shop keeps a mark that only rises and is moved before the block is given: a
 * block is never given twice, though it may be lost when the machine stops in between (numbers are cheap). A job alone has
 * only its journal: the block is ours once the entry is in, which is asked for with "nobody recorded in between".
 */
import { bagCode, LAST_BAG } from '../domain/bag-code.ts';
import { failed, ok, type Result } from '../domain/result.ts';
import { decide, type EntryDraft, highestBag, recording, type Stamp, type State } from '../journal/index.ts';
import { bagSeriesProblem } from './bag-series-problems.ts';

export const MOST_SET_ASIDE = 500;

export interface BagBlock {
  readonly from: number;
  readonly to: number;
}

export interface BagSeries {
  /** True: a block is never given again, whatever becomes of it. False: it is ours only once it is recorded. */
  readonly reserves: boolean;
  /** The next `count` numbers above `above` and above all that were given before. */
  take(count: number, above: number): Promise<Result<BagBlock>>;
}

/** What is needed of a job and what stands around it. */
export interface BagDesk {
  readonly series: BagSeries;
  /** The job as it is now, and the other jobs of the shop; their bags are in the same series. */
  look(): Promise<Result<{ readonly state: State; readonly others: readonly State[] }>>;
  /** `afterSeq` null: wherever the journal ends; a number: only if nobody recorded in between. */
  record(drafts: readonly EntryDraft[], afterSeq: number | null): Promise<Result<unknown>>;
  stamp(): Stamp;
}

export interface SetAsideAsked {
  readonly count: number;
  /** A device, or a name for the roll. */
  readonly for: string;
  readonly roll?: boolean;
}

export interface BagsSetAside extends BagBlock {
  readonly codes: readonly string[];
}

/** A job that stands alone: the next numbers after all it knows. */
export const LONE_SERIES: BagSeries = { reserves: false, take: async (count, above) => blockAbove(above, count) };

/** The block after `mark`. `BAGS_COUNT`, `BAG_SERIES_FULL`. */
export function blockAbove(mark: number, count: number): Result<BagBlock> {
  if (!Number.isInteger(count) || count < 1 || count > MOST_SET_ASIDE)
    return failed(
      bagSeriesProblem('BAGS_COUNT', `${count} bags are asked for, 1 to ${MOST_SET_ASIDE} are given`, 'count'),
    );
  if (mark + count > LAST_BAG)
    return failed(bagSeriesProblem('BAG_SERIES_FULL', `${mark} numbers are given of ${LAST_BAG}`, 'count'));
  return ok({ from: mark + 1, to: mark + count });
}

/** Others may record at the same time; after this many times somebody else was quicker it is given up. */
const TRIES = 100;

export async function setBagsAside(desk: BagDesk, asked: SetAsideAsked): Promise<Result<BagsSetAside>> {
  let moved: Result<BagsSetAside> | null = null;
  for (let tries = 0; tries < TRIES; tries += 1) {
    const set = await tryOnce(desk, asked);
    if (set.ok || desk.series.reserves || set.problem.code !== 'JOURNAL_MOVED') return set;
    moved = set;
  }
  return moved ?? failed(bagSeriesProblem('BAGS_COUNT', 'no bags were set aside', 'count'));
}

async function tryOnce(desk: BagDesk, asked: SetAsideAsked): Promise<Result<BagsSetAside>> {
  const looked = await desk.look();
  if (!looked.ok) return looked;
  const { state, others } = looked.value;
  const block = await desk.series.take(asked.count, Math.max(0, ...[state, ...others].map(highestBag)));
  if (!block.ok) return block;
  const data = { ...block.value, for: asked.for, ...(asked.roll !== undefined && { roll: asked.roll }) };
  const drafts = decide(state, recording('bags-set-aside', data), desk.stamp());
  if (!drafts.ok) return drafts;
  const recorded = await desk.record(drafts.value, desk.series.reserves ? null : state.head.seq);
  if (!recorded.ok) return recorded;
  const { from, to } = block.value;
  return ok({ from, to, codes: Array.from({ length: to - from + 1 }, (_, i) => bagCode(from + i)) });
}
