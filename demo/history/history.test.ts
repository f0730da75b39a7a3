/** The two days of the invented job: what they hold, and that nothing in them was made up outside the journal's rules. */
import { describe, expect, it } from 'vitest';
import { must } from '../../src/domain/result.ts';
import { RigMeaning } from '../../src/domain/rig/rig-meaning.ts';
import { contradictions } from '../../src/journal/contradictions.ts';
import { contentsOf } from '../../src/journal/custody.ts';
import { readStored } from '../../src/journal/entry.ts';
import { fold } from '../../src/journal/fold.ts';
import { MemoryJournal } from '../../src/journal/memory-journal.ts';
import type { State } from '../../src/journal/state.ts';
import { compile } from '../../src/planning/rig-model/compile.ts';
import { Moment } from '../../src/planning/rig-model/moment.ts';
import { LINES, lineOf, POSITIONS } from '../parts.ts';
import { demoJob } from './index.ts';

const november = demoJob('2025-11-18');
const april = demoJob('2026-04-14');

function off(state: State): readonly string[] {
  const meaning = new RigMeaning(state.rig);
  const now = meaning.now(state.situation);
  return POSITIONS.filter((p) => meaning.isOffAircraft(p, now));
}

describe('18 November 2025', () => {
  it('148 of 549 positions are off, and the tail-wheel spring is still fitted', () => {
    expect(off(november.state)).toHaveLength(148);
    expect(off(november.state)).not.toContain('10-03');
    expect(november.state.situation).toMatchObject({ setups: { support: 'cradle' } });
    expect(november.phase).toBe('strip');
  });

  it('engine, floats and tail unit are off; the starboard leg came off by force, long ago', () => {
    const gone = new Set(off(november.state));
    for (const id of ['05', '06', '08', '11']) {
      expect(POSITIONS.filter((p) => lineOf(p).assembly === id && !gone.has(p))).toEqual([]);
    }
    expect(november.state.steps.filter((s) => s.forced !== undefined).map((s) => s.action)).toEqual([
      '09-j18',
      '08-j02k',
      '08-j02',
      'remove:leg-r',
    ]);
  });

  it('what the rig forbids is only what was done by force; it waits to be settled', () => {
    const found = contradictions(november.state);
    expect(found.map((c) => [c.action, c.forced, c.settled])).toEqual([
      ['09-j18', true, null],
      ['08-j02', true, null],
      ['remove:leg-r', true, null],
    ]);
  });

  it('one thing is left half done, and nobody has opened the job twice', () => {
    expect(november.state.openStops.map((s) => s.subject)).toEqual(['01-21']);
    expect(november.state.people.size).toBe(9);
    expect(november.state.job?.invented).toBe(true);
  });
});

describe('14 April 2026', () => {
  it('carries on from November: its entries begin with those of November', () => {
    const before = april.drafts.slice(0, november.drafts.length);
    expect(before.map((d) => d.body)).toEqual(november.drafts.map((d) => d.body));
  });

  it('61 positions are in, 488 off', () => {
    expect(off(april.state)).toHaveLength(488);
    expect(april.phase).toBe('refit');
  });

  it('every step was allowed by the rig at its turn, but for what was done by force', () => {
    const moment = new Moment(compile(april.state.rig));
    for (const step of april.state.steps) {
      if (step.what === 'done' || step.what === 'set') {
        if (step.forced === undefined) expect(moment.allowed(step.action), step.action).toBe(true);
        moment.doAction(step.action);
      } else if (step.what === 'fact') {
        moment.facts[moment.model.factIndex.get(step.action) ?? -1] = 1;
      } else if (step.what === 'refitted' && step.stage !== 'trial') {
        moment.done[moment.model.find(step.action) ?? -1] = 0;
      }
    }
    expect([...april.state.situation.done].length).toBeGreaterThan(800);
  });

  it('the retaining nut is finger-tight and somebody has written it down', () => {
    expect(april.state.openStops.map((s) => s.subject)).toEqual(['10-07']);
    expect(april.state.openStops[0]?.state).toContain('finger-tight');
  });

  it('three of the four things done by force are settled, the leg itself is not', () => {
    const ends = [...april.state.contradictionsSettled.values()].map((c) => c.end);
    expect(ends).toEqual(['harm-was-done', 'harm-was-done', 'harm-was-done']);
  });

  it('package PL-1 is back and not counted; its 67 positions stand for 62 pieces', () => {
    const inBox = [...april.state.bags.values()].filter((b) => b.where.is === 'held' && b.where.place === 'box-pl-1');
    const things = inBox.flatMap((b) => contentsOf(april.state, b.code));
    const pieces = things.map((t) => april.state.lotCounts.get(t)?.count ?? 1).reduce((a, b) => a + b, 0);
    const bags = inBox.map((b) => b.code);
    const positions = LINES.filter((l) => bags.includes(l.bag)).reduce((sum, l) => sum + l.qty, 0);
    expect([inBox.length, positions, pieces]).toEqual([21, 67, 62]);
  });
});

describe('the entries', () => {
  it('are the same each time they are made', () => {
    expect(demoJob('2025-11-18').drafts.map((d) => d.digest)).toEqual(november.drafts.map((d) => d.digest));
  });

  it('are taken by a journal, and fold to the same state as while they were made', async () => {
    const journal = new MemoryJournal({ now: () => '2026-04-14T09:00:00+01:00' });
    must(await journal.append(0, april.drafts));
    const entries = must(await journal.read(1)).map((s) => must(readStored(s)));
    const state = fold(entries);
    expect(state.situation).toEqual(april.state.situation);
    expect(state.unreadable).toEqual([]);
    expect(state.unknown).toEqual([]);
    expect(off(state)).toEqual(off(april.state));
  });

  it('are dated in order, by people and devices that are noted', () => {
    const times = april.drafts.map((d) => Date.parse(d.at));
    expect(times.every((t, i) => i === 0 || t >= (times[i - 1] ?? 0))).toBe(true);
    expect(new Set(april.drafts.map((d) => d.id)).size).toBe(april.drafts.length);
    expect(april.drafts.every((d) => april.state.people.has(d.by) && april.state.devices.has(d.device))).toBe(true);
  });
});
