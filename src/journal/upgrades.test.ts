import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { draftEntry, splitKind } from './entry.ts';
import { fold } from './fold.ts';
import { isKindName, KIND_NAMES, KINDS, RETIRED_KINDS } from './kinds/kinds.ts';
import { draftOf, entriesOf, stampAt } from './testing/recorder.ts';
import { readData, tell, UPGRADES } from './upgrades.ts';

const FOLDER = join(import.meta.dirname, '../../fixtures/journal/upgrades');
const pairs = readdirSync(FOLDER).flatMap((file) => {
  const rows = JSON.parse(readFileSync(join(FOLDER, file), 'utf8')) as { before: unknown; after: unknown }[];
  return rows.map((row, i) => ({ kind: file.replace(/\.json$/, ''), i, ...row }));
});
const ran = new Set<string>();

describe('upgrades of old entries', () => {
  it.each(pairs)('$kind, pair $i, reads as today', ({ kind, before, after }) => {
    ran.add(kind);
    expect(tell(kind, before)).toEqual({ is: 'known', name: splitKind(kind).name, data: after });
  });

  it('an old entry and a new one that say the same fold to the same', () => {
    const old = fold(entriesOf([draftEntry(stampAt(1), 'step-done.v1', { action: 'hinge', unplanned: true })]));
    const now = fold(entriesOf([draftOf(1, 'step-done', { action: 'hinge', planned: false })]));
    expect(old.steps).toEqual(now.steps);
  });

  it('an old entry that does not fit its old shape is kept and said so', () => {
    expect(tell('step-done.v1', { action: 'hinge', colour: 'red' })).toMatchObject({ is: 'unreadable' });
    expect(tell('step-done.v1', { action: 'hinge', minutes: 'ten' })).toMatchObject({
      is: 'unreadable',
      why: expect.stringContaining('minutes'),
    });
  });

  it('every version below the present one leads up', () => {
    for (const name of KIND_NAMES) {
      for (let v = 1; v < KINDS[name].version; v += 1) expect(UPGRADES[`${name}.v${v}`], `${name}.v${v}`).toBeDefined();
    }
  });

  it('a retired name is never used again', () => {
    for (const name of Object.keys(RETIRED_KINDS)) expect(isKindName(name), name).toBe(false);
  });

  it('says in one line, with its place, what does not fit', () => {
    const read = readData('lot-noted', { lot: 'B1', what: 'bolts', count: -1 });
    expect(read).toMatchObject({ ok: false, problem: { code: 'ENTRY_DATA', where: 'count' } });
    if (!read.ok) expect(read.problem.message).not.toMatch(/invalid|error/i);
  });

  afterAll(() => {
    const never = Object.keys(UPGRADES).filter((kind) => !ran.has(kind));
    if (never.length > 0) throw new Error(`no before/after pair in fixtures/journal/upgrades for: ${never.join(', ')}`);
  });
});
