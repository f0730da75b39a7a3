/**
 * What the floor needs to know first, as plain rows. Pure. Order is the message: what is half done, what can hurt, what is
 * not where it should be, what comes next, what came in. Nothing is hidden; long groups are counted and opened.
 */
import { RigMeaning } from '../../domain/rig/rig-meaning.ts';
import type { ActionId, Rig } from '../../domain/rig/rig-types.ts';
import {
  bagClashes,
  openDifferences,
  openStuck,
  openTags,
  openTransfers,
  overdrawn,
  stillInside,
} from '../../journal/custody.ts';
import { nameOf, type Said, type State } from '../../journal/state.ts';
import type { JobView } from '../state/job-view.ts';
import { placeOf } from '../state/place-of.ts';
import { entryWords } from '../state/view-of.ts';
import { count, dayWords, hourOf } from '../words/figures.ts';

export type FloorShape = 'open' | 'hazard' | 'tag' | 'stuck' | 'inside' | 'away' | 'next' | 'came';

export interface FloorRow {
  readonly id: string;
  readonly shape: FloorShape;
  /** The word that stands with the shape. */
  readonly word: string;
  readonly title: string;
  readonly why: string;
  /** Where a tap leads. */
  readonly href: string;
  readonly photo: string | null;
  /** The part it is about, for the drawing. */
  readonly part: string | null;
  /** One tap that ends it, where there is one. */
  readonly ends?: { readonly kind: 'stop' | 'tag' | 'stuck'; readonly entry: string; readonly word: string };
}

export interface FloorGroup {
  readonly id: 'open' | 'hurt' | 'astray' | 'next' | 'came';
  readonly name: string;
  readonly rows: readonly FloorRow[];
  readonly none: string;
}

const TAG_WORD = { open: 'OPEN', 'do-not-clean': 'DO NOT CLEAN', quarantine: 'QUARANTINE', hazard: 'HAZARD' } as const;
const NEXT = 3;
const CAME = 6;

/** What is still only on this device. */
export interface NotCopied {
  readonly photos: number;
  readonly sounds: number;
}

export function floorGroups(state: State, job: JobView, person: string, waits: NotCopied): readonly FloorGroup[] {
  return [
    {
      id: 'open',
      name: 'Left half done',
      rows: [...stops(state, job), ...inside(state, job), ...stuck(state, job)],
      none: 'Nothing was left half done.',
    },
    {
      id: 'hurt',
      name: 'Can hurt, or must be left as it is',
      rows: [...tags(state, job), ...energy(state, job)],
      none: 'No tag hangs.',
    },
    {
      id: 'next',
      name: 'Next here',
      rows: next(state, job),
      none: 'Nothing is free to be done here; see what holds it under Getting it off.',
    },
    {
      id: 'astray',
      name: 'Not where it should be',
      rows: [...notCopied(waits), ...astray(state)],
      none: 'Every bag is on a shelf and every count agrees.',
    },
    { id: 'came', name: 'What others recorded', rows: came(state, job, person), none: 'Nothing by others yet.' },
  ];
}

function saidBy(state: State, said: Said): string {
  return `${nameOf(state, said.by)}, ${dayWords(said.at).replace(/ \d{4}$/, '')} ${hourOf(said.at)}`;
}

function partOf(job: JobView, subject: string): string | null {
  const bare = subject.replace(/^remove:/, '');
  if (job.names.find(bare) !== undefined) return bare;
  return job.names.partsOf(subject)[0] ?? null;
}

function titleOf(job: JobView, state: State, subject: string): string {
  const bare = subject.replace(/^remove:/, '');
  if (job.names.find(bare) !== undefined) return job.names.part(bare);
  return (
    job.names.attachment(subject)?.name ?? state.lots.get(subject)?.what ?? state.bags.get(subject)?.code ?? subject
  );
}

const partHref = (part: string | null, subject: string) => `/part?part=${encodeURIComponent(part ?? subject)}`;

function photoOf(state: State, ids: readonly (string | null | undefined)[]): string | null {
  for (const id of ids) {
    const hash = id == null ? undefined : state.photos.get(id)?.at(-1)?.hash;
    if (hash !== undefined) return hash;
  }
  return null;
}

function stops(state: State, job: JobView): FloorRow[] {
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

function inside(state: State, job: JobView): FloorRow[] {
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

function stuck(state: State, job: JobView): FloorRow[] {
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

function tags(state: State, job: JobView): FloorRow[] {
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

interface Known {
  readonly meaning: RigMeaning;
  readonly armed: readonly string[];
}
const kept = new WeakMap<Rig, Known>();

/** Actions with a hazard in them, found once for a rig. */
function knownOf(rig: Rig): Known {
  let known = kept.get(rig);
  if (known === undefined) {
    const armed = [...rig.attachments, ...rig.operations].filter((a) => (a.hazards ?? []).length > 0).map((a) => a.id);
    known = { meaning: new RigMeaning(rig), armed };
    kept.set(rig, known);
  }
  return known;
}

function worldOf(meaning: RigMeaning, state: State): Parameters<RigMeaning['hindrances']>[1] {
  const start = meaning.start();
  const { situation } = state;
  return {
    done: new Set([...start.done, ...situation.done, ...(situation.made ?? [])]),
    states: { ...start.states, ...situation.setups },
    facts: new Set([...start.facts, ...(situation.facts ?? [])]),
  };
}

/** Joints whose energy nobody has let out yet: the gate is shut until then. */
function energy(state: State, job: JobView): FloorRow[] {
  const { meaning, armed } = knownOf(job.rig);
  const world = worldOf(meaning, state);
  const rows = armed.flatMap((action): FloorRow[] => {
    if (world.done.has(action) || !meaning.hindrances(action, world).some((h) => h.rule === 'hazard')) return [];
    const element = job.names.attachment(action) ?? job.rig.operations.find((o) => o.id === action);
    const part = partOf(job, action);
    const note = element?.hazards?.map((h) => h.note ?? h.kind.replaceAll('-', ' ')).join('; ');
    return [
      {
        id: `energy ${action}`,
        shape: 'hazard',
        word: 'GATE SHUT',
        title: job.names.strip(action),
        why: note ?? 'holds energy',
        href: `/off?goal=${encodeURIComponent(part ?? action)}`,
        photo: null,
        part,
      },
    ];
  });
  // One row for each danger: forty rivets beside one tank are one danger.
  const byDanger = new Map<string, FloorRow[]>();
  for (const r of rows) byDanger.set(r.why, [...(byDanger.get(r.why) ?? []), r]);
  return [...byDanger.values()].map((same): FloorRow => {
    const first = same[0] as FloorRow;
    return same.length === 1 ? first : { ...first, title: `${first.title}, and ${same.length - 1} more` };
  });
}

/** The next things free to be done where work was last going on. */
function next(state: State, job: JobView): FloorRow[] {
  if (job.lastDone === null) return [];
  const { meaning } = knownOf(job.rig);
  const world = worldOf(meaning, state);
  const here = placeOf(job, job.lastDone);
  const free = (action: ActionId) =>
    placeOf(job, action) === here && !world.done.has(action) && meaning.hindrances(action, world).length === 0;
  const actions = [...job.rig.parts.map((p) => `remove:${p.id}`), ...job.rig.attachments.map((a) => a.id)];
  const found: ActionId[] = [];
  for (const action of actions) {
    if (found.length === NEXT) break;
    if (free(action)) found.push(action);
  }
  return found.map((action): FloorRow => {
    const part = partOf(job, action);
    return {
      id: `next ${action}`,
      shape: 'next',
      word: 'FREE',
      title: job.names.strip(action),
      why: part === null ? '' : `${job.names.part(part)} · ${part}`,
      href: `/off?goal=${encodeURIComponent(part ?? action)}`,
      photo: photoOf(state, [action, part]),
      part,
    };
  });
}

/** Losing the phone now would lose these. */
function notCopied({ photos, sounds }: NotCopied): FloorRow[] {
  if (photos + sounds === 0) return [];
  const what = [
    ...(photos === 0 ? [] : [count(photos, 'photograph')]),
    ...(sounds === 0 ? [] : [count(sounds, 'voice note')]),
  ].join(' and ');
  const row = { id: 'not copied', shape: 'away', word: 'ONLY HERE', title: `${what} not yet copied` } as const;
  return [{ ...row, why: 'kept on this device; sent by itself in reach of the shop’s machine', ...NOWHERE }];
}

const NOWHERE = { href: '', photo: null, part: null } as const;

function astray(state: State): FloorRow[] {
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

function came(state: State, job: JobView, person: string): FloorRow[] {
  const since = state.log.findLastIndex((e) => e.by === person);
  return state.log
    .slice(since + 1)
    .filter((e) => e.by !== person)
    .slice(-CAME)
    .reverse()
    .map(
      (e): FloorRow => ({
        id: `came ${e.id}`,
        shape: 'came',
        word: hourOf(e.at),
        title: entryWords(e, job.names),
        why: `${nameOf(state, e.by)}, ${dayWords(e.at)}`,
        href: '',
        photo: null,
        part: null,
      }),
    );
}
