/** `shop`, `pair`, `devices`: the shop itself, and who comes in from its network. They work while `serve` runs (same shop.db). */
import { join } from 'node:path';
import type { Command } from 'commander';
import {
  createShop,
  isShopFolder,
  openShop,
  type PairedDevice,
  type ShopFolder,
  SYSTEM_CLOCK,
} from '../../store/index.ts';
import { colours, columns, type Io, tell } from '../io.ts';
import { cliProblem } from '../parse.ts';
import { newCode, sayCode } from './network.ts';

interface Options {
  readonly name?: string;
  readonly revoke?: string;
  readonly json?: true;
}

export function shopCommands(program: Command, io: Io): void {
  const fresh = program
    .command('shop')
    .description('make a shop folder: people, devices, and its jobs')
    .argument('<shop>', 'the folder to make')
    .requiredOption('--name <words>', 'what the shop is called')
    .option('--json', 'the result as JSON');
  fresh.addHelpText(
    'after',
    '\nA job that stands alone is moved in by moving its folder: my.job into my-shop/jobs/my.job\n\nExample:\n  witnessmark shop my-shop --name "Our works"\n',
  );
  fresh.action((folder: string, o: Options) => {
    const made = createShop(folder, o.name ?? '');
    if (!made.ok) tell(made.problem);
    made.value.close();
    const jobs = join(folder, 'jobs');
    io.out(o.json ? `${JSON.stringify({ folder, jobs })}\n` : `made ${folder}; its jobs go into ${jobs}/NAME.job\n`);
  });

  const pair = program
    .command('pair')
    .description('a one-time code to let a phone or tablet in')
    .argument('<shop>', 'a shop folder that is served with --lan')
    .option('--json', 'code, links and fingerprint as JSON');
  pair.addHelpText('after', '\nExample:\n  witnessmark pair my-shop\n');
  pair.action(async (folder: string, o: Options) => {
    const shop = theShop(folder);
    try {
      const code = newCode(shop);
      if (o.json) io.out(`${JSON.stringify(code)}\n`);
      else await sayCode(io, code);
    } finally {
      shop.close();
    }
  });

  const devices = program
    .command('devices')
    .description('the devices that were let in, and shutting one out')
    .argument('<shop>', 'a shop folder')
    .option('--revoke <id>', 'shut this one out, at once')
    .option('--json', 'the list as JSON');
  devices.addHelpText(
    'after',
    '\nExamples:\n  witnessmark devices my-shop\n  witnessmark devices my-shop --revoke device-7k3mqp\n',
  );
  devices.action((folder: string, o: Options) => {
    const shop = theShop(folder);
    try {
      if (o.revoke === undefined) listDevices(io, shop.register.list(), o);
      else shutOut(io, shop, o.revoke, o);
    } finally {
      shop.close();
    }
  });
}

function theShop(folder: string): ShopFolder {
  if (!isShopFolder(folder)) tell(cliProblem('LAN_NEEDS_SHOP', `"${folder}" holds no shop`));
  const shop = openShop(folder);
  return shop.ok ? shop.value : tell(shop.problem);
}

function listDevices(io: Io, list: readonly PairedDevice[], o: Options): void {
  if (o.json || list.length === 0) {
    io.out(o.json ? `${JSON.stringify(list)}\n` : 'No device is paired.\n');
    return;
  }
  const minute = (at: string | null): string => at?.slice(0, 16).replace('T', ' ') ?? 'not yet';
  const rows = list.map((d) => [
    d.id,
    d.name,
    d.over === 'tls' ? 'locked' : 'plain',
    `paired ${minute(d.pairedAt)}`,
    d.revokedAt === null ? `seen ${minute(d.lastSeen)}` : `shut out ${minute(d.revokedAt)}`,
  ]);
  io.out(columns(rows));
}

function shutOut(io: Io, shop: ShopFolder, id: string, o: Options): void {
  const revoked = shop.register.revoke(id, SYSTEM_CLOCK.now());
  if (!revoked.ok) tell(revoked.problem);
  const c = colours(io);
  io.out(o.json ? `${JSON.stringify(revoked.value)}\n` : `${c.bold(revoked.value.name)} is shut out.\n`);
}
