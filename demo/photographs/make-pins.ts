/**
 * Writes `demo/history/pins.json`: where each line of the parts list sits on the sheet that draws it, read from the dots
 * of the balloons. Run by hand after a sheet is drawn or changed: `npx tsx demo/photographs/make-pins.ts`.
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { LINES } from '../parts.ts';
import { readSheets } from './read-sheets.ts';

const pins: Record<string, readonly [sheet: string, x: number, y: number]> = {};
for (const s of readSheets(join(import.meta.dirname, '..', 'drawings'))) {
  for (const [line, [x, y]] of s.dots) {
    const at = (n: number, whole: number) => Number((n / whole).toFixed(4));
    // The first sheet of two keeps a line, but a sheet of its own assembly goes before a general one.
    if (pins[line] === undefined) pins[line] = [s.id, at(x, s.width), at(y, s.height)];
  }
}
const sorted = Object.fromEntries(LINES.flatMap((l) => (pins[l.id] === undefined ? [] : [[l.id, pins[l.id]]])));
const rows = Object.entries(sorted).map(
  ([id, pin]) => `  ${JSON.stringify(id)}: ${JSON.stringify(pin).replaceAll(',', ', ')}`,
);
writeFileSync(join(import.meta.dirname, '..', 'history', 'pins.json'), `{\n${rows.join(',\n')}\n}\n`);
