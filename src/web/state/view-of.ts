/** From the folded state to the plain view the screens read. Pure; kept per state by the caller. */
import { lastUndoable } from '../../journal/decide.ts';
import type { Entry } from '../../journal/entry.ts';
import { dayOfJob } from '../../journal/job-day.ts';
import { nameOf, type State } from '../../journal/state.ts';
import { assemblyOf, type Names, namesOf, upperFirst } from '../words/names.ts';
import { bagsByPart } from './bags-by-part.ts';
import type { DoneMark, FindItem, JobView, Recorded } from './job-view.ts';

const ROLE_WORD: Readonly<Record<string, string>> = {
  lead: 'lead',
  metal: 'sheet metal',
  'wood-and-fabric': 'wood and fabric',
  engine: 'engine and propeller',
  apprentice: 'apprentice',
  volunteer: 'volunteer',
  inspector: 'inspector',
  owner: 'owner',
  other: '',
};

const namesKept = new WeakMap<State['rig'], Names>();
const keysKept = new WeakMap<State['rig'], string>();
let rigCount = 0;

function kept<V>(map: WeakMap<State['rig'], V>, rig: State['rig'], make: () => V): V {
  const had = map.get(rig);
  if (had !== undefined) return had;
  const made = make();
  map.set(rig, made);
  return made;
}

export function viewOf(job: string, state: State, person: string, device: string): JobView {
  const { rig, situation } = state;
  const names = kept(namesKept, rig, () => namesOf(rig));
  const done = doneMarks(state);
  const positions = positionsOf(state);
  return {
    id: job,
    name: state.job?.registration ?? state.job?.name ?? job,
    invented: state.job?.invented ?? rig.invented ?? false,
    rig,
    rigKey: kept(keysKept, rig, () => `${job} ${++rigCount}`),
    situation,
    names,
    day: dayOfJob(state),
    phase: isRefit(state) ? 'refit' : 'strip',
    positions,
    done,
    people: [...state.people.values()].map((p) => ({
      id: p.person,
      name: p.name,
      role: ROLE_WORD[p.role ?? 'other'] || null,
    })),
    stops: state.openStops.map((s) => ({
      entry: s.id,
      subject: s.subject,
      state: s.state,
      at: s.said.at,
      by: nameOf(state, s.said.by),
    })),
    stuck: [...state.stuck.values()].flat().map((s) => ({
      entry: s.said.entry,
      action: s.action ?? null,
      part: s.part ?? null,
      by: s.by ?? null,
      at: s.said.at,
      who: nameOf(state, s.said.by),
    })),
    last: lastOf(state, person, device, names),
    find: findItems(state),
    signed: new Set(situation.signed ?? []),
    marginPercent: state.marginPercent,
    assemblies: assembliesOf(state),
    lastDone:
      state.steps.findLast((s) => s.undone === undefined && (s.what === 'done' || s.what === 'refitted'))?.action ??
      null,
  };
}

function doneMarks(state: State): ReadonlyMap<string, DoneMark> {
  const marks = new Map<string, DoneMark>();
  const trials = new Set(
    [...state.refits].filter(([, rows]) => rows.at(-1)?.stage === 'trial').map(([action]) => action),
  );
  for (const { action, said } of state.done.values()) {
    marks.set(action, {
      action,
      at: said.at,
      by: nameOf(state, said.by),
      entry: said.entry,
      pending: said.pending === true,
      trial: trials.has(action),
    });
  }
  return marks;
}

/** A position is off when the part that sits there, or an assembly that holds it, has been lifted. */
function positionsOf(state: State): JobView['positions'] {
  const within = new Map(state.rig.parts.map((p) => [p.id, p.within]));
  const isOff = (part: string): boolean => {
    for (let at: string | undefined = part; at !== undefined; at = within.get(at))
      if (state.done.has(`remove:${at}`)) return true;
    return false;
  };
  const list =
    state.positions.size > 0
      ? [...state.positions.values()].map((p) => p.rig ?? p.position)
      : [...within.keys()].filter((p) => p !== state.rig.root);
  return { total: list.length, off: list.filter(isOff).length };
}

/** Going back begins with the first thing that is put back; the last step recorded decides which way it goes now. */
function isRefit(state: State): boolean {
  const steps = state.steps.filter((s) => s.undone === undefined && (s.what === 'refitted' || s.what === 'done'));
  const recent = steps.slice(-12);
  return recent.filter((s) => s.what === 'refitted').length * 2 > recent.length;
}

function findItems(state: State): readonly FindItem[] {
  const bags = bagsByPart(state);
  return state.rig.parts
    .filter((p) => p.id !== state.rig.root)
    .map((p): FindItem => ({ id: p.id, name: p.name ?? p.id, bag: bags.get(p.id) ?? null, more: '' }));
}

function assembliesOf(state: State): ReadonlyMap<string, string> {
  const names = new Map<string, string>();
  for (const line of state.lines.values()) {
    const id = assemblyOf(line.line);
    if (id !== null && line.group !== undefined) names.set(id, line.group.replace(/^\d\d /, ''));
  }
  return names;
}

/** What one tap may take back; a rig that was taken in, or a list of parts, is never undone by a slip of the thumb. */
const ONE_TAP =
  /^(step-|setup-changed|made|fact-|stuck|came-off-first|nothing-here|our-damage|stopped-here|stop-cleared|note|look-)/;

/** The newest entry of this person on this device that can be taken back, in words. */
function lastOf(state: State, person: string, device: string, names: Names): Recorded | null {
  const entry = lastUndoable(state, person);
  if (entry === null || entry.device !== device || !ONE_TAP.test(entry.kind)) return null;
  return {
    entry: entry.id,
    words: entryWords(entry, names),
    at: entry.at,
    by: nameOf(state, entry.by),
    pending: entry.pending === true,
  };
}

/** One entry in a few words, for "recorded" lines and for what others did. */
export function entryWords(e: Entry, names: Names): string {
  const d = (typeof e.data === 'object' && e.data !== null ? e.data : {}) as Record<string, unknown>;
  const text = (key: string) => (typeof d[key] === 'string' ? (d[key] as string) : '');
  const step = (key: string) => names.strip(text(key));
  switch (e.kind.split('.')[0]) {
    case 'step-done':
      return step('action');
    case 'step-undone':
      return `Not done after all: ${step('action')}`;
    case 'step-refitted':
      return `${text('stage') === 'trial' ? 'Trial fit' : 'Fitted'}: ${names.refit(text('action'))}`;
    case 'setup-changed':
      return names.strip(`set:${text('setup')}=${text('state')}`);
    case 'made':
      return step('operation');
    case 'fact-settled':
      return `Settled: ${names.fact(text('fact'))}`;
    case 'stuck':
      return text('by') === '' ? `Stuck: ${step('action')}` : `In the way: ${names.part(text('by'))}`;
    case 'came-off-first':
      return `Came off first: ${step('action')}`;
    case 'nothing-here':
      return `Nothing here: ${names.part(text('subject'))}`;
    case 'our-damage':
      return `Our damage: ${text('what')}`;
    case 'stopped-here':
      return `Stopped here: ${text('state')}`;
    case 'stop-cleared':
      return 'Half done no more';
    case 'entry-withdrawn':
      return 'Took an entry back';
    case 'look-signed':
      return `Looked at: ${names.look(text('look'))}`;
    default:
      return upperFirst((e.kind.split('.')[0] ?? '').replaceAll('-', ' '));
  }
}
