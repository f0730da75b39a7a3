/** The first-time user's job: the least to undo to take the tail-wheel spring out, at the desk with keys alone. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Demo, open, ROW, rowsOf, settled, startDemo } from './support/demo.ts';

let demo: Demo;
beforeAll(async () => {
  demo = await startDemo();
});
afterAll(async () => demo.end());

test('keys alone: find the spring, see the gate before the nut, record two steps and a "stuck", see the plan change, undo', async () => {
  const { page, complaints } = await open(demo, '/');
  await page.getByRole('heading', { name: 'What do you want off?' }).waitFor();
  expect(await page.title()).toBe('Getting it off · Witnessmark');
  await page.keyboard.press('/');
  await page.keyboard.type('main spring');
  await page
    .getByRole('option', { name: /Main spring/ })
    .first()
    .waitFor();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await settled(page);
  expect(page.url()).toContain('goal=10-03');

  // Scenario of the demo: eight steps, 1:12 h, two other ways from 1:31 h.
  const answer = await page.locator('.answer').innerText();
  expect(answer).toMatch(/8\s*steps/);
  expect(answer).toContain('1:12');
  expect(answer).toContain('the least there is, proved');
  const rows = await rowsOf(page);
  const at = (what: RegExp) => rows.findIndex((r) => what.test(r));
  expect(at(/GATE/i)).toBeGreaterThanOrEqual(0);
  expect(at(/GATE/i)).toBe(at(/^\d+\s*Fit the captive press/) - 1);
  expect(at(/Fit the captive press/)).toBeLessThan(at(/^\d+\s*Back off the retaining nut/));
  expect(rows[at(/GATE/i)]).toContain('Nobody has settled: free length of the fitted tail-wheel spring measured');

  // Two steps: Enter in the list is "did it", whichever step the plan begins with.
  await page.locator(`${ROW}[aria-selected="true"]`).focus();
  for (const left of [7, 6]) {
    const step = (await page.locator(`${ROW}[aria-selected="true"] .t`).innerText()).trim();
    await page.keyboard.press('Enter');
    await page.locator('.recorded', { hasText: step }).waitFor();
    await page.locator('.answer', { hasText: new RegExp(`^${left}\\s*steps`) }).waitFor();
    await settled(page);
  }
  expect(await page.locator('.row.done').count()).toBeGreaterThan(0);

  // Stuck: saved first, then what touches it.
  await page.keyboard.press('s');
  await page.getByRole('heading', { name: 'Stop. Do not force it.' }).waitFor();
  await page
    .getByRole('button', { name: /Dust boot|Tail-wheel leg tube|Spring seat|Sliding tube|Fork/ })
    .first()
    .focus();
  await page.keyboard.press('Enter');
  await page.locator('.note-line', { hasText: 'The plan changed: now also' }).waitFor();
  await page.locator('.row .rev').first().waitFor();
  const changed = await page.locator('.answer').innerText();

  await page.keyboard.press('u');
  await page.waitForFunction((was) => document.querySelector<HTMLElement>('.answer')?.innerText !== was, changed);
  await settled(page);
  expect(await page.locator('.answer').innerText()).toMatch(/6\s*steps/);
  expect(complaints).toEqual([]);
});

test('a step that is not open yet is not recorded by a slip: the key asks why', async () => {
  const { page, complaints } = await open(demo, '/off?goal=10-03');
  await settled(page);
  await page.locator(ROW, { hasText: 'Back off the retaining nut' }).last().click();
  await page.getByRole('button', { name: 'Why not yet?' }).click();
  const leaf = page.getByRole('dialog');
  await leaf.getByText('Not yet. In the way:').waitFor();
  expect(await leaf.innerText()).toContain('Fit the captive press');
  await page.keyboard.press('Escape');
  await leaf.waitFor({ state: 'detached' });
  expect(complaints).toEqual([]);
});

test('list, tags and drawing light each other', async () => {
  const { page, complaints } = await open(demo, '/off?goal=10-03');
  await settled(page);
  await page.locator(ROW, { hasText: 'Back off the retaining nut' }).last().hover();
  await page.locator('.tag.lit', { hasText: 'Back off the retaining nut' }).waitFor();
  await page.locator('.tag', { hasText: 'Let the spring down' }).hover();
  await page.locator('.row.lit', { hasText: 'Let the spring down' }).waitFor();
  await page.getByRole('radio', { name: 'Drawing' }).click();
  await page.locator(ROW, { hasText: 'Back off the retaining nut' }).last().hover();
  await page.locator('.art [data-part="10-07"].is-lit').waitFor();
  await page.locator('.art [data-for="10-14"] .bn').hover();
  await page.locator('.row.lit', { hasText: 'wheel' }).first().waitFor();
  expect(complaints).toEqual([]);
});

test('what was recorded outlives a reload before it could be sent, and is sent after', async () => {
  const { page, context, complaints } = await open(demo, '/off?goal=10-03');
  await settled(page);
  await page.route('**/api/jobs/*/entries', (route) =>
    route.request().method() === 'POST' ? route.abort() : route.continue(),
  );
  await page.getByRole('button', { name: 'Stopped here' }).click();
  await page.getByRole('button', { name: 'nut finger-tight' }).click();
  await page.locator('.note-line', { hasText: 'nut finger-tight' }).waitFor();
  await page.locator('.title', { hasText: '1 to send' }).waitFor();
  await page.reload();
  await page.locator('.note-line', { hasText: 'nut finger-tight' }).waitFor();
  await page.unroute('**/api/jobs/*/entries');
  await page.waitForFunction(() => !document.querySelector('.title')?.textContent?.includes('to send'), undefined, {
    timeout: 30_000,
  });
  const other = await context.browser()!.newPage();
  await other.goto(`${demo.address}/off?goal=10-03`);
  await other.locator('.note-line', { hasText: 'nut finger-tight' }).waitFor();
  expect(complaints).toEqual([]);
});
