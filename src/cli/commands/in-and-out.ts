/**
 * `export` and `import`: the rig as knowledge of the type, the journal as JSON Lines with its exact bytes, lists as CSV.
 * The kind of a file is said by its ending or by --as; nothing that is there is overwritten.
 */
import { existsSync, statSync, writeFileSync } from 'node:fs';
import { type Command, Option } from 'commander';
import { partsTable, stepsTable } from '../../app/parts-table.ts';
import { PARTS_COLUMNS } from '../../app/parts-table-columns.ts';
import { takeInKnowledge, typeKnowledge } from '../../app/type-knowledge.ts';
import { readRig } from '../../domain/rig/rig-check.ts';
import { type Command as Act, decide, type EntryDraft, overlay, readCommand } from '../../journal/index.ts';
import { exportJsonLines, importJsonLines, type JobFolder } from '../../store/index.ts';
import { type Io, tell } from '../io.ts';
import { makeStamp, openForReading, openForWriting } from '../job.ts';
import { cliProblem, parseJson, readText } from '../parse.ts';
import { importParts } from './import-parts.ts';
import { importPhotos } from './import-photos.ts';

const FORMS = ['rig', 'jsonl', 'csv', 'steps', 'xlsx', 'photos'] as const;
type Form = (typeof FORMS)[number];

interface Options {
  readonly as?: string;
  readonly map?: readonly string[];
  readonly source?: string;
  readonly by?: string;
  readonly sheet?: string;
  readonly skipRefused?: true;
  readonly of?: string;
  readonly guess?: boolean;
  readonly preview?: boolean;
  readonly dry?: true;
  readonly dryRun?: true;
  readonly json?: true;
}

const collect = (value: string, before: readonly string[] | undefined): readonly string[] => [...(before ?? []), value];

export function inAndOutCommands(program: Command, io: Io): void {
  const out = program
    .command('export')
    .description('write the rig, the journal or a list to a file')
    .argument('<job>', 'a job folder')
    .argument('<file>', '*.rig.json (type knowledge), *.jsonl (journal), *.csv (parts)')
    .option('--as <form>', 'rig, jsonl, csv (parts) or steps (csv of what was done)')
    .option('--json', 'the result as JSON');
  out.addHelpText(
    'after',
    '\nExamples:\n  witnessmark export my.job type.rig.json\n  witnessmark export my.job journal.jsonl\n  witnessmark export my.job strip.csv --as steps\n',
  );
  out.action((job: string, file: string, o: Options) => writeOut(io, job, file, o));

  const back = program
    .command('import')
    .description('take a rig, a journal, a parts list or photographs into a job')
    .argument('<job>', 'a job folder')
    .argument('<file>', '*.rig.json, *.jsonl, *.csv, *.xlsx, *.zip, or a folder of photographs')
    .option('--as <form>', 'rig, jsonl, csv, xlsx or photos')
    .option('--map <ours=theirs>', `columns of a parts list: ${PARTS_COLUMNS.join(', ')}`, collect)
    .option('--sheet <name>', 'the sheet of a workbook that has the parts list')
    .option('--skip-refused', 'take in the rows that can be read and leave out the others')
    .option('--source <words>', 'who told what is in the rig')
    .option('--by <person>', 'who takes it in', 'command-line')
    .option('--of <subject>', 'what all the photographs are of: a part, joint, bag')
    .option('--no-guess', 'do not guess from file and folder names what a photograph is of')
    .option('--preview', 'say what would happen, record nothing')
    .addOption(new Option('--dry').hideHelp())
    .addOption(new Option('--dry-run').hideHelp())
    .option('--json', 'the result as JSON');
  back.addHelpText(
    'after',
    '\nExamples:\n  witnessmark import my.job type.rig.json --source "study group"\n  witnessmark import my.job list.csv --map id=Nr --map name=Benennung --preview\n  witnessmark import other.job journal.jsonl\n  witnessmark import my.job camera.zip --preview\n',
  );
  back.action((job: string, file: string, o: Options) => {
    const preview = o.preview === true || o.dry === true || o.dryRun === true;
    return takeIn(io, job, file, { ...o, preview });
  });
}

function formOf(file: string, as: string | undefined): Form {
  if (as !== undefined) {
    return (FORMS as readonly string[]).includes(as)
      ? (as as Form)
      : tell(cliProblem('BAD_OPTION', `"${as}" is none of ${FORMS.join(', ')}`, '--as'));
  }
  if (file.endsWith('.zip') || (existsSync(file) && statSync(file).isDirectory())) return 'photos';
  if (file.endsWith('.jsonl')) return 'jsonl';
  if (file.endsWith('.csv')) return 'csv';
  if (file.endsWith('.xlsx')) return 'xlsx';
  if (file.endsWith('.json')) return 'rig';
  return tell(cliProblem('BAD_OPTION', `the ending of "${file}" does not say what it is`, '--as'));
}

async function writeOut(io: Io, path: string, file: string, o: Options): Promise<void> {
  if (existsSync(file)) tell(cliProblem('FILE_THERE', `"${file}" is there already`));
  const form = formOf(file, o.as);
  if (form === 'xlsx')
    return tell(cliProblem('BAD_OPTION', 'lists are written as CSV, which every spreadsheet program reads', '--as'));
  if (form === 'photos')
    return tell(cliProblem('BAD_OPTION', 'photographs lie in the job folder; `backup` copies all', '--as'));
  if (form === 'jsonl') {
    const done = await exportJsonLines(path, file);
    if (!done.ok) tell(done.problem);
    return report(io, o, { file, entries: done.value.entries }, `${done.value.entries} entries in ${file}`);
  }
  const job = openForReading(path);
  const text = textOf(form, job);
  job.close();
  writeFileSync(file, text);
  report(io, o, { file, bytes: Buffer.byteLength(text) }, `written ${file}`);
}

function textOf(form: Exclude<Form, 'jsonl' | 'photos' | 'xlsx'>, job: JobFolder): string {
  if (form === 'csv') return partsTable(job.state);
  if (form === 'steps') return stepsTable(job.state);
  const rig = typeKnowledge(job.state);
  return rig.ok ? `${JSON.stringify(rig.value, null, 1)}\n` : tell(rig.problem);
}

async function takeIn(io: Io, path: string, file: string, o: Options): Promise<void> {
  const form = formOf(file, o.as);
  if (form === 'photos') return importPhotos(io, path, file, o);
  if (form === 'csv' || form === 'xlsx') return importParts(io, path, file, o);
  if (form === 'jsonl') {
    readText(file);
    const done = await importJsonLines(file, path);
    if (!done.ok) tell(done.problem);
    const { added, already, sameChain } = done.value;
    return report(
      io,
      o,
      done.value,
      `${added} entries added, ${already} were there${sameChain ? '' : '; both had gone on separately, so they stand at the end'}`,
    );
  }
  if (form === 'steps') tell(cliProblem('BAD_OPTION', 'a list of steps is written, not taken in', '--as'));
  const job = openForWriting(path);
  try {
    const { acts, says } = rigActs(job, file, o);
    const drafts: EntryDraft[] = [];
    let state = job.state;
    for (const act of acts) {
      const made = decide(state, act, makeStamp(o));
      if (!made.ok) tell(made.problem);
      state = overlay(state, made.value);
      drafts.push(...made.value);
    }
    if (!o.preview) {
      const accepted = await job.journal.append(null, drafts);
      if (!accepted.ok) tell(accepted.problem);
    }
    report(
      io,
      o,
      { entries: drafts.length, recorded: !o.preview },
      `${says}${o.preview ? '; nothing was recorded' : ''}`,
    );
  } finally {
    job.close();
  }
}

function rigActs(job: JobFolder, file: string, o: Options): { acts: readonly Act[]; says: string } {
  const rig = readRig(parseJson(readText(file), file));
  if (!rig.ok) return tell(rig.problem);
  const taken = takeInKnowledge(job.state, rig.value, o.source ?? file);
  if (!taken.ok) return tell(taken.problem);
  const act = readCommand({ kind: 'record', entry: taken.value.kind, data: taken.value.data });
  if (!act.ok) return tell(act.problem);
  return {
    acts: [act.value],
    says: `${rig.value.parts.length} parts and ${rig.value.attachments.length} joints, told by others until seen here`,
  };
}

function report(io: Io, o: Options, value: object, words: string): void {
  io.out(o.json ? `${JSON.stringify(value)}\n` : `${words}\n`);
}
