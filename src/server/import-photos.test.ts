/** A ZIP of photographs over HTTP: what is said before, what is recorded, and that a second time changes nothing. */
import { strToU8, zipSync } from 'fflate';
import sharp from 'sharp';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { PilePlan } from '../app/intake/pile-types.ts';
import { recording } from '../journal/index.ts';
import { picture, tempFolder } from '../store/testing/temp.ts';
import { type ServedJob, serveJob } from './testing/served-job.ts';

let served: ServedJob;
beforeEach(async () => {
  served = await serveJob(tempFolder());
  await served.record(recording('part-line-noted', { line: 'leg-r', name: 'Leg, starboard' }));
});
afterEach(async () => served.close());

const dated = async (shade: number, time: string, zone?: string) =>
  sharp(await picture(64, 48, shade))
    .withExif({ IFD2: { DateTimeOriginal: time, ...(zone !== undefined && { OffsetTimeOriginal: zone }) } })
    .jpeg()
    .toBuffer();

async function camera(): Promise<Uint8Array> {
  const first = await dated(10, '2025:09:15 10:02:11');
  return zipSync({
    'DCIM/IMG_2.jpg': await dated(20, '2025:09:15 10:02:12', '+02:00'),
    'DCIM/IMG_1.jpg': first,
    'DCIM/copy.jpg': first,
    'B105C/IMG_3.jpg': await dated(30, '2025:09:15 09:00:00'),
    '../../leg-r.png': await picture(30, 30, 40),
    'cut.jpg': (await picture(900, 700, 50)).subarray(0, 3_000),
    'notes.txt': strToU8('not a photograph'),
    'more.zip': zipSync({ 'x.jpg': first }),
    '.hidden': strToU8('x'),
  });
}

type Answer = PilePlan & { readonly preview: boolean; readonly recorded: number };
const send = async (query: string, zip: Uint8Array) =>
  served.send(`/api/jobs/try/import/photos?${query}`, zip, 'application/zip');

describe('photographs in a ZIP', () => {
  it('are told one by one in the preview, and nothing is recorded or kept', async () => {
    const head = served.hosted.state.head.seq;
    const reply = await send('preview=true', await camera());
    expect(reply.statusCode).toBe(200);
    const plan = reply.json() as Answer;
    expect(plan).toMatchObject({ preview: true, recorded: 0, zoneNotWritten: 2, passedOver: 1 });
    expect(plan.counts).toEqual({ new: 5, 'same-as': 1, 'here-already': 0, refused: 2 });
    expect(plan.rows.map((r) => [r.file, r.what, r.taken.words, r.of, r.problem?.code ?? null])).toEqual([
      ['B105C/IMG_3.jpg', 'new', '2025:09:15 09:00:00, zone not written', ['B105C'], null],
      ['DCIM/IMG_1.jpg', 'new', '2025:09:15 10:02:11, zone not written', [], null],
      ['DCIM/copy.jpg', 'same-as', '2025:09:15 10:02:11, zone not written', [], null],
      ['DCIM/IMG_2.jpg', 'new', '2025:09:15 10:02:12 +02:00', [], null],
      ['cut.jpg', 'new', 'no time written', [], null],
      ['leg-r.png', 'new', 'no time written', ['leg-r'], null],
      ['more.zip', 'refused', 'no time written', [], 'ZIP_ENTRY_NESTED'],
      ['notes.txt', 'refused', 'no time written', [], 'PHOTO_KIND'],
    ]);
    expect(plan.rows.find((r) => r.file === 'leg-r.png')?.notices).toMatchObject([{ code: 'ZIP_NAME' }]);
    expect(plan.rows.find((r) => r.file === 'leg-r.png')?.ofBecause).toBe(
      'guessed from the file name "leg-r.png": leg-r',
    );
    expect(served.hosted.state.head.seq).toBe(head);
    expect(await served.job.photographs.has(plan.rows[0]?.photo?.hash ?? '')).toBe(false);
  });

  it('are recorded in order under the person, a cut one stops no other, and a second time changes nothing', async () => {
    const zip = await camera();
    const reply = await send('by=nadia&device=desk', zip);
    expect(reply.statusCode).toBe(201);
    const done = reply.json() as Answer;
    expect([done.recorded, done.counts]).toEqual([4, { new: 4, 'same-as': 1, 'here-already': 0, refused: 3 }]);
    expect(done.rows.filter((r) => r.problem !== null).map((r) => [r.file, r.problem?.code])).toEqual([
      ['cut.jpg', 'PHOTO_CUT'],
      ['more.zip', 'ZIP_ENTRY_NESTED'],
      ['notes.txt', 'PHOTO_KIND'],
    ]);
    const entries = served.hosted.state.log.filter((e) => e.kind.startsWith('photo-taken'));
    expect(entries.map((e) => [e.by, e.device])).toEqual(Array(4).fill(['nadia', 'desk']));
    const taken = [...served.hosted.state.photosByHash.values()];
    expect(taken.map((p) => p.takenAsWritten ?? null)).toEqual([
      '2025:09:15 09:00:00',
      '2025:09:15 10:02:11',
      '2025:09:15 10:02:12 +02:00',
      null,
    ]);
    expect(served.hosted.state.photos.get('B105C')).toHaveLength(1);
    for (const p of taken) expect(await served.job.photographs.has(p.hash)).toBe(true);
    const again = (await send('by=nadia', zip)).json() as Answer;
    expect([again.recorded, again.counts.new, again.counts['here-already']]).toEqual([0, 0, 5]);
    expect(again.rows.filter((r) => r.what === 'refused')).toHaveLength(3);
  });

  it('of one thing that was named are not guessed; nor when nothing is to be guessed', async () => {
    const zip = await camera();
    const named = (await send('preview=true&of=job', zip)).json() as Answer;
    expect(new Set(named.rows.filter((r) => r.what === 'new').map((r) => r.of.join()))).toEqual(new Set(['job']));
    const none = (await send('preview=true&guess=none', zip)).json() as Answer;
    expect(none.rows.every((r) => r.of.length === 0)).toBe(true);
  });

  it('that stand twice are of what both names say; those that are here keep what is recorded', async () => {
    const one = await picture(64, 48, 70);
    const zip = zipSync({ 'DCIM/IMG_9.jpg': one, 'sorted/B105C/IMG_9.jpg': one, 'sorted/leg-r.jpg': one });
    const plan = (await send('by=nadia', zip)).json() as Answer;
    expect(plan.rows.map((r) => [r.file, r.what, r.of, r.sameAs ?? null])).toEqual([
      ['DCIM/IMG_9.jpg', 'new', ['B105C', 'leg-r'], null],
      ['sorted/B105C/IMG_9.jpg', 'same-as', [], 'DCIM/IMG_9.jpg'],
      ['sorted/leg-r.jpg', 'same-as', [], 'DCIM/IMG_9.jpg'],
    ]);
    const again = (await send('preview=true&of=nowhere', zip)).json() as Answer;
    expect(again.rows[0]).toMatchObject({ what: 'here-already', of: ['B105C', 'leg-r'] });
    const other = zipSync({ 'x.jpg': await picture(64, 48, 71) });
    const said = (await send('preview=true&of=nowhere', other)).json() as Answer;
    expect(said.rows[0]?.ofBecause).toBe('you said so; nowhere is not recorded yet');
  });

  it('that are no ZIP, come from nobody, or under a strange query, give one Problem', async () => {
    const zip = await camera();
    expect((await send('preview=true', strToU8('no zip'))).json()).toMatchObject({ code: 'ZIP_SHAPE' });
    expect((await send('', zip)).json()).toMatchObject({ code: 'BODY_UNREADABLE', where: 'by' });
    expect((await send('preview=maybe', zip)).json()).toMatchObject({ code: 'BODY_UNREADABLE' });
    expect((await served.send('/api/jobs/..%2fother/import/photos?preview=true', zip)).statusCode).toBe(404);
  });
});
