/**
 * What is given away carries nothing but the picture: a JPEG with place, serial number, XMP and IPTC goes in, and what
 * comes out is looked through by exifr and byte for byte. IPTC block: IIM 4.2 in a Photoshop resource, from memory.
 */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import exifr from 'exifr';
import sharp from 'sharp';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { picture, tempFolder } from '../store/testing/temp.ts';
import { withSegment } from './testing/jpeg-segment.ts';
import { type ServedJob, serveJob } from './testing/served-job.ts';

let served: ServedJob;
beforeEach(async () => {
  served = await serveJob(tempFolder());
});
afterEach(async () => served.close());

const post = (bytes: Uint8Array) => served.send('/api/jobs/try/photos', bytes, 'image/jpeg');
const photoFiles = (): string[] =>
  readdirSync(join(served.folder, 'try.job', 'photos'), { recursive: true, withFileTypes: true })
    .filter((e) => e.isFile())
    .map((e) => join(e.parentPath, e.name));

describe('what is given away', () => {
  const SECRETS = [
    'SERIAL-QX-0042',
    'secret-caption',
    'GPSLatitude',
    'Exif',
    'xmpmeta',
    'Photoshop 3.0',
    'ICC_PROFILE',
  ];

  async function telling(): Promise<Buffer> {
    const base = await sharp(await picture(640, 480))
      .withExif({
        IFD0: { Model: 'Invented camera', ImageDescription: 'secret-caption', Orientation: '6' },
        IFD2: { DateTimeOriginal: '2025:09:15 10:02:11', BodySerialNumber: 'SERIAL-QX-0042' },
        IFD3: {
          GPSLatitudeRef: 'N',
          GPSLatitude: '51/1 30/1 3230/100',
          GPSLongitudeRef: 'W',
          GPSLongitude: '0/1 7/1 4366/100',
        },
      })
      .withXmp(
        '<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description rdf:about="secret-caption"/></rdf:RDF></x:xmpmeta>',
      )
      .jpeg()
      .toBuffer();
    const iptc = Buffer.from('Photoshop 3.0\x008BIM\x04\x04\0\0\0\0\0\x13\x1c\x02\x78\0\x0esecret-caption\0', 'latin1');
    return withSegment(base, 0xed, iptc);
  }

  it('carries no place, no serial number, no text; the original stays as it was', async () => {
    const bytes = await telling();
    const told = bytes.toString('latin1');
    for (const secret of ['SERIAL-QX-0042', 'secret-caption', 'Exif', 'xmpmeta', 'Photoshop 3.0'])
      expect(told.includes(secret), `${secret} in the original`).toBe(true);
    const gps = await exifr.gps(bytes);
    expect([gps.latitude.toFixed(4), gps.longitude.toFixed(4)]).toEqual(['51.5090', '-0.1288']);
    const { hash } = (await post(bytes)).json() as { hash: string };
    for (const size of ['share', 'print', 'thumb']) {
      const got = await served.get(`/api/jobs/try/photos/${hash}/${size}`);
      expect(got.statusCode).toBe(200);
      const all = { tiff: true, exif: true, gps: true, xmp: true, icc: true, iptc: true, jfif: false, ifd1: true };
      expect(await exifr.parse(got.rawPayload, all as object).catch(() => undefined)).toBeUndefined();
      const text = got.rawPayload.toString('latin1');
      for (const secret of SECRETS) expect(text.includes(secret), `${secret} in ${size}`).toBe(false);
    }
    const original = await served.get(`/api/jobs/try/photos/${hash}/original`);
    expect(original.rawPayload.equals(bytes)).toBe(true);
    const kept = photoFiles().filter((f) => f.endsWith(`${hash}.jpg`));
    expect(kept.map((f) => [statSync(f).size, readFileSync(f).equals(bytes)])).toEqual([[bytes.length, true]]);
  });

  it('is upright and of full size', async () => {
    const { hash, width, height } = (await post(await telling())).json() as {
      hash: string;
      width: number;
      height: number;
    };
    const share = await sharp((await served.get(`/api/jobs/try/photos/${hash}/share`)).rawPayload).metadata();
    expect([share.width, share.height, share.orientation]).toEqual([width, height, undefined]);
  });

  it('of a photograph that is not here is not found', async () => {
    expect((await served.get(`/api/jobs/try/photos/${'0'.repeat(64)}/share`)).statusCode).toBe(404);
  });
});
