/**
 * Where the shop's keys lie: a table of their own in shop.db, which stays in the shop and can be read by its owner only.
 * Nothing here goes to a job folder, a backup of a job or the journal (held by `authority.test.ts`).
 */
import type Database from 'better-sqlite3';

export const VAULT_TABLE = 'CREATE TABLE authority (key TEXT PRIMARY KEY, value TEXT NOT NULL)';

export type VaultKey = 'ca-certificate' | 'ca-key' | 'leaf-certificate' | 'leaf-key' | 'leaf-for';

export class Vault {
  constructor(private readonly db: Database.Database) {}

  get(key: VaultKey): string | null {
    const row = this.db.prepare('SELECT value FROM authority WHERE key = ?').get(key) as { value: string } | undefined;
    return row?.value ?? null;
  }

  put(values: Partial<Record<VaultKey, string>>): void {
    const one = this.db.prepare(
      'INSERT INTO authority VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value',
    );
    this.db.transaction(() => {
      for (const [key, value] of Object.entries(values)) one.run(key, value);
    })();
  }

  /** Of two programs that make an authority at the same time, the first stands. */
  putIfNone(first: VaultKey, values: Partial<Record<VaultKey, string>>): void {
    this.db
      .transaction(() => {
        if (this.get(first) === null) this.put(values);
      })
      .immediate();
  }
}
