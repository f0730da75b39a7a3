/**
 * `import JOB FOLDER|FILE.zip`: photographs that were taken with something else. Says per picture when it was taken as the
 * camera wrote it, what it would be of and why; then, unless it is a preview, keeps and records them one after another.
 */
import { existsSync } from 'node:fs';
import type { PilePlan, PileRow } from '../../app/intake/pile-types.ts';
import { lookThrough, takeInPile } from '../../app/intake/take-in-pile.ts';
import { lookAtPhoto, openPile } from '../../store/index.ts';
import { Bar } from '../bar.ts';
import { columns, type Io, tell } from '../io.ts';
import { makeStamp, openForReading, openForWriting } from '../job.ts';
import { cliProblem } from '../parse.ts';

export interface PhotoOptions {
  readonly of?: string;
  readonly guess?: boolean;
  readonly by?: string;
  readonly preview?: boolean;
  readonly json?: true;
}

export async function importPhotos(io: Io, path: string, file: string, o: PhotoOptions): Promise<void> {
  if (!existsSync(file)) tell(cliProblem('NO_SUCH_FILE', `"${file}" is not there`));
  const pile = openPile(file);
  if (!pile.ok) return tell(pile.problem);
  const job = o.preview ? openForReading(path) : openForWriting(path);
  const bar = new Bar(io);
  try {
    const looked = await lookThrough(pile.value, lookAtPhoto, job.state, {
      ...(o.of !== undefined && { of: [o.of] }),
      guess: o.guess === false ? 'none' : 'names',
      onProgress: (done, of) => bar.count(done, of, 'looked at'),
    });
    bar.clear();
    if (o.preview) return say(io, o, { ...looked.plan, recorded: 0 });
    const ports = {
      photographs: job.photographs,
      append: (drafts: Parameters<typeof job.journal.append>[1]) => job.journal.append(null, drafts),
      stamp: () => makeStamp(o),
      state: () => job.state,
    };
    const done = await takeInPile(pile.value, looked, ports, (n, of) => bar.count(n, of, 'taken in'));
    bar.clear();
    if (!done.ok) return tell(done.problem);
    say(io, o, done.value);
  } finally {
    bar.clear();
    job.close();
    pile.value.close();
  }
}

const WORDS = { new: 'new', 'here-already': 'here already', 'same-as': 'twice', refused: 'refused' } as const;

function say(io: Io, o: PhotoOptions, plan: PilePlan & { readonly recorded: number }): void {
  if (o.json) {
    io.out(`${JSON.stringify({ preview: o.preview === true, ...plan })}\n`);
    return;
  }
  const taken = plan.rows.filter((r) => r.what !== 'refused');
  if (o.preview) io.out(columns(taken.map((r) => [WORDS[r.what], r.taken.words, r.file, aboutRow(r)])));
  else io.out(columns(bySubject(taken)));
  const c = plan.counts;
  const head = `${c.new} new, ${c['here-already']} here already, ${c['same-as']} twice in it, ${c.refused} refused`;
  io.out(`${head}; ${o.preview ? 'nothing was recorded' : `${plan.recorded} recorded`}\n`);
  io.out(`In order ${plan.order}.\n`);
  if (plan.zoneNotWritten > 0)
    io.out(
      `${plan.zoneNotWritten} have no zone written with their time; it is kept as written, nothing is converted.\n`,
    );
  if (plan.passedOver > 0) io.out(`${plan.passedOver} hidden files passed over.\n`);
  if (o.preview && c.new > 0) io.out('Whether each one decodes is tried when it is taken in.\n');
  for (const row of plan.rows) {
    for (const n of row.notices) io.out(`noted: ${n.message}  ${n.code}\n`);
    if (row.problem !== null) io.out(`refused: ${row.file}  ${row.problem.message}  ${row.problem.code}\n`);
  }
}

/** What was recorded, gathered: nobody reads ten thousand lines after the fact, and no guess goes unsaid. */
function bySubject(rows: readonly PileRow[]): readonly (readonly string[])[] {
  const groups = new Map<string, number>();
  for (const row of rows) if (row.what === 'new') groups.set(aboutRow(row), (groups.get(aboutRow(row)) ?? 0) + 1);
  return [...groups].map(([about, n]) => [String(n), n === 1 ? 'photograph' : 'photographs', about]);
}

function aboutRow(row: PileRow): string {
  if (row.sameAs !== undefined) return `the same picture as ${row.sameAs}`;
  if (row.what === 'here-already') return 'this very picture is in the job';
  return row.of.length === 0 ? row.ofBecause : `of ${row.of.join(' and ')}: ${row.ofBecause}`;
}
