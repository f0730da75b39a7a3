/** Bags as rows of a list, by shelf; what one looks for narrows it. Pure. */
import { readBagCode } from '../../domain/bag-code.ts';
import type { Hand } from '../../domain/rig/rig-types.ts';
import { contentsOf } from '../../journal/custody.ts';
import type { Bag, Where } from '../../journal/custody-state.ts';
import { nameOf, type State } from '../../journal/state.ts';
import { nameIn } from '../find/index-of.ts';
import { plain } from '../words/search.ts';

/** Where a bag is, as a word and a shape: here, with somebody, outside, on the aircraft, with another aircraft. */
export type BagShape = 'here' | 'loose' | 'person' | 'outside' | 'aircraft' | 'job';

export interface BagRow {
  readonly code: string;
  readonly what: string;
  readonly place: string | null;
  readonly shape: BagShape;
  readonly word: string;
  readonly hand: Hand | undefined;
  readonly photo: string | null;
  readonly clash: boolean;
}

export interface BagHead {
  readonly id: string;
  readonly name: string;
  readonly count: number;
}

export type BagLine = ({ readonly is: 'head' } & BagHead) | ({ readonly is: 'bag' } & BagRow);

export const SHAPE_WORD: Readonly<Record<BagShape, string>> = {
  here: 'here',
  loose: 'not put away',
  person: 'with',
  outside: 'out',
  aircraft: 'on the aircraft',
  job: 'other aircraft',
};

export function shapeOf(state: State, where: Where): BagShape {
  if (where.is === 'position') return 'aircraft';
  if (where.is === 'job') return 'job';
  if (where.is === 'bag') return 'here';
  if (where.custodian !== undefined && !state.people.has(where.custodian) && where.custodian !== state.job?.job)
    return state.places.get(where.place ?? where.custodian)?.kind === 'outside' ? 'outside' : 'here';
  if (where.place !== undefined) return state.places.get(where.place)?.kind === 'outside' ? 'outside' : 'here';
  return where.custodian === undefined ? 'loose' : 'person';
}

export function bagRow(state: State, bag: Bag): BagRow {
  const inside = contentsOf(state, bag.code);
  const about = bag.of.length > 0 ? bag.of : inside;
  const names = [...new Set(about.map((id) => nameIn(state, id)))];
  const shape = shapeOf(state, bag.where);
  const who = bag.where.is === 'held' ? bag.where.custodian : undefined;
  return {
    code: bag.code,
    what:
      names.length === 0
        ? 'nobody said what yet'
        : names.slice(0, 3).join(', ') + (names.length > 3 ? ` and ${names.length - 3} more` : ''),
    place: bag.where.is === 'held' ? (bag.where.place ?? null) : null,
    shape,
    word: shape === 'person' && who !== undefined ? `with ${nameOf(state, who)}` : SHAPE_WORD[shape],
    hand: bag.hand ?? handOf(state, about),
    photo: [bag.code, ...bag.of].map((id) => state.photos.get(id)?.[0]?.hash).find((h) => h !== undefined) ?? null,
    clash: bag.clash !== undefined,
  };
}

function handOf(state: State, ids: readonly string[]): Hand | undefined {
  const hands = new Set(ids.map((id) => state.rigParts.get(id)?.hand ?? state.positions.get(id)?.hand));
  return hands.size === 1 ? [...hands][0] : undefined;
}

export interface BagAsk {
  readonly text: string;
  readonly place: string | null;
  readonly who: string | null;
  readonly loose: boolean;
}

/** The lines of the list: a heading for each place, its bags below in the order of their numbers. */
export function bagLines(state: State, ask: BagAsk): readonly BagLine[] {
  const rows = [...state.bags.values()].filter((b) => wanted(state, b, ask)).map((b) => bagRow(state, b));
  const byPlace = new Map<string, BagRow[]>();
  for (const row of rows) {
    const key = row.place ?? `~${row.word}`;
    const list = byPlace.get(key);
    if (list === undefined) byPlace.set(key, [row]);
    else list.push(row);
  }
  const name = (key: string) => (key.startsWith('~') ? key.slice(1) : (state.places.get(key)?.name ?? key));
  return [...byPlace]
    .sort(([a], [b]) => rank(a) - rank(b) || name(a).localeCompare(name(b), 'en', { numeric: true }))
    .flatMap(([key, list]): BagLine[] => [
      { is: 'head', id: key, name: upper(name(key)), count: list.length },
      ...list
        .sort((a, b) => a.code.localeCompare(b.code, 'en', { numeric: true }))
        .map((row): BagLine => ({ is: 'bag', ...row })),
    ]);
}

/** What nobody put away comes first: it is what gets lost. */
function rank(key: string): number {
  return key === '~not put away' ? 0 : key.startsWith('~with') ? 1 : 2;
}

function upper(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function wanted(state: State, bag: Bag, ask: BagAsk): boolean {
  const where = bag.where;
  if (ask.place !== null && !(where.is === 'held' && where.place === ask.place)) return false;
  if (ask.who !== null && !(where.is === 'held' && where.custodian === ask.who)) return false;
  if (ask.loose && !(where.is === 'held' && where.place === undefined)) return false;
  if (ask.text.trim() === '') return true;
  const code = readBagCode(ask.text);
  if (code.ok) return bag.code === code.value;
  const ids = [...bag.of, ...contentsOf(state, bag.code)];
  const text = plain([bag.code, ...ids, ...ids.map((id) => nameIn(state, id)), bag.note ?? ''].join(' '));
  return plain(ask.text)
    .split(' ')
    .every((w) => text.includes(w));
}

/** What the field says when nothing is found: a code whose letter does not fit is named, since it was misread. */
export function noBagWords(text: string): string {
  const code = readBagCode(text);
  if (code.ok) return `No bag ${code.value} is recorded here.`;
  if (code.problem.code === 'BAG_CODE_LETTER') return `${code.problem.message}. ${code.problem.remedy}`;
  return 'No bag holds that. Try a code, a part number or a shorter word.';
}
