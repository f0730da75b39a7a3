/**
 * Photographs and sounds on this device, until the shop's machine has said that it has them; a small picture stays after
 * that. Named by the SHA-256 of their bytes, so keeping or sending twice is the same as once.
 */
import type { DataOf } from '../../journal/kinds/kinds.ts';
import { readPhotoHeader } from '../photo/photo-header.ts';
import { base, type MediaRow } from './base.ts';
import { hashOf } from './hash.ts';
import { KeepFault, keepProblem, webProblem } from './web-problems.ts';

export type KeptPhoto = Pick<DataOf<'photo-taken'>, 'hash' | 'mime' | 'bytes' | 'width' | 'height' | 'takenAsWritten'>;
export type KeptSound = Pick<DataOf<'sound-kept'>, 'hash' | 'mime' | 'bytes'>;

/** Did not fit on the device: held while this page is open, and sent from there. */
const held = new Map<string, { readonly row: MediaRow; readonly bytes: ArrayBuffer }>();

export const mediaKey = (job: string, hash: string): string => `${job}/${hash}`;

/** What the photograph is, from its bytes. A kind that is not taken in is drawn anew as JPEG where the browser can read it. */
export async function readPhoto(blob: Blob): Promise<{ readonly info: KeptPhoto; readonly bytes: ArrayBuffer }> {
  const bytes = await blob.arrayBuffer();
  const header = readPhotoHeader(new Uint8Array(bytes));
  if (header === null) {
    const drawn = await asJpeg(blob).catch(() => null);
    if (drawn === null) throw new KeepFault(webProblem('PHOTO_UNREADABLE'));
    return readPhoto(drawn);
  }
  const size = header.size ?? (await decodedSize(blob).catch(() => null));
  if (size === null) throw new KeepFault(webProblem('PHOTO_UNREADABLE'));
  const info: KeptPhoto = {
    hash: await hashOf(bytes),
    mime: header.mime,
    bytes: bytes.byteLength,
    ...size,
    ...(header.takenAsWritten !== null && { takenAsWritten: header.takenAsWritten }),
  };
  return { info, bytes };
}

const SOUNDS: readonly KeptSound['mime'][] = ['audio/webm', 'audio/ogg', 'audio/mp4', 'audio/wav', 'audio/mpeg'];

export async function readSound(blob: Blob): Promise<{ readonly info: KeptSound; readonly bytes: ArrayBuffer }> {
  const said = (blob.type.split(';')[0] ?? '')
    .replace('video/', 'audio/')
    .replace('x-wav', 'wav')
    .replace('mp3', 'mpeg');
  const mime = SOUNDS.find((m) => m === said);
  if (mime === undefined || blob.size === 0) throw new KeepFault(webProblem('SOUND_UNREADABLE'));
  const bytes = await blob.arrayBuffer();
  return { info: { hash: await hashOf(bytes), mime, bytes: bytes.byteLength }, bytes };
}

/** Resolves when the bytes are on the device's disk. Rejects with `KeepFault`; the bytes are then held in this page. */
export async function keepMedia(row: MediaRow, bytes: ArrayBuffer): Promise<void> {
  try {
    const tx = (await base()).transaction(['media', 'media-bytes'], 'readwrite', { durability: 'strict' });
    const had = await tx.objectStore('media').get(row.key);
    if (had === undefined) {
      void tx
        .objectStore('media-bytes')
        .put(bytes, row.hash)
        .catch(() => undefined);
      void tx
        .objectStore('media')
        .put(row)
        .catch(() => undefined);
    }
    await tx.done;
  } catch (thrown) {
    held.set(row.key, { row, bytes });
    throw new KeepFault(keepProblem(thrown, row.what === 'photo' ? 'the photograph' : 'the sound'));
  }
}

/** What the shop's machine does not have yet, oldest first. */
export async function waitingMedia(job: string): Promise<readonly MediaRow[]> {
  const rows = await base()
    .then((b) => b.getAllFromIndex('media', 'waiting', 1))
    .catch(() => []);
  const here = [...held.values()].map((h) => h.row);
  const all = [...rows, ...here.filter((h) => !rows.some((r) => r.key === h.key))];
  return all.filter((r) => r.job === job).toSorted((a, b) => a.keptAt - b.keptAt);
}

export async function mediaBytes(job: string, hash: string): Promise<ArrayBuffer | null> {
  const inPage = held.get(mediaKey(job, hash));
  if (inPage !== undefined) return inPage.bytes;
  return (await (await base()).get('media-bytes', hash)) ?? null;
}

/** The shop's machine has it: the original may go, the small picture stays. */
export async function mediaArrived(row: MediaRow, thumb: ArrayBuffer | null): Promise<void> {
  held.delete(row.key);
  const tx = (await base()).transaction(['media', 'media-bytes', 'media-thumbs'], 'readwrite');
  const media = tx.objectStore('media');
  if ((await media.get(row.key)) !== undefined) await media.put({ ...row, waiting: 0 });
  if (thumb !== null) await tx.objectStore('media-thumbs').put(thumb, row.hash);
  const others = await media.index('waiting').getAll(1);
  // The same photograph may wait in another job.
  if (!others.some((o) => o.hash === row.hash)) await tx.objectStore('media-bytes').delete(row.hash);
  await tx.done;
}

/** The copy that is here, the original before the small one; null when there is none. */
export async function localPhoto(job: string, hash: string): Promise<Blob | null> {
  const store = await base();
  const original = held.get(mediaKey(job, hash))?.bytes ?? (await store.get('media-bytes', hash));
  const bytes = original ?? (await store.get('media-thumbs', hash));
  return bytes === undefined ? null : new Blob([bytes], { type: 'image/jpeg' });
}

const THUMB_EDGE = 320;

/** A small JPEG of it; null where the browser cannot draw it. */
export async function thumbOf(bytes: ArrayBuffer): Promise<ArrayBuffer | null> {
  try {
    return await (await drawn(new Blob([bytes]), THUMB_EDGE, 0.78)).arrayBuffer();
  } catch {
    return null;
  }
}

function asJpeg(blob: Blob): Promise<Blob> {
  return drawn(blob, Number.POSITIVE_INFINITY, 0.92);
}

async function decodedSize(blob: Blob): Promise<{ readonly width: number; readonly height: number }> {
  const picture = await createImageBitmap(blob);
  const { width, height } = picture;
  picture.close();
  return { width, height };
}

async function drawn(blob: Blob, edge: number, quality: number): Promise<Blob> {
  const picture = await createImageBitmap(blob);
  const scale = Math.min(1, edge / Math.max(picture.width, picture.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  return new Promise((resolve, reject) => {
    canvas.toBlob((b) => (b === null ? reject(new Error('not drawn')) : resolve(b)), 'image/jpeg', quality);
  });
}
