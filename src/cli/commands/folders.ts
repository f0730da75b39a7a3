/** `new`, `verify`, `backup`, `restore`: job folders as a whole. */
import { basename, resolve } from 'node:path';
import type { Command } from 'commander';
import { readRig } from '../../domain/rig/rig-check.ts';
import { type Command as Act, decide, recording } from '../../journal/index.ts';
import { backup, createJob, openJob, restore, type VerifyReport, verify } from '../../store/index.ts';
import { colours, type Io, Told, tell } from '../io.ts';
import { makeStamp } from '../job.ts';
import { parseJson, readText } from '../parse.ts';

interface Options {
  readonly name?: string;
  readonly registration?: string;
  readonly rig?: string;
  readonly source?: string;
  readonly by?: string;
  readonly json?: true;
}

export function folderCommands(program: Command, io: Io): void {
  const fresh = program
    .command('new')
    .description('make a job folder: one aircraft, or a donor')
    .argument('<job>', 'the folder to make, like my.job')
    .option('--name <words>', 'what the job is called')
    .option('--registration <mark>', 'the registration')
    .option('--rig <file>', 'knowledge of the type to start from; told by others until seen here')
    .option('--source <words>', 'who told it')
    .option('--by <person>', 'who opens it', 'command-line')
    .option('--json', 'the result as JSON');
  fresh.addHelpText(
    'after',
    '\nExamples:\n  witnessmark new my.job --name "Flying boat 7"\n  witnessmark new donor.job --rig type.rig.json --source "study group"\n',
  );
  fresh.action((folder: string, o: Options) => makeJob(io, folder, o));

  const check = program
    .command('verify')
    .description('check chain, digests and photographs with nothing but the folder')
    .argument('<job>', 'a job folder')
    .option('--json', 'the report as JSON');
  check.addHelpText(
    'after',
    '\nExit 0 when everything that was acknowledged is there as it was recorded, 1 when not.\n\nExample:\n  witnessmark verify my.job\n',
  );
  check.action((folder: string, o: Options) => {
    const report = verify(folder);
    if (!report.ok) tell(report.problem);
    io.out(o.json ? `${JSON.stringify(report.value)}\n` : sayReport(io, report.value));
    const first = report.value.problems[0];
    if (!report.value.whole && first !== undefined) throw new Told(first);
  });

  const save = program
    .command('backup')
    .description('one file with everything of the job, checked after it was written')
    .argument('<job>', 'a job folder')
    .argument('<file>', 'the file to write')
    .option('--json', 'the result as JSON');
  save.addHelpText('after', '\nExample:\n  witnessmark backup my.job my-2025-11-18.backup\n');
  save.action(async (folder: string, file: string, o: Options) => {
    const done = await backup(folder, file, { onProgress: progress(io) });
    if (!done.ok) tell(done.problem);
    const r = done.value;
    io.out(
      o.json
        ? `${JSON.stringify(r)}\n`
        : `${r.entries} entries and ${r.photographs} photographs in ${r.file}, checked\n`,
    );
  });

  const back = program
    .command('restore')
    .description('make a job folder from a backup; nothing is overwritten')
    .argument('<file>', 'a backup')
    .argument('<job>', 'the folder to make')
    .option('--json', 'the report as JSON');
  back.addHelpText('after', '\nExample:\n  witnessmark restore my-2025-11-18.backup again.job\n');
  back.action(async (file: string, folder: string, o: Options) => {
    const done = await restore(file, folder, { onProgress: progress(io) });
    if (!done.ok) tell(done.problem);
    io.out(o.json ? `${JSON.stringify(done.value)}\n` : sayReport(io, done.value));
  });
}

function progress(io: Io): (done: number, of: number) => void {
  return (done, of) => {
    if (io.isTerminal) io.err(`\r${done} of ${of} photographs${done === of ? '\n' : ''}`);
  };
}

async function makeJob(io: Io, folder: string, o: Options): Promise<void> {
  const id = basename(resolve(folder)).replace(/\.job$/, '');
  const acts: Act[] = [
    recording('job-opened', {
      job: id,
      name: o.name ?? id,
      ...(o.registration !== undefined && { registration: o.registration }),
    }),
  ];
  if (o.rig !== undefined) {
    const rig = readRig(parseJson(readText(o.rig), o.rig));
    if (!rig.ok) tell(rig.problem);
    acts.push({ kind: 'take-in-rig', rig: rig.value, standing: 'told', source: o.source ?? basename(o.rig) });
  }
  const made = createJob(folder);
  if (!made.ok) tell(made.problem);
  made.value.close();
  for (const act of acts) await recordIn(folder, act, o.by);
  io.out(
    o.json
      ? `${JSON.stringify({ job: id, folder })}\n`
      : `made ${folder}; serve it with: witnessmark serve ${folder}\n`,
  );
}

async function recordIn(folder: string, act: Act, by: string | undefined): Promise<void> {
  const job = openJob(folder);
  if (!job.ok) return tell(job.problem);
  try {
    const drafts = decide(job.value.state, act, makeStamp(by === undefined ? {} : { by }));
    if (!drafts.ok) tell(drafts.problem);
    const accepted = await job.value.journal.append(null, drafts.value);
    if (!accepted.ok) tell(accepted.problem);
  } finally {
    job.value.close();
  }
}

function sayReport(io: Io, r: VerifyReport): string {
  const c = colours(io);
  const head = r.whole
    ? c.bold('Whole: everything that was acknowledged is there as it was recorded.')
    : c.red('Not whole.');
  const photos = `${r.photographs.present} of ${r.photographs.named} photographs${r.photographs.unnamed > 0 ? `, ${r.photographs.unnamed} that no entry names` : ''}`;
  const sounds = r.sounds.named + r.sounds.present === 0 ? '' : `; ${r.sounds.present} of ${r.sounds.named} sounds`;
  const lines = [head, `${r.entries} entries, head ${r.head.seq} ${r.head.hash.slice(0, 12)}; ${photos}${sounds}`];
  for (const p of r.problems)
    lines.push(`${c.red(p.code)}  ${p.message}${p.where ? `  ${c.dim(p.where)}` : ''}`, `  ${p.remedy}`);
  return [...lines, ...r.notes.map((n) => c.dim(n)), ''].join('\n');
}
