/**
 * The shop over HTTP. `hello` at every door; devices and codes only at the door of this machine: whoever sits at it lets
 * devices in and shuts them out, and no paired phone can let in another.
 */
import type { FastifyInstance } from 'fastify';
import qrcode from 'qrcode';
import type { Clock } from '../../journal/index.ts';
import { replyProblem } from '../problem-reply.ts';
import { serverProblem } from '../server-problems.ts';
import type { Door } from './door.ts';
import { type LanDesk, pairingLinks, servedAtOf } from './lan-desk.ts';

export function shopRoutes(app: FastifyInstance, door: Door, desk: LanDesk, clock: Clock): void {
  app.get('/api/shop/hello', (request, reply) => {
    const at = clock.now();
    const links = desk.place === null ? { tls: [], plain: [] } : pairingLinks(servedAtOf(desk.place, at), null);
    const device = request.paired === null ? null : { id: request.paired.id, name: request.paired.name };
    return reply.header('cache-control', 'no-store').send({
      shop: desk.shop.name,
      time: at,
      addresses: { tls: links.tls.map(originOf), plain: links.plain.map(originOf) },
      version: desk.version,
      device,
      door: door.kind === 'network' ? door.over : 'this-machine',
    });
  });
  if (door.kind === 'this-machine') deviceRoutes(app, desk, clock);
}

function deviceRoutes(app: FastifyInstance, desk: LanDesk, clock: Clock): void {
  app.get('/api/shop/devices', () => desk.shop.register.list());

  app.post('/api/shop/pairing-codes', async (_request, reply) => {
    const { place } = desk;
    if (place === null)
      return replyProblem(reply, serverProblem('LAN_CLOSED', 'the shop is served to this machine only'));
    const made = desk.shop.register.makeCode(clock.now());
    if (!made.ok) return replyProblem(reply, made.problem);
    const links = pairingLinks(servedAtOf(place, clock.now()), made.value.code);
    // The plain link: a phone that does not trust the shop yet would meet a warning at the other.
    const qr = await qrcode.toString(links.plain[0] ?? '', { type: 'svg', errorCorrectionLevel: 'M', margin: 2 });
    return reply
      .code(201)
      .header('cache-control', 'no-store')
      .send({ ...made.value, links, qr, fingerprint: place.certificate.fingerprint });
  });

  app.post('/api/shop/devices/:id/revoke', (request, reply) => {
    const { id } = request.params as { readonly id: string };
    const revoked = desk.shop.register.revoke(id, clock.now());
    if (!revoked.ok) return replyProblem(reply, revoked.problem);
    for (const look of desk.onRevoked) look();
    return reply.send(revoked.value);
  });
}

function originOf(link: string): string {
  return new URL(link).origin;
}
