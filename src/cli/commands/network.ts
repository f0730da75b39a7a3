/**
 * What `--lan` opens and what is said about it: links, a code, a QR code of the link. Shared by `serve`, `demo` and `pair`.
 */
import type { Command } from 'commander';
import qrcode from 'qrcode';
import { type LanDesk, type PairingLinks, pairingLinks } from '../../server/lan/lan-desk.ts';
import { type OpenDoors, openDoors } from '../../server/lan/open-doors.ts';
import type { ServerSetup } from '../../server/server.ts';
import {
  DEFAULT_LAN_NAME,
  keptFingerprint,
  type LanAddress,
  lanAddresses,
  readLanName,
  type ShopFolder,
  SYSTEM_CLOCK,
} from '../../store/index.ts';
import { colours, type Io, tell } from '../io.ts';
import { cliProblem, parseWhole } from '../parse.ts';

export interface LanOptions {
  readonly lan?: true;
  readonly lanPort?: string;
  readonly tlsPort?: string;
  readonly name?: string;
}

export function lanOptions(command: Command): Command {
  return command
    .option('--lan', 'also on the shop’s network, for devices that are paired')
    .option('--lan-port <n>', 'port of the plain door', '4378')
    .option('--tls-port <n>', 'port of the TLS door, which works offline too', '4379')
    .option('--name <name>', 'stable name in the certificate', DEFAULT_LAN_NAME);
}

/** Opens the network's doors. `addresses` is given in by tests. */
export async function openLan(
  setup: Omit<ServerSetup, 'door'>,
  desk: LanDesk,
  o: LanOptions,
  addresses: () => readonly LanAddress[] = lanAddresses,
): Promise<OpenDoors> {
  const name = readLanName(o.name ?? DEFAULT_LAN_NAME);
  if (!name.ok) return tell({ ...name.problem, where: '--name' });
  if (addresses().length === 0) tell(cliProblem('LAN_NO_ADDRESS', 'this machine is on no network now', '--lan'));
  const plainPort = parseWhole(o.lanPort, '--lan-port') ?? 4378;
  const tlsPort = parseWhole(o.tlsPort, '--tls-port') ?? 4379;
  const doors = await openDoors(setup, desk, {
    name: name.value,
    plainPort,
    tlsPort,
    addresses,
    answersForName: addresses === lanAddresses,
  }).catch((e: NodeJS.ErrnoException) => {
    if (e.code === 'EADDRINUSE')
      return tell(cliProblem('PORT_TAKEN', `port ${plainPort} or ${tlsPort} is taken`, '--lan-port, --tls-port'));
    if (e.code === 'EACCES' || e.code === 'ERR_SOCKET_BAD_PORT')
      return tell(cliProblem('BAD_OPTION', e.message, '--lan-port, --tls-port'));
    throw e;
  });
  return doors;
}

export interface NewCode {
  readonly code: string;
  readonly endsAt: string;
  readonly links: PairingLinks;
  readonly fingerprint: string | null;
}

/** A new one-time code, with the links of where the shop is served or was last. */
export function newCode(shop: ShopFolder): NewCode {
  const served = shop.servedAt();
  if (served === null) return tell(cliProblem('LAN_NEVER_SERVED', 'this shop was never served on its network'));
  const made = shop.register.makeCode(SYSTEM_CLOCK.now());
  if (!made.ok) return tell(made.problem);
  return { ...made.value, links: pairingLinks(served, made.value.code), fingerprint: keptFingerprint(shop.vault) };
}

export async function sayCode(io: Io, c: NewCode): Promise<void> {
  const k = colours(io);
  const ends = new Date(c.endsAt).toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' });
  const first = c.links.plain[0] ?? '';
  io.out(`\n${await qrcode.toString(first, { type: 'utf8', errorCorrectionLevel: 'L', margin: 2 })}\n`);
  io.out(`Code       ${k.bold(c.code)}  ${k.dim(`once, until ${ends}`)}\n`);
  io.out(`Begin at   ${first}\n`);
  for (const link of c.links.tls) io.out(`Locked     ${link}\n`);
  io.out(
    `\nFingerprint of this shop’s certificate, to compare on the phone before trusting it:\n${c.fingerprint ?? 'none yet'}\n`,
  );
  io.out(k.dim('What comes by the plain address can be read by others on this Wi-Fi. Pair only in the shop.\n'));
}
