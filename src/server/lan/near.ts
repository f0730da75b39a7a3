/**
 * Who is near: private addresses (RFC 1918, RFC 3927 link-local), this machine, and whoever is on the same network as one
 * of its interfaces. A connection from anywhere else is ended before a byte is read, so that a machine that happens to
 * have a public address serves its shop and not the world.
 */
import { BlockList } from 'node:net';
import type { LanAddress } from '../../store/index.ts';

const PRIVATE = ['10.0.0.0/8', '172.16.0.0/12', '192.168.0.0/16', '169.254.0.0/16', '127.0.0.0/8'];

export function isNear(remote: string | undefined, own: readonly LanAddress[]): boolean {
  if (remote === undefined) return false;
  const list = new BlockList();
  for (const cidr of [...PRIVATE, ...own.map((a) => a.cidr)]) {
    const [net = '', bits = '32'] = cidr.split('/');
    list.addSubnet(net, Number(bits), 'ipv4');
  }
  const plain = remote.replace(/^::ffff:/, '');
  return !plain.includes(':') && list.check(plain, 'ipv4');
}
