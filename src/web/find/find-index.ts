/**
 * The index over everything. Made in pieces, so that the page answers while it is made; every word may be begun only, and
 * in a longer word one or two letters may be wrong. Codes and numbers count more than prose.
 */
import MiniSearch, { type SearchOptions } from 'minisearch';
import { plain } from '../words/search.ts';
import type { FindDoc, FindKind } from './index-of.ts';

const PIECE = 400;
const FEW = 5;
const LONG = 5_000;
const KIND_WEIGHT: Readonly<Record<FindKind, number>> = {
  part: 1.4,
  bag: 1.3,
  lot: 1.1,
  place: 1.1,
  photo: 0.9,
  sound: 0.8,
  found: 0.8,
  note: 0.8,
  person: 1,
};

export interface FindIndex {
  readonly find: (text: string, most?: number) => readonly FindDoc[];
  readonly size: number;
}

export async function makeFindIndex(docs: readonly FindDoc[]): Promise<FindIndex> {
  const index = new MiniSearch<FindDoc>({
    fields: ['title', 'more', 'text'],
    storeFields: ['kind'],
    tokenize: (text) => plain(text).split(' '),
    processTerm: (term) => (term === '' ? null : term),
  });
  await index.addAllAsync(docs, { chunkSize: PIECE });
  const byId = new Map(docs.map((d) => [d.id, d]));
  const how: SearchOptions = {
    // One letter begins half of all words of a long job.
    prefix: (term) => term.length > 1 || docs.length < LONG,
    combineWith: 'AND',
    boost: { title: 3, more: 2 },
    boostDocument: (_id, _term, stored) => KIND_WEIGHT[(stored as { kind: FindKind }).kind],
  };
  const find = (text: string, most = 200): readonly FindDoc[] => {
    if (plain(text) === '') return [];
    const exact = index.search(text, how);
    // A wrong letter is only looked for where the right ones find little: it costs most and blurs the rest.
    const hits = exact.length >= FEW ? exact : index.search(text, { ...how, fuzzy: wrongLetters });
    return hits.slice(0, most).flatMap((h) => byId.get(h.id as string) ?? []);
  };
  return { find, size: docs.length };
}

/** Codes and numbers are taken as they are; a long word may have two letters wrong, which is one pair exchanged. */
function wrongLetters(term: string): number | false {
  if (term.length < 4 || /\d/.test(term)) return false;
  return term.length > 5 ? 2 : 1;
}
