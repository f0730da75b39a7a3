/**
 * Taking a photograph in: what it is by content, whether it is only that, whether it decodes, how large it is, what the
 * camera wrote for the time; then a print and a thumbnail. The original bytes are never changed.
 *
 * Refused: anything that is not JPEG, PNG, WebP or AVIF by its own first bytes (SVG is a program, not a photograph);
 * files that are also a document, an archive or a page; more pixels than a decoder should be asked for. The file's name
 * is not looked at. Two are decoded at a time, a large one that must be held whole alone, so that memory stays bounded
 * however many come. Not chosen: re-encoding originals, which would destroy evidence; they are made anew only to be shared.
 */
import exifr from 'exifr';
import sharp, { type Metadata } from 'sharp';
import { failed, ok, type Result } from '../domain/result.ts';
import type { PhotoInfo, PhotoMime } from '../journal/ports.ts';
import { Gate } from './in-turn.ts';
import { hashBytes } from './machine.ts';
import { storeProblem } from './store-problems.ts';

export const MOST_BYTES = 64 * 1024 * 1024;
export const MOST_PIXELS = 120_000_000;
/** An AVIF is held whole at about 18 bytes a pixel while it is decoded (measured, docs/measured-notes.md). */
const MOST_AVIF_PIXELS = 40_000_000;
export const PRINT_EDGE = 2048;
export const THUMB_EDGE = 320;
/** Decoded at once, in the whole program. */
const PLACES = 2;
/** From here on a picture that must be held whole is decoded alone. */
const HEAVY_PIXELS = 40_000_000;
const HEAVY_AVIF_PIXELS = 12_000_000;
const READING = { limitInputPixels: MOST_PIXELS, failOn: 'error', sequentialRead: true } as const;
const DECODING = new Gate(PLACES);
// Decoded pictures are not asked for twice; what is kept of them is on disk.
sharp.cache(false);

export interface TakenIn {
  readonly info: PhotoInfo;
  readonly print: Uint8Array;
  readonly thumb: Uint8Array;
}

export const MIME_ENDINGS: Readonly<Record<PhotoMime, string>> = {
  'image/jpeg': 'jpg',
  'image/png': 'png',
  'image/webp': 'webp',
  'image/avif': 'avif',
};

const SHARP_FORMATS: Readonly<Record<string, PhotoMime>> = {
  jpeg: 'image/jpeg',
  png: 'image/png',
  webp: 'image/webp',
  heif: 'image/avif',
  avif: 'image/avif',
};

function latin1(bytes: Uint8Array, from: number, to: number): string {
  return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString(
    'latin1',
    Math.max(0, from),
    Math.min(bytes.length, to),
  );
}

/** The kind by the first bytes, or null. */
export function mimeByContent(bytes: Uint8Array): PhotoMime | null {
  const start = latin1(bytes, 0, 32);
  if (start.startsWith('\xff\xd8\xff')) return 'image/jpeg';
  if (start.startsWith('\x89PNG\r\n\x1a\n')) return 'image/png';
  if (start.startsWith('RIFF') && start.slice(8, 12) === 'WEBP') return 'image/webp';
  if (start.slice(4, 8) === 'ftyp' && /avif|avis/.test(start.slice(8, 32))) return 'image/avif';
  return null;
}

/** Many phones write HEIC unless told otherwise, so it gets its own words. */
function kindUnknown(bytes: Uint8Array): string {
  const isHeic = latin1(bytes, 4, 8) === 'ftyp' && /hei[cxms]|hev[cxms]|mif1|msf1/.test(latin1(bytes, 8, 32));
  return isHeic
    ? 'the content is HEIC, which is not read; set the phone’s camera to its most compatible form, which is JPEG'
    : 'the content is not JPEG, PNG, WebP or AVIF';
}

/** Words that make a browser or another program read a picture as something else, wherever they stand in it. */
const ANYWHERE = /^<(?:script|!doctype|html|iframe|\?php)[\s>/]/i;
const LONGEST_WORD = 10;

/** What else the file is: browsers and readers find these wherever they stand, so a picture must not hold them. */
export function otherNature(bytes: Uint8Array): string | null {
  const whole = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (whole.includes('%PDF-', 0, 'latin1')) return 'a PDF document';
  // Short words turn up by chance in tens of megabytes of picture, so these two are looked for only where they count.
  if (/<(svg|body)[\s>]/.test(latin1(bytes, 0, 4096).toLowerCase())) return 'a web page';
  for (let at = whole.indexOf(0x3c); at >= 0; at = whole.indexOf(0x3c, at + 1)) {
    if (ANYWHERE.test(whole.toString('latin1', at, at + LONGEST_WORD))) return 'a web page';
  }
  return holdsArchive(bytes) ? 'an archive' : null;
}

/** An archive is found by its end, which may be followed by as much comment as a reader allows. */
function holdsArchive(bytes: Uint8Array): boolean {
  const tail = latin1(bytes, bytes.length - 65_557, bytes.length);
  for (
    let end = tail.lastIndexOf('PK\x05\x06');
    end >= 0;
    end = end === 0 ? -1 : tail.lastIndexOf('PK\x05\x06', end - 1)
  ) {
    if (tail.length - end < 22) continue;
    const comment = tail.charCodeAt(end + 20) + 256 * tail.charCodeAt(end + 21);
    const first = tail.charCodeAt(end + 4) + tail.charCodeAt(end + 5);
    // Disk numbers 0 and a comment that fits: readers take it, also with something behind.
    if (first === 0 && end + 22 + comment <= tail.length) return true;
  }
  return false;
}

/** What can be told without decoding: kind, size, time. The preview of an import asks this of every picture. */
export async function lookAtPhoto(bytes: Uint8Array): Promise<Result<PhotoInfo>> {
  const seen = await look(bytes);
  return seen.ok ? ok(seen.value.info) : seen;
}

export async function takeInPhoto(bytes: Uint8Array): Promise<Result<TakenIn>> {
  const seen = await look(bytes);
  if (!seen.ok) return seen;
  const { info, weight } = seen.value;
  return DECODING.inTurn(() => makeSmall(bytes, info), weight);
}

/**
 * The picture made anew for giving away: upright, full size, nothing in it but pixels. Place, time, serial numbers, the
 * camera's own thumbnail and every text in the file stay behind.
 */
export async function withoutMetadata(bytes: Uint8Array): Promise<Result<Uint8Array>> {
  const seen = await look(bytes);
  if (!seen.ok) return seen;
  return DECODING.inTurn(
    () =>
      decoding(async () =>
        ok(await sharp(bytes, READING).rotate().flatten({ background: '#fff' }).jpeg({ quality: 90 }).toBuffer()),
      ),
    seen.value.weight,
  );
}

interface Seen {
  readonly info: PhotoInfo;
  readonly weight: number;
}

async function look(bytes: Uint8Array): Promise<Result<Seen>> {
  if (bytes.length > MOST_BYTES) {
    return failed(
      storeProblem(
        'PHOTO_TOO_LARGE',
        `the photograph has ${(bytes.length / 1048576).toFixed(0)} MB; at most ${MOST_BYTES / 1048576} MB are taken in`,
      ),
    );
  }
  const mime = mimeByContent(bytes);
  if (mime === null) return failed(storeProblem('PHOTO_KIND', kindUnknown(bytes)));
  const other = otherNature(bytes);
  if (other !== null) return failed(storeProblem('PHOTO_MIXED', `the file is a photograph and also ${other}`));
  // The header first, without its limit, so that a picture that is too large is told apart from one that is cut.
  return decoding(async () => readHead(bytes, mime, await sharp(bytes, { limitInputPixels: false }).metadata()));
}

async function readHead(bytes: Uint8Array, mime: PhotoMime, head: Metadata): Promise<Result<Seen>> {
  const width = head.width ?? 0;
  const height = head.height ?? 0;
  const pages = head.pages ?? 1;
  const most = mime === 'image/avif' ? MOST_AVIF_PIXELS : MOST_PIXELS;
  if (width * height > most || pages > 1) {
    return failed(
      storeProblem(
        'PHOTO_TOO_LARGE',
        `the photograph has ${width} x ${height} pixels in ${pages} pictures; one picture of at most ${most / 1e6} million is taken in`,
      ),
    );
  }
  if (SHARP_FORMATS[head.format ?? ''] !== mime)
    return failed(
      storeProblem('PHOTO_KIND', `the content begins like ${mime} and is ${head.format ?? 'nothing known'}`),
    );
  const turned = (head.orientation ?? 1) >= 5;
  const taken = await takenAsWritten(head.exif);
  const info: PhotoInfo = {
    hash: hashBytes(bytes),
    mime,
    bytes: bytes.length,
    width: turned ? height : width,
    height: turned ? width : height,
    ...(taken !== null && { takenAsWritten: taken }),
  };
  // A row of a plain JPEG or PNG is decoded and let go; these are held whole.
  const isWhole = head.isProgressive === true || mime === 'image/webp' || turned;
  const heavy = mime === 'image/avif' ? HEAVY_AVIF_PIXELS : HEAVY_PIXELS;
  const weight = (isWhole || mime === 'image/avif') && width * height > heavy ? PLACES : 1;
  return ok({ info, weight });
}

async function makeSmall(bytes: Uint8Array, info: PhotoInfo): Promise<Result<TakenIn>> {
  return decoding(async () => {
    const print = await sharp(bytes, READING)
      .rotate()
      .resize(PRINT_EDGE, PRINT_EDGE, { fit: 'inside', withoutEnlargement: true })
      .jpeg({ quality: 85 })
      .toBuffer();
    const thumb = await sharp(print)
      .resize(THUMB_EDGE, THUMB_EDGE, { fit: 'inside', withoutEnlargement: true })
      .jpeg({ quality: 78 })
      .toBuffer();
    return ok({ info, print, thumb });
  });
}

/** What the decoder throws at a picture it cannot read, as a Problem. */
async function decoding<T>(work: () => Promise<Result<T>>): Promise<Result<T>> {
  try {
    return await work();
  } catch (thrown) {
    const detail = thrown instanceof Error ? (thrown.message.split('\n')[0] ?? '') : '';
    if (/pixel limit/i.test(detail))
      return failed(
        storeProblem('PHOTO_TOO_LARGE', `the photograph has more than ${MOST_PIXELS / 1e6} million pixels`),
      );
    return failed(storeProblem('PHOTO_CUT', `the photograph cannot be decoded (${detail})`));
  }
}

/**
 * The camera's text as it stands, with its own offset where it wrote one. Cameras are set wrong; nothing is converted.
 * Only the EXIF block itself is given to its reader: from a whole PNG it would also unpack the colour profile, which can
 * grow from kilobytes to gigabytes.
 */
async function takenAsWritten(exif: Buffer | undefined): Promise<string | null> {
  if (exif === undefined) return null;
  try {
    const block = exif.toString('latin1', 0, 6) === 'Exif\0\0' ? exif.subarray(6) : exif;
    const tags = (await exifr.parse(block, {
      reviveValues: false,
      pick: ['DateTimeOriginal', 'CreateDate', 'OffsetTimeOriginal'],
    })) as Record<string, unknown> | undefined;
    const time = tags?.DateTimeOriginal ?? tags?.CreateDate;
    if (typeof time !== 'string' || time.trim() === '') return null;
    const offset = typeof tags?.OffsetTimeOriginal === 'string' ? ` ${tags.OffsetTimeOriginal}` : '';
    return plainText(`${time.trim()}${offset}`).slice(0, 80);
  } catch {
    // No readable EXIF block is common and no fault of the picture.
    return null;
  }
}

/** Control characters and those that turn the direction of writing are no part of a time. */
function plainText(text: string): string {
  return text.replace(/[\p{Cc}\p{Cf}\p{Co}\p{Cs}]/gu, '');
}
