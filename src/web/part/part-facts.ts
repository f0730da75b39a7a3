/**
 * What the card says of a part: on, off or how far it is back, the next thing owed, tags, set, and its history in order of
 * the record. Pure. What is owed is a list in the order in which it hurts; the card shows the first large.
 */
import { openTags, setOf, thingsOf } from '../../journal/custody.ts';
import type { Tag } from '../../journal/custody-state.ts';
import type { Entry } from '../../journal/entry.ts';
import { nameOf, refitStage, type State } from '../../journal/state.ts';
import type { JobView } from '../state/job-view.ts';
import { entryWords } from '../state/view-of.ts';
import { dayWords, hourOf } from '../words/figures.ts';
import { upperFirst } from '../words/names.ts';
import { jointsOf } from './as-found.ts';
import { bagsOf, whereaboutsOf } from './whereabouts.ts';

/** The part, its joints, its pieces, lots and bags: whatever an entry may name when it speaks of it. */
export function subjectsOf(state: State, job: JobView, part: string): ReadonlySet<string> {
  const things = [...thingsOf(state, part), ...bagsOf(state, part)];
  return new Set([part, `remove:${part}`, ...jointsOf(job, part), ...things]);
}

export interface PartState {
  readonly words: string;
  readonly since: string | null;
}

const STAGE_WORD: Readonly<Record<string, string>> = {
  trial: 'on, trial fit only',
  loose: 'on, loose',
  final: 'on, fitted',
  torqued: 'on, torqued',
  safetied: 'on, safetied',
  seen: 'on, seen by a second person',
};

export function partState(state: State, job: JobView, part: string): PartState {
  const off = job.done.get(`remove:${part}`);
  if (off !== undefined && !off.trial) return { words: 'off', since: `${dayWords(off.at)}, ${off.by}` };
  const stage = refitStage(state, `remove:${part}`);
  if (stage !== null) {
    const said = state.refits.get(`remove:${part}`)?.at(-1)?.said;
    return {
      words: STAGE_WORD[stage] ?? stage,
      since: said === undefined ? null : `${dayWords(said.at)}, ${nameOf(state, said.by)}`,
    };
  }
  return { words: job.names.find(part) === undefined ? 'noted' : 'on the aircraft', since: null };
}

export interface Owed {
  readonly what: string;
  readonly why: string;
  readonly kind: 'stop' | 'stuck' | 'tag' | 'bag' | 'photo' | 'found' | 'fact';
  /** A joint, fact or tag it is about. */
  readonly id: string;
}

export function owedOf(state: State, job: JobView, part: string): readonly Owed[] {
  const about = subjectsOf(state, job, part);
  const joints = jointsOf(job, part);
  const isOff = job.done.has(`remove:${part}`);
  const stops = state.openStops
    .filter((s) => about.has(s.subject))
    .map(
      (s): Owed => ({
        kind: 'stop',
        id: s.id,
        what: `Left half done: ${s.state}`,
        why: `${nameOf(state, s.said.by)}, ${dayWords(s.said.at)}`,
      }),
    );
  const stuck = job.stuck
    .filter((s) => s.action !== null && about.has(s.action) && !job.done.has(s.action) && !state.freed.has(s.entry))
    .map(
      (s): Owed => ({
        kind: 'stuck',
        id: s.entry,
        what: `Stuck: ${job.names.strip(s.action ?? '')}`,
        why: `${s.who}, ${dayWords(s.at)}`,
      }),
    );
  const unbagged: readonly Owed[] =
    isOff && whereaboutsOf(state, job, part).code === null && !state.nothingHere.has(part)
      ? [{ kind: 'bag', id: part, what: 'Off and not in a bag', why: 'Give it a bag, or a tag with a number' }]
      : [];
  const unseen: readonly Owed[] =
    isOff && [...about].every((s) => (state.photos.get(s)?.length ?? 0) === 0)
      ? [{ kind: 'photo', id: part, what: 'No photograph of it', why: 'One of the part, one of where it sat' }]
      : [];
  const found = joints
    .filter((j) => job.done.has(j) && (state.aspects.get(j)?.length ?? 0) === 0)
    .map(
      (j): Owed => ({
        kind: 'found',
        id: j,
        what: `As found, of: ${lower(job.names.strip(j))}`,
        why: 'Nothing noted; “not looked” is an answer too',
      }),
    );
  const facts = job.rig.attachments
    .filter((a) => joints.includes(a.id))
    .flatMap((a) => factsIn(a))
    .filter((f) => !state.settled.has(f))
    .map(
      (f): Owed => ({
        kind: 'fact',
        id: f,
        what: `To settle: ${lower(job.names.fact(f))}`,
        why: 'Only a person can say',
      }),
    );
  return [...stops, ...stuck, ...facts, ...unbagged, ...unseen, ...found];
}

function lower(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

/** Facts that a joint's needs name, wherever they stand in them. */
function factsIn(needs: unknown): readonly string[] {
  const found = new Set<string>();
  JSON.stringify(needs, (key, value: unknown) => {
    if (key === 'fact' && typeof value === 'string') found.add(value);
    return value;
  });
  return [...found];
}

export function tagsOf(state: State, about: ReadonlySet<string>): readonly Tag[] {
  return openTags(state).filter((t) => about.has(t.subject));
}

export function setMembers(state: State, about: ReadonlySet<string>): readonly string[] {
  return [...new Set([...about].flatMap((s) => setOf(state, s)))].filter((m) => !about.has(m));
}

export interface HistoryRow {
  readonly entry: string;
  readonly what: string;
  readonly more: string;
  readonly who: string;
  readonly when: string;
  readonly device: string;
  /** Taken back, or said anew: it stays in sight, struck through. */
  readonly gone: string | null;
  readonly pending: boolean;
}

/** Every entry that names the part or what belongs to it, in the order of the record, the newest first. */
export function historyOf(state: State, job: JobView, about: ReadonlySet<string>): readonly HistoryRow[] {
  return state.log
    .filter((e) => speaksOf(e.data, about))
    .map((e): HistoryRow => {
      const gone = state.withdrawn.get(e.id);
      const { what, more } = historyWords(e, job);
      return {
        entry: e.id,
        what,
        more,
        who: nameOf(state, e.by),
        when: `${dayWords(e.at)} ${hourOf(e.at)}`,
        device: state.devices.get(e.device)?.name ?? e.device,
        gone:
          gone === undefined
            ? null
            : `${gone.how === 'corrected' ? 'said anew' : 'taken back'}${gone.why === undefined ? '' : `: ${gone.why}`}`,
        pending: e.pending === true,
      };
    })
    .reverse();
}

const NAMES_A_THING = [
  'subject',
  'action',
  'part',
  'line',
  'position',
  'piece',
  'rig',
  'what',
  'bag',
  'lot',
  'before',
  'id',
  'by',
  'thing',
];
const NAMES_THINGS = ['of', 'things', 'members'];

function speaksOf(data: unknown, about: ReadonlySet<string>): boolean {
  if (typeof data !== 'object' || data === null) return false;
  const d = data as Readonly<Record<string, unknown>>;
  return (
    NAMES_A_THING.some((k) => typeof d[k] === 'string' && about.has(d[k])) ||
    NAMES_THINGS.some((k) => {
      const v = d[k];
      return typeof v === 'string'
        ? about.has(v)
        : Array.isArray(v) && v.some((x) => typeof x === 'string' && about.has(x));
    })
  );
}

export function historyWords(e: Entry, job: JobView): { readonly what: string; readonly more: string } {
  const d = (typeof e.data === 'object' && e.data !== null ? e.data : {}) as Readonly<Record<string, unknown>>;
  const text = (key: string) => (typeof d[key] === 'string' ? d[key] : '');
  const note = text('note');
  const aspect = upperFirst(text('aspect').replaceAll('-', ' '));
  switch (e.kind.split('.')[0]) {
    case 'reading-noted':
      return { what: `${aspect}: ${text('text')}`, more: joined(text('tool'), note) };
    case 'measured': {
      const readings = Array.isArray(d.readings) ? (d.readings as readonly { readonly text: string }[]) : [];
      return {
        what: `Measured ${aspect.toLowerCase()}: ${readings.map((r) => r.text).join(', ')}`,
        more: joined(text('instrument'), note),
      };
    }
    case 'note':
      return { what: `“${text('text')}”`, more: '' };
    case 'bagged':
      return { what: `Into bag ${text('bag')}`, more: note };
    case 'photo-taken':
      return { what: 'Photograph', more: text('caption') };
    case 'joint-noted':
      return { what: `As found: ${lower(job.names.strip(text('subject')))}`, more: note };
    case 'tagged':
      return { what: `Tag hung: ${text('tag').replaceAll('-', ' ')}`, more: text('says') };
    case 'moved':
      return { what: `Moved: ${text('what')}`, more: note };
    case 'piece-noted':
      return { what: `Piece ${text('piece')}`, more: joined(text('place'), text('state'), note) };
    case 'lot-noted':
      return { what: `Counted: ${text('what')}`, more: note };
    case 'rig-stated':
      return { what: 'What holds it was stated', more: note };
    case 'thickness-noted':
      return {
        what: 'Thickness grid',
        more: joined(text('step') === '' ? '' : `squares of ${text('step')}`, text('instrument'), note),
      };
    case 'dial-noted':
      return { what: 'Dial readings', more: joined(text('unit'), text('instrument'), note) };
    case 'datum-read':
      return { what: `Datum ${text('when')}: ${text('datum')}`, more: joined(text('instrument'), note) };
    case 'sheet-added':
      return { what: `Sheet added: ${text('name')}`, more: '' };
    case 'sound-kept':
      return { what: 'Voice note', more: '' };
    case 'tag-taken-off':
      return { what: 'Tag taken off', more: note };
    case 'goes-with':
      return { what: 'Kept together as a set', more: text('why') };
    case 'position-noted':
      return { what: 'Its place was written down', more: joined(text('station'), note) };
    case 'part-line-noted':
      return { what: 'Line of the parts list', more: joined(text('material'), note) };
    case 'pin-set':
      return { what: 'Pinned on a sheet', more: joined(text('station'), text('height'), note) };
    default:
      return { what: entryWords(e, job.names), more: note };
  }
}

function joined(...words: readonly string[]): string {
  return words.filter((w) => w !== '').join(' · ');
}
