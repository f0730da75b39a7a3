/**
 * What a photograph's own first bytes say: kind, size as it stands upright, the camera's text for the time. Read by hand
 * (JPEG and PNG), so that a photograph is kept without being decoded first: a phone decodes twelve megapixels in longer
 * than a tap may take. Other kinds give no size here; the browser is asked for it then.
 * Sources: JPEG markers ISO/IEC 10918-1 table B.1; EXIF tags CIPA DC-008 (0x0112, 0x8769, 0x9003, 0x9004, 0x9011); PNG
 * W3C 2003 11.2.2.
 */
import type { PhotoMime } from '../../journal/ports.ts';

export interface PhotoHeader {
  readonly mime: PhotoMime;
  /** Null where only a decoder knows. */
  readonly size: { readonly width: number; readonly height: number } | null;
  readonly takenAsWritten: string | null;
}

export function readPhotoHeader(bytes: Uint8Array): PhotoHeader | null {
  const mime = mimeOf(bytes);
  if (mime === null) return null;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (mime === 'image/jpeg') return { mime, ...readJpeg(view) };
  if (mime === 'image/png' && view.byteLength >= 24)
    return { mime, size: { width: view.getUint32(16), height: view.getUint32(20) }, takenAsWritten: null };
  return { mime, size: null, takenAsWritten: null };
}

function mimeOf(bytes: Uint8Array): PhotoMime | null {
  const start = text(bytes, 0, 32);
  if (start.startsWith('\xff\xd8\xff')) return 'image/jpeg';
  if (start.startsWith('\x89PNG\r\n\x1a\n')) return 'image/png';
  if (start.startsWith('RIFF') && start.slice(8, 12) === 'WEBP') return 'image/webp';
  if (start.slice(4, 8) === 'ftyp' && /avif|avis/.test(start.slice(8, 32))) return 'image/avif';
  return null;
}

function text(bytes: Uint8Array, from: number, to: number): string {
  return String.fromCharCode(...bytes.subarray(from, to));
}

/** Start-of-frame markers hold the size; C4, C8 and CC are other things in the same row. */
function isFrame(marker: number): boolean {
  return marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;
}

function readJpeg(view: DataView): Omit<PhotoHeader, 'mime'> {
  let exif: Exif = { orientation: 1, takenAsWritten: null };
  for (let at = 2; at + 9 < view.byteLength; ) {
    if (view.getUint8(at) !== 0xff) break;
    const marker = view.getUint8(at + 1);
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    const length = view.getUint16(at + 2);
    if (isFrame(marker)) {
      const height = view.getUint16(at + 5);
      const width = view.getUint16(at + 7);
      const upright = exif.orientation >= 5 ? { width: height, height: width } : { width, height };
      return { size: width > 0 && height > 0 ? upright : null, takenAsWritten: exif.takenAsWritten };
    }
    if (marker === 0xe1 && at + 2 + length <= view.byteLength) exif = readExif(view, at + 4, length - 2) ?? exif;
    at += 2 + length;
  }
  return { size: null, takenAsWritten: exif.takenAsWritten };
}

interface Exif {
  readonly orientation: number;
  readonly takenAsWritten: string | null;
}

function readExif(view: DataView, from: number, length: number): Exif | null {
  if (length < 14 || view.getUint32(from) !== 0x45786966) return null;
  const tiff = new DataView(view.buffer, view.byteOffset + from + 6, length - 6);
  const little = tiff.getUint16(0) === 0x4949;
  try {
    const main = tagsOf(tiff, tiff.getUint32(4, little), little);
    const more = main.get(0x8769);
    const own = more === undefined ? new Map<number, number>() : tagsOf(tiff, tiff.getUint32(more + 8, little), little);
    const turn = main.get(0x0112);
    const time = asciiAt(tiff, own.get(0x9003) ?? own.get(0x9004), little);
    const zone = asciiAt(tiff, own.get(0x9011), little);
    return {
      orientation: turn === undefined ? 1 : tiff.getUint16(turn + 8, little),
      takenAsWritten: time === '' ? null : `${time}${zone === '' ? '' : ` ${zone}`}`.slice(0, 80),
    };
  } catch {
    // A block that points outside itself says nothing; the photograph is as good without it.
    return null;
  }
}

/** Tag to the place of its row. */
function tagsOf(tiff: DataView, at: number, little: boolean): Map<number, number> {
  const rows = new Map<number, number>();
  const count = tiff.getUint16(at, little);
  for (let i = 0; i < count; i += 1) rows.set(tiff.getUint16(at + 2 + 12 * i, little), at + 2 + 12 * i);
  return rows;
}

function asciiAt(tiff: DataView, row: number | undefined, little: boolean): string {
  if (row === undefined) return '';
  const count = tiff.getUint32(row + 4, little);
  const from = count <= 4 ? row + 8 : tiff.getUint32(row + 8, little);
  let out = '';
  for (let i = 0; i < Math.min(count, 80); i += 1) out += String.fromCharCode(tiff.getUint8(from + i));
  return (out.split('\0')[0] ?? '').trim();
}
