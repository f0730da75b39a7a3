/** One suite for every implementation of the photographs port. */
import { createHash } from 'node:crypto';
import { deflateSync } from 'node:zlib';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { must } from '../../domain/result.ts';
import type { Photographs } from '../../journal/ports.ts';
import { picture } from './temp.ts';

const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** A PNG whose heading claims a size and whose data are a few bytes: a bomb costs its maker nothing. */
function claimingPng(width: number, height: number): Buffer {
  const chunk = (type: string, data: Buffer): Buffer => {
    const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
    const whole = Buffer.alloc(body.length + 8);
    whole.writeUInt32BE(data.length, 0);
    body.copy(whole, 4);
    whole.writeUInt32BE(crc32(body), body.length + 4);
    return whole;
  };
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 2, 0, 0, 0], 8);
  const signature = Buffer.from('\x89PNG\r\n\x1a\n', 'latin1');
  return Buffer.concat([
    signature,
    chunk('IHDR', head),
    chunk('IDAT', deflateSync(Buffer.alloc(1_000))),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}

const EMPTY_ZIP = Buffer.from('PK\x05\x06' + '\0'.repeat(18), 'latin1');

export function photographsAcceptance(name: string, open: () => Photographs): void {
  describe(`photographs port: ${name}`, () => {
    it('gives back the very bytes under their SHA-256, and says size and kind', async () => {
      const photographs = open();
      const bytes = await picture(3000, 2000);
      const info = must(await photographs.put(bytes));
      expect(info).toEqual({ hash: sha256(bytes), mime: 'image/jpeg', bytes: bytes.length, width: 3000, height: 2000 });
      expect(Buffer.from(must(await photographs.get(info.hash, 'original')).bytes)).toEqual(bytes);
      expect(await photographs.has(info.hash)).toBe(true);
    });

    it('makes a print and a thumbnail, never larger than the original', async () => {
      const photographs = open();
      const large = must(await photographs.put(await picture(3000, 1500)));
      const small = must(await photographs.put(await picture(200, 100)));
      const edge = async (hash: string, size: 'print' | 'thumb'): Promise<number | undefined> =>
        (await sharp(must(await photographs.get(hash, size)).bytes).metadata()).width;
      expect([await edge(large.hash, 'print'), await edge(large.hash, 'thumb')]).toEqual([2048, 320]);
      expect([await edge(small.hash, 'print'), await edge(small.hash, 'thumb')]).toEqual([200, 200]);
    });

    it('turns the small sizes upright and tells the upright size', async () => {
      const photographs = open();
      const lying = await sharp({ create: { width: 400, height: 300, channels: 3, background: '#888' } })
        .withMetadata({ orientation: 6 })
        .jpeg()
        .toBuffer();
      const info = must(await photographs.put(lying));
      expect([info.width, info.height]).toEqual([300, 400]);
      expect((await sharp(must(await photographs.get(info.hash, 'print')).bytes).metadata()).height).toBe(400);
    });

    it("keeps the camera's own text for the time, never converted", async () => {
      const photographs = open();
      const dated = await sharp(await picture(64, 64))
        .withExif({ IFD2: { DateTimeOriginal: '2026:02:30 25:61:00', OffsetTimeOriginal: '+01:00' } })
        .jpeg()
        .toBuffer();
      expect(must(await photographs.put(dated)).takenAsWritten).toBe('2026:02:30 25:61:00 +01:00');
    });

    it('takes JPEG, PNG, WebP and AVIF by content', async () => {
      const photographs = open();
      const base = sharp(await picture(64, 48));
      const made = [
        await base.clone().png().toBuffer(),
        await base.clone().webp().toBuffer(),
        await base.clone().avif().toBuffer(),
      ];
      const kinds = [];
      for (const bytes of made) kinds.push(must(await photographs.put(bytes)).mime);
      expect(kinds).toEqual(['image/png', 'image/webp', 'image/avif']);
    });

    it('putting twice keeps one', async () => {
      const photographs = open();
      const bytes = await picture(50, 50);
      expect(must(await photographs.put(bytes))).toEqual(must(await photographs.put(bytes)));
    });

    it.each<[string, () => Promise<Buffer>, string]>([
      [
        'an SVG',
        async () => Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"><script>1</script></svg>'),
        'PHOTO_KIND',
      ],
      ['a text', async () => Buffer.from('not a photograph at all'), 'PHOTO_KIND'],
      ['nothing', async () => Buffer.alloc(0), 'PHOTO_KIND'],
      [
        'a GIF',
        async () =>
          sharp(await picture(20, 20))
            .gif()
            .toBuffer(),
        'PHOTO_KIND',
      ],
      ['a photograph that is an archive', async () => Buffer.concat([await picture(20, 20), EMPTY_ZIP]), 'PHOTO_MIXED'],
      [
        'a photograph that is a document',
        async () =>
          Buffer.concat([
            Buffer.from([0xff, 0xd8, 0xff, 0xfe, 0, 12]),
            Buffer.from('%PDF-1.7\n\n'),
            (await picture(20, 20)).subarray(2),
          ]),
        'PHOTO_MIXED',
      ],
      [
        'a photograph that is a page',
        async () =>
          Buffer.concat([
            Buffer.from([0xff, 0xd8, 0xff, 0xfe, 0, 12]),
            Buffer.from('<script>1;'),
            (await picture(20, 20)).subarray(2),
          ]),
        'PHOTO_MIXED',
      ],
      ['a photograph that ends too early', async () => (await picture(800, 600)).subarray(0, 900), 'PHOTO_CUT'],
      ['first bytes and nothing behind', async () => Buffer.from([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3, 4]), 'PHOTO_CUT'],
      ['more pixels than a decoder should be asked for', async () => claimingPng(60_000, 60_000), 'PHOTO_TOO_LARGE'],
    ])('refuses %s', async (_what, make, code) => {
      const photographs = open();
      const bytes = await make();
      expect(await photographs.put(bytes)).toMatchObject({ ok: false, problem: { code } });
      expect(await photographs.has(sha256(bytes))).toBe(false);
    });

    it('a hash that is not there, and a text that is none, are Problems', async () => {
      const photographs = open();
      expect(await photographs.get('0'.repeat(64), 'thumb')).toMatchObject({
        ok: false,
        problem: { code: 'PHOTO_NOT_FOUND' },
      });
      expect(await photographs.get('../../journal.db', 'original')).toMatchObject({
        ok: false,
        problem: { code: 'PHOTO_NOT_FOUND' },
      });
      expect(await photographs.has('../../journal.db')).toBe(false);
    });
  });
}
