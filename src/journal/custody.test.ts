/** Where things are and whether counts add up: by example, and over random bagging, splitting, robbing and returning. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { recording } from './commands.ts';
import {
  bagClashes,
  balances,
  contentsOf,
  highestBag,
  openDifferences,
  openTransfers,
  overdrawn,
  setOf,
  stillInside,
  thingsOf,
  whereIs,
} from './custody.ts';
import { decide } from './decide.ts';
import { asPending, type Entry } from './entry.ts';
import { fold } from './fold.ts';
import type { DataOf, KindName } from './kinds/kinds.ts';
import { EMPTY_STATE } from './make-state.ts';
import type { State } from './state.ts';
import { SMALL_RIG, stampAt } from './testing/recorder.ts';

type Said = { [K in KindName]: readonly [K, DataOf<K>] }[KindName];

/** Admitted as facts are, whatever the rules say of them. */
function told(...said: readonly Said[]): State {
  return fold(said.map(([kind, data], i) => entry(kind, data, i)));
}
function entry(kind: string, data: unknown, i: number): Entry {
  const stamp = stampAt(i, i % 2 === 0 ? 'ana' : 'ben');
  return { ...stamp, kind: `${kind}.v1`, data, seq: i + 1, recordedAt: stamp.at, digest: '', hash: String(i) } as Entry;
}
const rig: Said = ['rig-taken-in', { rig: SMALL_RIG, standing: 'ours' } as DataOf<'rig-taken-in'>];
const lot = (id: string, count: number | null): Said => ['lot-noted', { lot: id, what: 'washer', count }];

describe('bags', () => {
  it('carry what came off, and are carried themselves', () => {
    const s = told(
      rig,
      ['bagged', { bag: 'B105C', opens: true, of: ['leg-r', 'bolt-r-1'], hand: 'R' }],
      ['moved', { what: 'B105C', to: { place: 'rack 1' } }],
    );
    expect(whereIs(s, 'leg-r')).toMatchObject({ bag: 'B105C', where: { is: 'held', place: 'rack 1' } });
    expect(contentsOf(s, 'B105C')).toEqual(['leg-r']);
    expect(s.bags.get('B105C')).toMatchObject({ of: ['leg-r', 'bolt-r-1'], hand: 'R' });
  });

  it('opened twice under one code are a clash that is shown', () => {
    const s = told(['bagged', { bag: 'B105C', opens: true }], ['bagged', { bag: 'B105C', opens: true }]);
    expect(bagClashes(s).map((b) => b.clash?.length)).toEqual([1]);
  });

  it('count on from the highest number anybody has', () => {
    expect(
      highestBag(told(['bags-set-aside', { from: 200, to: 299, for: 'roll' }], ['bagged', { bag: 'B105C' }])),
    ).toBe(299);
  });
});

it('a part is found by its position, its piece and its lot', () => {
  const s = told(
    rig,
    ['position-noted', { position: '10-03', rig: 'leg-r' }],
    ['piece-noted', { piece: 'P-1', position: '10-03', place: 'rack 2' }],
    ['lot-noted', { lot: 'L-1', what: 'bolts', count: 4, of: '10-03', place: 'rack 3' }],
  );
  expect(thingsOf(s, 'leg-r')).toEqual(['P-1', 'L-1']);
  expect(thingsOf(s, '10-03')).toEqual(['P-1', 'L-1']);
});

it('sets that share a member are one set', () => {
  const s = told(
    ['goes-with', { members: ['a', 'b'] }],
    ['goes-with', { members: ['c', 'd'] }],
    ['goes-with', { members: ['b', 'c'] }],
  );
  expect([...setOf(s, 'd')].sort()).toEqual(['a', 'b', 'c']);
});

it('tools that did not come out are still inside', () => {
  const s = told(
    [
      'counted-inside',
      {
        zone: 'c9',
        way: 'in',
        items: [
          { what: 'rag', count: 3 },
          { what: 'torch', count: 1 },
        ],
      },
    ],
    [
      'counted-inside',
      {
        zone: 'c9',
        way: 'out',
        items: [
          { what: 'rag', count: 2 },
          { what: 'torch', count: 1 },
        ],
      },
    ],
  );
  expect(stillInside(s)).toMatchObject([{ zone: 'c9', what: 'rag', count: 1 }]);
});

describe('counts', () => {
  it('another number is a difference until it is explained', () => {
    const s = told(lot('w', 12), ['counted', { lot: 'w', count: 11 }]);
    expect(openDifferences(s)).toMatchObject([{ lot: 'w', was: 12, is: 11 }]);
    const id = openDifferences(s)[0]?.id as string;
    expect(openDifferences(fold([entry('difference-explained', { difference: id, what: 'found' }, 9)], s))).toEqual([]);
  });

  it('more taken than there was is shown, and the sum still holds', () => {
    const s = told(
      lot('w', 5),
      ['lot-split', { lot: 'w', into: 'x', count: 4 }],
      ['lot-split', { lot: 'w', into: 'y', count: 4 }],
    );
    expect(overdrawn(s)).toEqual([{ lot: 'w', count: -3 }]);
    expect(balances(s)).toMatchObject([{ now: 5, holds: true }]);
  });

  it.each([
    ['NOT_THAT_MANY', 'lot-split', { lot: 'w', into: 'x', count: 6 }],
    ['NOT_THAT_MANY', 'robbed', { transfer: 't', way: 'out', thing: 'w', count: 6, job: 'donor' }],
    ['TRANSFER_TAKEN', 'robbed', { transfer: 'old', way: 'out', thing: 'w', count: 1, job: 'donor' }],
    ['NOT_THAT_MANY', 'robbed-returned', { transfer: 'old', way: 'in', count: 2 }],
    ['UNKNOWN_ID', 'robbed-returned', { transfer: 'old', way: 'out' }],
    ['UNKNOWN_ID', 'moved', { what: 'nothing', to: { place: 'rack' } }],
    ['ENTRY_DATA', 'moved', { what: 'w', to: { place: 'rack', bag: 'B105C' } }],
    ['ENTRY_DATA', 'bagged', { bag: 'B105D' }],
  ] as const)('%s: a wrong %s is told at once and nothing is recorded', (code, kind, data) => {
    const s = told(
      lot('w', 5),
      ['robbed', { transfer: 'old', way: 'out', thing: 'w', count: 1, job: 'donor', owed: true }],
      ['counted', { lot: 'w', count: 4 }],
    );
    const made = decide(s, { kind: 'record', entry: kind, data }, stampAt(50, 'ana'));
    expect(made.ok ? null : made.problem.code).toBe(code);
  });
});

describe('robbed and returned', () => {
  it('stays owed until all of it is back', () => {
    const out = told(
      lot('w', 9),
      ['robbed', { transfer: 't', way: 'out', thing: 'w', count: 3, job: 'b', owed: true }],
      ['robbed-returned', { transfer: 't', way: 'in', count: 1 }],
    );
    expect(openTransfers(out)).toMatchObject([{ transfer: 't', count: 3, returned: 1 }]);
    expect(out.lotCounts.get('w')?.count).toBe(7);
  });
});

const ids = fc.constantFrom('w', 'x', 'y', 'z');
const bags = fc.constantFrom('B105C', 'B106K', 'B107T');
const count = fc.integer({ min: 1, max: 8 });
const transfer = fc.constantFrom('t1', 't2', 't3');
const way = fc.constantFrom('in' as const, 'out' as const);
const piece = fc.constantFrom('p1', 'p2', 'leg-r');
const anAct: fc.Arbitrary<Said> = fc.oneof(
  fc.tuple(ids, fc.option(count)).map(([l, n]): Said => lot(l, n)),
  fc.tuple(ids, fc.nat(9)).map(([l, n]): Said => ['counted', { lot: l, count: n }]),
  fc.tuple(ids, ids, count).map(([a, b, n]): Said => ['lot-split', { lot: a, into: `${b}-${n}`, count: n }]),
  fc.tuple(ids, ids, count).map(([a, b, n]): Said => ['lot-split', { lot: a, into: b, count: n }]),
  fc.tuple(ids, ids).map(([a, b]): Said => ['lots-joined', { lot: a, into: b }]),
  fc
    .tuple(transfer, way, ids, count)
    .map(([t, w, l, n]): Said => ['robbed', { transfer: t, way: w, thing: l, count: n, job: 'b' }]),
  fc.tuple(transfer, way, piece).map(([t, w, p]): Said => ['robbed', { transfer: t, way: w, thing: p, job: 'b' }]),
  fc
    .tuple(transfer, way, fc.option(count, { nil: undefined }))
    .map(([t, w, n]): Said => ['robbed-returned', { transfer: t, way: w, ...(n !== undefined && { count: n }) }]),
  fc.tuple(bags, piece).map(([bag, p]): Said => ['bagged', { bag, things: [p] }]),
  fc.tuple(bags, ids).map(([bag, l]): Said => ['bagged', { bag, things: [l] }]),
  fc.tuple(piece, bags).map(([p, bag]): Said => ['moved', { what: p, to: { bag } }]),
  fc.tuple(bags).map(([bag]): Said => ['moved', { what: bag, to: { place: 'rack' } }]),
  piece.map((p): Said => ['piece-noted', { piece: p, place: 'bench' }]),
);

describe('conservation', () => {
  it('every count adds up and everything is in one place, whatever was recorded', () => {
    fc.assert(
      fc.property(fc.array(anAct, { maxLength: 40 }), fc.nat(), (acts, cut) => {
        const s = told(rig, ...acts);
        expect(balances(s).filter((b) => !b.holds)).toEqual([]);
        // Everything that was bagged lies in one bag, and the bags together hold nothing twice.
        const all = ['B105C', 'B106K', 'B107T'].flatMap((b) => contentsOf(s, b));
        expect(new Set(all).size).toBe(all.length);
        for (const thing of s.held.keys()) expect(whereIs(s, thing)).not.toBeNull();
        // Folding in two pieces gives the same books.
        const entries = s.log;
        const at = cut % (entries.length + 1);
        const again = fold(entries.slice(at), fold(entries.slice(0, at)));
        expect([again.lotCounts, again.ledgers, again.held, again.bags]).toEqual([
          s.lotCounts,
          s.ledgers,
          s.held,
          s.bags,
        ]);
      }),
      { numRuns: 400 },
    );
  });

  it('between two jobs: what the one gave is what the other has or gave back', () => {
    const give = fc.tuple(fc.integer({ min: 1, max: 5 }), fc.integer({ min: 0, max: 5 }));
    fc.assert(
      fc.property(fc.array(give, { maxLength: 8 }), (gifts) => {
        const a: Said[] = [lot('w', 100)];
        const b: Said[] = [];
        gifts.forEach(([n, back], i) => {
          a.push(['robbed', { transfer: `t${i}`, way: 'out', thing: 'w', count: n, job: 'b', owed: true }]);
          b.push(['robbed', { transfer: `t${i}`, way: 'in', thing: 'w-a', count: n, job: 'a', owed: true }]);
          const returned = Math.min(back, n);
          if (returned === 0) return;
          b.push(['robbed-returned', { transfer: `t${i}`, way: 'out', count: returned }]);
          a.push(['robbed-returned', { transfer: `t${i}`, way: 'in', count: returned }]);
        });
        const [sa, sb] = [told(...a), told(...b)];
        expect((sa.lotCounts.get('w')?.count ?? 0) + (sb.lotCounts.get('w-a')?.count ?? 0)).toBe(100);
        expect(openTransfers(sa).map((t) => t.transfer)).toEqual(openTransfers(sb).map((t) => t.transfer));
      }),
    );
  });

  it('what a person takes back is as if it had not been', () => {
    const s = told(lot('w', 9), ['lot-split', { lot: 'w', into: 'x', count: 4 }]);
    const undo = decide(s, { kind: 'withdraw', entry: s.log[1]?.id as never }, stampAt(60, 'ana'));
    const after = undo.ok ? fold(undo.value.map(asPending), s) : s;
    expect([after.lotCounts.get('w')?.count, after.lotCounts.has('x')]).toEqual([9, false]);
    expect(recording('counted', { lot: 'w', count: 9 })).toMatchObject({ kind: 'record' });
    expect(EMPTY_STATE.bags.size).toBe(0);
  });
});
