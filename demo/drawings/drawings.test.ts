/** The sheets of the demo keep to how we draw: five colours, known parts, no raster, marked invented. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { LINES } from '../parts.ts';

const sheets = readdirSync(import.meta.dirname)
  .filter((f) => f.endsWith('.svg'))
  .map((name) => ({ name, text: readFileSync(join(import.meta.dirname, name), 'utf8') }));
const lines = new Set(LINES.map((l) => l.id));
const all = (text: string, pattern: RegExp) => [...text.matchAll(pattern)].map((m) => m[1] ?? m[0]);

/** The whole set: three views, all twelve assemblies, and the frame that was torn. */
const SET = [
  'controls-fuel-electrics.svg',
  'engine.svg',
  'frame-c9.svg',
  'front.svg',
  'gear-drive.svg',
  'gear-leg-exploded.svg',
  'gear-leg-starboard.svg',
  'hull-aft.svg',
  'hull-fore.svg',
  'plan.svg',
  'side.svg',
  'tail-unit.svg',
  'tail-wheel-exploded.svg',
  'tip-floats.svg',
  'wing-centre.svg',
  'wing-panels.svg',
];

test('the whole set is there, each sheet under 120 kB', () => {
  expect(sheets.map((s) => s.name).sort()).toEqual(SET);
  for (const s of sheets) expect(s.text.length, s.name).toBeLessThan(120_000);
});

test('the page’s catalogue names the same set', () => {
  const page = readFileSync(join(import.meta.dirname, '../../src/web/drawing/catalogue.ts'), 'utf8');
  const named = all(page, /\{ id: '([a-z0-9-]+)', name: /g).map((id) => `${id}.svg`);
  expect(named.sort()).toEqual(SET);
});

test('every part drawn and every balloon is a line of the parts list', () => {
  for (const s of sheets) {
    const drawn = [...all(s.text, /data-part="([^"]+)"/g), ...all(s.text, /data-for="([^"]+)"/g)];
    expect(drawn.length, s.name).toBeGreaterThan(0);
    expect(
      drawn.filter((id) => !lines.has(id)),
      s.name,
    ).toEqual([]);
  }
});

test('only the five variables of the look are colours, so that day and night both hold', () => {
  const known = new Set(['paper', 'ink', 'ink-2', 'hair', 'signal', 'lettering']);
  for (const s of sheets) {
    expect(
      [...new Set(all(s.text, /var\(--([a-z0-9-]+)/g))].filter((v) => !known.has(v)),
      s.name,
    ).toEqual([]);
    const bare = s.text.replace(/var\([^)]*\)/g, '').match(/#[0-9a-fA-F]{3,8}\b(?=[;"'\s}])/g) ?? [];
    expect(bare, s.name).toEqual([]);
  }
});

test('each sheet is titled, marked invented, and holds no raster, script or outside file', () => {
  for (const s of sheets) {
    expect(s.text, s.name).toMatch(/<title id=/);
    expect(s.text.toLowerCase(), s.name).toContain('invented example');
    expect(s.text, s.name).toContain('class="heading"');
    expect(s.text, s.name).not.toMatch(/<image|<script|xlink:href|href="(?!#)/);
  }
});

test('ids do not repeat within a sheet', () => {
  for (const s of sheets) {
    const ids = all(s.text, /\sid="([^"]+)"/g);
    expect(
      ids.filter((id, at) => ids.indexOf(id) !== at),
      s.name,
    ).toEqual([]);
  }
});
