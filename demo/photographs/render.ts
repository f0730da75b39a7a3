/**
 * Drawings into JPEG files as a camera would leave them: pixels, the camera's invented name, and the time as that camera
 * writes it. No place is written. The same drawing gives the same bytes each time on one machine.
 */
import sharp from 'sharp';
import { CAMERAS, DRAWN, type Shot } from '../history/shots.ts';
import type { PartBox } from './bench-picture.ts';
import { type Ground, ground, HIGH, WIDE, wrap } from './grounds.ts';
import type { Sheet } from './read-sheets.ts';

const QUALITY = 80;
export const PIXELS = 720;
/** Width at which a part is looked for on its sheet; a box is good to half of a hundredth of the sheet. */
const LOOK = 480;

/** Where marks are on their sheet, found by looking at the pixels; null where nothing is drawn. */
export async function boxOf(sheet: Sheet, marks: string): Promise<PartBox | null> {
  const k = sheet.width / LOOK;
  const high = Math.round(sheet.height / k);
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="${LOOK}" height="${high}" viewBox="0 0 ${sheet.width} ${sheet.height}">${sheet.look}${marks}</svg>`;
  const { data, info } = await sharp(Buffer.from(svg)).extractChannel(3).raw().toBuffer({ resolveWithObject: true });
  let [left, top, right, bottom] = [info.width, info.height, -1, -1];
  for (let y = 0; y < info.height; y += 1) {
    for (let x = 0; x < info.width; x += 1) {
      if ((data[y * info.width + x] ?? 0) < 24) continue;
      left = Math.min(left, x);
      right = Math.max(right, x);
      top = Math.min(top, y);
      bottom = Math.max(bottom, y);
    }
  }
  return right < 0 ? null : { x: left * k, y: top * k, w: (right - left + 1) * k, h: (bottom - top + 1) * k };
}

/** The grounds as pixels, made once. */
export class Grounds {
  private readonly made = new Map<string, Promise<Buffer>>();

  raw(kind: Ground): Promise<Buffer> {
    const had = this.made.get(kind);
    if (had !== undefined) return had;
    const fresh = sharp(Buffer.from(ground(kind, PIXELS)))
      .removeAlpha()
      .raw()
      .toBuffer();
    this.made.set(kind, fresh);
    return fresh;
  }
}

/** What lies on a ground; or, with none, a whole picture. */
export interface Drawing {
  readonly body: string;
  readonly ground: Ground | null;
  /** How wide, where it is not of the common size. */
  readonly pixels?: number;
}

export async function jpegOf(
  drawing: Drawing,
  shot: Pick<Shot, 'camera' | 'time' | 'zone'>,
  grounds: Grounds,
): Promise<Buffer> {
  const svg = Buffer.from(wrap(drawing.body, drawing.pixels ?? PIXELS));
  const image =
    drawing.ground === null
      ? sharp(svg).flatten({ background: '#F4EFE2' })
      : sharp(await grounds.raw(drawing.ground), {
          raw: { width: PIXELS, height: (PIXELS * HIGH) / WIDE, channels: 3 },
        }).composite([{ input: svg }]);
  const camera = CAMERAS[shot.camera];
  return image
    .withExif({
      IFD0: { Make: `${camera.make}, invented`, Model: camera.model, ImageDescription: DRAWN, DateTime: shot.time },
      IFD2: { DateTimeOriginal: shot.time, ...(shot.zone !== null && { OffsetTimeOriginal: shot.zone }) },
    })
    .jpeg({ quality: QUALITY, mozjpeg: false })
    .toBuffer();
}
