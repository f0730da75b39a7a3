/**
 * `npm run bench`: every figure with its rival of the same run. `-- --smoke`: a short run that shows that everything
 * still runs; `-- --write`: the full run, written into docs/measured.md; `-- --only journal`: one of them.
 */

import { writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { BenchRow } from './bench-row.ts';
import { BENCHES } from './benches.ts';
import { measuredPage } from './measured-page.ts';

const top = dirname(dirname(fileURLToPath(import.meta.url)));
const smoke = process.argv.includes('--smoke');
const write = process.argv.includes('--write');
const only = process.argv[process.argv.indexOf('--only') + 1];

function line(row: BenchRow): string {
  const ratio = row.ratio === null ? '' : `${row.ratio.toFixed(row.ratio < 10 ? 2 : 0)}x`;
  const rival = row.rival === null ? '' : `${row.rivalName ?? 'rival'} ${row.rival.toFixed(2)} ${row.unit}`;
  const met = row.met === undefined ? '' : row.met ? 'met' : 'NOT MET';
  return [
    row.what.padEnd(62),
    `${row.ours.toFixed(2)} ${row.unit}`.padStart(14),
    rival.padStart(26),
    ratio.padStart(8),
    met,
  ].join('  ');
}

const sections: { title: string; rows: readonly BenchRow[] }[] = [];
for (const bench of BENCHES) {
  if (process.argv.includes('--only') && bench.id !== only) continue;
  process.stdout.write(`\n${bench.title}\n`);
  const rows = await bench.run({ quick: smoke });
  for (const row of rows) process.stdout.write(`  ${line(row)}${row.note ? `  (${row.note})` : ''}\n`);
  sections.push({ title: bench.title, rows });
}
if (write) {
  const machine = `${cpus().length} cores, ${cpus()[0]?.model.trim() ?? 'unknown'}, Node ${process.version}`;
  writeFileSync(
    join(top, 'docs', 'measured.md'),
    measuredPage(sections, machine, new Date().toISOString().slice(0, 10)),
  );
}
