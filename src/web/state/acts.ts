/**
 * What a person does on these screens, as commands of the journal, and the commands as entries. Time and chance come
 * from the browser, which is why this file is not in a pure folder.
 */
import { type EntryId, makeUlid } from '../../domain/ids.ts';
import { ok, type Result } from '../../domain/result.ts';
import { type Command, recording } from '../../journal/commands.ts';
import { decide } from '../../journal/decide.ts';
import { asPending, type EntryDraft } from '../../journal/entry.ts';
import { fold } from '../../journal/fold.ts';
import type { State } from '../../journal/state.ts';
import { deviceId } from './keep.ts';

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
