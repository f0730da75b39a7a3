/** `labels`: labels and tags of a job as a PDF by millimetres; a roll also sets its numbers aside in the shop's series. */
import { existsSync, writeFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import type { Command } from 'commander';
import { type BagsSetAside, blockAbove, LONE_SERIES, setBagsAside } from '../../app/bag-series.ts';
import { bagCode } from '../../domain/bag-code.ts';
import { failed, ok, type Result } from '../../domain/result.ts';
import { fold, readStored, type State } from '../../journal/index.ts';
import { type LabelsAsked, labelDocument } from '../../records/labels/ask-labels.ts';
import { type FormWords, LABEL_FORMS, type LabelForm, readForm } from '../../records/labels/label-form.ts';
import { placeLabels } from '../../records/labels/place-labels.ts';
import { isShopFolder, type JobFolder, openShop, type ShopFolder, typstPrinter } from '../../store/index.ts';
import { type Io, tell } from '../io.ts';
import { makeStamp, openForReading, openForWriting } from '../job.ts';
import { cliProblem, parseIds, parseWhole } from '../parse.ts';

interface Options extends FormWords {
  readonly bags?: string;
  readonly jars?: string;
  readonly parts?: string;
  readonly places?: string | true;
  readonly tags?: string | true;
  readonly hazards?: string | true;
  readonly roll?: string;
  readonly for: string;
  readonly start?: string;
  readonly out: string;
  readonly by?: string;
  readonly at?: string;
  readonly json?: true;
}

const FORM_LIST = LABEL_FORMS.map((f) => `${f.name} (${f.columns * f.rows} of ${f.label.w} x ${f.label.h} mm)`);
const HELP = `
Forms: ${FORM_LIST.join(', ')}.
Any roll: its size, like 57x32. Any sheet: --form sheet --page 210x297 --grid 3x8 --label 63.5x33.9 --margin 7.2x12.9 --gap 2.5x0

Examples:
  witnessmark labels my.job --bags B105C,B106K --form a4-24 --start 5 --out bags.pdf
  witnessmark labels my.job --roll 100 --form roll-62x29 --out roll.pdf
  witnessmark labels my.job --roll 201-300 --form roll-62x29 --out again.pdf
  witnessmark labels my.job --tags --form tag-60x120 --out tags.pdf
  witnessmark labels my.job --places --form a4-12 --out places.pdf

Print at 100 %, without "fit to page", and measure the first label.
`;

export function labelsCommand(program: Command, io: Io): void {
  const labels = program
    .command('labels')
    .description('labels, tags and pre-printed rolls of bags as a PDF, by millimetres')
    .argument('<job>', 'a job folder')
    .option('--bags <codes>', 'labels of bags that were filled')
    .option('--jars <codes>', 'labels of sample jars')
    .option('--parts <ids>', 'wire-on tags of parts, joints, pieces')
    .option('--places [ids]', 'labels of shelves and racks; all, if none is named')
    .option('--tags [ids]', 'OPEN, DO NOT CLEAN, QUARANTINE and hazard tags that hang now')
    .option('--hazards [ids]', 'hazard tags, also of dangers the rig knows')
    .option('--roll <n|from-to>', 'set n numbers aside and print them; or print a block again')
    .option('--for <words>', 'whose roll it is', 'roll')
    .option('--form <form>', 'a named form, a size, or sheet', 'a4-24')
    .option('--page <wxh>', 'sheet: page size', '210x297')
    .option('--label <wxh>', 'sheet: label size')
    .option('--grid <cxr>', 'sheet: columns x rows')
    .option('--margin <xxy>', 'sheet: to the first label; centred, if left out')
    .option('--gap <xxy>', 'sheet: between labels', '0x0')
    .option('--start <n>', 'first free label of a used sheet', '1')
    .option('--by <person>', 'who sets numbers aside', 'command-line')
    .option('--at <time>', 'when, ISO 8601 with offset; now, if left out')
    .requiredOption('--out <file>', 'the PDF to be written')
    .option('--json', 'what was printed, as JSON');
  labels.addHelpText('after', HELP);
  labels.action((job: string, o: Options) => run(io, job, o));
}

async function run(io: Io, path: string, o: Options): Promise<void> {
  if (existsSync(o.out)) tell(cliProblem('FILE_THERE', `"${o.out}" is there already`, '--out'));
  if (!existsSync(dirname(resolve(o.out))))
    tell(cliProblem('NO_SUCH_FILE', `the folder of "${o.out}" is not there`, '--out'));
  const form = readForm(formWords(o));
  if (!form.ok) tell(form.problem);
  const madeAt = makeStamp(o).at;
  const start = parseWhole(o.start, '--start') ?? 1;
  const printed = await documentOf(path, o, { madeAt, start });
  const document = labelDocument(printed.state, printed.asked, formWords(o));
  if (!document.ok) return tell(document.problem);
  const pdf = await typstPrinter().pdf(document.value);
  if (!pdf.ok) return tell(pdf.problem);
  writeFileSync(o.out, pdf.value);
  const count = document.value.pages.reduce((n, page) => n + page.length, 0);
  const { set } = printed;
  const told = { out: o.out, labels: count, pages: document.value.pages.length, ...(set !== null && { set }) };
  const block = set === null ? '' : `, numbers ${set.codes[0]} to ${set.codes.at(-1)} set aside`;
  const pages = `${told.pages} page${told.pages === 1 ? '' : 's'}`;
  io.out(
    o.json ? `${JSON.stringify(told)}\n` : `${count} label${count === 1 ? '' : 's'} on ${pages} in ${o.out}${block}\n`,
  );
}

interface Printed {
  readonly state: State;
  readonly asked: LabelsAsked;
  readonly set: BagsSetAside | null;
}

async function documentOf(path: string, o: Options, rest: Pick<LabelsAsked, 'madeAt' | 'start'>): Promise<Printed> {
  const asked = askedOf(o);
  if (asked.what === 'roll' && asked.to === undefined) return newRoll(path, o, asked.from ?? '', rest);
  const job = openForReading(path);
  try {
    return { state: job.state, asked: { ...asked, ...rest }, set: null };
  } finally {
    job.close();
  }
}

const WAYS = ['bags', 'jars', 'parts', 'places', 'tags', 'hazards', 'roll'] as const;
const WHAT = { bags: 'bag', jars: 'jar', parts: 'part', places: 'place', tags: 'tags', hazards: 'hazard' } as const;

function askedOf(o: Options): Omit<LabelsAsked, 'madeAt' | 'start'> {
  const ways = WAYS.filter((w) => o[w] !== undefined);
  const way = ways[0];
  if (way === undefined || ways.length > 1)
    return tell(cliProblem('BAD_OPTION', `one of ${WAYS.map((w) => `--${w}`).join(', ')} is wanted`, 'labels'));
  if (way === 'roll') {
    const [from = '', to] = (o.roll ?? '').split('-').map((t) => t.trim());
    return { what: 'roll', from, ...(to !== undefined && { to }) };
  }
  const ids = o[way];
  return { what: WHAT[way], ids: parseIds(ids === true ? undefined : ids, `--${way}`) };
}

/** Checked first, so that no number is spent on a print that cannot be. */
async function newRoll(
  path: string,
  o: Options,
  words: string,
  rest: Pick<LabelsAsked, 'madeAt' | 'start'>,
): Promise<Printed> {
  const count = parseWhole(words, '--roll') ?? 0;
  const possible = blockAbove(0, count);
  if (!possible.ok) return tell({ ...possible.problem, where: '--roll' });
  const form = readForm(formWords(o));
  tryOne(form.ok ? form.value : tell(form.problem), rest);
  const job = openForWriting(path);
  const shop = shopOf(path);
  try {
    const set = await setBagsAside(deskOf(job, shop, o), { count, for: o.for, roll: true });
    if (!set.ok) return tell(set.problem);
    const state = await stateNow(job);
    if (!state.ok) return tell(state.problem);
    const { from, to } = set.value;
    return { state: state.value, asked: { what: 'roll', from: String(from), to: String(to), ...rest }, set: set.value };
  } finally {
    job.close();
    shop?.close();
  }
}

/** One label of the roll, laid out and thrown away. */
function tryOne(form: LabelForm, rest: Pick<LabelsAsked, 'madeAt' | 'start'>): void {
  const { madeAt, start = 1 } = rest;
  const tried = placeLabels([{ kind: 'blank', id: bagCode(9_999), invented: true }], form, {
    title: '',
    madeAt,
    start,
  });
  if (!tried.ok) tell(tried.problem);
}

function deskOf(job: JobFolder, shop: ShopFolder | null, o: Options): Parameters<typeof setBagsAside>[0] {
  return {
    series: shop?.bagSeries ?? LONE_SERIES,
    look: async () => {
      const state = await stateNow(job);
      return state.ok ? ok({ state: state.value, others: shop === null ? [] : otherStates(shop, job) }) : state;
    },
    record: (drafts, afterSeq) => job.journal.append(afterSeq, drafts),
    stamp: () => makeStamp(o),
  };
}

/** The shop that the job lies in: `SHOP/jobs/NAME.job`. A job alone has none. */
function shopOf(path: string): ShopFolder | null {
  const folder = dirname(dirname(resolve(path)));
  if (!isShopFolder(folder)) return null;
  const shop = openShop(folder);
  return shop.ok ? shop.value : tell(shop.problem);
}

/** A job that cannot be read has no say here; its own opening tells what is wrong with it. */
function otherStates(shop: ShopFolder, job: JobFolder): readonly State[] {
  return shop.jobs().flatMap((name) => {
    if (resolve(shop.jobPath(name)) === resolve(job.folder)) return [];
    const other = shop.openJob(name, { readOnly: true });
    if (!other.ok) return [];
    other.value.close();
    return [other.value.state];
  });
}

/** The job with what was recorded since it was opened, by this program or another. */
async function stateNow(job: JobFolder): Promise<Result<State>> {
  const since = await job.journal.read(job.state.head.seq + 1);
  if (!since.ok) return since;
  const entries = [];
  for (const stored of since.value) {
    const entry = readStored(stored);
    if (!entry.ok) return failed(entry.problem);
    entries.push(entry.value);
  }
  return ok(entries.length === 0 ? job.state : fold(entries, job.state));
}

function formWords(o: Options): FormWords {
  const { form, page, label, grid, margin, gap } = o;
  return {
    form,
    ...(page !== undefined && { page }),
    ...(label !== undefined && { label }),
    ...(grid !== undefined && { grid }),
    ...(margin !== undefined && { margin }),
    ...(gap !== undefined && { gap }),
  };
}
