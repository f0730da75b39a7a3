/**
 * Writes docs/errors.md from the lists of codes (`*-problems.ts`). `--check` only compares, for the test.
 */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { ProblemKind } from '../src/domain/problem.ts';

const top = dirname(dirname(fileURLToPath(import.meta.url)));
const target = join(top, 'docs', 'errors.md');

function lists(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((e) => {
    const path = join(folder, e.name);
    if (e.isDirectory()) return lists(path);
    return e.name.endsWith('-problems.ts') ? [path] : [];
  });
}

export async function problemTables(): Promise<ReadonlyMap<string, Readonly<Record<string, ProblemKind>>>> {
  const tables = new Map<string, Readonly<Record<string, ProblemKind>>>();
  for (const file of lists(join(top, 'src')).sort()) {
    const module = (await import(pathToFileURL(file).href)) as Record<string, unknown>;
    const found = Object.entries(module).filter(([name, v]) => name.endsWith('_PROBLEMS') && typeof v === 'object');
    for (const [, table] of found) tables.set(relative(top, file), table as Readonly<Record<string, ProblemKind>>);
  }
  return tables;
}

export async function errorsPage(): Promise<string> {
  const parts = ['<!-- Made by `npm run docs` from the lists of codes; do not edit. -->', '# Codes of Problems', ''];
  parts.push('A Problem says what was found, what you can do, and where. Its code never changes.', '');
  for (const [file, table] of await problemTables()) {
    parts.push(`## \`${file}\``, '', '| code | meaning | what you can do |', '|---|---|---|');
    for (const [code, kind] of Object.entries(table)) parts.push(`| ${code} | ${kind.meaning} | ${kind.remedy} |`);
    parts.push('');
  }
  return parts.join('\n');
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const page = await errorsPage();
  const same = existsSync(target) && readFileSync(target, 'utf8') === page;
  if (process.argv.includes('--check')) process.exitCode = same ? 0 : 1;
  else if (!same) writeFileSync(target, page);
}
