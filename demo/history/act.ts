/**
 * How the invented history is recorded: acts with a person and a time become entries through the journal's own
 * `decide` and `fold`, so nothing is in the record that the program would not have taken. INVENTED.
 *
 * Deterministic: times are written, ids are made of the time and a counter, nothing is read from a clock. Steps of a
 * session are put in order by the rig: the first listed action that is allowed goes next. An action that never becomes
 * allowed is our own mistake and is thrown, so the history cannot drift away from the rig.
 */
import { makeUlid } from '../../src/domain/ids.ts';
import { must } from '../../src/domain/result.ts';
import type { ActionId, Rig } from '../../src/domain/rig/rig-types.ts';
import { type Command, recording } from '../../src/journal/commands.ts';
import { decide } from '../../src/journal/decide.ts';
import { asPending, type EntryDraft } from '../../src/journal/entry.ts';
import { fold } from '../../src/journal/fold.ts';
import { EMPTY_STATE } from '../../src/journal/make-state.ts';
import type { State } from '../../src/journal/state.ts';
import { compile } from '../../src/planning/rig-model/compile.ts';
import { Moment } from '../../src/planning/rig-model/moment.ts';
import { POSITIONS } from '../parts.ts';
import { at, END_OF_WORK, nextWorkday, START_OF_WORK } from './calendar.ts';
import { foundValue, takingOff } from './pick.ts';
import { cameraTime, DRAWN, isCamera, NO_PICTURES, type Picture, type Pictures, type Shot } from './shots.ts';

export { assembly, lines } from './pick.ts';

/** A voice note with its file. */
export interface Sound {
  readonly id: string;
  readonly hash: string;
  readonly file: Uint8Array;
}

export interface By {
  readonly by: string;
  readonly device: string;
}

export class Recorder {
  private state: State = EMPTY_STATE;
  private readonly made: EntryDraft[] = [];
  private counter = 0;
  private date = '2025-09-01';
  private minute = START_OF_WORK;
  private moment: Moment | null = null;

  private readonly foundAt: ReadonlyMap<string, Readonly<Record<string, unknown>>>;

  private readonly taken: Shot[] = [];
  private readonly heard: Sound[] = [];

  constructor(
    private readonly rig: Rig,
    private readonly pictures: Pictures = NO_PICTURES,
  ) {
    this.foundAt = new Map(
      rig.attachments.flatMap((a) => (a.asFound === undefined ? [] : [[a.id, a.asFound] as const])),
    );
  }

  get drafts(): readonly EntryDraft[] {
    return this.made;
  }

  get now(): State {
    return this.state;
  }

  /** Every photograph of the story, with or without its picture. */
  get shots(): readonly Shot[] {
    return this.taken;
  }

  /** Every voice note of the story, with its file. */
  get sounds(): readonly Sound[] {
    return this.heard;
  }

  sound(sound: Sound): void {
    this.heard.push(sound);
  }

  /** The id of the entry recorded last. */
  get last(): EntryDraft['id'] {
    const last = this.made.at(-1);
    if (last === undefined) throw new Error('internal: nothing is recorded yet; report it');
    return last.id;
  }

  /** Work goes on at this day and time; never before what is already recorded. */
  on(date: string, hour = 8, minute = 20): this {
    const minutes = hour * 60 + minute;
    if (date < this.date || (date === this.date && minutes < this.minute)) {
      throw new Error(`internal: the history goes back from ${this.date} to ${date}; report it`);
    }
    this.date = date;
    this.minute = minutes;
    return this;
  }

  record(who: By, command: Command, takes = 1): this {
    const when = at(this.date, this.minute);
    const drafts = must(decide(this.state, command, { id: this.id(when), at: when, ...who }));
    this.state = fold(drafts.map(asPending), this.state);
    this.made.push(...drafts);
    this.pass(takes);
    return this;
  }

  /** Steps, each allowed by the rig at its turn. Entries are parts to take off, or actions; order is the rig's. */
  strip(who: By, targets: readonly string[]): this {
    const { model } = this.now_();
    const isPart = (t: string) => model.places.index.has(t);
    const todo = [...new Set(targets.flatMap((t) => (isPart(t) ? takingOff(model, t) : [t])))];
    const open = todo.filter((a) => !this.isDone(a));
    while (open.length > 0) {
      const next = open.findIndex((a) => this.now_().allowed(a));
      const action = open[next];
      if (action === undefined) throw new Error(`internal: the rig does not allow ${open.join(', ')}; report it`);
      open.splice(next, 1);
      this.step(who, action);
    }
    return this;
  }

  /** One step as the plan or the person wanted it. */
  step(who: By, action: ActionId, note?: string): this {
    const minutes = this.minutesOf(action);
    this.record(
      who,
      { kind: 'step', action, planned: true, ...(note !== undefined && { note }) },
      Math.max(1, minutes),
    );
    this.now_().doAction(action);
    return this.asFound(who, action);
  }

  /** What the rig says was found at this joint is written down by whoever undid it. */
  private asFound(who: By, joint: ActionId): this {
    const found = this.foundAt.get(joint);
    if (found === undefined) return this;
    const aspects = Object.fromEntries(Object.entries(found).map(([aspect, value]) => [aspect, foundValue(value)]));
    return this.record(who, recording('joint-noted', { subject: joint, aspects }), 0);
  }

  /** Against what the rig allows: told by others, or done by us. */
  force(who: By, action: ActionId, harm: string | null, note: string): this {
    this.record(who, { kind: 'force', action, harm, note });
    this.now_().doAction(action);
    return this;
  }

  /** A fact that a person settled. */
  settle(who: By, fact: string, note: string): this {
    this.record(who, { kind: 'record', entry: 'fact-settled', data: { fact, note } });
    this.now_().facts[this.now_().model.factIndex.get(fact) ?? -1] = 1;
    return this;
  }

  note(who: By, subject: string, text: string): this {
    return this.record(who, { kind: 'record', entry: 'note', data: { subject, text } });
  }

  /** A photograph; recorded once its picture is made. Gives the hash, for entries that name it. */
  photo(who: By, id: string, picture: Picture, of: readonly string[], caption: string): string | undefined {
    if (!isCamera(who.device)) throw new Error(`internal: ${who.device} has no camera; report it`);
    const shot: Shot = {
      id,
      picture,
      of,
      caption: `${caption} (${DRAWN})`,
      camera: who.device,
      ...cameraTime(at(this.date, this.minute), who.device),
    };
    if (this.taken.some((s) => s.id === id)) throw new Error(`internal: two photographs are called ${id}; report it`);
    this.taken.push(shot);
    const info = this.pictures.get(id);
    if (info === undefined) return undefined;
    this.record(who, { kind: 'record', entry: 'photo-taken', data: { ...info, of, caption: shot.caption } }, 0);
    return info.hash;
  }

  nothingHere(who: By, subject: string, note: string): this {
    return this.record(who, { kind: 'record', entry: 'nothing-here', data: { subject, note } });
  }

  /** Back on. Parts go back before their joints, as the rig needs it; `stage` as far as it was taken. */
  refit(who: By, targets: readonly string[], stage: 'loose' | 'final' | 'torqued' | 'safetied'): this {
    for (const t of targets) {
      const model = this.now_().model;
      const actions = model.places.index.has(t) ? [...takingOff(model, t)].reverse() : [t];
      for (const action of actions) {
        const index = model.find(action);
        if (index === null || !this.isDone(action) || !this.canGoBack(index)) continue;
        this.record(who, { kind: 'refit', action, stage }, Math.max(1, this.minutesOf(action)));
        this.now_().done[index] = 0;
      }
      if (model.places.index.has(t) && this.isDone(`remove:${t}`)) {
        throw new Error(`internal: the rig does not let ${t} go back yet; report it`);
      }
    }
    return this;
  }

  isDone(action: ActionId): boolean {
    const set = action.startsWith('set:');
    if (set) return false;
    const index = this.now_().model.find(action);
    return index !== null && this.now_().done[index] === 1;
  }

  positionsOff(): readonly string[] {
    const m = this.now_();
    return POSITIONS.filter((p) => m.isOff(m.model.places.of(p)));
  }

  /** For a joint: both ends must be on the same side of every lifted assembly. */
  private canGoBack(index: number): boolean {
    const m = this.now_();
    const { model } = m;
    if (index < model.joints) {
      const lifted = (part: number) =>
        model.places
          .chain(part)
          .filter((x) => m.done[model.removal(x)] === 1)
          .join('|');
      if (new Set(model.joins(index).map(lifted)).size > 1) return false;
    }
    m.done[index] = 0;
    const may = model.conditions[index]!.every((c) => m.holds(c.node));
    m.done[index] = 1;
    return may;
  }

  private now_(): Moment {
    this.moment ??= new Moment(compile(this.rig));
    return this.moment;
  }

  private minutesOf(action: ActionId): number {
    const index = this.now_().model.find(action);
    return index === null ? 20 : this.now_().model.minutes(index);
  }

  private id(when: string) {
    this.counter += 1;
    const chance = new Uint8Array(10);
    new DataView(chance.buffer).setUint32(0, this.counter);
    return makeUlid(Date.parse(when), chance);
  }

  private pass(minutes: number): void {
    this.minute += minutes;
    while (this.minute > END_OF_WORK) {
      this.minute = START_OF_WORK + Math.min(30, this.minute - END_OF_WORK);
      this.date = nextWorkday(this.date);
    }
  }
}
