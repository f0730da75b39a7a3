/**
 * What is marked on one sheet: pins that people set, and what is known of the parts drawn there. A subject has one mark,
 * the gravest that holds: left half done, our damage, nothing here, in a bag, off, pinned. What is on the aircraft and has
 * nothing to say has none: the drawing itself shows it.
 */
import type { Hand } from '../../domain/rig/rig-types.ts';
import type { State } from '../../journal/state.ts';
import { type Point, placeAt, type SheetShown } from '../drawing/placing.ts';
import { whereaboutsOf } from '../part/whereabouts.ts';
import type { JobView } from '../state/job-view.ts';
import { dayWords } from '../words/figures.ts';
import { lineOfPart, upperFirst } from '../words/names.ts';

export const MARK_KINDS = ['stop', 'damage', 'nothing', 'bag', 'off', 'pin'] as const;
export type MarkKind = (typeof MARK_KINDS)[number];

export const MARK_WORD: Readonly<Record<MarkKind, string>> = {
  stop: 'OPEN',
  damage: 'our damage',
  nothing: 'nothing here',
  bag: 'in a bag',
  off: 'off, not bagged',
  pin: 'pinned',
};

export interface Mark {
  readonly subject: string;
  readonly kind: MarkKind;
  readonly name: string;
  readonly hand: Hand | undefined;
  /** One grey line below the name. */
  readonly under: string;
  readonly code: string | null;
  readonly at: Point;
  /** The last thing on this sheet that came off. */
  readonly isLast: boolean;
}

/** The parts a subject is about: itself, or those its action names. */
export function partsOfSubject(job: JobView, subject: string): readonly string[] {
  if (job.names.find(subject) !== undefined) return [subject];
  const parts = job.names.partsOf(subject);
  return parts.length > 0 ? parts : [subject];
}

export function nameOfSubject(state: State, job: JobView, subject: string): string {
  const bag = state.bags.get(subject);
  if (bag !== undefined)
    return bag.of.length === 0 ? `Bag ${subject}` : nameOfSubject(state, job, bag.of[0] ?? subject);
  if (job.names.find(subject) !== undefined) return upperFirst(job.names.part(subject));
  if (job.names.attachment(subject) !== undefined || subject.startsWith('remove:')) return job.names.strip(subject);
  return state.positions.get(subject)?.name ?? state.lines.get(subject)?.name ?? subject;
}

export function handOfSubject(state: State, job: JobView, subject: string): Hand | undefined {
  const bag = state.bags.get(subject);
  return (
    bag?.hand ??
    partsOfSubject(job, bag?.of[0] ?? subject)
      .map(job.names.hand)
      .find((h) => h !== undefined) ??
    state.positions.get(subject)?.hand ??
    state.pieces.get(subject)?.hand
  );
}

/** The last thing that came off, by part or by bag where only a bag was recorded. */
export function lastOff(state: State): string | null {
  const step = state.steps.findLast(
    (s) => s.what === 'done' && s.undone === undefined && s.trial !== true && s.action.startsWith('remove:'),
  );
  const bag = [...state.bags.values()].findLast((b) => b.of.length === 0);
  if (bag !== undefined && (step === undefined || bag.opened.at > step.said.at)) return bag.code;
  return step?.action.slice('remove:'.length) ?? null;
}

/** Everything that has something to say, by subject: made once for a state, asked by every sheet. */
export interface Said {
  readonly stops: ReadonlyMap<string, string>;
  readonly damages: ReadonlyMap<string, string>;
}

export function saidOf(state: State, job: JobView): Said {
  const stops = new Map<string, string>();
  for (const s of state.openStops)
    for (const p of [s.subject, ...partsOfSubject(job, s.subject)]) stops.set(p, s.state);
  const damages = new Map<string, string>();
  for (const d of state.damages) for (const p of [d.subject, ...partsOfSubject(job, d.subject)]) damages.set(p, d.what);
  return { stops, damages };
}

function markOf(state: State, job: JobView, said: Said, subject: string, at: Point, isPinned: boolean): Mark | null {
  const where = whereaboutsOf(state, job, subject);
  const stop = said.stops.get(subject);
  const damage = said.damages.get(subject);
  const nothing = state.nothingHere.get(subject);
  const off = job.done.get(`remove:${subject}`);
  const isBag = state.bags.has(subject) || (off !== undefined && where.code !== null);
  const own = (kind: MarkKind, under: string): Mark => ({
    subject,
    kind,
    name: nameOfSubject(state, job, subject),
    hand: handOfSubject(state, job, subject),
    under,
    code: isBag ? where.code : null,
    at,
    isLast: false,
  });
  if (stop !== undefined) return own('stop', stop);
  if (damage !== undefined) return own('damage', damage);
  if (nothing !== undefined) return own('nothing', nothing.note ?? 'looked: none is fitted');
  if (isBag) return own('bag', [where.code, where.words].filter((w) => w !== null).join(' · '));
  if (off !== undefined) return own('off', `off ${dayWords(off.at)} · ${where.words ?? 'not bagged yet'}`);
  return isPinned ? own('pin', pinWords(state, subject)) : null;
}

function pinWords(state: State, subject: string): string {
  const pin = [...state.pins.values()].findLast((p) => p.subject === subject);
  return [pin?.station, pin?.height, pin?.note].filter((w) => w !== undefined).join(' · ') || 'set by hand';
}

/** Of some subjects, the one that came off last; by the time written, then by the order of the record. */
function lastOf(state: State, subjects: readonly string[]): string | null {
  const order = new Map([...state.done.keys()].map((action, i) => [action, i]));
  let last: { readonly subject: string; readonly at: string; readonly nth: number } | null = null;
  for (const subject of subjects) {
    const at = state.done.get(`remove:${subject}`)?.said.at ?? state.bags.get(subject)?.opened.at;
    if (at === undefined) continue;
    const nth = order.get(`remove:${subject}`) ?? order.size;
    if (last === null || at > last.at || (at === last.at && nth > last.nth)) last = { subject, at, nth };
  }
  return last?.subject ?? null;
}

/** Pins that people set on this sheet; the last for a subject holds. */
export function pinsOn(state: State, sheet: string): ReadonlyMap<string, Point> {
  const pins = new Map<string, Point>();
  for (const b of state.bags.values()) if (b.pin?.sheet === sheet) pins.set(b.code, { x: b.pin.x, y: b.pin.y });
  for (const p of state.pins.values()) if (p.pin.sheet === sheet) pins.set(p.subject, { x: p.pin.x, y: p.pin.y });
  return pins;
}

const partsKept = new WeakMap<object, ReadonlyMap<string, readonly string[]>>();

/** Parts by the line that stands on the drawing. */
export function partsByLine(job: JobView): ReadonlyMap<string, readonly string[]> {
  const had = partsKept.get(job.rig);
  if (had !== undefined) return had;
  const made = new Map<string, string[]>();
  for (const p of job.rig.parts) {
    const line = lineOfPart(p.id);
    const list = made.get(line);
    if (list === undefined) made.set(line, [p.id]);
    else list.push(p.id);
  }
  partsKept.set(job.rig, made);
  return made;
}

/** Gravest first, then the last removed, then by name. `shown` is null for a sheet that is not on the screen yet. */
export function marksOn(state: State, job: JobView, sheet: string, shown: SheetShown | null): readonly Mark[] {
  const said = saidOf(state, job);
  const places = new Map<string, { readonly at: Point; readonly pinned: boolean }>();
  for (const [line] of shown?.places ?? []) {
    for (const [nth, part] of (partsByLine(job).get(line) ?? []).entries()) {
      const at = shown === null ? undefined : placeAt(shown, line, nth);
      if (at !== undefined) places.set(part, { at, pinned: false });
    }
  }
  for (const [subject, at] of pinsOn(state, sheet)) places.set(subject, { at, pinned: true });
  const found = [...places].flatMap(([subject, p]) => markOf(state, job, said, subject, p.at, p.pinned) ?? []);
  const last = lastOf(
    state,
    found.map((m) => m.subject),
  );
  const marks = found.map((m) => (m.subject === last ? { ...m, isLast: true } : m));
  return marks.sort(
    (a, b) =>
      MARK_KINDS.indexOf(a.kind) - MARK_KINDS.indexOf(b.kind) ||
      Number(b.isLast) - Number(a.isLast) ||
      a.name.localeCompare(b.name),
  );
}

/** Where a subject sits on a sheet: the pin somebody set, else where it is drawn. */
export function placeOn(state: State, job: JobView, sheet: string, shown: SheetShown, subject: string): Point | null {
  const pin = pinsOn(state, sheet).get(subject);
  if (pin !== undefined) return pin;
  for (const part of partsOfSubject(job, subject)) {
    const line = lineOfPart(part);
    const nth = partsByLine(job).get(line)?.indexOf(part) ?? 0;
    const at = placeAt(shown, line, Math.max(0, nth));
    if (at !== undefined) return at;
  }
  return null;
}
