/**
 * A shop as a folder: shop.db with what stays in the shop (its name, people, devices, keys), and its jobs. People and devices
 * are copied into a job by an entry when they first record there, so that a job handed over still says who is who.
 *
 * shop.db is an address book, not a record: rows are replaced. Not chosen: a second journal; nobody needs to prove years later what
 * a device was once called.
 */
import * as fs from 'node:fs';
import { join } from 'node:path';
import type Database from 'better-sqlite3';
import type { BagSeries } from '../app/bag-series.ts';
import type { Problem } from '../domain/problem.ts';
import { failed, ok, type Result } from '../domain/result.ts';
import type { DataOf } from '../journal/kinds/kinds.ts';
import { readData } from '../journal/upgrades.ts';
import { Vault } from './authority/vault.ts';
import { ShopBagSeries } from './bag-series.ts';
import { DeviceRegister } from './devices.ts';
import { createJob, isJobFolder, type JobFolder, type OpenOptions, openJob } from './job-folder.ts';
import { createShopFile, openShopFile } from './shop-file.ts';
import { diskProblem, storeProblem } from './store-problems.ts';

export const SHOP_FILE = 'shop.db';
const JOBS = 'jobs';

/** Where the shop is served on its network, or was last: so that `pair` can name links while another program serves. */
export interface ServedAt {
  readonly name: string;
  readonly addresses: readonly string[];
  readonly plainPort: number;
  readonly tlsPort: number;
  readonly at: string;
}

export interface ShopFolder {
  readonly folder: string;
  readonly name: string;
  people(): readonly DataOf<'person-noted'>[];
  notePerson(person: DataOf<'person-noted'>): Result<true>;
  devices(): readonly DataOf<'device-noted'>[];
  noteDevice(device: DataOf<'device-noted'>): Result<true>;
  /** Devices let in from the network, and the codes that let them in. */
  readonly register: DeviceRegister;
  /** Keys of the shop's certificate authority. */
  readonly vault: Vault;
  /** Bag numbers, one series for all jobs. */
  readonly bagSeries: BagSeries;
  servedAt(): ServedAt | null;
  noteServedAt(served: ServedAt): Result<true>;
  /** Names of the jobs, sorted: `qx-ola` for `jobs/qx-ola.job`. */
  jobs(): readonly string[];
  jobPath(name: string): string;
  createJob(name: string, options?: OpenOptions): Result<JobFolder>;
  openJob(name: string, options?: OpenOptions): Result<JobFolder>;
  close(): void;
}

export function isShopFolder(folder: string): boolean {
  return fs.existsSync(join(folder, SHOP_FILE));
}

export function createShop(folder: string, name: string): Result<ShopFolder> {
  if (isShopFolder(folder)) return failed(storeProblem('JOB_EXISTS', `"${folder}" holds a shop already`));
  try {
    fs.mkdirSync(join(folder, JOBS), { recursive: true });
    createShopFile(join(folder, SHOP_FILE), name);
  } catch (thrown) {
    return failed(diskProblem(thrown, 'making the shop'));
  }
  return openShop(folder);
}

export function openShop(folder: string): Result<ShopFolder> {
  if (!isShopFolder(folder)) return failed(storeProblem('SHOP_NOT_FOUND', `"${folder}" holds no shop`));
  try {
    const db = openShopFile(join(folder, SHOP_FILE));
    if (db === null) return failed(newerShop(folder));
    const row = db.prepare("SELECT value FROM shop WHERE key = 'name'").get() as { value: string } | undefined;
    return ok(new Shop(db, folder, row?.value ?? folder));
  } catch (thrown) {
    return failed(diskProblem(thrown, 'opening the shop'));
  }
}

function newerShop(folder: string): Problem {
  return storeProblem(
    'SHOP_NOT_FOUND',
    `the shop in "${folder}" was written by a newer version`,
    'Use the newer version; jobs can still be opened by their own folder.',
  );
}

class Shop implements ShopFolder {
  readonly register: DeviceRegister;
  readonly vault: Vault;
  readonly bagSeries: BagSeries;

  constructor(
    private readonly db: Database.Database,
    readonly folder: string,
    readonly name: string,
  ) {
    this.register = new DeviceRegister(db);
    this.vault = new Vault(db);
    this.bagSeries = new ShopBagSeries(db);
  }

  people(): readonly DataOf<'person-noted'>[] {
    return this.rows('person') as readonly DataOf<'person-noted'>[];
  }

  notePerson(person: DataOf<'person-noted'>): Result<true> {
    const read = readData('person-noted', person);
    return read.ok ? this.put('person', person.person, read.value) : read;
  }

  devices(): readonly DataOf<'device-noted'>[] {
    return this.rows('device') as readonly DataOf<'device-noted'>[];
  }

  noteDevice(device: DataOf<'device-noted'>): Result<true> {
    const read = readData('device-noted', device);
    return read.ok ? this.put('device', device.device, read.value) : read;
  }

  servedAt(): ServedAt | null {
    const row = this.db.prepare("SELECT value FROM network WHERE key = 'served-at'").get() as
      | { value: string }
      | undefined;
    return row === undefined ? null : (JSON.parse(row.value) as ServedAt);
  }

  noteServedAt(served: ServedAt): Result<true> {
    try {
      this.db
        .prepare("INSERT INTO network VALUES ('served-at', ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value")
        .run(JSON.stringify(served));
      return ok(true);
    } catch (thrown) {
      return failed(diskProblem(thrown, 'noting where the shop is served'));
    }
  }

  private rows(table: 'person' | 'device'): readonly unknown[] {
    const rows = this.db.prepare(`SELECT data FROM ${table} ORDER BY id`).all() as { data: string }[];
    return rows.map((r) => JSON.parse(r.data) as unknown);
  }

  private put(table: 'person' | 'device', id: string, data: object): Result<true> {
    try {
      this.db
        .prepare(`INSERT INTO ${table} VALUES (?, ?) ON CONFLICT (id) DO UPDATE SET data = excluded.data`)
        .run(id, JSON.stringify(data));
      return ok(true);
    } catch (thrown) {
      return failed(diskProblem(thrown, 'noting it in the shop'));
    }
  }

  jobs(): readonly string[] {
    const root = join(this.folder, JOBS);
    if (!fs.existsSync(root)) return [];
    return fs
      .readdirSync(root)
      .filter((n) => n.endsWith('.job') && isJobFolder(join(root, n)))
      .map((n) => n.slice(0, -4))
      .sort();
  }

  jobPath(name: string): string {
    return join(this.folder, JOBS, `${name}.job`);
  }

  createJob(name: string, options?: OpenOptions): Result<JobFolder> {
    const fault = nameFault(name);
    return fault === null ? createJob(this.jobPath(name), options) : failed(fault);
  }

  openJob(name: string, options?: OpenOptions): Result<JobFolder> {
    const fault = nameFault(name);
    return fault === null ? openJob(this.jobPath(name), options) : failed(fault);
  }

  close(): void {
    this.db.close();
  }
}

/** A job's name becomes a folder's name on any system. */
function nameFault(name: string): Problem | null {
  if (/^[a-z0-9][a-z0-9-]{0,60}$/.test(name)) return null;
  return storeProblem(
    'JOB_NOT_FOUND',
    `"${name}" cannot be the name of a job`,
    'Use small letters, digits and hyphens, e.g. qx-ola.',
    'name',
  );
}
