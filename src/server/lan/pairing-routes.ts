/**
 * The only answers before pairing: the pairing page, its one script, the authority's certificate, and taking a code.
 * A code comes as JSON from the script, or as the form itself where scripts do not run; the form is answered with a page.
 */
import { X509Certificate } from 'node:crypto';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import type { Problem } from '../../domain/problem.ts';
import { failed, type Result } from '../../domain/result.ts';
import type { Clock } from '../../journal/index.ts';
import type { PairedDevice } from '../../store/index.ts';
import { replyProblem } from '../problem-reply.ts';
import { serverProblem } from '../server-problems.ts';
import { cookieName, type NetworkDoor } from './door.ts';
import { pairingLinks } from './lan-desk.ts';
import { PAIRING_SCRIPT, pairingPage } from './pairing-page.ts';

const aPairing = z.object({ code: z.string().max(60), name: z.string().max(200) });
const SMALL_BODY = 4_096;
/** The longest a browser keeps a cookie (RFC 6265bis 4.1.2.2). */
const COOKIE_SECONDS = 400 * 86_400;

export function pairingRoutes(app: FastifyInstance, door: NetworkDoor, clock: Clock): void {
  app.addContentTypeParser(
    'application/x-www-form-urlencoded',
    { parseAs: 'string', bodyLimit: SMALL_BODY },
    (_request, body, done) => done(null, Object.fromEntries(new URLSearchParams(String(body)))),
  );
  app.get('/pair', (request, reply) => sendPage(door, request, reply, null));
  app.get('/pair.js', (_request, reply) =>
    reply.type('text/javascript; charset=utf-8').header('cache-control', 'no-cache').send(PAIRING_SCRIPT),
  );
  app.get('/ca.crt', (_request, reply) => {
    const place = door.desk.place;
    if (place === null)
      return replyProblem(reply, serverProblem('LAN_CLOSED', 'the shop is not served on its network'));
    const der = new X509Certificate(place.certificate.authority).raw;
    return reply.type('application/x-x509-ca-cert').header('cache-control', 'no-store').send(der);
  });
  app.post('/pair', { bodyLimit: SMALL_BODY }, (request, reply) => {
    const isForm = /^application\/x-www-form-urlencoded/.test(request.headers['content-type'] ?? '');
    const paired = pair(door, request, clock.now());
    if (!paired.ok)
      return isForm ? sendPage(door, request, reply, paired.problem) : replyProblem(reply, paired.problem);
    const { device, token } = paired.value;
    setDeviceCookie(reply, door.over, token);
    reply.header('cache-control', 'no-store');
    if (isForm) return reply.redirect('/', 303);
    return reply.code(201).send({ device: { id: device.id, name: device.name }, token, shop: door.desk.shop.name });
  });
}

function pair(
  door: NetworkDoor,
  request: FastifyRequest,
  at: string,
): Result<{ readonly device: PairedDevice; readonly token: string }> {
  const { limits, shop } = door.desk;
  // Before the code is looked at: beyond the limit a right one is refused like a wrong one.
  const stands = limits.refusal(request.ip, at);
  if (stands !== null) {
    const who = stands === 'address' ? 'from this device' : 'on this network';
    return failed(serverProblem('PAIRING_TOO_OFTEN', `too many wrong codes came ${who}`));
  }
  const body = aPairing.safeParse(request.body);
  if (!body.success) return failed(serverProblem('BODY_UNREADABLE', z.prettifyError(body.error)));
  const origin = request.headers.origin ?? null;
  const paired = shop.register.pair({ ...body.data, over: door.over, origin, at });
  if (!paired.ok && paired.problem.code === 'PAIRING_CODE_UNKNOWN') limits.noteWrong(request.ip, at);
  return paired;
}

function setDeviceCookie(reply: FastifyReply, over: 'plain' | 'tls', token: string): void {
  reply.setCookie(cookieName(over), token, {
    path: '/',
    httpOnly: true,
    sameSite: 'strict',
    secure: over === 'tls',
    maxAge: COOKIE_SECONDS,
  });
}

function sendPage(
  door: NetworkDoor,
  request: FastifyRequest,
  reply: FastifyReply,
  problem: Problem | null,
): FastifyReply {
  const { place, shop } = door.desk;
  if (place === null) return replyProblem(reply, serverProblem('LAN_CLOSED', 'the shop is not served on its network'));
  const served = { ...place, addresses: place.addresses.map((a) => a.address) };
  const page = pairingPage({
    shop: shop.name,
    over: door.over,
    fingerprint: place.certificate.fingerprint,
    tlsLinks: pairingLinks(served, null).tls.map((l) => `${l}pair`),
    device: request.paired?.name ?? null,
    problem,
  });
  return (
    reply
      .code(problem === null ? 200 : 403)
      .type('text/html; charset=utf-8')
      .header('cache-control', 'no-store')
      // With `no-referrer`, which the other pages have, a browser says `Origin: null` when it sends a form.
      .header('referrer-policy', 'same-origin')
      .send(page)
  );
}
