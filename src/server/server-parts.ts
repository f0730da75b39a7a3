/** What every route needs: the jobs, clock and ids given in, the open streams to end when the server closes. */
import type { PassThrough } from 'node:stream';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Clock, Ids } from '../journal/index.ts';
import type { HostedJob } from './hosted-job.ts';
import type { PlanDesk } from './plan-desk.ts';
import { replyProblem } from './problem-reply.ts';
import { serverProblem } from './server-problems.ts';

export class ServerParts {
  readonly streams = new Set<PassThrough>();

  constructor(
    readonly jobs: ReadonlyMap<string, HostedJob>,
    readonly clock: Clock,
    readonly ids: Ids,
    readonly plans: PlanDesk,
  ) {}

  /** The job of the address; replies with a Problem and gives null when there is none. */
  jobOf(request: FastifyRequest, reply: FastifyReply): HostedJob | null {
    const id = (request.params as { readonly job: string }).job;
    const job = this.jobs.get(id);
    if (!job) replyProblem(reply, serverProblem('NO_SUCH_JOB', `the shop has no job "${id}"`, 'job'));
    return job ?? null;
  }
}
