/**
 * The index over everything. Made in pieces, so that the page answers while it is made; every word may be begun only, and
 * in a longer word one or two letters may be wrong. Codes and numbers count more than prose.
 */
import MiniSearch from 'minisearch';
import { plain } from '../words/search.ts';
import type { FindDoc, FindKind } from './index-of.ts';

const PIECE = 400;
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
  const find = (text: string, most = 200): readonly FindDoc[] => {
    if (plain(text) === '') return [];
    const hits = index.search(text, {
      prefix: true,
      fuzzy: (term) => (term.length < 4 || /\d/.test(term) ? false : term.length > 5 ? 2 : 1),
      combineWith: 'AND',
      boost: { title: 3, more: 2 },
      boostDocument: (_id, _term, stored) => KIND_WEIGHT[(stored as { kind: FindKind }).kind],
    });
    return hits.slice(0, most).flatMap((h) => byId.get(h.id as string) ?? []);
  };
  return { find, size: docs.length };
}
