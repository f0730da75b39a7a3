/**
 * The command line: reads words, asks the core, prints. `main` gives the exit code: 0 answered, 1 the reader can mend it
 * (one Problem on stderr), 2 our own fault.
 */
import { readFileSync } from 'node:fs';
import { Command, CommanderError } from 'commander';
import { demoCommand } from './commands/demo.ts';
import { folderCommands } from './commands/folders.ts';
import { inAndOutCommands } from './commands/in-and-out.ts';
import { labelsCommand } from './commands/labels.ts';
import { planningCommands } from './commands/planning.ts';
import { recordCommands } from './commands/record.ts';
import { serveCommand } from './commands/serve.ts';
import { shopCommands } from './commands/shop.ts';
import { type Io, sayProblem, Told } from './io.ts';
import { cliProblem } from './parse.ts';

const ABOUT = 'What holds what, what must come off first, what fits next. It advises; it does not approve.';

export function processIo(): Io {
  return {
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
    isTerminal: process.stdout.isTTY === true,
    stdin: () => readFileSync(0, 'utf8'),
  };
}

export async function main(argv: readonly string[], io: Io = processIo()): Promise<number> {
  const program = new Command('witnessmark').description(ABOUT).helpCommand(false).showHelpAfterError(false);
  program.exitOverride().configureOutput({ writeOut: io.out, writeErr: () => undefined });
  planningCommands(program, io);
  recordCommands(program, io);
  folderCommands(program, io);
  inAndOutCommands(program, io);
  labelsCommand(program, io);
  serveCommand(program, io);
  shopCommands(program, io);
  demoCommand(program, io);
  for (const command of program.commands)
    command.exitOverride().configureOutput({ writeOut: io.out, writeErr: () => undefined });
  const json = argv.includes('--json');
  if (argv.length === 0) {
    io.out(program.helpInformation());
    return 0;
  }
  try {
    await program.parseAsync(argv, { from: 'user' });
    return 0;
  } catch (e) {
    return ended(e, io, json);
  }
}

function ended(e: unknown, io: Io, json: boolean): number {
  if (e instanceof CommanderError) {
    if (e.exitCode === 0) return 0;
    sayProblem(io, cliProblem('BAD_OPTION', e.message.replace(/^error: /, '')), json);
    return 1;
  }
  if (e instanceof Told) {
    sayProblem(io, e.problem, json);
    return 1;
  }
  const text = e instanceof Error ? (e.stack ?? e.message) : String(e);
  io.err(
    json
      ? `${JSON.stringify({ code: 'INTERNAL', message: String(e), remedy: 'This is our fault; report it with what you typed.' })}\n`
      : `This is our fault; report it with what you typed.\n${text}\n`,
  );
  return 2;
}
