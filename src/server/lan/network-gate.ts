/**
 * The gate of the network doors, one hook before everything else, in this order:
 *   who asks (bearer token anywhere; cookie only from our own page) -> preflight of another address of this shop ->
 *   host and origin -> open paths (the pairing page, the authority's certificate) -> paired, or 401
 *
 * Every live answer is kept by device, so that shutting one out ends its open streams at once. Another program may do the
 * shutting out (`witnessmark devices --revoke`), so devices with live answers are looked up again twice a second.
 */
import type { ServerResponse } from 'node:http';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import type { Clock } from '../../journal/index.ts';
import type { PairedDevice } from '../../store/index.ts';
import { originFault } from '../origin-guard.ts';
import { replyProblem } from '../problem-reply.ts';
import { serverProblem } from '../server-problems.ts';
import { cookieName, type NetworkDoor } from './door.ts';
import { RefusalCount } from './pairing-limits.ts';

/** Answered before pairing; everything else is not. */
export const OPEN_PATHS: readonly string[] = ['/pair', '/pair.js', '/ca.crt'];
const LOOK_AGAIN_MS = 500;
const REFUSALS_A_MINUTE = 300;

export function networkGate(app: FastifyInstance, door: NetworkDoor, clock: Clock): void {
  const live = new Map<string, Set<ServerResponse>>();
  const refusals = new RefusalCount(REFUSALS_A_MINUTE);
  app.addHook('onRequest', async (request, reply) => {
    const origin = request.headers.origin;
    const across = origin !== undefined && origin !== ownOrigin(request, door);
    const bearer = bearerOf(request);
    const token = bearer ?? (across ? null : cookieOf(request, door));
    const device = token === null ? null : door.desk.shop.register.find(token, door.over, clock.now());
    const path = request.url.split('?')[0] ?? '';
    const byBearer = bearer !== null && device !== null && device.revokedAt === null && path.startsWith('/api/');
    if (across && path.startsWith('/api/') && (byBearer || door.desk.isOurOrigin(origin))) {
      if (request.method === 'OPTIONS') return answerPreflight(reply, origin);
      allowAcross(reply, origin);
      const fault = originFault(request, door.desk.hostNames(), { origin: 'any' });
      if (fault !== null) return replyProblem(reply, fault);
    } else {
      const fault = originFault(request, door.desk.hostNames(), { origin: ownOrigin(request, door) });
      if (fault !== null) return replyProblem(reply, fault);
    }
    if (device !== null && device.revokedAt === null) return admit(request, reply, device, live);
    if (isOpen(request, path)) return;
    return refuse(request, reply, { device, path, isOften: refusals.isOver(request.ip, clock.now()) });
  });
  endRevoked(app, door, live);
}

function ownOrigin(request: FastifyRequest, door: NetworkDoor): string {
  return `${door.over === 'tls' ? 'https' : 'http'}://${request.headers.host ?? ''}`;
}

function bearerOf(request: FastifyRequest): string | null {
  return /^Bearer ([\w-]{20,100})$/.exec(request.headers.authorization ?? '')?.[1] ?? null;
}

function cookieOf(request: FastifyRequest, door: NetworkDoor): string | null {
  const token = request.cookies[cookieName(door.over)];
  return token !== undefined && /^[\w-]{20,100}$/.test(token) ? token : null;
}

function isOpen(request: FastifyRequest, path: string): boolean {
  if (!OPEN_PATHS.includes(path)) return false;
  return request.method === 'GET' || request.method === 'HEAD' || (request.method === 'POST' && path === '/pair');
}

/** Never with `access-control-allow-credentials`: a cookie is for our own page, another address brings its token. */
function allowAcross(reply: FastifyReply, origin: string): void {
  reply.header('access-control-allow-origin', origin).header('vary', 'Origin');
  reply.header('access-control-expose-headers', 'x-more');
}

function answerPreflight(reply: FastifyReply, origin: string): FastifyReply {
  allowAcross(reply, origin);
  return reply
    .header('access-control-allow-methods', 'GET, POST')
    .header('access-control-allow-headers', 'authorization, content-type, last-event-id')
    .header('access-control-max-age', '600')
    .code(204)
    .send();
}

function admit(
  request: FastifyRequest,
  reply: FastifyReply,
  device: PairedDevice,
  live: Map<string, Set<ServerResponse>>,
): void {
  request.paired = device;
  const answers = live.get(device.id) ?? new Set();
  live.set(device.id, answers.add(reply.raw));
  reply.raw.once('close', () => {
    answers.delete(reply.raw);
    if (answers.size === 0 && live.get(device.id) === answers) live.delete(device.id);
  });
}

interface Refused {
  readonly device: PairedDevice | null;
  readonly path: string;
  readonly isOften: boolean;
}

function refuse(request: FastifyRequest, reply: FastifyReply, r: Refused): FastifyReply {
  reply.header('cache-control', 'no-store');
  if (r.isOften) return replyProblem(reply, serverProblem('PAIRING_TOO_OFTEN', 'this address asks too often'));
  const navigates = request.headers['sec-fetch-mode'] === 'navigate' || /text\/html/.test(request.headers.accept ?? '');
  if (request.method === 'GET' && navigates && !r.path.startsWith('/api/')) return reply.redirect('/pair', 302);
  reply.header('www-authenticate', 'Bearer realm="witnessmark"');
  const when = r.device?.revokedAt;
  return replyProblem(
    reply,
    when
      ? serverProblem('DEVICE_REVOKED', `"${r.device?.name}" was shut out on ${when.slice(0, 16).replace('T', ' ')}`)
      : serverProblem('NOT_PAIRED', 'this device is not paired with the shop'),
  );
}

function endRevoked(app: FastifyInstance, door: NetworkDoor, live: ReadonlyMap<string, Set<ServerResponse>>): void {
  const look = (): void => {
    for (const [id, answers] of live) {
      if (door.desk.shop.register.isAdmitted(id)) continue;
      for (const answer of answers) answer.destroy();
    }
  };
  const timer = setInterval(look, LOOK_AGAIN_MS);
  timer.unref();
  door.desk.onRevoked.add(look);
  app.addHook('onClose', async () => {
    clearInterval(timer);
    door.desk.onRevoked.delete(look);
  });
}
