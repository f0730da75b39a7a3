/**
 * What a photograph is of, where its file or folder name says so: a bag code whose check letter fits, or an id that is
 * recorded. Only a guess, always shown with its reason. A name that speaks of several bags or several things gives none.
 * The file's own name goes before its folder, the nearest folder before those above. Not chosen: likeness of words
 * ("spring" for p12), which is right until it is not.
 */
import { readBagCode } from '../../domain/bag-code.ts';
import type { State } from '../../journal/state.ts';

export interface Guess {
  readonly of: readonly string[];
  readonly because: string;
}

export type Guesser = (shown: string) => Guess;

const MOST_TOKENS = 12;

/** Recorded ids by their small letters; null where two ids differ only in those. */
function knownIds(state: State): ReadonlyMap<string, string | null> {
  const known = new Map<string, string | null>();
  const maps = [state.rigParts, state.rigAttachments, state.positions, state.lines, state.pieces, state.lots];
  for (const map of maps) {
    for (const id of map.keys()) {
      const key = id.toLowerCase();
      // Too short to be anything but chance in IMG_12.
      if (key.length < 3 || /^\d+$/.test(key)) continue;
      const other = known.get(key);
      known.set(key, other === undefined || other === id ? id : null);
    }
  }
  return known;
}

export function subjectGuesser(state: State): Guesser {
  const ids = knownIds(state);
  return (shown) => {
    const steps = shown.split('/');
    const last = steps.length - 1;
    for (let i = last; i >= 0; i -= 1) {
      const step = steps[i] ?? '';
      const name = i === last ? step.replace(/\.[A-Za-z0-9]{1,5}$/, '') : step;
      const hits = namedIn(name, ids);
      if (hits.length === 0) continue;
      return verdict(hits, i === last ? 'file' : 'folder', step, state);
    }
    return { of: [], because: 'no bag code and no recorded id in its name' };
  };
}

interface Hit {
  readonly sort: 'bag' | 'id';
  readonly id: string;
}

function verdict(hits: readonly Hit[], where: 'file' | 'folder', name: string, state: State): Guess {
  const bags = hits.filter((h) => h.sort === 'bag');
  const things = hits.filter((h) => h.sort === 'id');
  if (bags.length > 1 || things.length > 1)
    return {
      of: [],
      because: `the ${where} name "${name}" speaks of ${hits.map((h) => h.id).join(' and ')}; not guessed`,
    };
  const words = [
    ...bags.map((b) => `bag ${b.id}${state.bags.has(b.id) ? '' : ' (not filled yet)'}`),
    ...things.map((t) => t.id),
  ];
  return { of: hits.map((h) => h.id), because: `guessed from the ${where} name "${name}": ${words.join(' and ')}` };
}

const BAG = /(?<![A-Za-z0-9])B[-_ ]?\d{1,7}[-_ ]?[A-Za-z](?![A-Za-z0-9])/gi;

function namedIn(name: string, ids: ReadonlyMap<string, string | null>): readonly Hit[] {
  const found = new Map<string, Hit>();
  for (const [text] of name.matchAll(BAG)) {
    const code = readBagCode(text);
    if (code.ok) found.set(code.value, { sort: 'bag', id: code.value });
  }
  for (const id of longestIds(name, ids)) if (!found.has(id)) found.set(id, { sort: 'id', id });
  return [...found.values()];
}

/** Runs of words that are a recorded id, the longest at each place, none inside another. */
function longestIds(name: string, ids: ReadonlyMap<string, string | null>): readonly string[] {
  const tokens = [...name.toLowerCase().matchAll(/[\p{L}\p{N}]+/gu)];
  const found: string[] = [];
  for (let from = 0; from < tokens.length; from += 1) {
    for (let to = Math.min(tokens.length, from + MOST_TOKENS); to > from; to -= 1) {
      const [first, last] = [tokens[from], tokens[to - 1]];
      if (first === undefined || last === undefined) continue;
      const [start, end] = [first.index, last.index + last[0].length];
      const id = ids.get(name.toLowerCase().slice(start, end));
      if (id === undefined || id === null || goesOn(name, start, end)) continue;
      found.push(id);
      from = to - 1;
      break;
    }
  }
  return found;
}

/** `10-03` in `2025-10-03` or `10-03.4` is part of a longer number. */
function goesOn(name: string, start: number, end: number): boolean {
  return /\d[-.:]$/.test(name.slice(0, start)) || /^[-.:]\d/.test(name.slice(end));
}
