/** The invented shop on disk: people and devices in shop.db, the two jobs with the entries that the history made. */
import { DEMO_DAYS, DEVICES, demoJob, PEOPLE } from '../../demo/history/index.ts';
import { must } from '../domain/result.ts';
import { createShop } from '../store/index.ts';
import { tell } from './io.ts';

export interface MadeDemo {
  readonly jobs: number;
  readonly entries: number;
}

export async function makeDemoShop(folder: string): Promise<MadeDemo> {
  const made = createShop(folder, 'Tarn Quay Aeroplane Works (invented)');
  if (!made.ok) return tell(made.problem);
  const shop = made.value;
  for (const person of PEOPLE) must(shop.notePerson(person));
  for (const device of DEVICES) must(shop.noteDevice(device));
  let entries = 0;
  for (const day of DEMO_DAYS) {
    const { name, drafts } = demoJob(day);
    const job = must(shop.createJob(name));
    must(await job.journal.append(null, drafts));
    job.close();
    entries += drafts.length;
  }
  shop.close();
  return { jobs: DEMO_DAYS.length, entries };
}
