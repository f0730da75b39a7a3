/** Headers against sharp (libvips) and exifr, which read the same files by their own means. */
import exifr from 'exifr';
import sharp from 'sharp';
import { expect, it } from 'vitest';
import { readPhotoHeader } from './photo-header.ts';

const picture = (width: number, height: number) =>
  sharp({ create: { width, height, channels: 3, background: { r: 90, g: 120, b: 60 } } });

it.each([1, 3, 6, 8])('JPEG with orientation %i: the size as it stands upright', async (orientation) => {
  const bytes = await picture(64, 40).withMetadata({ orientation }).jpeg().toBuffer();
  const upright = await sharp(bytes).rotate().toBuffer({ resolveWithObject: true });
  expect(readPhotoHeader(bytes)).toMatchObject({
    mime: 'image/jpeg',
    size: { width: upright.info.width, height: upright.info.height },
  });
});

it('the camera’s text for the time stays as written, with its own offset', async () => {
  const exif = { IFD2: { DateTimeOriginal: '2026:04:14 08:31:07', OffsetTimeOriginal: '+02:00' } };
  const bytes = await picture(64, 40).withExif(exif).jpeg().toBuffer();
  const tags = await exifr.parse(bytes, { reviveValues: false, pick: ['DateTimeOriginal', 'OffsetTimeOriginal'] });
  expect(readPhotoHeader(bytes)?.takenAsWritten).toBe(`${tags.DateTimeOriginal} ${tags.OffsetTimeOriginal}`);
});

it('a progressive JPEG, a PNG, a WebP', async () => {
  expect(readPhotoHeader(await picture(31, 17).jpeg({ progressive: true }).toBuffer())?.size).toEqual({
    width: 31,
    height: 17,
  });
  expect(readPhotoHeader(await picture(31, 17).png().toBuffer())).toMatchObject({
    mime: 'image/png',
    size: { width: 31, height: 17 },
  });
  expect(readPhotoHeader(await picture(31, 17).webp().toBuffer())).toMatchObject({ mime: 'image/webp', size: null });
});

it('a JPEG cut anywhere never fails, and what is no picture is null', async () => {
  const exif = { IFD2: { DateTimeOriginal: '2026:04:14 08:31:07' } };
  const bytes = await picture(64, 40).withExif(exif).jpeg().toBuffer();
  for (let n = 0; n < bytes.length; n += 7) expect(() => readPhotoHeader(bytes.subarray(0, n))).not.toThrow();
  expect(readPhotoHeader(Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/>'))).toBeNull();
});
