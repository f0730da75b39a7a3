/** For tests: one job behind the real routes, with a person, in a temporary folder. */
import { join } from 'node:path';
import type { FastifyInstance, InjectOptions } from 'fastify';
import { must } from '../../domain/result.ts';
import { type Command, decide, recording } from '../../journal/index.ts';
import { createJob, type JobFolder, SYSTEM_CLOCK, systemIds } from '../../store/index.ts';
import { HostedJob } from '../hosted-job.ts';
import { deskInPlace } from '../plan-desk.ts';
import { createServer } from '../server.ts';

const ids = systemIds();

type Answer = Awaited<ReturnType<FastifyInstance['inject']>>;

export interface ServedJob {
  readonly app: FastifyInstance;
  readonly job: JobFolder;
  readonly hosted: HostedJob;
  readonly folder: string;
  record(...commands: Command[]): Promise<void>;
  get(url: string): Promise<Answer>;
  /** The body as it is, under the type that is claimed for it. */
  send(url: string, body: Uint8Array | string, type?: string): Promise<Answer>;
  close(): Promise<void>;
}

export async function serveJob(folder: string): Promise<ServedJob> {
  const job = must(createJob(join(folder, 'try.job')));
  const hosted = must(await HostedJob.open({ id: 'try', journal: job.journal, photographs: job.photographs }));
  const page = join(folder, 'none');
  const app = await createServer({ jobs: [hosted], clock: SYSTEM_CLOCK, ids, plans: deskInPlace(), page });
  const inject = async (o: InjectOptions): Promise<Answer> => app.inject(o);
  const served: ServedJob = {
    app,
    job,
    hosted,
    folder,
    async record(...commands) {
      for (const c of commands) {
        const stamp = { id: ids.next(), at: SYSTEM_CLOCK.now(), by: 'nadia', device: 'test' };
        must(await hosted.append(must(decide(hosted.state, c, stamp))));
      }
    },
    get: (url) => inject({ method: 'GET', url, headers: { host: 'localhost' } }),
    send: (url, body, type = 'application/octet-stream') =>
      inject({
        method: 'POST',
        url,
        payload: typeof body === 'string' ? body : Buffer.from(body),
        headers: { host: 'localhost', 'content-type': type },
      }),
    async close() {
      await app.close();
      job.close();
    },
  };
  await served.record(
    recording('job-opened', { job: 'try', name: 'A try' }),
    recording('person-noted', { person: 'nadia', name: 'Nadia' }),
  );
  return served;
}
