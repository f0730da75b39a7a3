/**
 * `import JOB list.csv|list.xlsx`: a parts list that somebody has already. Says which columns were taken for which, then
 * per row what it does; the same plan is recorded, in one piece.
 */
import { existsSync, readFileSync, statSync } from 'node:fs';
import { type PartsAnswer, partsAnswer } from '../../app/parts-table-answer.ts';
import { type ColumnMap, PARTS_COLUMNS, type PartsColumn } from '../../app/parts-table-columns.ts';
import { type PartsRow, partsDrafts, planParts } from '../../app/parts-table-plan.ts';
import { csvRows } from '../../app/parts-table-rows.ts';
import { intakeProblem, MOST_TABLE_BYTES, readTable } from '../../store/index.ts';
import { columns, type Io, tell } from '../io.ts';
import { makeStamp, openForReading, openForWriting } from '../job.ts';
import { cliProblem, parsePairs } from '../parse.ts';

export interface PartsOptions {
  readonly map?: readonly string[];
  readonly sheet?: string;
  readonly skipRefused?: true;
  readonly by?: string;
  readonly preview?: boolean;
  readonly json?: true;
}

export async function importParts(io: Io, path: string, file: string, o: PartsOptions): Promise<void> {
  const map = readMap(o.map);
  if (!existsSync(file) || !statSync(file).isFile()) tell(cliProblem('NO_SUCH_FILE', `"${file}" is not there`));
  if (statSync(file).size > MOST_TABLE_BYTES) tell(intakeProblem('TABLE_TOO_LARGE', 'the table has more than 20 MB'));
  const table = await readTable(readFileSync(file), o.sheet);
  if (!table.ok) return tell(table.problem);
  const rows =
    table.value.rows === null ? csvRows(table.value.text ?? '') : { ok: true as const, value: table.value.rows };
  if (!rows.ok) return tell(rows.problem);
  if (!o.preview && o.sheet === undefined && table.value.sheets.length > 1)
    tell(intakeProblem('SHEET_WHICH', `the workbook has the sheets ${table.value.sheets.join(', ')}`, '--sheet'));
  const job = o.preview ? openForReading(path) : openForWriting(path);
  try {
    const plan = planParts(job.state, rows.value, map);
    let recorded = 0;
    if (!o.preview) {
      const drafts = partsDrafts(job.state, plan, { skipRefused: o.skipRefused === true, stamp: () => makeStamp(o) });
      if (!drafts.ok) return tell(drafts.problem);
      const accepted = await job.journal.append(null, drafts.value);
      if (!accepted.ok) return tell(accepted.problem);
      recorded = drafts.value.length;
    } else if (plan.columns.problem !== null) tell(plan.columns.problem);
    const answer = partsAnswer(plan, table.value, recorded);
    if (o.json) io.out(`${JSON.stringify({ preview: o.preview === true, ...answer })}\n`);
    else say(io, o, answer);
  } finally {
    job.close();
  }
}

function readMap(texts: readonly string[] | undefined): ColumnMap {
  const pairs = parsePairs(texts, '--map');
  const strange = Object.keys(pairs).find((k) => !PARTS_COLUMNS.includes(k as PartsColumn));
  if (strange !== undefined)
    tell(cliProblem('BAD_OPTION', `"${strange}" is none of our columns: ${PARTS_COLUMNS.join(', ')}`, '--map'));
  return pairs as ColumnMap;
}

function say(io: Io, o: PartsOptions, a: PartsAnswer): void {
  if (a.sheet !== null) io.out(`sheet "${a.sheet}"${a.sheets.length > 1 ? ` of ${a.sheets.join(', ')}` : ''}\n`);
  io.out(
    columns(
      a.columns.map((c) => [c.ours, `= ${c.theirs}`, c.how === 'said' ? 'as you said' : 'guessed from the heading']),
    ),
  );
  if (a.leftOut.length > 0) io.out(`not taken in: ${a.leftOut.join(', ')}\n`);
  for (const note of a.notes) io.out(`note: ${note}\n`);
  const rows = a.rows.filter((r) => r.what !== 'unchanged' || r.notes.length > 0);
  io.out(columns(rows.map((r) => [`row ${r.row}`, r.what, r.id, aboutRow(r)])));
  const c = a.counts;
  io.out(
    `${c.new} new, ${c.changed} changed, ${c.unchanged} unchanged, ${c.refused} refused; ${a.positions} positions`,
  );
  io.out(o.preview ? '; nothing was recorded\n' : `; ${a.recorded} entries recorded\n`);
}

function aboutRow(row: PartsRow): string {
  if (row.problem !== null) return `${row.problem.message} (${row.problem.where ?? ''})`;
  const changes = row.changes.map((c) => `${c.what}: "${c.before}" becomes "${c.after}"`);
  const places =
    row.positionsAdded.length === 0
      ? []
      : [`${row.positionsAdded.length === 1 ? 'position' : 'positions'} ${shortened(row.positionsAdded)}`];
  return [row.name, ...changes, ...places, ...row.notes].join('; ');
}

function shortened(ids: readonly string[]): string {
  return ids.length <= 3 ? ids.join(', ') : `${ids[0]} to ${ids.at(-1)} (${ids.length})`;
}
