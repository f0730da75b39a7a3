/**
 * The HTTP face. Thin: every route reads, calls the core or a port, and answers. Binds to this machine unless told
 * otherwise; answers only to names it expects (a page elsewhere could otherwise point its own name at us) and lets only
 * our own page record.
 */
import helmet from '@fastify/helmet';
import rateLimit from '@fastify/rate-limit';
import Fastify, { type FastifyError, type FastifyInstance } from 'fastify';
import type { Clock, Ids } from '../journal/index.ts';
import type { HostedJob } from './hosted-job.ts';
import { jobRoutes } from './job-routes.ts';
import { pageRoutes } from './page-routes.ts';
import { photoRoutes } from './photo-routes.ts';
import type { PlanDesk } from './plan-desk.ts';
import { planRoutes } from './plan-routes.ts';
import { replyProblem } from './problem-reply.ts';
import { ServerParts } from './server-parts.ts';
import { serverProblem } from './server-problems.ts';

export interface ServerSetup {
  readonly jobs: readonly HostedJob[];
  readonly clock: Clock;
  readonly ids: Ids;
  readonly plans: PlanDesk;
  /** Folder of the built page. */
  readonly page: string;
  /** Names under which it may be asked; those of this machine by default. */
  readonly hostNames?: readonly string[];
}

const THIS_MACHINE = ['localhost', '127.0.0.1', '[::1]'];
const LARGEST_BODY = 20 * 1024 * 1024;

export async function createServer(setup: ServerSetup): Promise<FastifyInstance> {
  const app = Fastify({ logger: false, bodyLimit: LARGEST_BODY, forceCloseConnections: true });
  const parts = new ServerParts(new Map(setup.jobs.map((j) => [j.id, j])), setup.clock, setup.ids, setup.plans);
  await app.register(helmet, {
    contentSecurityPolicy: {
      directives: {
        defaultSrc: ["'self'"],
        imgSrc: ["'self'", 'data:', 'blob:'],
        styleSrc: ["'self'", "'unsafe-inline'"],
        workerSrc: ["'self'", 'blob:'],
        upgradeInsecureRequests: null,
      },
    },
    strictTransportSecurity: false,
  });
  await app.register(rateLimit, { max: 3_000, timeWindow: '1 minute' });
  guardOrigin(app, setup.hostNames ?? THIS_MACHINE);
  app.setErrorHandler((e: FastifyError, _request, reply) => {
    if (e.statusCode === 413 || e.statusCode === 429) return replyProblem(reply, serverProblem('TOO_MUCH', e.message));
    if (e.statusCode !== undefined && e.statusCode < 500)
      return replyProblem(reply, serverProblem('BODY_UNREADABLE', e.message));
    process.stderr.write(`internal: ${e.stack ?? e.message}\n`);
    return reply
      .code(500)
      .type('application/problem+json')
      .send(
        JSON.stringify({
          code: 'INTERNAL',
          message: 'Something in the program itself went wrong.',
          remedy: 'What was acknowledged is kept. Report what you did just before.',
        }),
      );
  });
  jobRoutes(app, parts);
  photoRoutes(app, parts);
  planRoutes(app, parts);
  await pageRoutes(app, setup.page);
  app.addHook('preClose', async () => {
    for (const stream of parts.streams) stream.end();
    for (const job of parts.jobs.values()) job.close();
    await setup.plans.close();
  });
  return app;
}

function guardOrigin(app: FastifyInstance, names: readonly string[]): void {
  app.addHook('onRequest', async (request, reply) => {
    const host = request.headers.host ?? '';
    const name = host.replace(/:\d+$/, '');
    const origin = request.headers.origin;
    const ours =
      names.includes(name) && (origin === undefined || origin === `http://${host}` || origin === `https://${host}`);
    const site = request.headers['sec-fetch-site'];
    const elsewhere = request.method !== 'GET' && site !== undefined && site !== 'same-origin' && site !== 'none';
    if (!ours || elsewhere)
      return replyProblem(
        reply,
        serverProblem(
          'OTHER_ORIGIN',
          `asked as "${host.slice(0, 80)}" from "${String(origin ?? site ?? 'nowhere').slice(0, 80)}"`,
        ),
      );
  });
}
