import * as fs from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { must } from '../domain/result.ts';
import { draftOf } from '../journal/testing/recorder.ts';
import { backup, restore } from './backup.ts';
import { MOST_SOUND_BYTES, SoundFolder, soundByContent } from './sound-folder.ts';
import { noteJob, tempFolder } from './testing/temp.ts';
import { verify } from './verify.ts';

/** A second of silence at 8 kHz, 8 bit: RIFF WAVE as in the Microsoft multimedia standards update (1994). */
function silence(samples = 8_000): Uint8Array {
  const head = Buffer.alloc(44);
  head.write('RIFF', 0, 'latin1');
  head.writeUInt32LE(36 + samples, 4);
  head.write('WAVEfmt ', 8, 'latin1');
  head.writeUInt32LE(16, 16);
  head.writeUInt16LE(1, 20);
  head.writeUInt16LE(1, 22);
  head.writeUInt32LE(8_000, 24);
  head.writeUInt32LE(8_000, 28);
  head.writeUInt16LE(1, 32);
  head.writeUInt16LE(8, 34);
  head.write('data', 36, 'latin1');
  head.writeUInt32LE(samples, 40);
  return Buffer.concat([head, Buffer.alloc(samples, 0x80)]);
}

describe('sounds in a folder', () => {
  it('keeps the exact bytes under their hash, once, and gives them back', async () => {
    const root = join(tempFolder(), 'sounds');
    const sounds = new SoundFolder(root);
    const info = must(await sounds.put(silence()));
    expect(info).toMatchObject({ mime: 'audio/wav', bytes: 8_044 });
    expect(must(await sounds.put(silence()))).toEqual(info);
    expect(Buffer.from(must(await sounds.get(info.hash)).bytes)).toEqual(Buffer.from(silence()));
    const dir = join(root, info.hash.slice(0, 2), info.hash.slice(2, 4));
    expect(fs.readdirSync(dir)).toEqual([`${info.hash}.wav`]);
  });

  it.each([
    ['audio/webm', [0x1a, 0x45, 0xdf, 0xa3, 0x9f, 0x42, 0x82, 0x84, ...Buffer.from('webm')]],
    ['audio/ogg', [...Buffer.from('OggS'), 0, 2]],
    ['audio/mp4', [0, 0, 0, 0x20, ...Buffer.from('ftypM4A ')]],
    ['audio/mpeg', [...Buffer.from('ID3'), 4, 0]],
    ['audio/mpeg', [0xff, 0xfb, 0x90, 0x64]],
  ])('knows %s by its first bytes', (mime, bytes) => {
    expect(soundByContent(Uint8Array.from(bytes))).toBe(mime);
  });

  it.each([
    ['a page', Buffer.from('<!doctype html><script>1</script>')],
    ['a JPEG', Buffer.from([0xff, 0xd8, 0xff, 0xe0])],
    ['an AVIF picture', Buffer.from([0, 0, 0, 0x20, ...Buffer.from('ftypavif')])],
    ['a matroska film', Buffer.from([0x1a, 0x45, 0xdf, 0xa3, ...Buffer.from('matroska')])],
    ['nothing', Buffer.alloc(0)],
  ])('refuses %s', async (_what, bytes) => {
    const put = await new SoundFolder(tempFolder()).put(bytes);
    expect(put).toMatchObject({ ok: false, problem: { code: 'SOUND_KIND' } });
  });

  it('refuses a sound that is also a page, and one that is too large; nothing is written', async () => {
    const root = join(tempFolder(), 'sounds');
    const sounds = new SoundFolder(root);
    const both = Buffer.concat([silence(100), Buffer.from('<html><script>1</script>')]);
    expect(await sounds.put(both)).toMatchObject({ ok: false, problem: { code: 'SOUND_KIND' } });
    const large = Buffer.concat([silence(10), Buffer.alloc(MOST_SOUND_BYTES)]);
    expect(await sounds.put(large)).toMatchObject({ ok: false, problem: { code: 'SOUND_TOO_LARGE' } });
    expect(fs.existsSync(root)).toBe(false);
  });

  it('a path in place of a hash finds nothing', async () => {
    const got = await new SoundFolder(tempFolder()).get('../../etc/passwd');
    expect(got).toMatchObject({ ok: false, problem: { code: 'SOUND_NOT_FOUND' } });
  });
});

describe('a job with a sound', () => {
  async function soundJob(): Promise<{ top: string; folder: string; path: string; hash: string }> {
    const top = tempFolder();
    const folder = join(top, 'a.job');
    const job = await noteJob(folder, 3);
    const info = must(await job.sounds.put(silence()));
    must(await job.journal.append(null, [draftOf(40, 'sound-kept', { ...info, of: ['leg-r'] })]));
    job.close();
    const { hash } = info;
    return { top, folder, hash, path: join(folder, 'sounds', hash.slice(0, 2), hash.slice(2, 4), `${hash}.wav`) };
  }

  it('verify counts it, and names it when it is changed or gone', async () => {
    const { folder, path, hash } = await soundJob();
    expect(must(verify(folder))).toMatchObject({ whole: true, sounds: { named: 1, present: 1, unnamed: 0 } });
    fs.appendFileSync(path, 'x');
    const changed = must(verify(folder));
    expect(changed).toMatchObject({ whole: false, sounds: { changed: [hash] } });
    expect(changed.problems.map((p) => p.code)).toEqual(['SOUND_CHANGED']);
    fs.rmSync(path);
    const gone = must(verify(folder));
    expect(gone.problems.map((p) => p.code)).toEqual(['SOUND_NOT_FOUND']);
    expect(gone.sounds.missing).toEqual([hash]);
  });

  it('is in the backup and comes back with it', async () => {
    const { top, folder, path } = await soundJob();
    must(await backup(folder, join(top, 'a.tar')));
    const report = must(await restore(join(top, 'a.tar'), join(top, 'b.job')));
    expect(report).toMatchObject({ whole: true, sounds: { named: 1, present: 1 } });
    expect(fs.readFileSync(path.replace('a.job', 'b.job'))).toEqual(Buffer.from(silence()));
  });
});
