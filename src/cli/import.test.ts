/** `import` of what others made, as a person types it. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { strToU8, zipSync } from 'fflate';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { workbook } from '../store/testing/workbook.ts';
import { main } from './main.ts';

let dir: string;
let job: string;

async function run(...argv: string[]): Promise<{ code: number; out: string; err: string }> {
  let out = '';
  let err = '';
  const io = { out: (t: string) => (out += t), err: (t: string) => (err += t), isTerminal: false, stdin: () => '' };
  const code = await main(argv, io);
  return { code, out, err };
}

const picture = (shade: number) =>
  sharp({ create: { width: 40, height: 30, channels: 3, background: { r: shade, g: 90, b: 60 } } })
    .withExif({ IFD2: { DateTimeOriginal: '2025:09:15 10:02:11' } })
    .jpeg()
    .toBuffer();

beforeAll(async () => {
  dir = mkdtempSync(join(tmpdir(), 'witnessmark-import-'));
  job = join(dir, 'my.job');
  expect((await run('new', job)).code).toBe(0);
});
afterAll(() => rmSync(dir, { recursive: true, force: true }));

describe('photographs', () => {
  it('from a folder: said first, then taken in, then all there already', async () => {
    const folder = join(dir, 'camera');
    mkdirSync(join(folder, 'B105C'), { recursive: true });
    writeFileSync(join(folder, 'B105C', 'IMG_1.jpg'), await picture(10));
    writeFileSync(join(folder, 'IMG_2.jpg'), await picture(20));
    writeFileSync(join(folder, 'list.txt'), 'x');
    const said = await run('import', job, folder, '--preview');
    expect(said.code).toBe(0);
    expect(said.out).toMatch(
      /new +2025:09:15 10:02:11, zone not written +B105C\/IMG_1.jpg +of B105C: guessed from the folder/,
    );
    expect(said.out).toMatch(/2 new, 0 here already, 0 twice in it, 1 refused; nothing was recorded/);
    expect(said.out).toMatch(/refused: list.txt .* PHOTO_KIND/);
    const done = await run('import', job, folder, '--by', 'nadia', '--json');
    expect(JSON.parse(done.out)).toMatchObject({ preview: false, recorded: 2, counts: { new: 2, refused: 1 } });
    const said2 = await run('import', job, folder);
    expect(said2.out).toMatch(/^0 new, 2 here already, 0 twice in it, 1 refused; 0 recorded\n/);
    expect(said2.out).toMatch(/refused: list.txt .* PHOTO_KIND/);
    const again = await run('import', job, folder, '--json');
    expect(JSON.parse(again.out)).toMatchObject({ recorded: 0, counts: { new: 0, 'here-already': 2 } });
    const verified = JSON.parse((await run('verify', job, '--json')).out) as { whole: boolean };
    expect(verified.whole).toBe(true);
  });

  it('from a ZIP, all of one thing, with --dry-run and without guessing', async () => {
    const file = join(dir, 'camera.zip');
    writeFileSync(file, zipSync({ 'B105C.jpg': await picture(30), 'a.txt': strToU8('x') }));
    const rows = async (...more: string[]) =>
      (JSON.parse((await run('import', job, file, '--dry-run', '--json', ...more)).out) as { rows: { of: string[] }[] })
        .rows;
    expect((await rows()).map((r) => r.of)).toEqual([['B105C'], []]);
    expect((await rows('--of', 'tail')).map((r) => r.of)).toEqual([['tail'], []]);
    expect((await rows('--no-guess')).map((r) => r.of)).toEqual([[], []]);
    const done = await run('import', job, file);
    expect(done.out).toMatch(
      /^1 +photograph +of B105C: guessed from the file name "B105C.jpg": bag B105C \(not filled yet\)\n1 new/,
    );
  });

  it('that are not there, or are no ZIP, give one Problem', async () => {
    expect((await run('import', job, join(dir, 'gone.zip'), '--json')).err).toMatch(/NO_SUCH_FILE/);
    writeFileSync(join(dir, 'false.zip'), 'not a zip');
    const got = await run('import', job, join(dir, 'false.zip'), '--json');
    expect([got.code, got.err.includes('ZIP_SHAPE')]).toEqual([1, true]);
  });
});

describe('a parts list', () => {
  const rows = [
    ['Nr', 'Benennung', 'Stk', 'Lager'],
    ['8-01', 'Bolt', 2, 'x'],
    ['8-02', '', 1, ''],
  ];

  it('from a workbook: the columns are stated, refused rows said with row and column', async () => {
    const file = join(dir, 'list.xlsx');
    writeFileSync(file, workbook({ Cover: [['x']], List: rows }));
    const said = await run('import', job, file, '--sheet', 'List', '--preview', '--map', 'note=Lager');
    expect(said.out).toMatch(/^sheet "List" of Cover, List\n/);
    expect(said.out).toMatch(/id +=\s+Nr +guessed from the heading/);
    expect(said.out).toMatch(/note +=\s+Lager +as you said/);
    expect(said.out).toMatch(/row 2 +new +8-01 +Bolt; positions 8-01.1, 8-01.2/);
    expect(said.out).toMatch(/row 3 +refused +8-02 +"8-02" has no name \(row 3, Benennung\)/);
    expect(said.out).toMatch(/1 new, 0 changed, 0 unchanged, 1 refused; 2 positions; nothing was recorded/);
    expect((await run('import', job, file, '--json')).err).toMatch(/SHEET_WHICH/);
    expect((await run('import', job, file, '--sheet', 'List', '--json')).err).toMatch(/CSV_ROW/);
    const done = await run('import', job, file, '--sheet', 'List', '--skip-refused', '--json');
    expect(JSON.parse(done.out)).toMatchObject({ recorded: 3, counts: { new: 1, refused: 1 } });
    expect((await run('export', job, join(dir, 'out.xlsx'), '--json')).err).toMatch(/BAD_OPTION/);
  });

  it('that changed says before and after', async () => {
    const file = join(dir, 'list2.csv');
    writeFileSync(file, 'Nr;Benennung;Stk\n8-01;Bolt, long;3\n');
    const said = await run('import', job, file);
    expect(said.out).toMatch(
      /row 2 +changed +8-01 .*name: "Bolt" becomes "Bolt, long"; quantity: "2" becomes "3"; position 8-01.3/,
    );
    expect((await run('import', job, file)).out).toMatch(
      /0 changed, 1 unchanged, 0 refused; 0 positions; 0 entries recorded/,
    );
  });
});
