/** What is not where it should be, is not counted right, is owed, or is on this device only. Pure. */
import { bagClashes, openDifferences, openTransfers, overdrawn } from '../../journal/custody.ts';
import { nameOf, type State } from '../../journal/state.ts';
import { count } from '../words/figures.ts';
import { type FloorRow, saidBy } from './floor-row.ts';

/** What is still only on this device. */
export interface NotCopied {
  readonly photos: number;
  readonly sounds: number;
}

/** Losing the phone now would lose these. */
export function notCopied({ photos, sounds }: NotCopied): FloorRow[] {
  if (photos + sounds === 0) return [];
  const what = [
    ...(photos === 0 ? [] : [count(photos, 'photograph')]),
    ...(sounds === 0 ? [] : [count(sounds, 'voice note')]),
  ].join(' and ');
  const row = { id: 'not copied', shape: 'away', word: 'ONLY HERE', title: `${what} not yet copied` } as const;
  return [{ ...row, why: 'kept on this device; sent by itself in reach of the shop’s machine', ...NOWHERE }];
}

const NOWHERE = { href: '', photo: null, part: null } as const;

export function astray(state: State): FloorRow[] {
  const row = (id: string, word: string, title: string, why: string, href: string): FloorRow => ({
    id,
    shape: 'away',
    word,
    title,
    why,
    href,
    photo: null,
    part: null,
  });
  const loose = [...state.bags.values()].filter((b) => b.where.is === 'held' && b.where.place === undefined);
  return [
    ...bagClashes(state).map((b) =>
      row(
        `clash ${b.code}`,
        'TWO BAGS',
        `${b.code} was opened twice`,
        'two people wrote the same code; give one of them a new one',
        `/bags?bag=${b.code}`,
      ),
    ),
    ...overdrawn(state).map((o) =>
      row(
        `over ${o.lot}`,
        'TOO MANY',
        state.lots.get(o.lot)?.what ?? o.lot,
        `${-o.count} more taken than there were; count it`,
        '/bags?show=counts',
      ),
    ),
    ...openDifferences(state).map((d) =>
      row(
        `diff ${d.id}`,
        d.is < d.was ? 'SHORT' : 'OVER',
        state.lots.get(d.lot)?.what ?? d.lot,
        `${d.was} noted, ${d.is} counted by ${saidBy(state, d.said)}`,
        '/bags?show=counts',
      ),
    ),
    ...openTransfers(state).map((t) =>
      row(
        `owed ${t.transfer}`,
        t.way === 'out' ? 'OWED TO US' : 'WE OWE',
        t.name ?? state.pieces.get(t.thing)?.name ?? state.lots.get(t.thing)?.what ?? t.thing,
        `${t.way === 'out' ? 'with' : 'from'} ${t.job} · ${saidBy(state, t.said)}`,
        '/bags?show=owed',
      ),
    ),
    ...(loose.length === 0
      ? []
      : [
          row(
            'loose',
            'NOT PUT AWAY',
            loose.length === 1 ? `Bag ${loose[0]?.code}` : count(loose.length, 'bag'),
            loose
              .slice(0, 4)
              .map(
                (b) =>
                  `${b.code} with ${b.where.is === 'held' && b.where.custodian !== undefined ? nameOf(state, b.where.custodian) : 'nobody'}`,
              )
              .join(' · '),
            '/bags?show=loose',
          ),
        ]),
  ];
}
