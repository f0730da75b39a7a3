/** `serve`: the page and the HTTP interface of a shop or of one job, on this machine only. */
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Command } from 'commander';
import { HostedJob } from '../../server/hosted-job.ts';
import { deskInThread } from '../../server/plan-desk.ts';
import { createServer } from '../../server/server.ts';
import {
  isJobFolder,
  isShopFolder,
  type JobFolder,
  openJob,
  openShop,
  SYSTEM_CLOCK,
  systemIds,
} from '../../store/index.ts';
import { colours, type Io, tell } from '../io.ts';
import { cliProblem, parseWhole } from '../parse.ts';

/** The bundle runs in dist/, beside the page and the planner's thread. */
const here = dirname(fileURLToPath(import.meta.url));

export interface ServeOptions {
  readonly port?: string;
}

export function serveCommand(program: Command, io: Io): void {
  const serve = program
    .command('serve')
    .description('serve a shop or a job to the browser of this machine')
    .argument('<shop|job>', 'a shop folder or a job folder')
    .option('--port <n>', 'port; 0 takes a free one', '4377');
  serve.addHelpText('after', '\nExamples:\n  witnessmark serve my.job\n  witnessmark serve shop --port 8080\n');
  serve.action((path: string, o: ServeOptions) => serveFolder(io, path, o));
}

export async function serveFolder(io: Io, path: string, o: ServeOptions): Promise<void> {
  const opened = openAll(path);
  const jobs: HostedJob[] = [];
  for (const [id, folder] of opened) {
    const hosted = await HostedJob.open({ id, journal: folder.journal, photographs: folder.photographs });
    if (!hosted.ok) tell(hosted.problem);
    for (const p of folder.problems) io.err(`${id}: ${p.message}\n${p.remedy}\n`);
    jobs.push(hosted.value);
  }
  const app = await createServer({
    jobs,
    clock: SYSTEM_CLOCK,
    ids: systemIds(),
    plans: deskInThread(join(here, 'plan-worker.js')),
    page: join(here, 'web'),
  });
  const port = parseWhole(o.port, '--port') ?? 4377;
  const address = await app
    .listen({ host: '127.0.0.1', port })
    .catch((e: NodeJS.ErrnoException) =>
      tell(
        e.code === 'EADDRINUSE'
          ? cliProblem('PORT_TAKEN', `port ${port} is taken`, '--port')
          : cliProblem('BAD_OPTION', e.message, '--port'),
      ),
    );
  const c = colours(io);
  io.out(
    `${c.bold(address.replace('127.0.0.1', 'localhost'))}  ${c.dim(`${jobs.length} job${jobs.length === 1 ? '' : 's'} · this machine only · Ctrl-C ends it`)}\n`,
  );
  await ended();
  await app.close();
  for (const [, folder] of opened) folder.close();
}

function openAll(path: string): readonly (readonly [string, JobFolder])[] {
  if (isJobFolder(path)) {
    const job = openJob(path);
    return job.ok ? [[basename(path).replace(/\.job$/, ''), job.value]] : tell(job.problem);
  }
  if (!isShopFolder(path)) tell(cliProblem('NO_JOB_HERE', `"${path}" holds neither a shop nor a job`));
  const shop = openShop(path);
  if (!shop.ok) return tell(shop.problem);
  const jobs = shop.value.jobs().map((name): [string, JobFolder] => {
    const job = shop.value.openJob(name);
    return job.ok ? [name, job.value] : tell(job.problem);
  });
  shop.value.close();
  return jobs;
}

/** Until somebody ends it. */
function ended(): Promise<void> {
  return new Promise((resolve) => {
    process.once('SIGINT', () => resolve());
    process.once('SIGTERM', () => resolve());
  });
}
