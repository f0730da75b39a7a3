/**
 * The HTTP face. Thin: every route reads, calls the core or a port, and answers. One server, several doors
 * (docs/adr/0010): this machine, and with `--lan` the shop's network plainly and over TLS, which answers nothing before
 * pairing. Answers only to names it expects and lets only our own page record.
 */
import cookie from '@fastify/cookie';
import helmet from '@fastify/helmet';
import rateLimit from '@fastify/rate-limit';
import Fastify, { type FastifyError, type FastifyInstance } from 'fastify';
import type { Clock, Ids } from '../journal/index.ts';
import type { HostedJob } from './hosted-job.ts';
import { importRoutes } from './import-routes.ts';
import { jobRoutes } from './job-routes.ts';
import { type LabelSetup, labelRoutes } from './label-routes.ts';
import { type Door, tlsOptions } from './lan/door.ts';
import { networkGate } from './lan/network-gate.ts';
import { pairingRoutes } from './lan/pairing-routes.ts';
import { shopRoutes } from './lan/shop-routes.ts';
import { originFault } from './origin-guard.ts';
import { pageRoutes } from './page-routes.ts';
import { photoRoutes } from './photo-routes.ts';
import type { PlanDesk } from './plan-desk.ts';
import { planRoutes } from './plan-routes.ts';
import { replyProblem } from './problem-reply.ts';
import { ServerParts } from './server-parts.ts';
import { serverProblem } from './server-problems.ts';
import { soundRoutes } from './sound-routes.ts';

export interface ServerSetup extends LabelSetup {
  readonly jobs: readonly HostedJob[];
  readonly clock: Clock;
  readonly ids: Ids;
  readonly plans: PlanDesk;
  /** Folder of the built page. */
  readonly page: string;
  /** Names under which it may be asked; those of this machine by default. */
  readonly hostNames?: readonly string[];
  /** By which door it is entered; that of this machine by default. */
  readonly door?: Door;
}

const THIS_MACHINE = ['localhost', '127.0.0.1', '[::1]'];
/** A photograph of 60 MB over the far corner's Wi-Fi. */
const SLOWEST_REQUEST_MS = 5 * 60_000;
const MOST_CONNECTIONS = 400;
const LARGEST_BODY = 20 * 1024 * 1024;

export async function createServer(setup: ServerSetup): Promise<FastifyInstance> {
  const door = setup.door ?? { kind: 'this-machine' };
  const app = makeApp(door);
  const parts = new ServerParts(new Map(setup.jobs.map((j) => [j.id, j])), setup.clock, setup.ids, setup.plans);
  // Browsers heed these two on a locked page or this machine's only, and complain elsewhere.
  const isPlain = door.kind === 'network' && door.over === 'plain';
  await app.register(helmet, {
    ...(isPlain && { crossOriginOpenerPolicy: false, originAgentCluster: false }),
    contentSecurityPolicy: {
      directives: {
        defaultSrc: ["'self'"],
        imgSrc: ["'self'", 'data:', 'blob:'],
        styleSrc: ["'self'", "'unsafe-inline'"],
        workerSrc: ["'self'", 'blob:'],
        // Codes on bags are read by a WebAssembly program that this machine serves (zxing-wasm): compiling it is allowed,
        // running text as a script is not.
        scriptSrc: ["'self'", "'wasm-unsafe-eval'"],
        // A voice note or photograph that was just made is shown from the page's own memory.
        mediaSrc: ["'self'", 'blob:'],
        // A page kept on a phone for work without network was installed from one address of the shop and must reach the
        // shop where it is now; which address that will be cannot be known when the page is sent.
        ...(door.kind === 'network' && { connectSrc: ["'self'", 'https:'] }),
        upgradeInsecureRequests: null,
      },
    },
    // Not set: HSTS counts for all ports of a name, so it would lock the plain door out of every browser that once used
    // the other; and browsers heed it for no address and no name whose certificate is not trusted.
    strictTransportSecurity: false,
  });
  await app.register(rateLimit, { max: 3_000, timeWindow: '1 minute' });
  await app.register(cookie);
  app.decorateRequest('paired', null);
  if (door.kind === 'network') networkGate(app, door, setup.clock);
  else guardOrigin(app, setup.hostNames ?? THIS_MACHINE);
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
  soundRoutes(app, parts);
  importRoutes(app, parts);
  planRoutes(app, parts);
  labelRoutes(app, parts, setup);
  if (door.desk !== undefined) shopRoutes(app, door, door.desk, setup.clock);
  if (door.kind === 'network') pairingRoutes(app, door, setup.clock);
  await pageRoutes(app, setup.page);
  app.addHook('preClose', async () => {
    for (const stream of parts.streams) stream.end();
    // Jobs and planner belong to the first door; the network's doors share them.
    if (door.kind === 'network') return;
    for (const job of parts.jobs.values()) job.close();
    await setup.plans.close();
  });
  return app;
}

function guardOrigin(app: FastifyInstance, names: readonly string[]): void {
  app.addHook('onRequest', async (request, reply) => {
    const host = request.headers.host ?? '';
    const fault = originFault(request, names, { origin: [`http://${host}`, `https://${host}`] });
    if (fault !== null) return replyProblem(reply, fault);
  });
}

/** The network's doors also hold the time of one request and the number of connections: strangers can reach them. */
function makeApp(door: Door): FastifyInstance {
  const common = { logger: false, bodyLimit: LARGEST_BODY, forceCloseConnections: true } as const;
  if (door.kind === 'this-machine') return Fastify(common);
  const held = { ...common, requestTimeout: SLOWEST_REQUEST_MS };
  const app =
    door.over === 'plain'
      ? Fastify(held)
      : (Fastify({ ...held, https: tlsOptions(door.certificate) }) as unknown as FastifyInstance);
  app.server.maxConnections = MOST_CONNECTIONS;
  return app;
}
