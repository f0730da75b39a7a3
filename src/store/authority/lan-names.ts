/**
 * Under which names and addresses a shop may be asked on its network. Names end in a suffix that no public name can have
 * (.local: RFC 6762; .home.arpa: RFC 8375; .internal: reserved for private use by ICANN in 2024, from memory), so that
 * the shop's authority can be held to them: a stolen key can vouch for no name of the outside world.
 *
 * IPv4 only: every shop's network has it, and a browser that is given a name falls back to it.
 */
import { networkInterfaces } from 'node:os';
import { failed, ok, type Result } from '../../domain/result.ts';
import { storeProblem } from '../store-problems.ts';

export const DEFAULT_LAN_NAME = 'witnessmark.local';
/** What the authority may vouch for; `localhost` for the machine itself. */
export const PERMITTED_SUFFIXES = ['local', 'home.arpa', 'internal', 'localhost'] as const;

export function readLanName(text: string): Result<string> {
  const name = text.trim().toLowerCase();
  const label = '[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?';
  const shape = new RegExp(`^(${label}\\.)+(local|home\\.arpa|internal)$`);
  if (name.length <= 100 && shape.test(name)) return ok(name);
  return failed(
    storeProblem('LAN_NAME', `"${text.slice(0, 100)}" is no name of a shop's own network`, undefined, 'name'),
  );
}

/** Interfaces that lead to containers and virtual machines of this computer, not to the shop. Common practice, no source. */
const INWARD = /^(docker|br-|veth|virbr|vmnet|vboxnet|lxc|cni|flannel|tun|tap)/;

export interface LanAddress {
  readonly address: string;
  /** `192.168.1.5/24`: who else is on that network. */
  readonly cidr: string;
}

/** This machine's addresses on its networks now; those to the outside first by the system's own order. */
export function lanAddresses(all = networkInterfaces()): readonly LanAddress[] {
  return Object.entries(all).flatMap(([name, list]) =>
    INWARD.test(name)
      ? []
      : (list ?? [])
          .filter((a) => a.family === 'IPv4' && !a.internal)
          .map((a) => ({ address: a.address, cidr: a.cidr ?? `${a.address}/32` })),
  );
}
