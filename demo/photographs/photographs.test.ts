/**
 * The drawn photographs: real JPEG files, with the time as each camera writes it and no place; the same each time.
 * EXIF tags by CIPA DC-008 (Exif 2.32): 0x9003 DateTimeOriginal, 0x9011 OffsetTimeOriginal; read with exifr.
 */
import { join } from 'node:path';
import exifr from 'exifr';
import sharp from 'sharp';
import { beforeAll, describe, expect, it } from 'vitest';
import { bothDays } from '../history/index.ts';
import { CAMERAS, cameraTime, type Pictures, type Shot } from '../history/shots.ts';
import { LINES } from '../parts.ts';
import { fitted, letters, widthOf } from './lettering.ts';
import { makePictures, PictureMaker } from './make-pictures.ts';
import { readSheets } from './read-sheets.ts';

const TOP = join(import.meta.dirname, '..', '..');
const [november, april] = bothDays();

/** One of each sort of picture, and one from each camera. */
const SAMPLE: readonly Shot[] = [
  ...new Map([
    ...april.shots.map((s) => [s.picture.show, s] as const),
    ...april.shots.map((s) => [s.camera, s] as const),
  ]).values(),
];
const files = new Map<string, Buffer>();

beforeAll(async () => {
  await makePictures(SAMPLE, new PictureMaker(TOP), async (shot, file) => void files.set(shot.id, file));
}, 60_000);

describe('each file', () => {
  it('decodes whole, in the shape of a photograph', async () => {
    expect(files.size).toBe(new Set(SAMPLE.map((s) => s.id)).size);
    for (const [id, file] of files) {
      const { info } = await sharp(file, { failOn: 'warning' }).raw().toBuffer({ resolveWithObject: true });
      expect(info.width / info.height, id).toBeCloseTo(4 / 3, 2);
      expect(info.width >= 640 && info.width <= 960, id).toBe(true);
    }
  });

  it('carries the time as its camera writes it, the camera’s invented name, and no place', async () => {
    for (const shot of SAMPLE) {
      const exif = await exifr.parse(files.get(shot.id) ?? Buffer.alloc(0), { reviveValues: false, gps: true });
      expect(exif.DateTimeOriginal, shot.id).toBe(shot.time);
      expect(exif.OffsetTimeOriginal ?? null, shot.id).toBe(shot.zone);
      expect(exif.Make, shot.id).toBe(`${CAMERAS[shot.camera].make}, invented`);
      expect(exif.ImageDescription, shot.id).toBe('drawn for the demonstration');
      expect(Object.keys(exif).filter((k) => /gps|latitude|longitude/i.test(k))).toEqual([]);
    }
    expect(SAMPLE.some((s) => s.zone === null) && SAMPLE.some((s) => s.zone !== null)).toBe(true);
  });

  it('is the same when it is drawn again', async () => {
    const again = new PictureMaker(TOP);
    for (const shot of SAMPLE.slice(0, 3))
      expect((await again.make(shot)).equals(files.get(shot.id) as Buffer)).toBe(true);
  });

  it('is no blank: a picture of a part differs from the next one in many of its pixels', async () => {
    const grey = async (id: string) => sharp(files.get(id)).resize(80, 60).greyscale().raw().toBuffer();
    const parts = SAMPLE.filter((s) => s.picture.show === 'part' || s.picture.show === 'tray');
    const [a, b] = await Promise.all(parts.slice(0, 2).map((s) => grey(s.id)));
    const differ = [...(a ?? [])].filter((v, i) => Math.abs(v - (b?.[i] ?? 0)) > 12).length;
    expect(differ).toBeGreaterThan(200);
  });
});

describe('the story', () => {
  it('with its pictures has the same entries, and the photographs beside them', () => {
    const pictures: Pictures = new Map(
      april.shots.map((s, i) => [
        s.id,
        {
          hash: i.toString(16).padStart(64, '0'),
          mime: 'image/jpeg',
          bytes: 1,
          width: 4,
          height: 3,
          takenAsWritten: s.time,
        },
      ]),
    );
    const [first, second] = bothDays(pictures);
    const sorts = (told: typeof first) => told.drafts.filter((d) => !/^(photo-taken|place-noted)/.test(d.kind));
    expect(sorts(second).map((d) => [d.at, d.kind])).toEqual(sorts(april).map((d) => [d.at, d.kind]));
    expect(second.drafts.filter((d) => d.kind === 'photo-taken.v1')).toHaveLength(april.shots.length);
    expect(second.drafts.slice(0, first.drafts.length).map((d) => d.body)).toEqual(first.drafts.map((d) => d.body));
    const walls = first.drafts.filter((d) => d.kind === 'place-noted.v1' && 'wall' in (d.data as object));
    expect(walls).toHaveLength(62);
    expect(first.drafts.some((d) => d.kind === 'thickness-noted.v1' && 'photo' in (d.data as object))).toBe(true);
  });

  it('photographs every bag that was filled, and says on each that it is drawn', () => {
    const shown = new Set(april.shots.flatMap((s) => s.of));
    const bagged = new Set(
      april.drafts.filter((d) => d.kind === 'bagged.v1').map((d) => (d.data as { bag: string }).bag),
    );
    expect(LINES.filter((l) => bagged.has(l.bag) && !shown.has(l.bag)).map((l) => l.id)).toEqual([]);
    expect(april.shots.every((s) => s.caption.endsWith('(drawn for the demonstration)'))).toBe(true);
    expect(new Set(april.shots.map((s) => s.id)).size).toBe(april.shots.length);
    expect(november.shots.length).toBeLessThan(april.shots.length);
  });
});

describe('a camera', () => {
  it('with a zone writes it; the one without was left on summer time and is an hour fast in winter', () => {
    expect(cameraTime('2025-11-17T16:50:00+00:00', 'joss-tablet')).toEqual({
      time: '2025:11:17 16:50:00',
      zone: '+00:00',
    });
    expect(cameraTime('2025-09-01T10:00:00+01:00', 'bench-laptop')).toEqual({
      time: '2025:09:01 10:00:00',
      zone: null,
    });
    expect(cameraTime('2025-11-17T23:30:00+00:00', 'bench-laptop')).toEqual({
      time: '2025:11:18 00:30:00',
      zone: null,
    });
  });
});

describe('letters and sheets', () => {
  it('every sign of the parts list and the codes can be lettered', () => {
    const drawn = (c: string) => letters(c, { x: 0, y: 0, size: 10, colour: '#000' }).includes('<path');
    const text = LINES.map((l) => `${l.id}${l.bag}${l.name}`)
      .join('')
      .toUpperCase()
      .normalize('NFD')
      .replace(/\p{M}/gu, '');
    expect([...new Set(text)].filter((c) => c !== ' ' && !drawn(c))).toEqual([]);
  });

  it('words are broken so that they fit', () => {
    const rows = fitted('Water rudder lift cord pulley', 110, 10, 3);
    expect(rows.join(' ')).toBe('Water rudder lift cord pulley');
    expect(rows.every((r) => widthOf(r) * 10 <= 110)).toBe(true);
  });

  it('most lines of the list are drawn on a sheet, and its marks hold no letters', () => {
    const sheets = readSheets(join(TOP, 'demo', 'drawings'));
    const drawn = LINES.filter((l) => sheets.some((s) => s.parts.has(l.id)));
    expect(drawn.length).toBeGreaterThan(180);
    for (const s of sheets) expect(s.drawn, s.id).not.toMatch(/<text|data-for=/);
  });
});
