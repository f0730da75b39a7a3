/** The pages that are made from the code are current, and every code of a Problem has a remedy and a test. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { errorsPage, problemTables } from '../tools/docs.ts';

const top = dirname(dirname(fileURLToPath(import.meta.url)));

function tests(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((e) => {
    const path = join(folder, e.name);
    if (e.isDirectory()) return tests(path);
    // The acceptance suites of the ports are run by every implementation's own test.
    return /(\.test\.tsx?|-acceptance\.ts)$/.test(e.name) ? [readFileSync(path, 'utf8')] : [];
  });
}

it('[H2] docs/errors.md is what `npm run docs` writes', async () => {
  expect(readFileSync(join(top, 'docs/errors.md'), 'utf8')).toBe(await errorsPage());
});

it('[H3] every code has a remedy one can act on, stands once, and is met in a test', async () => {
  const all = [...tests(join(top, 'src')), ...tests(join(top, 'test')), ...tests(join(top, 'demo'))].join('\n');
  const codes = [...(await problemTables()).values()].flatMap((t) => Object.entries(t));
  expect(codes.filter(([, k]) => k.remedy.length < 12).map(([c]) => c)).toEqual([]);
  expect(codes.map(([c]) => c).filter((c, i, list) => list.indexOf(c) !== i)).toEqual([]);
  expect(codes.map(([c]) => c).filter((c) => !new RegExp(`\\b${c}\\b`).test(all))).toEqual([]);
});
