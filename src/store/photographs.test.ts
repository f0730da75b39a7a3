import * as fs from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { must } from '../domain/result.ts';
import { MemoryPhotographs } from './memory-photographs.ts';
import { listOriginals, PhotoFolder } from './photo-folder.ts';
import { photographsAcceptance } from './testing/photographs-acceptance.ts';
import { picture, tempFolder } from './testing/temp.ts';

photographsAcceptance('memory', () => new MemoryPhotographs());
photographsAcceptance('folder', () => new PhotoFolder(tempFolder()));

describe('photographs in a folder', () => {
  it('lie where the reading instructions say', async () => {
    const root = tempFolder();
    const { hash } = must(await new PhotoFolder(root).put(await picture(60, 40)));
    const place = join(root, hash.slice(0, 2), hash.slice(2, 4));
    expect(fs.readdirSync(place).sort()).toEqual([`${hash}.jpg`, `${hash}.print.jpg`, `${hash}.thumb.jpg`]);
    expect(listOriginals(root)).toEqual([{ hash, path: join(place, `${hash}.jpg`) }]);
  });

  it('small sizes that were thrown away are made again', async () => {
    const root = tempFolder();
    const photographs = new PhotoFolder(root);
    const { hash } = must(await photographs.put(await picture(600, 400)));
    const thumb = join(root, hash.slice(0, 2), hash.slice(2, 4), `${hash}.thumb.jpg`);
    const before = fs.readFileSync(thumb);
    fs.rmSync(thumb);
    expect(Buffer.from(must(await photographs.get(hash, 'thumb')).bytes)).toEqual(before);
    expect(fs.existsSync(thumb)).toBe(true);
  });

  it('an original that was changed on disk is not shown as if it were whole', async () => {
    const root = tempFolder();
    const photographs = new PhotoFolder(root);
    const { hash } = must(await photographs.put(await picture(60, 40)));
    fs.appendFileSync(join(root, hash.slice(0, 2), hash.slice(2, 4), `${hash}.jpg`), 'x');
    expect(await photographs.get(hash, 'original')).toMatchObject({ ok: false, problem: { code: 'PHOTO_CUT' } });
  });

  it('a job open for reading takes no photographs', async () => {
    const photographs = new PhotoFolder(tempFolder(), { readOnly: true });
    expect(await photographs.put(await picture(20, 20))).toMatchObject({
      ok: false,
      problem: { code: 'JOURNAL_READ_ONLY' },
    });
  });
});
