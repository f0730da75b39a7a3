/** One series for the shop: whoever asks, whatever program, a number is given once; a job alone counts from its journal. */
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  type BagDesk,
  type BagSeries,
  blockAbove,
  LONE_SERIES,
  MOST_SET_ASIDE,
  setBagsAside,
} from '../app/bag-series.ts';
import { bagCode, LAST_BAG } from '../domain/bag-code.ts';
import { must, ok } from '../domain/result.ts';
import { decide, type EntryDraft, fold, readStored, recording, type Stamp, type State } from '../journal/index.ts';
import type { JobFolder } from './job-folder.ts';
import { createJob } from './job-folder.ts';
import { SYSTEM_CLOCK, systemIds } from './machine.ts';
import { createShop, openShop, type ShopFolder } from './shop-folder.ts';

const ids = systemIds();
const stamp = (): Stamp => ({ id: ids.next(), at: SYSTEM_CLOCK.now(), by: 'ana', device: 'test' });
let dir: string;
const open: { close(): void }[] = [];

beforeEach(() => {
  dir = mkdtempSync(join(tmpdir(), 'witnessmark-series-'));
});
afterEach(() => {
  for (const o of open.splice(0)) o.close();
  rmSync(dir, { recursive: true, force: true });
});

async function newJob(job: JobFolder, name: string): Promise<JobFolder> {
  open.push(job);
  const opening = must(decide(job.state, recording('job-opened', { job: name, name }), stamp()));
  must(await job.journal.append(null, opening));
  return job;
}

async function stateOf(job: JobFolder): Promise<State> {
  return fold(must(await job.journal.read(1)).map((e) => must(readStored(e))));
}

function deskOf(job: JobFolder, series: BagSeries, others: readonly JobFolder[] = []): BagDesk {
  return {
    series,
    look: async () => ok({ state: await stateOf(job), others: await Promise.all(others.map(stateOf)) }),
    record: (drafts: readonly EntryDraft[], afterSeq) => job.journal.append(afterSeq, drafts),
    stamp,
  };
}

function shopAt(folder: string, isNew: boolean): ShopFolder {
  const shop = must(isNew ? createShop(folder, 'Try') : openShop(folder));
  open.push(shop);
  return shop;
}

function everyNumberOnce(blocks: readonly { readonly from: number; readonly to: number }[]): void {
  const all = blocks.flatMap((b) => Array.from({ length: b.to - b.from + 1 }, (_, i) => b.from + i));
  expect(new Set(all).size).toBe(all.length);
}

describe('a shop', () => {
  it('gives the numbers after all that any of its jobs knows, and records them in the job', async () => {
    const shop = shopAt(join(dir, 'shop'), true);
    const a = await newJob(must(shop.createJob('a')), 'a');
    const b = await newJob(must(shop.createJob('b')), 'b');
    const bagged = must(decide(await stateOf(b), recording('bagged', { bag: bagCode(140) }), stamp()));
    must(await b.journal.append(null, bagged));
    const first = must(await setBagsAside(deskOf(a, shop.bagSeries, [b]), { count: 3, for: 'tablet' }));
    expect(first).toEqual({ from: 141, to: 143, codes: [bagCode(141), bagCode(142), bagCode(143)] });
    const second = must(await setBagsAside(deskOf(b, shop.bagSeries), { count: 2, for: 'roll', roll: true }));
    expect([second.from, second.to]).toEqual([144, 145]);
    expect((await stateOf(a)).bagsSetAside).toMatchObject([{ from: 141, to: 143, for: 'tablet' }]);
    expect((await stateOf(b)).bagsSetAside).toMatchObject([{ from: 144, to: 145, for: 'roll', roll: true }]);
  });

  it('keeps its mark over closing and opening, and for two programs at once', async () => {
    const folder = join(dir, 'shop');
    const one = shopAt(folder, true);
    const two = shopAt(folder, false);
    const blocks = await Promise.all(
      Array.from({ length: 40 }, (_, i) => (i % 2 === 0 ? one : two).bagSeries.take(1 + (i % 7), 0)),
    );
    everyNumberOnce(blocks.map(must));
    const last = Math.max(...blocks.map((b) => must(b).to));
    const again = shopAt(folder, false);
    expect(must(await again.bagSeries.take(1, 0)).from).toBe(last + 1);
  });

  it('never goes back, whatever it is told of the jobs', async () => {
    const { bagSeries } = shopAt(join(dir, 'shop'), true);
    const asked = fc.array(fc.tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 0, max: 300 })), {
      maxLength: 20,
    });
    await fc.assert(
      fc.asyncProperty(asked, async (asks) => {
        const blocks = [];
        for (const [count, above] of asks) {
          const block = must(await bagSeries.take(count, above));
          expect(block.from).toBeGreaterThan(above);
          blocks.push(block);
        }
        everyNumberOnce(blocks);
      }),
      { numRuns: 20 },
    );
  });

  it('ends with a Problem at the last number, and gives what is left', async () => {
    const { bagSeries } = shopAt(join(dir, 'shop'), true);
    const full = await bagSeries.take(3, LAST_BAG - 2);
    expect(full.ok ? '' : full.problem.code).toBe('BAG_SERIES_FULL');
    expect(must(await bagSeries.take(2, LAST_BAG - 2))).toEqual({ from: LAST_BAG - 1, to: LAST_BAG });
  });
});

describe('a job alone', () => {
  it('gives each number once, though twelve ask at the same moment', async () => {
    const job = await newJob(must(createJob(join(dir, 'a.job'))), 'a');
    const given = await Promise.all(
      Array.from({ length: 12 }, (_, i) => setBagsAside(deskOf(job, LONE_SERIES), { count: 5, for: `phone ${i}` })),
    );
    everyNumberOnce(given.map(must));
    expect((await stateOf(job)).bagsSetAside).toHaveLength(12);
    expect(existsSync(join(dir, 'shop.db'))).toBe(false);
  });
});

it.each([0, -1, 1.5, Number.NaN, MOST_SET_ASIDE + 1])('a count of %s is refused', (count) => {
  const block = blockAbove(0, count);
  expect(block.ok ? '' : block.problem.code).toBe('BAGS_COUNT');
});
