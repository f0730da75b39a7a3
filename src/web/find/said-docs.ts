/** What people said, wrote, found and photographed, as documents to be found. Pure. */
import type { State } from '../../journal/state.ts';
import { isText, nameIn, partHref, shortened } from './find-words.ts';
import type { FindDoc } from './index-of.ts';

export function noteDocs(state: State): FindDoc[] {
  return [...state.notes].flatMap(([subject, notes]) =>
    notes.map(
      (n): FindDoc => ({
        id: `note ${n.said.entry}`,
        kind: 'note',
        title: shortened(n.text),
        more: [nameIn(state, subject), n.said.at.slice(0, 10)].join(' · '),
        text: n.text,
        hash: null,
        href: partHref(subject),
      }),
    ),
  );
}

/** What was said when work stopped, and what we did ourselves. */
export function saidDocs(state: State): FindDoc[] {
  const doc = (id: string, subject: string, text: string, at: string, hash: string | null): FindDoc => ({
    id: `note ${id}`,
    kind: 'note',
    title: shortened(text),
    more: [nameIn(state, subject), at.slice(0, 10)].join(' · '),
    text,
    hash,
    href: partHref(subject),
  });
  return [
    ...[...state.stops.values()].map((s) =>
      doc(s.id, s.subject, [s.state, s.note].filter(isText).join('. '), s.said.at, s.photo ?? null),
    ),
    ...state.damages.map((d) => doc(d.said.entry, d.subject, d.what, d.said.at, null)),
  ];
}

export function soundDocs(state: State): FindDoc[] {
  const heard = new Map([...state.sounds.values()].flat().map((s) => [s.hash, s]));
  return [...heard.values()].flatMap((s) =>
    s.transcript === undefined
      ? []
      : [
          {
            id: `sound ${s.hash}`,
            kind: 'sound' as const,
            title: shortened(s.transcript.text),
            more: [...s.of.slice(0, 2).map((id) => nameIn(state, id)), s.said.at.slice(0, 10)].join(' · '),
            text: [s.transcript.text, ...s.of].join(' '),
            hash: null,
            href: partHref(s.of[0] ?? 'job'),
          },
        ],
  );
}

export function foundDocs(state: State): FindDoc[] {
  return [...state.facts].flatMap(([key, records]) => {
    const [subject = '', aspect = ''] = key.split('\u0000');
    const now = records.at(-1);
    if (now === undefined || now.value.is !== 'value') return [];
    return [
      {
        id: `found ${key}`,
        kind: 'found' as const,
        title: `${aspect.replaceAll('-', ' ')}: ${shortened(now.value.text)}`,
        more: nameIn(state, subject),
        text: [subject, now.value.text, now.note, now.tool].filter(isText).join(' '),
        hash: null,
        href: partHref(subject),
      },
    ];
  });
}

export function photoDocs(state: State): FindDoc[] {
  return [...state.photosByHash.values()].flatMap((p) =>
    p.caption === undefined
      ? []
      : [
          {
            id: `photo ${p.hash}`,
            kind: 'photo' as const,
            title: shortened(p.caption),
            more: [...p.of.slice(0, 2).map((s) => nameIn(state, s)), p.takenAsWritten].filter(isText).join(' · '),
            text: [p.caption, ...p.of].join(' '),
            hash: p.hash,
            href: partHref(p.of[0] ?? 'job'),
          },
        ],
  );
}
