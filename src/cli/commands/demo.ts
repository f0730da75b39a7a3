/** `demo`: makes the invented shop with its three jobs in a fresh folder and serves it. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Command } from 'commander';
import { makeDemoShop } from '../demo-shop.ts';
import { colours, type Io } from '../io.ts';
import { type LanOptions, lanOptions } from './network.ts';
import { serveFolder } from './serve.ts';

interface Options extends LanOptions {
  readonly port?: string;
  readonly folder?: string;
  readonly make?: true;
}

export function demoCommand(program: Command, io: Io): void {
  const demo = program
    .command('demo')
    .description('make the invented shop (QX-OLA) in a fresh folder and serve it')
    .option('--port <n>', 'port; 0 takes a free one', '4377')
    .option('--folder <dir>', 'where to make it; a new temporary folder if left out')
    .option('--make', 'only make it, do not serve');
  lanOptions(demo);
  demo.addHelpText(
    'after',
    '\nExamples:\n  witnessmark demo\n  witnessmark demo --lan\n  witnessmark demo --folder demo-shop --make\n',
  );
  demo.action(async (o: Options) => {
    const folder = o.folder ?? join(mkdtempSync(join(tmpdir(), 'witnessmark-demo-')), 'shop');
    const started = performance.now();
    const made = await makeDemoShop(folder, (words) => io.err(`${words} …\n`));
    const seconds = ((performance.now() - started) / 1000).toFixed(1);
    io.out(
      `Invented example made in ${folder}  ${colours(io).dim(`${made.jobs} jobs, ${made.entries} entries, ${made.photographs} drawn photographs, ${seconds} s`)}\n`,
    );
    if (!o.make) await serveFolder(io, folder, o);
  });
}
