/**
 * Nothing of the invented job is lost or counted twice: what is off lies somewhere, counts add up, codes are codes, and
 * the two halves of what went between the aircraft agree.
 */
import { describe, expect, it } from 'vitest';
import { isBagCode } from '../../src/domain/bag-code.ts';
import { RigMeaning } from '../../src/domain/rig/rig-meaning.ts';
import {
  bagClashes,
  balances,
  contentsOf,
  openDifferences,
  openStuck,
  openTags,
  openTransfers,
  overdrawn,
  setOf,
  stillInside,
  thingsOf,
  whereIs,
} from '../../src/journal/custody.ts';
import type { State } from '../../src/journal/state.ts';
import { line, lineOf, POSITIONS } from '../parts.ts';
import { demoJob, donorJob } from './index.ts';
import { BENCH_BOX, type Box, QUARANTINE_BOX, SHELVES_OF_THE_SHOP, WALL_IDS } from './places.ts';

const november = demoJob('2025-11-18');
const april = demoJob('2026-04-14');
const donor = donorJob();
const JOBS = [november, april, donor] as const;

function off(state: State): readonly string[] {
  const meaning = new RigMeaning(state.rig);
  const now = meaning.now(state.situation);
  return POSITIONS.filter((p) => meaning.isOffAircraft(p, now));
}

describe.each([
  ['18 November', november.state],
  ['14 April', april.state],
])('what is off on %s', (_, state) => {
  it('is in a bag that says so, or was not there when somebody looked', () => {
    const inBags = new Set([...state.bags.values()].flatMap((b) => b.of));
    const lost = off(state).filter((p) => !inBags.has(p) && !state.nothingHere.has(p));
    expect(lost).toEqual([]);
    expect(off(state).filter((p) => inBags.has(p)).length).toBeGreaterThan(100);
  });

  it('has a thing with a place for every bag that is not empty, and no thing is in two bags', () => {
    const seen = new Map<string, string>();
    for (const bag of state.bags.values()) {
      for (const thing of contentsOf(state, bag.code)) {
        expect(seen.get(thing), thing).toBeUndefined();
        seen.set(thing, bag.code);
        expect(whereIs(state, thing)?.where.is, thing).toBe('held');
      }
    }
    expect(seen.size).toBeGreaterThan(60);
  });

  it('is counted: of each line as many pieces as its bag came from positions, less what is lent or missed', () => {
    const pieces = new Map<string, number>();
    for (const lot of state.lots.values()) {
      const id = lot.of?.split('.')[0] ?? '';
      pieces.set(id, (pieces.get(id) ?? 0) + (state.lotCounts.get(lot.lot)?.count ?? 0));
    }
    // One hub bolt of two is still with the wreck; on 18 November one oil pipe of five is not found yet.
    const away = new Map([['11-14', 1]]);
    for (const d of openDifferences(state)) away.set(state.lots.get(d.lot)?.of?.split('.')[0] ?? '', d.was - d.is);
    for (const bag of state.bags.values()) {
      const first = bag.of[0];
      if (first === undefined || lineOf(first).bag !== bag.code || lineOf(first).qty === 1) continue;
      const { id } = lineOf(first);
      expect([id, pieces.get(id)]).toEqual([id, bag.of.length - (away.get(id) ?? 0)]);
    }
  });
});

describe('in every journal', () => {
  it.each(JOBS.map((j) => [j.name, j.state] as const))(
    '%s: the books balance and nothing is claimed that cannot be',
    (_, s) => {
      expect(balances(s).filter((b) => !b.holds)).toEqual([]);
      expect(overdrawn(s)).toEqual([]);
      expect(bagClashes(s)).toEqual([]);
      expect(s.custodyFaults).toEqual([]);
      expect(s.unreadable).toEqual([]);
      for (const code of s.bags.keys()) expect(isBagCode(code), code).toBe(true);
    },
  );

  it('bags are of numbers that were set aside, and lie at places that are noted', () => {
    for (const { state } of [november, april]) {
      const blocks = state.bagsSetAside;
      for (const b of state.bags.values()) {
        const n = Number(b.code.slice(1, -1));
        expect(
          blocks.some((x) => x.from <= n && n <= x.to),
          b.code,
        ).toBe(true);
        if (b.where.is === 'held' && b.where.place !== undefined)
          expect(state.places.has(b.where.place), b.where.place).toBe(true);
      }
      for (const a of blocks)
        for (const b of blocks) if (a !== b) expect(a.to < b.from || b.to < a.from, `${a.for} ${b.for}`).toBe(true);
    }
  });
});

describe('robbed and owed', () => {
  it('both halves say the same of what, how many, and what is still owed', () => {
    for (const { state } of [november, april]) {
      expect([...state.transfers.keys()]).toEqual([...donor.state.transfers.keys()]);
      for (const [id, here] of state.transfers) {
        const there = donor.state.transfers.get(id);
        expect([there?.thing, there?.count, there?.owed, there?.returned]).toEqual([
          here.thing,
          here.count,
          here.owed,
          here.returned,
        ]);
        expect([here.way, there?.way].sort()).toEqual(['in', 'out']);
        expect([here.job, there?.job]).toEqual(['wreck-qd-07', 'qx-ola']);
      }
      expect(openTransfers(state).map((t) => t.transfer)).toEqual(['T-001', 'T-002']);
    }
  });

  it('what is gone from one is in the other', () => {
    expect(whereIs(donor.state, 'P-W-06-16')?.where).toMatchObject({ is: 'job', job: 'qx-ola' });
    expect(whereIs(november.state, 'P-W-06-16')?.bag).toBe('B453A');
    expect([november.state.lotCounts.get('L-11-14')?.count, donor.state.lotCounts.get('L-11-14')?.count]).toEqual([
      7, 1,
    ]);
  });
});

describe('no screen is empty', () => {
  it('on 18 November tags hang, a rag is inside, a pin is stuck, a count is short, sets are kept', () => {
    const s = november.state;
    expect(openTags(s).map((t) => t.tag)).toEqual(expect.arrayContaining(['do-not-clean', 'quarantine', 'hazard']));
    expect(stillInside(s).map((i) => [i.zone, i.what, i.count])).toEqual([['Behind C14', 'rag', 1]]);
    expect(openStuck(s).map((x) => x.subject)).toEqual(['07-j02']);
    expect(openDifferences(s).map((d) => [d.lot, d.was, d.is])).toEqual([['L-11-08', 5, 4]]);
    expect(setOf(s, '03-16.1')).toEqual(['03-16.2', '03-18.1', '03-18.2', '03-18.3']);
    expect(thingsOf(s, '10-03')).toEqual([]);
    expect(
      [s.sounds.size, s.datums.size, s.thicknesses.size, s.dials.size, s.measurements.size].every((n) => n > 0),
    ).toBe(true);
  });

  it('by 14 April the spring hangs no tag, the pin is free and the rag is out', () => {
    const s = april.state;
    expect(openTags(s).map((t) => t.subject)).not.toContain('10-03');
    expect([openStuck(s), stillInside(s), openDifferences(s)]).toEqual([[], [], []]);
    expect(s.dials.get('09-14')?.[0]?.stations).toHaveLength(9);
    expect(whereIs(s, 'P-10-20')?.where).toEqual({ is: 'held', place: 'quarantine' });
  });
});

describe('the wall', () => {
  const boxes = [
    ...SHELVES_OF_THE_SHOP.map((s) => [s.place, s.wall, s.box] as const),
    ['quarantine', 'east', QUARANTINE_BOX] as const,
    ['bench', 'east', BENCH_BOX] as const,
  ];

  it('every box lies inside the photograph, and no two on one wall lie over each other', () => {
    const apart = (a: Box, b: Box) =>
      a[0] + a[2] <= b[0] || b[0] + b[2] <= a[0] || a[1] + a[3] <= b[1] || b[1] + b[3] <= a[1];
    for (const [place, , [x, y, w, h]] of boxes) expect(x >= 0 && y >= 0 && x + w <= 1 && y + h <= 1, place).toBe(true);
    for (const wall of WALL_IDS) {
      const here = boxes.filter((b) => b[1] === wall);
      here.forEach((a, i) => {
        for (const b of here.slice(i + 1)) expect(apart(a[2], b[2]), `${a[0]} ${b[0]}`).toBe(true);
      });
    }
  });

  it('a line’s bag lies on the shelf its card would be looked for on', () => {
    expect(november.state.bags.get(line('11-13').bag)?.where).toEqual({ is: 'held', place: 'rack-11-4' });
  });
});
