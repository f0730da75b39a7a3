/** Shop and devices: a list and a ZIP are shown before they are taken in, a door that is shut says so; axe, thumbs. */
import { AxeBuilder } from '@axe-core/playwright';
import { zipSync } from 'fflate';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Demo, open, SPRING_DAY, startDemo } from './support/demo.ts';

let demo: Demo;
beforeAll(async () => {
  demo = await startDemo();
});
afterAll(async () => demo.end());

const PATH = `/shop?job=${SPRING_DAY}`;
const THUMB_PX = 76;

async function headSeq(): Promise<number> {
  const jobs = (await (await fetch(`${demo.address}/api/jobs`)).json()) as { id: string; head: { seq: number } }[];
  return jobs.find((j) => j.id === SPRING_DAY)?.head.seq ?? 0;
}

test('a parts list is shown row by row, and recorded only when it is said to', async () => {
  const { page, context, complaints } = await open(demo, PATH);
  const before = await headSeq();
  const list = 'Nr;Benennung;Menge\n99-01;Spare clip;2\n99-02;;1\n';
  await page.setInputFiles('input[aria-label="A list or a ZIP"]', {
    name: 'liste.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(list),
  });
  await page.getByRole('heading', { name: /1 new line, 0 changed, 0 unchanged, 1 refused/ }).waitFor();
  expect(await page.locator('tr.refused').count()).toBe(1);
  expect(await headSeq()).toBe(before);
  await page.getByRole('button', { name: 'Take in the rest, leave the refused rows' }).click();
  await page.getByText(/entries recorded/).waitFor();
  expect(await headSeq()).toBeGreaterThan(before);
  expect(complaints).toEqual([]);
  await context.close();
});

test('a ZIP of photographs says what each is and that the zone is not written', async () => {
  const { page, context } = await open(demo, PATH);
  const jpeg = await sharp({ create: { width: 64, height: 48, channels: 3, background: '#777' } })
    .withExif({ IFD2: { DateTimeOriginal: '2025:09:15 10:02:11' } })
    .jpeg()
    .toBuffer();
  const pile = zipSync({ 'bow.jpg': jpeg, 'not-a-picture.jpg': Buffer.from('<svg onload="x()"/>') });
  await page.setInputFiles('input[aria-label="A list or a ZIP"]', {
    name: 'pile.zip',
    mimeType: 'application/zip',
    buffer: Buffer.from(pile),
  });
  await page.getByRole('heading', { name: /1 new photograph, 0 here already, 1 refused/ }).waitFor();
  await page
    .getByText(/zone not written/)
    .first()
    .waitFor();
  await page.getByRole('button', { name: 'Take them in' }).click();
  await page.getByText(/recorded/).waitFor();
  await context.close();
});

test('a shop that is not on the network says how that is, when a code is asked for', async () => {
  const { page, context } = await open(demo, PATH);
  await page.getByRole('button', { name: 'New code' }).click();
  expect(await page.getByRole('alert').textContent()).toMatch(/this machine only/);
  await context.close();
});

for (const kind of ['desk', 'phone'] as const)
  for (const light of ['light', 'dark'] as const)
    test(`${kind}, ${light}: axe finds nothing, and keys are for a thumb`, async () => {
      const { page, context } = await open(demo, PATH, kind, light);
      await page.getByRole('button', { name: 'New code' }).waitFor();
      const { violations } = await new AxeBuilder({ page }).analyze();
      expect(violations.map((v) => `${v.id}: ${v.nodes[0]?.target.join(' ')}`)).toEqual([]);
      if (kind === 'phone') {
        const box = await page.getByRole('button', { name: 'New code' }).boundingBox();
        expect(box?.height ?? 0).toBeGreaterThanOrEqual(THUMB_PX);
      }
      await context.close();
    });
