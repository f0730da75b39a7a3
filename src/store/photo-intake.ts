/**
 * Taking a photograph in: what it is by content, whether it is only that, whether it decodes, how large it is, what the
 * camera wrote for the time; then a print and a thumbnail. The original bytes are never changed.
 *
 * Refused: anything that is not JPEG, PNG, WebP or AVIF by its own first bytes (SVG is a program, not a photograph);
 * files that are also a document, an archive or a page; more pixels than a decoder should be asked for. The file's name
 * is not looked at. Not chosen: re-encoding originals, which would destroy evidence.
 */
import exifr from 'exifr';
import sharp from 'sharp';
import { failed, ok, type Result } from '../domain/result.ts';
import type { PhotoInfo, PhotoMime } from '../journal/ports.ts';
import { hashBytes } from './machine.ts';
import { storeProblem } from './store-problems.ts';

export const MOST_BYTES = 64 * 1024 * 1024;
export const MOST_PIXELS = 120_000_000;
export const PRINT_EDGE = 2048;
export const THUMB_EDGE = 320;

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

/** What else the file is: browsers and readers find these wherever they stand, so a picture must not hold them. */
export function otherNature(bytes: Uint8Array): string | null {
  const start = latin1(bytes, 0, 4096).toLowerCase();
  if (start.slice(0, 1100).includes('%pdf-')) return 'a PDF document';
  if (/<(!doctype|html|script|svg|iframe|body)[\s>]/.test(start)) return 'a web page';
  const tail = latin1(bytes, bytes.length - 65_557, bytes.length);
  const end = tail.lastIndexOf('PK\x05\x06');
  if (end >= 0 && tail.length - end >= 22) {
    const comment = tail.charCodeAt(end + 20) + 256 * tail.charCodeAt(end + 21);
    if (end + 22 + comment === tail.length) return 'an archive';
  }
  return null;
}

export async function takeInPhoto(bytes: Uint8Array): Promise<Result<TakenIn>> {
  if (bytes.length > MOST_BYTES) {
    return failed(
      storeProblem(
        'PHOTO_TOO_LARGE',
        `the photograph has ${(bytes.length / 1048576).toFixed(0)} MB; at most ${MOST_BYTES / 1048576} MB are taken in`,
      ),
    );
  }
  const mime = mimeByContent(bytes);
  if (mime === null) return failed(storeProblem('PHOTO_KIND', 'the content is not JPEG, PNG, WebP or AVIF'));
  const other = otherNature(bytes);
  if (other !== null) return failed(storeProblem('PHOTO_MIXED', `the file is a photograph and also ${other}`));
  return decode(bytes, mime);
}

async function decode(bytes: Uint8Array, mime: PhotoMime): Promise<Result<TakenIn>> {
  try {
    // The header first, without its limit, so that a picture that is too large is told apart from one that is cut.
    const head = await sharp(bytes, { limitInputPixels: false }).metadata();
    const width = head.width ?? 0;
    const height = head.height ?? 0;
    if (width * height > MOST_PIXELS || (head.pages ?? 1) > 1) {
      return failed(
        storeProblem(
          'PHOTO_TOO_LARGE',
          `the photograph has ${width} x ${height} pixels in ${head.pages ?? 1} pictures; one picture of at most ${MOST_PIXELS / 1e6} million is taken in`,
        ),
      );
    }
    if (SHARP_FORMATS[head.format ?? ''] !== mime)
      return failed(
        storeProblem('PHOTO_KIND', `the content begins like ${mime} and is ${head.format ?? 'nothing known'}`),
      );
    const upright = sharp(bytes, { limitInputPixels: MOST_PIXELS, failOn: 'error' }).rotate();
    const print = await upright
      .clone()
      .resize(PRINT_EDGE, PRINT_EDGE, { fit: 'inside', withoutEnlargement: true })
      .jpeg({ quality: 85 })
      .toBuffer();
    const thumb = await sharp(print)
      .resize(THUMB_EDGE, THUMB_EDGE, { fit: 'inside', withoutEnlargement: true })
      .jpeg({ quality: 78 })
      .toBuffer();
    const turned = (head.orientation ?? 1) >= 5;
    const taken = await takenAsWritten(bytes);
    const info: PhotoInfo = {
      hash: hashBytes(bytes),
      mime,
      bytes: bytes.length,
      width: turned ? height : width,
      height: turned ? width : height,
      ...(taken !== null && { takenAsWritten: taken }),
    };
    return ok({ info, print, thumb });
  } catch (thrown) {
    const detail = thrown instanceof Error ? (thrown.message.split('\n')[0] ?? '') : '';
    if (/pixel limit/i.test(detail))
      return failed(
        storeProblem('PHOTO_TOO_LARGE', `the photograph has more than ${MOST_PIXELS / 1e6} million pixels`),
      );
    return failed(storeProblem('PHOTO_CUT', `the photograph cannot be decoded (${detail})`));
  }
}

/** The camera's text as it stands, with its own offset where it wrote one. Cameras are set wrong; nothing is converted. */
async function takenAsWritten(bytes: Uint8Array): Promise<string | null> {
  try {
    const tags = (await exifr.parse(Buffer.from(bytes), {
      reviveValues: false,
      pick: ['DateTimeOriginal', 'CreateDate', 'OffsetTimeOriginal'],
    })) as Record<string, unknown> | undefined;
    const time = tags?.DateTimeOriginal ?? tags?.CreateDate;
    if (typeof time !== 'string' || time.trim() === '') return null;
    const offset = typeof tags?.OffsetTimeOriginal === 'string' ? ` ${tags.OffsetTimeOriginal}` : '';
    return `${time.trim()}${offset}`.slice(0, 80);
  } catch {
    // No readable EXIF block is common and no fault of the picture.
    return null;
  }
}
