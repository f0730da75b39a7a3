/**
 * A job of every format ever released reads as it did on its day. The fixtures are never edited; a new format adds one.
 * `format-1.jsonl` holds every entry kind of its day, an old version, an unknown kind, corrections and withdrawals.
 */
import { copyFileSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { must } from '../domain/result.ts';
import { splitKind } from '../journal/entry.ts';
import { KIND_NAMES } from '../journal/kinds/kinds.ts';
import { factNow } from '../journal/state.ts';
import { openJob } from './job-folder.ts';
import { importJsonLines } from './json-lines.ts';
import { tempFolder } from './testing/temp.ts';
import { verify } from './verify.ts';

const FIXTURE = join(import.meta.dirname, '../../fixtures/journal/format-1.jsonl');

describe('format 1', () => {
  it('reads as it did on its day', async () => {
    const top = tempFolder();
    copyFileSync(FIXTURE, join(top, 'a.jsonl'));
    must(await importJsonLines(join(top, 'a.jsonl'), join(top, 'a.job')));
    // Everything holds; only the photograph that an entry names was not part of the export.
    expect(must(verify(join(top, 'a.job'))).problems.map((p) => p.code)).toEqual(['PHOTO_NOT_FOUND']);
    const job = must(openJob(join(top, 'a.job')));
    const s = job.state;
    job.close();
    expect(s.head).toEqual({ seq: 43, hash: '133bdf86dce6263675aba28bd6f53055d9ff7e5bc4ecb16c53cdf2752d985ac9' });
    expect(s.situation).toEqual({
      done: ['set:support=jacks', 'remove:cover-r', 'bolt-r-1'],
      setups: { support: 'jacks' },
      facts: ['spring-measured-r'],
      signed: [],
      made: ['ream'],
    });
    expect(s.steps.map((x) => `${x.what} ${x.action}${x.undone === undefined ? '' : ' undone'}`)).toEqual([
      'set set:support=jacks',
      'done clip-r',
      'done remove:cover-r',
      'done hinge undone',
      'fact spring-measured-r',
      'done bolt-r-1',
      'made ream',
      'refitted clip-r',
      'refitted clip-r',
      'refitted clip-r',
      'fact-withdrawn inspector-here',
    ]);
    expect(s.steps.find((x) => x.action === 'clip-r')).toMatchObject({ planned: false, minutes: 2 });
    expect(s.rig.parts.map((p) => p.id)).toEqual([
      'leg-r',
      'fork-r',
      'cover-r',
      'door',
      'wheel-r',
      'leg-l',
      'fork-l',
      'wheel-l',
    ]);
    expect(s.rig.parts.find((p) => p.id === 'leg-r')?.minutes).toBe(25);
    expect(s.rig.blocks).toMatchObject([{ part: 'leg-r', by: 'door', harm: 'bends the door' }]);
    expect(['wheel-r', 'leg-l', 'fork-l'].map((id) => s.standing.get(id)?.word)).toEqual(['told', 'ours', 'expected']);
    expect(factNow(s, 'bolt-r-1', 'thread')?.value).toEqual({ is: 'value', text: '7/16 in' });
    expect(factNow(s, 'bolt-r-1', 'shims')?.value).toEqual({ is: 'none' });
    expect(s.signatures.get('look-r')?.map((x) => [x.said.by, x.counts, x.lapsed?.why])).toEqual([
      ['ana', true, 'a rag was left'],
      ['ben', false, 'a rag was left'],
    ]);
    expect([s.withdrawn.size, s.unknown.length, s.unreadable.length, s.openStops.length, s.damages.length]).toEqual([
      2, 1, 0, 0, 1,
    ]);
    expect([s.lots.get('B105C')?.count, s.marginPercent, s.photos.get('leg-r')?.length]).toEqual([null, 3, 1]);
  });
});
