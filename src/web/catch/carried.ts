/**
 * Where the next bag comes from: carried on from the last one, so that ten bags from one unit need one choice. Kept on
 * this device for each job, with the words for it, since the camera is there before the job is. Pure but for the two
 * functions at the end.
 */
import type { Hand } from '../../domain/rig/rig-types.ts';
import type { JobView } from '../state/job-view.ts';
import { assemblyOfPart } from '../state/place-of.ts';
import { listWords } from '../words/figures.ts';
import { assemblyOf, lowerFirst, upperFirst } from '../words/names.ts';

export interface Pin {
  readonly sheet: string;
  readonly x: number;
  readonly y: number;
}

export interface Carried {
  /** Two digits of an assembly, or the id of a part that others sit within. */
  readonly group: string | null;
  readonly groupName: string;
  readonly parts: readonly string[];
  readonly hand: Hand | null;
  readonly pin: Pin | null;
  /** Parts and groups used before, newest first. */
  readonly recent: readonly string[];
}

export const NOWHERE: Carried = { group: null, groupName: '', parts: [], hand: null, pin: null, recent: [] };
const MOST_RECENT = 24;

export interface Group {
  readonly id: string;
  readonly name: string;
  readonly parts: readonly string[];
}

/** Assemblies of the parts list by their digits; where a job has none, every part that others sit within. */
export function groupsOf(job: JobView): readonly Group[] {
  const groups = new Map<string, { id: string; name: string; parts: string[] }>();
  for (const part of job.rig.parts) {
    if (part.id === job.rig.root) continue;
    const digits = assemblyOf(part.id) ?? assemblyOfPart(job, part.id);
    const id = digits ?? part.within ?? '';
    if (id === '') continue;
    const name = digits === null ? job.names.part(id) : (job.assemblies.get(digits) ?? digits);
    const group = groups.get(id);
    if (group === undefined) groups.set(id, { id, name, parts: [part.id] });
    else group.parts.push(part.id);
  }
  return [...groups.values()].sort((a, b) => a.id.localeCompare(b.id));
}

/** The parts of a group as a hand would look for them: last used first, then what is still on, then what is off. */
export function partsIn(job: JobView, group: Group, recent: readonly string[]): readonly string[] {
  const rank = (id: string) => {
    const used = recent.indexOf(id);
    if (used >= 0) return used;
    return job.done.has(`remove:${id}`) ? 2_000 : 1_000;
  };
  return group.parts
    .map((id, at) => ({ id, at, rank: rank(id) }))
    .sort((a, b) => a.rank - b.rank || a.at - b.at)
    .map((p) => p.id);
}

export function choosePart(job: JobView, was: Carried, part: string): Carried {
  const has = was.parts.includes(part);
  const parts = has ? was.parts.filter((p) => p !== part) : [...was.parts, part];
  const group = groupsOf(job).find((g) => g.parts.includes(part));
  return {
    ...was,
    parts,
    group: group?.id ?? was.group,
    groupName: group?.name ?? was.groupName,
    hand: (has ? undefined : job.names.hand(part)) ?? was.hand,
    recent: remembered(was.recent, [part]),
  };
}

/** After a bag the place stays and the part goes: the next thing off is another one. */
export function afterBag(was: Carried): Carried {
  return { ...was, parts: [], pin: null, recent: remembered(was.recent, was.parts) };
}

function remembered(recent: readonly string[], now: readonly string[]): readonly string[] {
  return [...new Set([...now, ...recent])].slice(0, MOST_RECENT);
}

export function placeWords(job: JobView, at: Pick<Carried, 'groupName' | 'parts'>): string {
  if (at.parts.length > 0)
    return upperFirst(listWords(at.parts.map((p, i) => (i === 0 ? job.names.part(p) : lowerFirst(job.names.part(p))))));
  return at.groupName === '' ? 'Where is this?' : at.groupName;
}

/** What a note is about when it is not about a bag: the part, else the place, else the job. */
export function subjectOf(at: Carried): string {
  return at.parts[0] ?? (at.groupName === '' ? 'job' : at.groupName);
}

export function readCarried(text: string | null): Carried {
  if (text === null) return NOWHERE;
  try {
    const d = JSON.parse(text) as Partial<Carried> | null;
    if (d === null || typeof d !== 'object' || !Array.isArray(d.parts) || !Array.isArray(d.recent)) return NOWHERE;
    return { ...NOWHERE, ...d };
  } catch {
    return NOWHERE;
  }
}

const key = (job: string) => `witnessmark-carried-${job}`;

export function carriedKept(job: string): Carried {
  return readCarried(localStorage.getItem(key(job)));
}

export function keepCarried(job: string, carried: Carried): void {
  localStorage.setItem(key(job), JSON.stringify(carried));
}
