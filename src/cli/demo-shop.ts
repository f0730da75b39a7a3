/**
 * The invented shop on disk: people and devices in shop.db, and three jobs: QX-OLA on its two days, and the wreck it robs.
 *
 * The pictures come first, since an entry names a photograph by its hash: the story is told once to learn what was
 * photographed and when, the pictures are drawn and put into their job, and the story is told again with their hashes.
 * All of November's files are April's too, so April's folder gets copies of them instead of drawing them twice.
 */
import { cpSync, existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { bothDays, DEVICES, donorJob, PEOPLE, type Told } from '../../demo/history/index.ts';
import type { Pictures } from '../../demo/history/shots.ts';
import { makePictures, PictureMaker } from '../../demo/photographs/make-pictures.ts';
import { must } from '../domain/result.ts';
import type { PhotoInfo } from '../journal/ports.ts';
import { createShop, type JobFolder, type ShopFolder } from '../store/index.ts';
import { tell } from './io.ts';

export interface MadeDemo {
  readonly jobs: number;
  readonly entries: number;
  readonly photographs: number;
}

export async function makeDemoShop(folder: string, say: (words: string) => void = () => {}): Promise<MadeDemo> {
  const made = createShop(folder, 'Tarn Quay Aeroplane Works (invented)');
  if (!made.ok) return tell(made.problem);
  const shop = made.value;
  for (const person of PEOPLE) must(shop.notePerson(person));
  for (const device of DEVICES) must(shop.noteDevice(device));
  const first = bothDays();
  const jobs = first.map((told) => must(shop.createJob(told.name))) as [JobFolder, JobFolder];
  const pictures = await drawAll(shop, jobs, first, say);
  say('writing the story down');
  let entries = 0;
  for (const [i, told] of bothDays(pictures).entries()) {
    const job = jobs[i];
    if (job !== undefined) entries += await writeDown(job, told);
  }
  const donor = donorJob();
  entries += await writeDown(must(shop.createJob(donor.name)), donor);
  shop.close();
  return { jobs: jobs.length + 1, entries, photographs: pictures.size };
}

async function writeDown(job: JobFolder, told: Told): Promise<number> {
  for (const sound of told.sounds) must(await job.sounds.put(sound.file));
  must(await job.journal.append(null, told.drafts));
  job.close();
  return told.drafts.length;
}

/** Every photograph of the story, drawn and kept: November's in its own job, the later ones in April's. */
async function drawAll(
  shop: ShopFolder,
  jobs: readonly [november: JobFolder, april: JobFolder],
  told: readonly [november: Told, april: Told],
  say: (words: string) => void,
): Promise<Pictures> {
  const early = new Set(told[0].shots.map((s) => s.id));
  const all = told[1].shots;
  const pictures = new Map<string, PhotoInfo>();
  say(`drawing ${all.length} photographs`);
  await makePictures(all, new PictureMaker(topOfProgram()), async (shot, file) => {
    const job = jobs[early.has(shot.id) ? 0 : 1];
    pictures.set(shot.id, must(await job.photographs.put(file)));
    if (pictures.size % 40 === 0) say(`${pictures.size} of ${all.length} drawn`);
  });
  const [from, to] = told.map((t) => join(shop.jobPath(t.name), 'photos')) as [string, string];
  cpSync(from, to, { recursive: true });
  return pictures;
}

/** The folder with `demo/drawings` in it, upwards from the bundle or from this file. */
function topOfProgram(): string {
  for (let at = dirname(fileURLToPath(import.meta.url)); at !== dirname(at); at = dirname(at))
    if (existsSync(join(at, 'demo', 'drawings'))) return at;
  throw new Error('internal: the drawings of the demonstration are not beside the program; report it');
}
