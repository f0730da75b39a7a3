/**
 * Imports go one way, and the pure folders stay pure. The failure names file, line and the folder to use instead.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

const top = dirname(dirname(fileURLToPath(import.meta.url)));
const CORE = ['domain', 'journal', 'planning', 'bench', 'rework', 'evidence', 'records', 'app'];
const ALLOWED: Readonly<Record<string, readonly string[]>> = {
  domain: [],
  journal: ['domain'],
  planning: ['domain'],
  bench: ['domain'],
  rework: ['domain'],
  evidence: ['domain'],
  records: ['domain', 'journal', 'planning', 'bench', 'rework', 'evidence'],
  app: ['domain', 'journal', 'planning', 'bench', 'rework', 'evidence', 'records'],
  store: CORE,
  server: [...CORE, 'store'],
  cli: [...CORE, 'store', 'server', 'demo'],
  web: CORE,
  demo: CORE,
};
const PURE_PACKAGES = ['zod', '@noble/hashes', 'canonicalize', 'pure-rand', 'ml-matrix', 'papaparse'];
const IMPURE = /\bDate\.now\b|\bnew Date\(\)|\bMath\.random\b|\bprocess\.|\bfetch\(|\bsetTimeout\(|\bconsole\./;

function sources(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((e) => {
    const path = join(folder, e.name);
    if (e.isDirectory()) return sources(path);
    return /\.tsx?$/.test(e.name) ? [path] : [];
  });
}

function roomOf(path: string): string {
  const [first, second] = relative(top, path).split('/');
  return first === 'src' ? (second ?? '') : (first ?? '');
}

function isTest(path: string): boolean {
  return /\.test\.tsx?$/.test(path) || path.includes('/testing/');
}

function complaints(path: string): string[] {
  const room = roomOf(path);
  const pure = CORE.includes(room);
  return readFileSync(path, 'utf8')
    .split('\n')
    .flatMap((line, i) => {
      const at = `${relative(top, path)}:${i + 1}`;
      const found: string[] = [];
      const target = /(?:^\s*(?:import|export)\b.*from\s+|^\}\s*from\s+|\bimport\()['"]([^'"]+)['"]/.exec(line)?.[1];
      if (target?.startsWith('.')) {
        const other = roomOf(normalize(join(dirname(path), target)));
        if (other !== room && !ALLOWED[room]?.includes(other))
          found.push(`${at} ${room} may not import ${other}; it may import ${ALLOWED[room]?.join(', ') || 'nothing'}`);
      } else if (
        target !== undefined &&
        pure &&
        !PURE_PACKAGES.some((p) => target === p || target.startsWith(`${p}/`))
      ) {
        found.push(`${at} ${room} is pure and may not use ${target}; declare a port and implement it in store`);
      }
      if (pure && IMPURE.test(line) && !/^\s*(\*|\/\/|\/\*)/.test(line))
        found.push(`${at} clock, chance or outside world in ${room}; take it as an argument`);
      return found;
    });
}

it('[H1] imports go one way and the core touches nothing outside', () => {
  const files = [...sources(join(top, 'src')), ...sources(join(top, 'demo'))].filter((f) => !isTest(f));
  expect(files.length).toBeGreaterThan(20);
  expect(files.flatMap(complaints)).toEqual([]);
});
