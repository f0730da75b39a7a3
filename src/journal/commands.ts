/**
 * What people ask the journal to do. Two sorts:
 *
 *   { kind: 'record', entry, data }   one entry of any kind, its data and ids checked. Most taps are this.
 *   the others                        where one tap means something that has to be worked out (undo-last, mirror, …).
 *
 * `readCommand` takes unknown JSON from the wire. `decide` (decide.ts) turns a command into entries or one Problem.
 */
import { z } from 'zod';
import { failed, ok, type Result } from '../domain/result.ts';
import { journalProblem } from './journal-problems.ts';
import { type DataOf, KIND_NAMES, type KindName } from './kinds/kinds.ts';
import { aHash, anEntryId, anId, aStanding, aSubject, maybe, minutes, words } from './kinds/shared-shapes.ts';
import { REFIT_STAGES } from './kinds/step-kinds.ts';
import { issueText } from './upgrades.ts';

const stepFields = { action: aSubject, note: maybe(words), minutes: maybe(minutes) };

const COMMANDS = z.discriminatedUnion('kind', [
  /** Any entry kind by its name, e.g. `stuck`, `nothing-here`, `joint-noted`. */
  z.strictObject({ kind: z.literal('record'), entry: z.enum(KIND_NAMES), data: z.unknown() }),
  /** A step was done: joint, `remove:p`, operation, `set:id=state`; a refit-only operation is recorded as made. */
  z.strictObject({
    kind: z.literal('step'),
    ...stepFields,
    planned: maybe(z.boolean().nullable()),
    trial: maybe(z.literal(true)),
  }),
  /** Something else than the plan said was done. */
  z.strictObject({ kind: z.literal('something-else'), ...stepFields }),
  /** Done against what hindered it. `harm` null: not noted. `damage` also records our damage. */
  z.strictObject({
    kind: z.literal('force'),
    ...stepFields,
    harm: words.nullable(),
    damage: maybe(words),
    photos: maybe(z.array(aHash)),
  }),
  z.strictObject({ kind: z.literal('trial-fit'), ...stepFields }),
  z.strictObject({ kind: z.literal('refit'), ...stepFields, stage: z.enum(REFIT_STAGES) }),
  /** The last record of a step was wrong: it did not happen. */
  z.strictObject({ kind: z.literal('undo-step'), action: aSubject, why: maybe(words) }),
  /** Takes back the last thing this person recorded. */
  z.strictObject({ kind: z.literal('undo-last'), why: maybe(words) }),
  z.strictObject({ kind: z.literal('withdraw'), entry: anEntryId, why: maybe(words) }),
  /** The same entry with other data; it takes the place of the old one, which stays visible. */
  z.strictObject({ kind: z.literal('correct'), entry: anEntryId, data: z.unknown() }),
  z.strictObject({
    kind: z.literal('sign-look'),
    look: anId,
    says: maybe(words),
    rests: maybe(z.array(aHash)),
    second: maybe(anId),
  }),
  z.strictObject({ kind: z.literal('mirror'), assembly: anId, from: z.enum(['L', 'R']), to: z.enum(['L', 'R']) }),
  /** A rig file, or a piece of one. Told by others until seen here, unless said otherwise. */
  z.strictObject({
    kind: z.literal('take-in-rig'),
    rig: z.unknown(),
    standing: maybe(aStanding),
    source: maybe(words),
  }),
]);

type Parsed = z.infer<typeof COMMANDS>;
type RecordCommand = {
  [K in KindName]: { readonly kind: 'record'; readonly entry: K; readonly data: DataOf<K> };
}[KindName];
/** As read from the wire, `data` of `record` is not yet known to fit; `decide` checks it. */
export type Command =
  | Exclude<Parsed, { kind: 'record' }>
  | RecordCommand
  | { readonly kind: 'record'; readonly entry: KindName; readonly data: unknown };
export type CommandKind = Command['kind'];

/** For callers that want their data checked by the compiler. */
export function recording<K extends KindName>(entry: K, data: DataOf<K>): Command {
  return { kind: 'record', entry, data };
}

export function readCommand(value: unknown): Result<Command> {
  const read = COMMANDS.safeParse(value);
  if (read.success) return ok(read.data as Command);
  const where = read.error.issues[0]?.path.join('.') ?? '';
  return failed(
    journalProblem('COMMAND_UNREADABLE', issueText(read.error), undefined, where === '' ? 'command' : where),
  );
}
