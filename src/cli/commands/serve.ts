/**
 * `serve`: the page and the HTTP interface of a shop or of one job, on this machine; with `--lan` a shop also on its
 * network (docs/adr/0010). The listener of this machine stays as it is either way.
 */
import { existsSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Command } from 'commander';
import { HostedJob } from '../../server/hosted-job.ts';
import { LanDesk } from '../../server/lan/lan-desk.ts';
import { deskInThread } from '../../server/plan-desk.ts';
import { createServer } from '../../server/server.ts';
import {
  isJobFolder,
  isShopFolder,
  type JobFolder,
  type LanAddress,
  openJob,
  openShop,
  type ShopFolder,
  SYSTEM_CLOCK,
  systemIds,
} from '../../store/index.ts';
import { colours, type Io, tell } from '../io.ts';
import { cliProblem, parseWhole } from '../parse.ts';
import { type LanOptions, lanOptions, newCode, openLan, sayCode } from './network.ts';

/** The bundle runs in dist/, beside the page and the planner's thread. */
const here = dirname(fileURLToPath(import.meta.url));

export interface ServeOptions extends LanOptions {
  readonly port?: string;
}

export function serveCommand(program: Command, io: Io): void {
  const serve = program
    .command('serve')
    .description('serve a shop or a job to the browser of this machine, and with --lan to the shop’s network')
    .argument('<shop|job>', 'a shop folder or a job folder')
    .option('--port <n>', 'port; 0 takes a free one', '4377');
  lanOptions(serve);
  serve.addHelpText(
    'after',
    '\nExamples:\n  witnessmark serve my.job\n  witnessmark serve shop --port 8080\n  witnessmark serve shop --lan\n',
  );
  serve.action((path: string, o: ServeOptions) => serveFolder(io, path, o));
}

export async function serveFolder(io: Io, path: string, o: ServeOptions): Promise<void> {
  const serving = await startServing(io, path, o);
  await ended();
  await serving.close();
}

export interface Serving {
  readonly address: string;
  close(): Promise<void>;
}

/** Everything up to the point where it runs; tests end it themselves and give in this machine's addresses. */
export async function startServing(
  io: Io,
  path: string,
  o: ServeOptions,
  addresses?: () => readonly LanAddress[],
): Promise<Serving> {
  if (o.lan && !isShopFolder(path)) tell(cliProblem('LAN_NEEDS_SHOP', `"${path}" is no shop`, '--lan'));
  const { shop, folders } = openAll(path);
  const jobs: HostedJob[] = [];
  for (const [id, folder] of folders) {
    const hosted = await HostedJob.open({
      id,
      journal: folder.journal,
      photographs: folder.photographs,
      sounds: folder.sounds,
    });
    if (!hosted.ok) tell(hosted.problem);
    for (const p of folder.problems) io.err(`${id}: ${p.message}\n${p.remedy}\n`);
    jobs.push(hosted.value);
  }
  const plans = deskInThread(join(here, 'plan-worker.js'));
  const bags = shop === null ? {} : { bags: shop.bagSeries };
  const setup = { jobs, clock: SYSTEM_CLOCK, ids: systemIds(), plans, page: join(here, 'web'), ...bags };
  const desk = shop === null ? null : new LanDesk(shop, version());
  const app = await createServer({ ...setup, door: { kind: 'this-machine', ...(desk !== null && { desk }) } });
  const close = async (): Promise<void> => {
    await app.close();
    for (const [, folder] of folders) folder.close();
    shop?.close();
  };
  try {
    const port = parseWhole(o.port, '--port') ?? 4377;
    const address = await listenHere(app, port);
    const c = colours(io);
    const where = o.lan ? 'this machine, without pairing' : 'this machine only';
    io.out(
      `${c.bold(address.replace('127.0.0.1', 'localhost'))}  ${c.dim(`${jobs.length} job${jobs.length === 1 ? '' : 's'} · ${where} · Ctrl-C ends it`)}\n`,
    );
    if (!o.lan || desk === null) return { address, close };
    const doors = await openLan(setup, desk, o, addresses);
    await sayCode(io, newCode(desk.shop));
    return {
      address,
      close: async () => {
        await doors.close();
        await close();
      },
    };
  } catch (thrown) {
    await close();
    throw thrown;
  }
}

function listenHere(app: Awaited<ReturnType<typeof createServer>>, port: number): Promise<string> {
  return app
    .listen({ host: '127.0.0.1', port })
    .catch((e: NodeJS.ErrnoException) =>
      tell(
        e.code === 'EADDRINUSE'
          ? cliProblem('PORT_TAKEN', `port ${port} is taken`, '--port')
          : cliProblem('BAD_OPTION', e.message, '--port'),
      ),
    );
}

interface Opened {
  /** Kept open while it is served: devices are looked up in it. Null for a job that stands alone. */
  readonly shop: ShopFolder | null;
  readonly folders: readonly (readonly [string, JobFolder])[];
}

function openAll(path: string): Opened {
  if (isJobFolder(path)) {
    const job = openJob(path);
    return job.ok ? { shop: null, folders: [[basename(path).replace(/\.job$/, ''), job.value]] } : tell(job.problem);
  }
  if (!isShopFolder(path)) tell(cliProblem('NO_JOB_HERE', `"${path}" holds neither a shop nor a job`));
  const shop = openShop(path);
  if (!shop.ok) return tell(shop.problem);
  const folders = shop.value.jobs().map((name): [string, JobFolder] => {
    const job = shop.value.openJob(name);
    return job.ok ? [name, job.value] : tell(job.problem);
  });
  return { shop: shop.value, folders };
}

/** From the package file, beside dist/ or above the source. */
function version(): string {
  for (let at = here, up = dirname(here); ; at = up, up = dirname(up)) {
    const file = join(at, 'package.json');
    if (existsSync(file)) return (JSON.parse(readFileSync(file, 'utf8')) as { readonly version: string }).version;
    if (up === at) return 'unknown';
  }
}

/** Until somebody ends it. */
function ended(): Promise<void> {
  return new Promise((resolve) => {
    process.once('SIGINT', () => resolve());
    process.once('SIGTERM', () => resolve());
  });
}
