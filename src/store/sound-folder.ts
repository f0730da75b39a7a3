/**
 * Voice notes in a folder, named by what they are: sounds/ab/cd/HASH.webm. The bytes are kept exactly as the device made
 * them. What they are is read from the first bytes, never from a name or from what the sender says of them.
 * Sources of the marks: WebM container guidelines (EBML DocType), RFC 3533 (OggS), ISO/IEC 14496-12 (ftyp), RFC 2361 /
 * RIFF WAVE, ISO/IEC 11172-3 (frame sync) and the ID3v2 head.
 */
import * as fs from 'node:fs';
import { join } from 'node:path';
import { failed, ok, type Result } from '../domain/result.ts';
import { isHash } from '../journal/entry.ts';
import type { SoundBytes, SoundInfo, SoundMime, Sounds } from '../journal/ports.ts';
import { type Disk, REAL_DISK, syncFolder, writeWhole } from './disk.ts';
import { hashBytes } from './machine.ts';
import { otherNature } from './photo-intake.ts';
import { diskProblem, storeProblem } from './store-problems.ts';

/** An hour of speech as phones record it. */
export const MOST_SOUND_BYTES = 32 * 1024 * 1024;

export const SOUND_ENDINGS: Readonly<Record<SoundMime, string>> = {
  'audio/webm': 'webm',
  'audio/ogg': 'ogg',
  'audio/mp4': 'm4a',
  'audio/wav': 'wav',
  'audio/mpeg': 'mp3',
};
const MIMES = Object.keys(SOUND_ENDINGS) as readonly SoundMime[];

/** The kind by the first bytes, or null. */
export function soundByContent(bytes: Uint8Array): SoundMime | null {
  const start = Buffer.from(bytes.buffer, bytes.byteOffset, Math.min(bytes.length, 64)).toString('latin1');
  if (start.startsWith('\x1a\x45\xdf\xa3') && start.includes('webm')) return 'audio/webm';
  if (start.startsWith('OggS')) return 'audio/ogg';
  if (start.slice(4, 8) === 'ftyp' && /^(M4A |M4B |isom|iso[2-6]|mp4[12]|dash)/.test(start.slice(8, 12)))
    return 'audio/mp4';
  if (start.startsWith('RIFF') && start.slice(8, 12) === 'WAVE') return 'audio/wav';
  if (start.startsWith('ID3') || isFrame(bytes)) return 'audio/mpeg';
  return null;
}

/** Eleven set bits, MPEG-1 or -2, layer III, a bit rate and a sampling rate that exist. */
function isFrame(bytes: Uint8Array): boolean {
  const [a = 0, b = 0, c = 0] = bytes;
  return a === 0xff && (b & 0xf6) === 0xf2 && c >> 4 !== 0x0f && (c & 0x0c) !== 0x0c;
}

/** For `listOriginals`. */
export const SOUND_NAME = /^([0-9a-f]{64})\.(webm|ogg|m4a|wav|mp3)$/;

export class SoundFolder implements Sounds {
  private readonly disk: Disk;

  constructor(
    private readonly root: string,
    private readonly options: { readonly readOnly?: boolean; readonly disk?: Disk } = {},
  ) {
    this.disk = options.disk ?? REAL_DISK;
  }

  async put(bytes: Uint8Array): Promise<Result<SoundInfo>> {
    if (this.options.readOnly === true)
      return failed(storeProblem('JOURNAL_READ_ONLY', 'the job is open for reading only'));
    if (bytes.length > MOST_SOUND_BYTES)
      return failed(
        storeProblem('SOUND_TOO_LARGE', `the sound has ${(bytes.length / 1048576).toFixed(0)} MB; at most 32 are kept`),
      );
    const mime = soundByContent(bytes);
    const other = mime === null ? 'nothing that is kept as sound' : otherNature(bytes);
    if (mime === null || other !== null)
      return failed(storeProblem('SOUND_KIND', `the content is ${mime === null ? '' : 'a sound and also '}${other}`));
    const hash = hashBytes(bytes);
    try {
      const path = this.pathOf(hash, mime);
      this.disk.makeFolder(join(this.root, hash.slice(0, 2), hash.slice(2, 4)));
      if (!fs.existsSync(path) || fs.statSync(path).size !== bytes.length) writeWhole(this.disk, path, bytes);
      syncFolder(this.disk, join(this.root, hash.slice(0, 2)));
      syncFolder(this.disk, this.root);
    } catch (thrown) {
      return failed(diskProblem(thrown, 'keeping the sound'));
    }
    return ok({ hash, mime, bytes: bytes.length });
  }

  async get(hash: string): Promise<Result<SoundBytes>> {
    const mime = isHash(hash) ? MIMES.find((m) => fs.existsSync(this.pathOf(hash, m))) : undefined;
    if (mime === undefined)
      return failed(storeProblem('SOUND_NOT_FOUND', `no sound ${hash.slice(0, 12)}… is in the job`));
    try {
      const bytes = fs.readFileSync(this.pathOf(hash, mime));
      if (hashBytes(bytes) === hash) return ok({ bytes, mime });
      return failed(storeProblem('SOUND_CHANGED', `the sound ${hash.slice(0, 12)}… was changed on disk`));
    } catch (thrown) {
      return failed(diskProblem(thrown, 'reading the sound'));
    }
  }

  private pathOf(hash: string, mime: SoundMime): string {
    return join(this.root, hash.slice(0, 2), hash.slice(2, 4), `${hash}.${SOUND_ENDINGS[mime]}`);
  }
}
