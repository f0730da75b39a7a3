/** docs/measured.md: one table a benchmark, figures with the rival of the same run and whether the goal was met. */
import type { BenchRow } from './bench-row.ts';

const HEAD = `<!-- Made by \`npm run bench -- --write\`; what stands under "By hand" is kept in docs/measured-notes.md. -->
# Measured

Times are wall clock of the same run on the same machine, best of three where that is said; ratios are what counts. A rival
that did not finish in its 20 s is counted as 20 s and shown.
`;

export function measuredPage(
  sections: readonly { title: string; rows: readonly BenchRow[] }[],
  machine: string,
  day: string,
): string {
  const parts = [HEAD, `Machine: ${machine}. Day: ${day}.`, ''];
  for (const s of sections) {
    parts.push(
      `## ${s.title}`,
      '',
      '| what | ours | rival | ratio | goal | met | note |',
      '|---|---|---|---|---|---|---|',
    );
    for (const r of s.rows)
      parts.push(
        `| ${r.what} | ${figure(r.ours)} ${r.unit} | ${rival(r)} | ${ratio(r)} | ${r.goal ?? ''} | ${met(r)} | ${r.note ?? ''} |`,
      );
    parts.push('');
  }
  parts.push(
    'What was looked at by hand, and what could not be tried here: [measured-notes.md](measured-notes.md).',
    '',
  );
  return parts.join('\n');
}

function figure(n: number): string {
  return n >= 100 ? n.toFixed(0) : n >= 10 ? n.toFixed(1) : n.toFixed(2);
}

function rival(r: BenchRow): string {
  return r.rival === null ? '' : `${figure(r.rival)} ${r.unit} (${r.rivalName ?? ''})`;
}

function ratio(r: BenchRow): string {
  return r.ratio === null ? '' : `${figure(r.ratio)}x`;
}

function met(r: BenchRow): string {
  return r.met === undefined ? '' : r.met ? 'yes' : '**no**';
}
