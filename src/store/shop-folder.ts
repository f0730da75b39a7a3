/**
 * A shop as a folder: shop.db with what stays in the shop (its name, people, devices), and its jobs. People are copied
 * into a job by an entry when they first record there, so that a job handed over still says who is who.
 *
 * shop.db is an address book, not a record: rows are replaced. Not chosen: a second journal; nobody needs to prove years later what
 * a device was once called.
 */
import * as fs from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import type { Problem } from '../domain/problem.ts';
import { failed, ok, type Result } from '../domain/result.ts';
import type { DataOf } from '../journal/kinds/kinds.ts';
import { readData } from '../journal/upgrades.ts';
import { createJob, isJobFolder, type JobFolder, type OpenOptions, openJob } from './job-folder.ts';
import { setPragmas } from './sqlite-file.ts';
import { diskProblem, storeProblem } from './store-problems.ts';

export const SHOP_FILE = 'shop.db';
const SHOP_FORMAT = 1;
const JOBS = 'jobs';

export interface ShopFolder {
  readonly folder: string;
  readonly name: string;
  people(): readonly DataOf<'person-noted'>[];
  notePerson(person: DataOf<'person-noted'>): Result<true>;
  devices(): readonly DataOf<'device-noted'>[];
  noteDevice(device: DataOf<'device-noted'>): Result<true>;
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
    const db = new Database(join(folder, SHOP_FILE), { timeout: 5_000 });
    setPragmas(db);
    db.transaction(() => {
      db.exec('CREATE TABLE shop (key TEXT PRIMARY KEY, value TEXT NOT NULL)');
      db.exec('CREATE TABLE person (id TEXT PRIMARY KEY, data TEXT NOT NULL)');
      db.exec('CREATE TABLE device (id TEXT PRIMARY KEY, data TEXT NOT NULL)');
      db.prepare("INSERT INTO shop VALUES ('name', ?)").run(name);
      db.pragma(`user_version = ${SHOP_FORMAT}`);
    })();
    db.close();
  } catch (thrown) {
    return failed(diskProblem(thrown, 'making the shop'));
  }
  return openShop(folder);
}

export function openShop(folder: string): Result<ShopFolder> {
  if (!isShopFolder(folder)) return failed(storeProblem('SHOP_NOT_FOUND', `"${folder}" holds no shop`));
  try {
    const db = new Database(join(folder, SHOP_FILE), { timeout: 5_000, fileMustExist: true });
    setPragmas(db);
    if (Number(db.pragma('user_version', { simple: true })) > SHOP_FORMAT) {
      db.close();
      return failed(newerShop(folder));
    }
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
  constructor(
    private readonly db: Database.Database,
    readonly folder: string,
    readonly name: string,
  ) {}

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
