/** `record` and `mirror`: entries made from the command line, decided by the same rules as on the screens. */
import type { Command } from 'commander';
import { type Command as Act, decide, KIND_NAMES, readCommand, type StoredEntry } from '../../journal/index.ts';
import { colours, type Io, tell } from '../io.ts';
import { makeStamp, openForWriting } from '../job.ts';
import { cliProblem, parseJson, readText } from '../parse.ts';

interface RecordOptions {
  readonly data?: string;
  readonly by?: string;
  readonly device?: string;
  readonly at?: string;
  readonly json?: true;
}

interface MirrorOptions extends RecordOptions {
  readonly assembly: string;
  readonly from: string;
  readonly to: string;
}

const ACTS = [
  'step',
  'something-else',
  'force',
  'trial-fit',
  'refit',
  'undo-step',
  'undo-last',
  'withdraw',
  'correct',
  'sign-look',
];

export function recordCommands(program: Command, io: Io): void {
  const record = whoAndWhen(program.command('record').description('record one entry in a job'))
    .argument('<job>', 'a job folder')
    .argument('<kind>', 'an entry kind or an act; `record JOB --help` lists them')
    .option('--data <json>', 'what is recorded, as JSON; @FILE reads a file, - reads standard input', '{}');
  record.addHelpText(
    'after',
    `\nActs: ${ACTS.join(', ')}\nEntry kinds: ${KIND_NAMES.join(', ')}\n\nExamples:
  witnessmark record my.job step --data '{"action":"j3"}' --by nadia
  witnessmark record my.job stuck --data '{"part":"10-07","by":"10-04","harm":"tears the thread"}' --by nadia
  witnessmark record my.job undo-last --by nadia\n`,
  );
  record.action((job: string, kind: string, o: RecordOptions) => run(io, job, o, () => actOf(kind, dataOf(io, o))));

  const mirror = whoAndWhen(
    program.command('mirror').description('expect the other side of an assembly to be like this one'),
  )
    .argument('<job>', 'a job folder')
    .requiredOption('--assembly <id>', 'the assembly that was recorded')
    .requiredOption('--from <L|R>', 'its side')
    .requiredOption('--to <L|R>', 'the side that is expected to be like it');
  mirror.addHelpText(
    'after',
    '\nExample:\n  witnessmark mirror my.job --assembly main-leg-port --from L --to R --by marit\n',
  );
  mirror.action((job: string, o: MirrorOptions) =>
    run(io, job, o, () => readAct({ kind: 'mirror', assembly: o.assembly, from: o.from, to: o.to })),
  );
}

function whoAndWhen(command: Command): Command {
  return command
    .option('--by <person>', 'who records it (entries are unsigned)', 'command-line')
    .option('--device <id>', 'where it is recorded', 'command-line')
    .option('--at <time>', 'when it happened, ISO 8601 with offset; now, if left out')
    .option('--json', 'the accepted entries as JSON');
}

function dataOf(io: Io, o: RecordOptions): unknown {
  const text = o.data ?? '{}';
  if (text === '-') return parseJson(io.stdin(), 'standard input');
  return parseJson(text.startsWith('@') ? readText(text.slice(1)) : text, '--data');
}

function actOf(kind: string, data: unknown): Act {
  if ((KIND_NAMES as readonly string[]).includes(kind)) return readAct({ kind: 'record', entry: kind, data });
  if (!ACTS.includes(kind)) tell(cliProblem('BAD_OPTION', `"${kind}" is no entry kind and no act`, 'kind'));
  return readAct({ kind, ...(data as object) });
}

function readAct(value: unknown): Act {
  const read = readCommand(value);
  return read.ok ? read.value : tell(read.problem);
}

async function run(io: Io, path: string, o: RecordOptions, act: () => Act): Promise<void> {
  const job = openForWriting(path);
  try {
    const drafts = decide(job.state, act(), makeStamp(o));
    if (!drafts.ok) tell(drafts.problem);
    const accepted = await job.journal.append(null, drafts.value);
    if (!accepted.ok) tell(accepted.problem);
    say(io, accepted.value, o.json === true);
  } finally {
    job.close();
  }
}

function say(io: Io, entries: readonly StoredEntry[], json: boolean): void {
  if (json) {
    io.out(
      `${JSON.stringify(entries.map((e) => ({ seq: e.seq, hash: e.hash, recordedAt: e.recordedAt, entry: JSON.parse(e.body) as unknown })))}\n`,
    );
    return;
  }
  const c = colours(io);
  for (const e of entries) {
    const body = JSON.parse(e.body) as { readonly kind: string; readonly id: string };
    io.out(
      `recorded ${c.bold(body.kind)} as entry ${e.seq}, unsigned  ${c.dim(`${body.id} ${e.hash.slice(0, 12)}`)}\n`,
    );
  }
}
