/**
 * The gestures of the floor as journal entries: one bag is one gesture, and one undo takes the whole gesture back. Pure,
 * so that what a tap records can be tested without a camera.
 */
import type { AttachmentKind, Hand } from '../../domain/rig/rig-types.ts';
import { type Command, recording } from '../../journal/commands.ts';
import type { Entry } from '../../journal/entry.ts';
import type { DataOf } from '../../journal/kinds/kinds.ts';
import type { State } from '../../journal/state.ts';
import type { JobView } from '../state/job-view.ts';
import type { KeptPhoto } from '../state/keep-media.ts';
import { upperFirst } from '../words/names.ts';
import type { Carried } from './carried.ts';

/** A photograph kept on this device: what `photo-taken` needs but the subjects. */
export type Shot = KeptPhoto;

/** One tap: the bag with what is known, and its photographs. Nothing but the code has to be known. */
export function bagIt(bag: string, at: Carried, shots: readonly Shot[]): readonly Command[] {
  return [
    recording('bagged', {
      bag,
      opens: true,
      of: [...at.parts],
      ...(at.hand === null ? {} : { hand: at.hand }),
      ...(at.pin === null ? {} : { pin: at.pin }),
      ...(at.groupName === '' ? {} : { note: at.groupName }),
    }),
    ...photographs(shots, [bag, ...at.parts]),
  ];
}

export function photographs(shots: readonly Shot[], of: readonly string[]): readonly Command[] {
  return shots.map((s) => recording('photo-taken', { ...s, of: [...new Set(of)] }));
}

/** Looked, and nothing was there: with the photograph that shows it. */
export function nothingHere(subject: string, shots: readonly Shot[]): readonly Command[] {
  return [recording('nothing-here', { subject }), ...photographs(shots, [subject])];
}

export function stoppedHere(subject: string, state: string, shots: readonly Shot[]): readonly Command[] {
  const photo = shots[0]?.hash;
  return [
    recording('stopped-here', { subject, state, ...(photo === undefined ? {} : { photo }) }),
    ...photographs(shots, [subject]),
  ];
}

export function ourDamage(subject: string, what: string, shots: readonly Shot[]): readonly Command[] {
  const photos = shots.map((s) => s.hash);
  return [
    recording('our-damage', { subject, what, ...(photos.length === 0 ? {} : { photos }) }),
    ...photographs(shots, [subject]),
  ];
}

/** Known afterwards what the bag holds: filling it again adds to what is said. */
export function nameIt(bag: string, parts: readonly string[], hand: Hand | null): Command {
  return recording('bagged', { bag, of: [...parts], ...(hand === null ? {} : { hand }) });
}

/** A part that nobody had named: it and the joint that held it become part of the rig, and the bag is of it. */
export function newPart(
  bag: string,
  ids: { readonly part: string; readonly joint: string },
  says: {
    readonly name: string;
    readonly on: string;
    readonly joint: AttachmentKind;
    readonly hand: Hand | null;
  },
): readonly Command[] {
  const hand = says.hand === null ? {} : { hand: says.hand };
  return [
    recording('rig-stated', {
      what: 'part',
      id: ids.part,
      value: { id: ids.part, name: says.name, ...hand },
      standing: 'ours',
    }),
    recording('rig-stated', {
      what: 'attachment',
      id: ids.joint,
      value: { id: ids.joint, joins: [ids.part, says.on], kind: says.joint },
      standing: 'ours',
    }),
    nameIt(bag, [ids.part], null),
  ];
}

/** The joints these parts hung by, made or not: what an as-found answer can be about. */
export function ownJoints(job: JobView, parts: readonly string[]): readonly string[] {
  const isPart = new Set(parts);
  return job.rig.attachments.filter((a) => isPart.has(a.joins[0] ?? '') || isOnlyEnd(a.joins, isPart)).map((a) => a.id);
}

/** What an as-found answer is about, in words: a joint as a thing, a part, or the bag. */
export function foundName({ names }: JobView, id: string): string {
  return upperFirst(names.attachment(id) === undefined ? names.part(id) : names.thing(id));
}

/** The joints still made on these parts and their removals: what "it is off" says was done. */
export function impliedSteps(job: JobView, parts: readonly string[]): readonly string[] {
  const steps = [...ownJoints(job, parts), ...parts.map((p) => `remove:${p}`)];
  return [...new Set(steps)].filter((s) => !job.done.has(s));
}

/** A joint is the bag's own when no more than one of its ends stays on the aircraft. */
function isOnlyEnd(joins: readonly string[], bagged: ReadonlySet<string>): boolean {
  const stays = joins.filter((p) => !bagged.has(p));
  return stays.length < joins.length && stays.length <= 1;
}

export interface TakenBack {
  readonly commands: readonly Command[];
  /** Photographs of a bag that was taken back: they are loose again. */
  readonly shots: readonly Shot[];
  readonly bag: string | null;
}

const UNDOABLE_HERE =
  /^(bagged|photo-taken|joint-noted|measured|sound-kept|nothing-here|stopped-here|our-damage|stuck|tried|freed|goes-with|came-off-first|rig-stated|step-done|note|tagged)\./;

/**
 * What one undo takes back: the newest gesture of this person on this device. Entries of one gesture follow each other;
 * photographs go back to the strip, so that undo never costs a picture.
 */
export function takeBack(state: State, person: string, device: string): TakenBack | null {
  const log = state.log;
  let at = log.length - 1;
  while (at >= 0 && !isOurs(state, log[at], person, device)) at -= 1;
  const last = log[at];
  if (last === undefined) return null;
  const gesture: Entry[] = [last];
  if (last.kind.startsWith('photo-taken.')) {
    for (let i = at - 1; i >= 0; i -= 1) {
      const e = log[i];
      if (e === undefined || !isOurs(state, e, person, device) || !together(e, last)) break;
      gesture.push(e);
      if (!e.kind.startsWith('photo-taken.')) break;
    }
  } else if (last.kind.startsWith('bagged.') && log[at - 1]?.kind.startsWith('rig-stated.')) {
    for (let i = at - 1; i >= 0; i -= 1) {
      const e = log[i];
      if (e === undefined || !e.kind.startsWith('rig-stated.') || !together(e, last)) break;
      gesture.push(e);
    }
  }
  const opened = gesture.find((e) => e.kind.startsWith('bagged.') && (e.data as { opens?: boolean }).opens === true);
  return {
    commands:
      gesture.length === 1 && last.kind.startsWith('step-done.')
        ? [{ kind: 'undo-last' }]
        : gesture.map((e) => ({ kind: 'withdraw', entry: e.id }) as const),
    shots: gesture.filter((e) => e.kind.startsWith('photo-taken.')).map((e) => shotOf(e.data as DataOf<'photo-taken'>)),
    bag: opened === undefined ? null : (opened.data as DataOf<'bagged'>).bag,
  };
}

/** Entries of one tap are made within a moment of each other. */
function together(a: Entry, b: Entry): boolean {
  return Math.abs(Date.parse(a.at) - Date.parse(b.at)) <= 1_000;
}

function isOurs(state: State, e: Entry | undefined, person: string, device: string): boolean {
  if (e === undefined || e.by !== person || e.device !== device || state.withdrawn.has(e.id)) return false;
  return UNDOABLE_HERE.test(e.kind) && !state.steps.some((s) => s.said.entry === e.id && s.undone !== undefined);
}

function shotOf({ of: _of, caption: _caption, ...shot }: DataOf<'photo-taken'>): Shot {
  return shot;
}
