/**
 * What a person does on these screens, as commands of the journal, and the commands as entries. Time and chance come
 * from the browser, which is why this file is not in a pure folder.
 */
import { type EntryId, makeUlid } from '../../domain/ids.ts';
import { failed, ok, type Result } from '../../domain/result.ts';
import { type Command, recording } from '../../journal/commands.ts';
import { decide } from '../../journal/decide.ts';
import { asPending, draftEntry, type EntryDraft } from '../../journal/entry.ts';
import { fold } from '../../journal/fold.ts';
import { fullKind, type KindName } from '../../journal/kinds/kinds.ts';
import type { State } from '../../journal/state.ts';
import { readData } from '../../journal/upgrades.ts';
import { deviceId } from './keep.ts';
import { webProblem } from './web-problems.ts';

/** Each command is decided on the state that the ones before it give; the first Problem stops the rest. */
export function draftsOf(
  state: State,
  commands: readonly Command[],
  by: string,
  day: string,
): Result<readonly EntryDraft[]> {
  let at = state;
  const drafts: EntryDraft[] = [];
  for (const command of commands) {
    const made = decide(at, command, { id: newId(), at: timeOf(new Date(), day), by, device: deviceId() });
    if (!made.ok) return made;
    drafts.push(...made.value);
    at = fold(made.value.map(asPending), at);
  }
  return ok(drafts);
}

/**
 * An entry made before the job is read: its data is of the kind's shape, its ids are not looked up. Only for facts; they
 * are admitted whatever the state says (docs/adr/0005).
 */
export function unseenDraft(kind: KindName, data: unknown, by: string, day: string): Result<EntryDraft> {
  const read = readData(kind, data);
  if (!read.ok) return read;
  const stamp = { id: newId(), at: timeOf(new Date(), day), by, device: deviceId() };
  return ok(draftEntry(stamp, fullKind(kind), read.value));
}

/** Taps before the job is read: plain facts are made unseen, whatever has to be worked out waits for the job. */
export function unseenDrafts(commands: readonly Command[], by: string, day: string): Result<readonly EntryDraft[]> {
  const drafts: EntryDraft[] = [];
  for (const command of commands) {
    if (command.kind !== 'record') return failed(webProblem('JOB_STILL_OPENING'));
    const made = unseenDraft(command.entry, command.data, by, day);
    if (!made.ok) return made;
    drafts.push(made.value);
  }
  return ok(drafts);
}

function newId(): EntryId {
  return makeUlid(Date.now(), crypto.getRandomValues(new Uint8Array(10)));
}

/**
 * Now, with this machine's offset. A demo job stands on a day of its own: then the hour is ours and the day is the
 * job's, so that the record stays one story.
 */
export function timeOf(now: Date, day: string): string {
  const two = (n: number) => String(Math.abs(n)).padStart(2, '0');
  const offset = -now.getTimezoneOffset();
  const zone = `${offset < 0 ? '-' : '+'}${two(Math.trunc(offset / 60))}:${two(offset % 60)}`;
  const date = day === '' ? `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}` : day.slice(0, 10);
  return `${date}T${two(now.getHours())}:${two(now.getMinutes())}:${two(now.getSeconds())}${zone}`;
}

/** Did it, as the plan had it. */
export function didIt(action: string, note?: string): Command {
  return { kind: 'step', action, planned: true, ...(note === undefined ? {} : { note }) };
}

/** Stuck, once it is known what touches it: a part in the way of a part, or something that has to come off first. */
export function touched(action: string, by: string): Command {
  if (action.startsWith('remove:')) return recording('stuck', { action, part: action.slice(7), by });
  return recording('came-off-first', { action: `remove:${by}`, before: action, note: 'it was stuck' });
}
