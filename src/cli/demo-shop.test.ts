/** The invented shop as a person gets it: three jobs that open whole, with every photograph and sound they speak of. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { must } from '../domain/result.ts';
import { openShop } from '../store/index.ts';
import { makeDemoShop } from './demo-shop.ts';

const folder = join(mkdtempSync(join(tmpdir(), 'witnessmark-demo-test-')), 'shop');
const said: string[] = [];

beforeAll(async () => {
  await makeDemoShop(folder, (words) => said.push(words));
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('has QX-OLA on two days and the wreck, each open for writing with nothing amiss', async () => {
  const shop = must(openShop(folder));
  expect(shop.jobs()).toEqual(['qx-ola', 'qx-ola-2026-04-14', 'wreck-qd-07']);
  const photographs: number[] = [];
  for (const name of shop.jobs()) {
    const job = must(shop.openJob(name));
    expect([job.problems, job.readOnly, job.state.job?.invented], name).toEqual([[], false, true]);
    for (const [hash, photo] of job.state.photosByHash) {
      const kept = must(await job.photographs.get(hash, 'original'));
      expect([kept.bytes.length, kept.mime], photo.caption).toEqual([photo.bytes, photo.mime]);
      expect(must(await job.photographs.get(hash, 'thumb')).bytes.length).toBeGreaterThan(1_000);
      expect(photo.takenAsWritten, photo.caption).toMatch(/^202[56]:\d\d:\d\d \d\d:\d\d:\d\d( [+-]\d\d:\d\d)?$/);
    }
    for (const sound of [...job.state.sounds.values()].flat()) {
      const kept = must(await job.sounds.get(sound.hash));
      expect([kept.bytes.length, kept.mime]).toEqual([sound.bytes, 'audio/wav']);
      expect(sound.transcript?.text).toContain('made for the demonstration');
    }
    for (const place of job.state.places.values())
      if (place.wall !== undefined) expect(job.state.photosByHash.has(place.wall.photo), place.place).toBe(true);
    photographs.push(job.state.photosByHash.size);
    job.close();
  }
  shop.close();
  expect(photographs[0]).toBeGreaterThan(40);
  expect(photographs[1]).toBeGreaterThan(photographs[0] ?? 0);
  expect(said[0]).toMatch(/^drawing \d+ photographs$/);
});
