/** The files of a released format, never edited: read, taken into a job, and written out again to the same bytes. */
import { createHash } from 'node:crypto';
import * as fs from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { must } from '../domain/result.ts';
import { fold } from '../journal/fold.ts';
import { fullKind, KIND_NAMES } from '../journal/kinds/kinds.ts';
import { UPGRADES } from '../journal/upgrades.ts';
import { exportJsonLines, fromJsonLines, importJsonLines } from './json-lines.ts';
import { tempFolder } from './testing/temp.ts';
import { verify } from './verify.ts';

const FOLDER = join(import.meta.dirname, '../../fixtures/journal');

/** SHA-256 of each file as it was released. A new format adds a row; no row ever changes. */
const RELEASED: Readonly<Record<string, string>> = {
  'format-1.jsonl': '74faad2a4efea153522fc43028f5355b32b63be26b8f014314a4ff5f3623ba19',
  'format-1-floor.jsonl': '37593250cead0f5f59b9c585fa549d364c9e84bcac4d148c0cde5c5878dddbf5',
  'format-1-loss.jsonl': '4442e40fb9fac46804686e70a68301c580af49dc9454ae3162defa5280a81e25',
};
const files = fs.readdirSync(FOLDER).filter((f) => f.endsWith('.jsonl'));
const textOf = (file: string): string => fs.readFileSync(join(FOLDER, file), 'utf8');

describe('[J4] journals of every released format', () => {
  it('are all there, and as they were released', () => {
    const found = files.map((f) => [f, createHash('sha256').update(textOf(f)).digest('hex')]);
    expect(Object.fromEntries(found)).toEqual(RELEASED);
  });

  it.each(files)('%s is taken in whole and goes out as the same bytes', async (file) => {
    const top = tempFolder();
    const job = join(top, 'a.job');
    must(await importJsonLines(join(FOLDER, file), job));
    // The fixture names a photograph and a sound it does not carry; everything else must hold.
    const problems = must(verify(job)).problems.filter(
      (p) => p.code !== 'PHOTO_NOT_FOUND' && p.code !== 'SOUND_NOT_FOUND',
    );
    expect(problems).toEqual([]);
    must(await exportJsonLines(job, join(top, 'out.jsonl')));
    expect(fs.readFileSync(join(top, 'out.jsonl'), 'utf8')).toBe(textOf(file));
  });

  it('hold every kind of entry and every older version of one, all of it understood', () => {
    const kinds = new Set<string>();
    const unknown: string[] = [];
    for (const file of files) {
      const { entries } = must(fromJsonLines(textOf(file)));
      const state = fold(entries);
      expect(state.unreadable, file).toEqual([]);
      expect(state.newer, file).toEqual([]);
      unknown.push(...state.unknown.map((e) => e.kind));
      for (const e of entries) kinds.add(e.kind);
    }
    // One kind that no version knows, to be kept.
    expect(unknown).toEqual(['weather-noted.v1']);
    for (const kind of [...KIND_NAMES.map(fullKind), ...Object.keys(UPGRADES)]) expect([...kinds]).toContain(kind);
  });
});
