/** `labels` as a person types it: what it writes, what it records, what it refuses before a number is spent. */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { must } from '../domain/result.ts';
import { createShop } from '../store/index.ts';
import { main } from './main.ts';

let dir: string;
let job: string;
const out = (name: string) => join(dir, name);

async function run(...argv: string[]): Promise<{ code: number; out: string; err: string }> {
  let told = '';
  let err = '';
  const io = { out: (t: string) => (told += t), err: (t: string) => (err += t), isTerminal: false, stdin: () => '' };
  return { code: await main(argv, io), out: told, err };
}

async function json(...argv: string[]): Promise<Record<string, unknown>> {
  const got = await run(...argv, '--json');
  expect([got.code, got.err]).toEqual([0, '']);
  return JSON.parse(got.out) as Record<string, unknown>;
}

beforeEach(async () => {
  dir = mkdtempSync(join(tmpdir(), 'witnessmark-labels-'));
  must(createShop(join(dir, 'shop'), 'Try')).close();
  job = join(dir, 'shop/jobs/try.job');
  await json('new', job, '--registration', 'QX-TRY');
  await json('record', job, 'bagged', '--data', '{"bag":"B105C","opens":true,"hand":"L","note":"Hinge"}');
  await json('record', job, 'stopped-here', '--data', '{"subject":"job","state":"Left on the jack"}');
});
afterEach(() => rmSync(dir, { recursive: true, force: true }));

const textOf = (file: string): string =>
  execFileSync('pdftotext', [file, '-'], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });

it('writes labels of bags, beginning at the label that is free', async () => {
  const told = await json('labels', job, '--bags', 'B105C', '--form', 'a4-24', '--start', '24', '--out', out('b.pdf'));
  expect(told).toEqual({ out: out('b.pdf'), labels: 1, pages: 1 });
  expect(textOf(out('b.pdf'))).toMatch(/B105C[\s\S]*Hinge[\s\S]*QX-TRY/);
});

it('sets the numbers of a roll aside once, and prints the same block again when asked', async () => {
  const told = await json('labels', job, '--roll', '12', '--form', 'roll-62x29', '--out', out('r.pdf'));
  expect(told).toMatchObject({ labels: 12, pages: 12, set: { from: 106, to: 117 } });
  expect(textOf(out('r.pdf'))).toMatch(/B106K[\s\S]*B117/);
  const again = await json('labels', job, '--roll', '106-117', '--form', 'roll-62x29', '--out', out('s.pdf'));
  expect(again).not.toHaveProperty('set');
  const next = await json('labels', job, '--roll', '1', '--form', 'roll-62x29', '--out', out('t.pdf'));
  expect(next).toMatchObject({ set: { from: 118, to: 118, codes: ['B118B'] } });
});

it('is the same to the byte for the same time', async () => {
  const at = ['--at', '2026-01-05T08:00:00+00:00', '--tags', '--form', 'tag-60x120'];
  await json('labels', job, ...at, '--out', out('1.pdf'));
  await json('labels', job, ...at, '--out', out('2.pdf'));
  expect(readFileSync(out('1.pdf')).equals(readFileSync(out('2.pdf')))).toBe(true);
  expect(textOf(out('1.pdf'))).toMatch(/OPEN[\s\S]*Left on the jack/);
});

it.each([
  [['--bags', 'B106K'], 'LABEL_SUBJECT_UNKNOWN'],
  [['--roll', '0'], 'BAGS_COUNT'],
  [['--roll', 'many'], 'BAD_OPTION'],
  [['--roll', '5', '--form', '20x10'], 'LABEL_TOO_SMALL'],
  [['--roll', '5', '--form', 'a4-24', '--start', '30'], 'LABEL_START'],
  [['--roll', '5', '--form', 'sheet', '--grid', '9x9', '--label', '60x30'], 'FORM_DOES_NOT_FIT'],
  [['--bags', 'B105C', '--tags'], 'BAD_OPTION'],
  [[], 'BAD_OPTION'],
])('%j is refused as %s, no file is written and no number spent', async (words, code) => {
  const got = await run('labels', job, ...words, '--out', out('x.pdf'), '--json');
  expect([got.code, (JSON.parse(got.err) as { code: string }).code]).toEqual([1, code]);
  expect(existsSync(out('x.pdf'))).toBe(false);
  const next = await json('labels', job, '--roll', '1', '--form', 'roll-62x29', '--out', out('n.pdf'));
  expect(next).toMatchObject({ set: { from: 106 } });
});

it('overwrites nothing, and names a folder that is not there', async () => {
  await json('labels', job, '--bags', 'B105C', '--out', out('b.pdf'));
  const again = await run('labels', job, '--bags', 'B105C', '--out', out('b.pdf'), '--json');
  expect(again.err).toContain('FILE_THERE');
  const nowhere = await run('labels', job, '--bags', 'B105C', '--out', join(dir, 'none/b.pdf'), '--json');
  expect(nowhere.err).toContain('NO_SUCH_FILE');
});

it('its help has examples and every form', async () => {
  const { out: help } = await run('labels', '--help');
  expect(help).toMatch(/witnessmark labels my\.job --roll 100/);
  expect(help).toMatch(/a4-24 .*roll-62x29 .*tag-60x120/);
});
