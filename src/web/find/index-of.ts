/**
 * What can be found, as plain documents made from the state. Pure. A photograph without a caption is found by what it
 * shows, so it is no document of its own: 25,000 of them would only hide the rest.
 */
import { contentsOf, thingsOf, whereIs } from '../../journal/custody.ts';
import type { State } from '../../journal/state.ts';
import { whereWords } from '../words/where-words.ts';
import { isText, nameIn, partHref } from './find-words.ts';
import { foundDocs, noteDocs, photoDocs, saidDocs, soundDocs } from './said-docs.ts';

export { nameIn } from './find-words.ts';

export const FIND_KINDS = ['part', 'bag', 'lot', 'place', 'note', 'found', 'photo', 'sound', 'person'] as const;
export type FindKind = (typeof FIND_KINDS)[number];

export interface FindDoc {
  readonly id: string;
  readonly kind: FindKind;
  /** What it is called. */
  readonly title: string;
  /** One grey line: number, bag, where it is. */
  readonly more: string;
  /** Everything else it may be looked for by. */
  readonly text: string;
  readonly hash: string | null;
  /** Address of the view that shows it, without the job. */
  readonly href: string;
}

export function findDocs(state: State): readonly FindDoc[] {
  return [
    ...partDocs(state),
    ...listedDocs(state),
    ...bagDocs(state),
    ...lotDocs(state),
    ...placeDocs(state),
    ...noteDocs(state),
    ...saidDocs(state),
    ...foundDocs(state),
    ...photoDocs(state),
    ...soundDocs(state),
    ...personDocs(state),
  ];
}

function firstPhoto(state: State, ids: readonly string[]): string | null {
  for (const id of ids) {
    const hash = state.photos.get(id)?.[0]?.hash;
    if (hash !== undefined) return hash;
  }
  return null;
}

function partDocs(state: State): FindDoc[] {
  const lines = new Map([...state.positions.values()].map((p) => [p.rig ?? p.position, p.line]));
  return [...state.rigParts.values()]
    .filter((p) => p.id !== state.rigRoot)
    .map((p): FindDoc => {
      const thing = thingsOf(state, p.id)[0];
      const at = thing === undefined ? null : whereIs(state, thing);
      const line = state.lines.get(lines.get(p.id) ?? '');
      const bag = at?.bag ?? null;
      return {
        id: `part ${p.id}`,
        kind: 'part',
        title: p.name ?? p.id,
        more: [p.id, bag, at === null ? null : whereWords(state, at.where)].filter((w) => w !== null).join(' · '),
        text: [p.id, bag, line?.name, line?.number, line?.material, line?.group, line?.note].filter(isText).join(' '),
        hash: firstPhoto(state, [p.id, ...(bag === null ? [] : [bag])]),
        href: partHref(p.id),
      };
    });
}

/** What only a parts list or a survey knows: it has no place in the rig yet, but it can be asked for. */
function listedDocs(state: State): FindDoc[] {
  const positions = [...state.positions.values()];
  const placed = new Set(positions.map((p) => p.line));
  const loose = positions.filter((p) => p.rig === undefined && !state.rigParts.has(p.position));
  return [
    ...loose.map((p): FindDoc => {
      const line = state.lines.get(p.line ?? '');
      return {
        id: `position ${p.position}`,
        kind: 'part',
        title: p.name ?? line?.name ?? p.position,
        more: [p.position, 'not in the drawing of joints yet'].join(' · '),
        text: [line?.number, line?.material, line?.group, line?.note].filter(isText).join(' '),
        hash: firstPhoto(state, [p.position]),
        href: partHref(p.position),
      };
    }),
    ...[...state.lines.values()]
      .filter((l) => !placed.has(l.line) && !state.rigParts.has(l.line))
      .map(
        (l): FindDoc => ({
          id: `line ${l.line}`,
          kind: 'part',
          title: l.name,
          more: [l.number ?? l.line, 'in the parts list only'].join(' · '),
          text: [l.line, l.material, l.group, l.note].filter(isText).join(' '),
          hash: firstPhoto(state, [l.line]),
          href: partHref(l.line),
        }),
      ),
  ];
}

function bagDocs(state: State): FindDoc[] {
  return [...state.bags.values()].map((b): FindDoc => {
    const names = [...new Set([...b.of, ...contentsOf(state, b.code)])].map((id) => nameIn(state, id));
    return {
      id: `bag ${b.code}`,
      kind: 'bag',
      title: b.code,
      more: [names.slice(0, 3).join(', '), whereWords(state, b.where)].filter((w) => w !== '').join(' · '),
      // A tired hand writes 105C, or only the number.
      text: [b.code.slice(1), String(Number(b.code.slice(1, -1))), ...b.of, b.note, ...names].filter(isText).join(' '),
      hash: firstPhoto(state, [b.code, ...b.of]),
      href: `/bags?bag=${b.code}`,
    };
  });
}

function lotDocs(state: State): FindDoc[] {
  return [...state.lots.values()].map((l): FindDoc => {
    const at = whereIs(state, l.lot);
    const count = state.lotCounts.get(l.lot)?.count ?? null;
    return {
      id: `lot ${l.lot}`,
      kind: 'lot',
      title: l.what,
      more: [
        count === null ? 'not counted' : `${count} pieces`,
        at?.bag,
        at === null ? null : whereWords(state, at.where),
      ]
        .filter(isText)
        .join(' · '),
      text: [l.lot, l.of, l.note].filter(isText).join(' '),
      hash: null,
      href: at?.bag == null ? partHref(l.of ?? l.lot) : `/bags?bag=${at.bag}`,
    };
  });
}

function placeDocs(state: State): FindDoc[] {
  return [...state.places.values()].map(
    (p): FindDoc => ({
      id: `place ${p.place}`,
      kind: 'place',
      title: p.name ?? p.place,
      more: p.kind ?? '',
      text: [p.place, p.note].filter(isText).join(' '),
      hash: null,
      href: `/bags?place=${encodeURIComponent(p.place)}`,
    }),
  );
}

function personDocs(state: State): FindDoc[] {
  return [...state.people.values()].map(
    (p): FindDoc => ({
      id: `person ${p.person}`,
      kind: 'person',
      title: p.name,
      more: p.role ?? '',
      text: [p.initials, p.note].filter(isText).join(' '),
      hash: null,
      href: `/bags?who=${encodeURIComponent(p.person)}`,
    }),
  );
}
