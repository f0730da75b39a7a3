/**
 * Opens the two doors to the shop's network, plain and TLS, on all IPv4 interfaces, and keeps them right while they are
 * open: once a minute the machine's addresses and the certificate's end are looked at, and a new certificate is put in
 * without closing the door (a laptop changes networks; a server may run for a year).
 */
import type { Server as TlsServer } from 'node:https';
import type { AddressInfo, Socket } from 'node:net';
import type { FastifyInstance } from 'fastify';
import { type LanAddress, lanAddresses, shopCertificate } from '../../store/index.ts';
import { createServer, type ServerSetup } from '../server.ts';
import { tlsOptions } from './door.ts';
import { type LanDesk, servedAtOf } from './lan-desk.ts';
import { answerForName } from './name-answer.ts';
import { isNear } from './near.ts';

const LOOK_EVERY_MS = 60_000;
const EVERYWHERE = '0.0.0.0';

export interface DoorWish {
  readonly name: string;
  readonly plainPort: number;
  readonly tlsPort: number;
  /** This machine's addresses; looked up again once a minute. */
  readonly addresses?: () => readonly LanAddress[];
  /** Whether this program answers for the name on the network; not where tests give their own addresses. */
  readonly answersForName?: boolean;
}

export interface OpenDoors {
  readonly plain: FastifyInstance;
  readonly tls: FastifyInstance;
  /** Looks at addresses and certificate now. */
  lookAgain(): Promise<void>;
  close(): Promise<void>;
}

/** Throws what the system says when a port is taken; nothing is then left open. */
export async function openDoors(setup: Omit<ServerSetup, 'door'>, desk: LanDesk, wish: DoorWish): Promise<OpenDoors> {
  const find = wish.addresses ?? lanAddresses;
  const certify = (addresses: readonly LanAddress[]) =>
    shopCertificate(desk.shop.vault, {
      shop: desk.shop.name,
      name: wish.name,
      addresses: addresses.map((a) => a.address),
      now: new Date(setup.clock.now()),
    });
  const addresses = find();
  const certificate = await certify(addresses);
  const plain = await createServer({ ...setup, door: { kind: 'network', over: 'plain', desk } });
  const tls = await createServer({ ...setup, door: { kind: 'network', over: 'tls', desk, certificate } });
  for (const app of [plain, tls])
    app.server.prependListener('connection', (socket: Socket) => {
      if (!isNear(socket.remoteAddress, desk.place?.addresses ?? addresses)) socket.destroy();
    });
  try {
    await plain.listen({ host: EVERYWHERE, port: wish.plainPort });
    await tls.listen({ host: EVERYWHERE, port: wish.tlsPort });
  } catch (thrown) {
    await Promise.all([plain.close(), tls.close()]);
    throw thrown;
  }
  const place = { name: wish.name, addresses, plainPort: portOf(plain), tlsPort: portOf(tls), certificate };
  desk.place = place;
  desk.shop.noteServedAt(servedAtOf(place, setup.clock.now()));
  const stopAnswering = wish.answersForName
    ? answerForName(wish.name, () => desk.place?.addresses ?? addresses)
    : () => undefined;
  const lookAgain = async (): Promise<void> => {
    const found = find();
    // None for a moment (a network being changed): the last ones stand until there are others.
    const now = found.length > 0 ? found : (desk.place?.addresses ?? addresses);
    const fresh = await certify(now);
    if (desk.place?.certificate.certificate === fresh.certificate) return;
    (tls.server as unknown as TlsServer).setSecureContext(tlsOptions(fresh));
    desk.place = { ...place, addresses: now, certificate: fresh };
    desk.shop.noteServedAt(servedAtOf(desk.place, setup.clock.now()));
  };
  const timer = setInterval(() => void lookAgain().catch(sayInternal), LOOK_EVERY_MS);
  timer.unref();
  const close = async (): Promise<void> => {
    clearInterval(timer);
    stopAnswering();
    desk.place = null;
    await Promise.all([plain.close(), tls.close()]);
  };
  return { plain, tls, lookAgain, close };
}

function sayInternal(thrown: unknown): void {
  process.stderr.write(`internal: ${thrown instanceof Error ? thrown.stack : String(thrown)}\n`);
}

function portOf(app: FastifyInstance): number {
  return (app.server.address() as AddressInfo).port;
}
