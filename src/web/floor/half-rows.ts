/** What was left half done: joints in between, tools still inside, what is stuck; and the tags that hang. Pure. */
import { openStuck, openTags, stillInside } from '../../journal/custody.ts';
import type { State } from '../../journal/state.ts';
import type { JobView } from '../state/job-view.ts';
import { type FloorRow, partHref, partOf, photoOf, saidBy, titleOf } from './floor-row.ts';

const TAG_WORD = { open: 'OPEN', 'do-not-clean': 'DO NOT CLEAN', quarantine: 'QUARANTINE', hazard: 'HAZARD' } as const;

export function stops(state: State, job: JobView): FloorRow[] {
  return state.openStops.map((s): FloorRow => {
    const part = partOf(job, s.subject);
    return {
      id: `stop ${s.id}`,
      shape: 'open',
      word: 'OPEN',
      title: s.state,
      why: [titleOf(job, state, s.subject), saidBy(state, s.said), s.note].filter((w) => w !== undefined).join(' · '),
      href: partHref(part, s.subject),
      photo: s.photo ?? photoOf(state, [s.subject, part]),
      part,
      ends: { kind: 'stop', entry: s.id, word: 'Finished it' },
    };
  });
}

export function inside(state: State, job: JobView): FloorRow[] {
  return stillInside(state).map(
    (i): FloorRow => ({
      id: `inside ${i.zone} ${i.what}`,
      shape: 'inside',
      word: i.count > 0 ? 'STILL INSIDE' : 'TOO MANY OUT',
      title: `${Math.abs(i.count)} × ${i.what}`,
      why: `${titleOf(job, state, i.zone)} · last counted by ${saidBy(state, i.said)}`,
      href: `/bags?inside=${encodeURIComponent(i.zone)}`,
      photo: null,
      part: partOf(job, i.zone),
    }),
  );
}

export function stuck(state: State, job: JobView): FloorRow[] {
  return openStuck(state).map(({ subject, said }): FloorRow => {
    const tried = state.tried.get(said.entry) ?? [];
    const part = partOf(job, subject);
    return {
      id: `stuck ${said.entry}`,
      shape: 'stuck',
      word: 'STUCK',
      title: titleOf(job, state, subject),
      why: [
        saidBy(state, said),
        tried.length === 0 ? 'nothing tried yet' : `tried: ${tried.map((t) => t.method).join(', ')}`,
      ].join(' · '),
      href: partHref(part, subject),
      photo: photoOf(state, [subject, part]),
      part,
      ends: { kind: 'stuck', entry: said.entry, word: 'It came free' },
    };
  });
}

export function tags(state: State, job: JobView): FloorRow[] {
  const order = ['hazard', 'open', 'quarantine', 'do-not-clean'];
  return [...openTags(state)]
    .sort((a, b) => order.indexOf(a.tag) - order.indexOf(b.tag))
    .map((t): FloorRow => {
      const part = partOf(job, t.subject);
      return {
        id: `tag ${t.id}`,
        shape: t.tag === 'hazard' ? 'hazard' : 'tag',
        word: TAG_WORD[t.tag],
        title: titleOf(job, state, t.subject),
        why: [t.says, saidBy(state, t.said)].filter((w) => w !== undefined).join(' · '),
        href: partHref(part, t.subject),
        photo: photoOf(state, [t.subject, part]),
        part,
      };
    });
}
