/**
 * The shop's mark of the bag series, in shop.db: the highest number ever given out. It is read and raised in one
 * transaction that takes the file for writing first, so that two programs on one shop never give the same number.
 * It lies in the table of the shop's own values; an older program passes it over.
 */
import type Database from 'better-sqlite3';
import { type BagBlock, type BagSeries, blockAbove } from '../app/bag-series.ts';
import { failed, type Result } from '../domain/result.ts';
import { diskProblem } from './store-problems.ts';

const KEY = 'bag-mark';

export class ShopBagSeries implements BagSeries {
  readonly reserves = true;

  constructor(private readonly db: Database.Database) {}

  async take(count: number, above: number): Promise<Result<BagBlock>> {
    try {
      return this.db
        .transaction((): Result<BagBlock> => {
          const block = blockAbove(Math.max(this.mark(), above), count);
          if (block.ok) this.raise(block.value.to);
          return block;
        })
        .immediate();
    } catch (thrown) {
      return failed(diskProblem(thrown, 'setting bag numbers aside'));
    }
  }

  private mark(): number {
    const row = this.db.prepare('SELECT value FROM shop WHERE key = ?').get(KEY) as { value: string } | undefined;
    const n = Number(row?.value ?? 0);
    return Number.isSafeInteger(n) && n > 0 ? n : 0;
  }

  private raise(to: number): void {
    this.db
      .prepare('INSERT INTO shop VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value')
      .run(KEY, String(to));
  }
}
