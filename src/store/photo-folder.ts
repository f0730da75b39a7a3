/**
 * Photographs in a folder, named by what they are: photos/ab/cd/HASH.jpg, beside it HASH.print.jpg and HASH.thumb.jpg.
 * The original is written last, so that where it lies the small ones lie too. Small sizes are made again when missing.
 */
import * as fs from 'node:fs';
import { join } from 'node:path';
import { failed, ok, type Result } from '../domain/result.ts';
import { isHash } from '../journal/entry.ts';
import type { PhotoBytes, Photographs, PhotoInfo, PhotoMime, PhotoSize } from '../journal/ports.ts';
import { type Disk, REAL_DISK, syncFolder, writeWhole } from './disk.ts';
import { hashBytes } from './machine.ts';
import { MIME_ENDINGS, takeInPhoto } from './photo-intake.ts';
import { diskProblem, storeProblem } from './store-problems.ts';

export interface PhotoFolderOptions {
  readonly readOnly?: boolean;
  readonly disk?: Disk;
}

const MIMES = Object.keys(MIME_ENDINGS) as readonly PhotoMime[];

export class PhotoFolder implements Photographs {
  private readonly disk: Disk;

  constructor(
    private readonly root: string,
    private readonly options: PhotoFolderOptions = {},
  ) {
    this.disk = options.disk ?? REAL_DISK;
  }

  async put(bytes: Uint8Array): Promise<Result<PhotoInfo>> {
    if (this.options.readOnly === true)
      return failed(storeProblem('JOURNAL_READ_ONLY', 'the job is open for reading only'));
    const taken = await takeInPhoto(bytes);
    if (!taken.ok) return taken;
    const { info, print, thumb } = taken.value;
    try {
      this.disk.makeFolder(this.folderOf(info.hash));
      this.keep(this.small(info.hash, 'thumb'), thumb);
      this.keep(this.small(info.hash, 'print'), print);
      this.keep(this.original(info.hash, info.mime), bytes);
      syncFolder(this.disk, join(this.root, info.hash.slice(0, 2)));
      syncFolder(this.disk, this.root);
    } catch (thrown) {
      return failed(diskProblem(thrown, 'keeping the photograph'));
    }
    return ok(info);
  }

  private keep(path: string, bytes: Uint8Array): void {
    if (!fs.existsSync(path) || fs.statSync(path).size !== bytes.length) writeWhole(this.disk, path, bytes);
  }

  async get(hash: string, size: PhotoSize): Promise<Result<PhotoBytes>> {
    const found = this.find(hash);
    if (found === null)
      return failed(storeProblem('PHOTO_NOT_FOUND', `no photograph ${hash.slice(0, 12)}… is in the job`));
    try {
      if (size === 'original') {
        const bytes = fs.readFileSync(found.path);
        if (hashBytes(bytes) === hash) return ok({ bytes, mime: found.mime });
        return failed(
          storeProblem(
            'PHOTO_CUT',
            `the photograph ${hash.slice(0, 12)}… was changed on disk`,
            'Copy it back from a backup.',
          ),
        );
      }
      const path = this.small(hash, size);
      if (fs.existsSync(path)) return ok({ bytes: fs.readFileSync(path), mime: 'image/jpeg' });
      return await this.makeAgain(found.path, size);
    } catch (thrown) {
      return failed(diskProblem(thrown, 'reading the photograph'));
    }
  }

  async has(hash: string): Promise<boolean> {
    return this.find(hash) !== null;
  }

  private async makeAgain(path: string, size: 'print' | 'thumb'): Promise<Result<PhotoBytes>> {
    const taken = await takeInPhoto(fs.readFileSync(path));
    if (!taken.ok) return taken;
    const bytes = size === 'print' ? taken.value.print : taken.value.thumb;
    if (this.options.readOnly !== true) writeWhole(this.disk, this.small(taken.value.info.hash, size), bytes);
    return ok({ bytes, mime: 'image/jpeg' });
  }

  private find(hash: string): { path: string; mime: PhotoMime } | null {
    if (!isHash(hash)) return null;
    for (const mime of MIMES) {
      const path = this.original(hash, mime);
      if (fs.existsSync(path)) return { path, mime };
    }
    return null;
  }

  private folderOf(hash: string): string {
    return join(this.root, hash.slice(0, 2), hash.slice(2, 4));
  }

  private original(hash: string, mime: PhotoMime): string {
    return join(this.folderOf(hash), `${hash}.${MIME_ENDINGS[mime]}`);
  }

  private small(hash: string, size: 'print' | 'thumb'): string {
    return join(this.folderOf(hash), `${hash}.${size}.jpg`);
  }
}

const PHOTO_NAME = /^([0-9a-f]{64})\.(jpg|png|webp|avif)$/;

/** Every original in such a folder: its hash by name and its path. Smaller copies and leftovers are passed over. */
export function listOriginals(
  root: string,
  shape: RegExp = PHOTO_NAME,
): readonly { readonly hash: string; readonly path: string }[] {
  const found: { hash: string; path: string }[] = [];
  for (const a of foldersIn(root)) {
    for (const b of foldersIn(join(root, a))) {
      for (const name of fs.readdirSync(join(root, a, b)).sort()) {
        const hit = shape.exec(name);
        if (hit?.[1] !== undefined) found.push({ hash: hit[1], path: join(root, a, b, name) });
      }
    }
  }
  return found;
}

function foldersIn(folder: string): readonly string[] {
  if (!fs.existsSync(folder)) return [];
  return fs
    .readdirSync(folder)
    .filter((n) => /^[0-9a-f]{2}$/.test(n))
    .sort();
}
