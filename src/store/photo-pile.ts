/**
 * Opening a pile of photographs: a folder, walked without following links, or a ZIP in a file or in memory. Both give the
 * same list, so that the use case does not know which it is.
 */
import * as fs from 'node:fs';
import { basename, join, relative, sep } from 'node:path';
import type { Pile, PileFile } from '../app/intake/pile-types.ts';
import type { Problem } from '../domain/problem.ts';
import { failed, ok, type Result } from '../domain/result.ts';
import { intakeProblem } from './intake-problems.ts';
import { MOST_BYTES } from './photo-intake.ts';
import { diskProblem } from './store-problems.ts';
import { isLeftover, showName } from './zip-names.ts';
import { bytesInFile, bytesInMemory, openZip, type ZipBytes, type ZipEntry, type ZipLimits } from './zip-reading.ts';

export const PILE_LIMITS: ZipLimits = {
  entries: 30_000,
  total: 64 * 1024 ** 3,
  each: MOST_BYTES,
  ratio: 200,
};

/** ZIP local header, end of an empty ZIP, gzip, 7z, RAR, xz, Zstandard; tar has its mark further in. */
const ARCHIVE_STARTS = [
  'PK\x03\x04',
  'PK\x05\x06',
  '\x1f\x8b',
  '7z\xbc\xaf\x27\x1c',
  'Rar!\x1a\x07',
  '\xfd7zXZ\0',
  '\x28\xb5\x2f\xfd',
];

function isArchive(bytes: Uint8Array): boolean {
  const start = Buffer.from(bytes.buffer, bytes.byteOffset, Math.min(300, bytes.length)).toString('latin1');
  return ARCHIVE_STARTS.some((a) => start.startsWith(a)) || start.slice(257, 262) === 'ustar';
}

function checked(bytes: Uint8Array, shown: string): Result<Uint8Array> {
  return isArchive(bytes)
    ? failed(intakeProblem('ZIP_ENTRY_NESTED', `"${shown}" is itself an archive`, shown))
    : ok(bytes);
}

/** `path` is a folder or a ZIP file. */
export function openPile(path: string, limits: ZipLimits = PILE_LIMITS): Result<Pile> {
  try {
    if (fs.statSync(path).isDirectory()) return openFolder(path, limits);
    const bytes = bytesInFile(path);
    const pile = openZipPile(bytes, basename(path), limits, () => bytes.close());
    if (!pile.ok) bytes.close();
    return pile;
  } catch (thrown) {
    return failed(diskProblem(thrown, 'opening the photographs'));
  }
}

/** For bytes that are in memory already. */
export function pileOfBytes(bytes: Uint8Array, name: string, limits: ZipLimits = PILE_LIMITS): Result<Pile> {
  return openZipPile(bytesInMemory(bytes), name, limits, () => undefined);
}

function openZipPile(bytes: ZipBytes, name: string, limits: ZipLimits, close: () => void): Result<Pile> {
  const zip = openZip(bytes, limits);
  if (!zip.ok) return zip;
  const entries = zip.value.entries.filter((e) => !e.isFolder);
  const files = entries.filter((e) => !isLeftover(e.shown));
  return ok({
    name,
    files,
    passedOver: entries.length - files.length,
    read: async (file) => {
      const got = zip.value.unpack(file as ZipEntry);
      return got.ok ? checked(got.value, file.shown) : got;
    },
    close,
  });
}

interface FolderFile extends PileFile {
  readonly path: string;
}

function openFolder(root: string, limits: ZipLimits): Result<Pile> {
  const files: FolderFile[] = [];
  let passedOver = 0;
  for (const path of walk(root)) {
    const { shown, notice } = showName(relative(root, path).split(sep).join('/'));
    if (isLeftover(shown)) {
      passedOver += 1;
      continue;
    }
    const stat = fs.lstatSync(path);
    const refused = folderRefusal(stat, shown, limits);
    files.push({ shown, path, bytes: stat.size, notices: notice === null ? [] : [notice], refused });
    if (files.length > limits.entries)
      return failed(intakeProblem('ZIP_LIMIT', `the folder holds more than ${limits.entries} files`));
  }
  const read = async (file: PileFile): Promise<Result<Uint8Array>> => {
    try {
      return checked(fs.readFileSync((file as FolderFile).path), file.shown);
    } catch (thrown) {
      return failed(diskProblem(thrown, `reading "${file.shown}"`));
    }
  };
  return ok({ name: basename(root), files, passedOver, read, close: () => undefined });
}

function folderRefusal(stat: fs.Stats, shown: string, limits: ZipLimits): Problem | null {
  if (!stat.isFile()) return intakeProblem('ZIP_ENTRY_LINK', `"${shown}" is a link or a device, not a file`, shown);
  if (stat.size <= limits.each) return null;
  const size = `${(stat.size / 1048576).toFixed(0)} MB; at most ${limits.each / 1048576} MB are taken in`;
  return intakeProblem('ZIP_ENTRY_LARGE', `"${shown}" has ${size}`, shown);
}

/** Files and what is neither file nor folder, in order of name. Links are given, never followed. */
function* walk(folder: string): Generator<string> {
  const entries = fs.readdirSync(folder, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1));
  for (const e of entries) {
    const path = join(folder, e.name);
    if (e.isDirectory()) yield* walk(path);
    else yield path;
  }
}
