/**
 * `decide(state, command, stamp) -> entries or one Problem`. Pure: time, person, device and id come in the stamp; several
 * entries of one command count their ids up from it.
 *
 * Facts are always admitted (docs/adr/0005): a removal that the rig forbids is recorded and comes up in
 * `contradictions(state)`. Refused is only what makes no sense to anybody: an unknown id, data that do not fit, a rig
 * that would contradict itself, a journal from a newer version.
 */
import { type EntryId, ulidAfter } from '../domain/ids.ts';
import { failed, ok, type Result } from '../domain/result.ts';
import { idFault, rigFault } from './check-ids.ts';
import type { Command } from './commands.ts';
import { draftEntry, type Entry, type EntryDraft, type Stamp, splitKind } from './entry.ts';
import { journalProblem } from './journal-problems.ts';
import { type DataOf, fullKind, isKindName, type KindName } from './kinds/kinds.ts';
import { mirrorRig } from './mirror-rig.ts';
import type { State } from './state.ts';
import { readData } from './upgrades.ts';

type Drafts = Result<readonly EntryDraft[]>;

export function decide(state: State, command: Command, stamp: Stamp): Drafts {
  const newer = state.newer[0];
  if (newer !== undefined) {
    return failed(
      journalProblem(
        'JOURNAL_NEWER',
        `entry ${newer.seq} is of the kind ${newer.kind}, which this version does not know`,
      ),
    );
  }
  switch (command.kind) {
    case 'record':
      return one(state, stamp, command.entry, command.data);
    case 'step':
      return step(state, command, stamp);
    case 'something-else':
      return step(state, { ...command, kind: 'step', planned: false }, stamp);
    case 'force':
      return force(state, command, stamp);
    case 'trial-fit':
      return one(state, stamp, 'step-refitted', { ...without(command, 'kind'), stage: 'trial' });
    case 'refit':
      return one(state, stamp, 'step-refitted', without(command, 'kind'));
    case 'undo-step':
      return one(state, stamp, 'step-undone', without(command, 'kind'));
    case 'undo-last':
      return undoLast(state, command.why, stamp);
    case 'withdraw':
      return one(state, stamp, 'entry-withdrawn', without(command, 'kind'));
    case 'correct':
      return correct(state, command.entry as EntryId, command.data, stamp);
    case 'sign-look':
      return signLook(state, command, stamp);
    case 'mirror':
      return mirror(state, command, stamp);
    case 'take-in-rig':
      return one(state, stamp, 'rig-taken-in', { ...without(command, 'kind'), standing: command.standing ?? 'told' });
    default:
      return command satisfies never;
  }
}

function without<T extends object, K extends keyof T>(from: T, key: K): Omit<T, K> {
  const { [key]: _gone, ...rest } = from;
  return rest;
}

/** One entry: data checked against its kind, ids against the state, the rig against itself. */
function one(state: State, stamp: Stamp, name: KindName, data: unknown, corrects?: EntryId): Drafts {
  const read = readData(name, data);
  if (!read.ok) return read;
  const fault = idFault(state, name, read.value);
  if (fault !== null) return failed(fault);
  const draft = draftEntry(stamp, fullKind(name), read.value, corrects);
  const broken = rigFault(state, name, draft);
  return broken === null ? ok([draft]) : failed(broken);
}

function step(state: State, c: Extract<Command, { kind: 'step' }>, stamp: Stamp): Drafts {
  const rest = {
    ...(c.note !== undefined && { note: c.note }),
    ...(c.minutes !== undefined && { minutes: c.minutes }),
  };
  if (c.action.startsWith('set:')) {
    const at = c.action.indexOf('=');
    const planned = typeof c.planned === 'boolean' ? { planned: c.planned } : {};
    return one(state, stamp, 'setup-changed', {
      setup: c.action.slice(4, at),
      state: c.action.slice(at + 1),
      ...planned,
      ...rest,
    });
  }
  if (state.rigOperations.get(c.action)?.only === 'refit')
    return one(state, stamp, 'made', { operation: c.action, ...rest });
  return one(state, stamp, 'step-done', {
    action: c.action,
    planned: c.planned ?? null,
    ...rest,
    ...(c.trial === true && { trial: true }),
  });
}

function force(state: State, c: Extract<Command, { kind: 'force' }>, stamp: Stamp): Drafts {
  const done = one(state, stamp, 'step-done', {
    action: c.action,
    planned: false,
    forced: { harm: c.harm },
    ...(c.note !== undefined && { note: c.note }),
    ...(c.minutes !== undefined && { minutes: c.minutes }),
  });
  if (!done.ok || c.damage === undefined) return done;
  const harm = one(state, { ...stamp, id: ulidAfter(stamp.id) }, 'our-damage', {
    subject: c.action.replace(/^remove:/, ''),
    what: c.damage,
    step: c.action,
    ...(c.photos !== undefined && { photos: c.photos }),
  });
  return harm.ok ? ok([...done.value, ...harm.value]) : harm;
}

/** Kinds that a tap of "undo" takes back. People, devices and withdrawals are corrected in their own place. */
const TAKES_UNDO: readonly KindName[] = [
  'step-done',
  'step-refitted',
  'setup-changed',
  'made',
  'fact-settled',
  'fact-withdrawn',
  'look-signed',
  'look-reopened',
  'came-off-first',
  'stuck',
  'nothing-here',
  'stopped-here',
  'stop-cleared',
  'our-damage',
  'joint-noted',
  'reading-noted',
  'photo-taken',
  'note',
  'rig-stated',
  'rig-taken-in',
  'mirrored',
  'seen-on-this-side',
  'contradiction-settled',
  'lot-noted',
  'piece-noted',
  'position-noted',
  'part-line-noted',
  'bagged',
  'moved',
  'lot-split',
  'lots-joined',
  'counted',
  'difference-explained',
  'robbed',
  'robbed-returned',
  'place-noted',
  'goes-with',
  'counted-inside',
  'tagged',
  'tag-taken-off',
  'sound-kept',
  'measured',
  'thickness-noted',
  'dial-noted',
  'datum-read',
  'sheet-added',
  'pin-set',
  'tried',
  'freed',
];

function undoLast(state: State, why: string | undefined, stamp: Stamp): Drafts {
  const last = lastUndoable(state, stamp.by);
  if (last === null)
    return failed(journalProblem('NOTHING_TO_UNDO', `${stamp.by} has recorded nothing that can be taken back`));
  const reason = why === undefined ? {} : { why };
  if (splitKind(last.kind).name === 'step-done') {
    const action = (last.data as { action: string }).action;
    // Only the newest record of an action can be taken back as a step; an older one is withdrawn as an entry.
    const newest = state.steps.findLast((s) => s.what === 'done' && s.action === action && s.undone === undefined);
    if (newest?.said.entry === last.id) return one(state, stamp, 'step-undone', { action, ...reason });
  }
  return one(state, stamp, 'entry-withdrawn', { entry: last.id, ...reason });
}

/** The entry that `undo-last` of this person would take back, for the label of the button. */
export function lastUndoable(state: State, by: string): Entry | null {
  const undone = new Set(state.steps.filter((s) => s.undone !== undefined).map((s) => s.said.entry));
  const found = state.log.findLast((e) => {
    const { name } = splitKind(e.kind);
    return (
      e.by === by && isKindName(name) && TAKES_UNDO.includes(name) && !state.withdrawn.has(e.id) && !undone.has(e.id)
    );
  });
  return found ?? null;
}

function correct(state: State, entry: EntryId, data: unknown, stamp: Stamp): Drafts {
  const old = state.log.find((e) => e.id === entry);
  const name = old === undefined ? '' : splitKind(old.kind).name;
  if (old === undefined || !isKindName(name)) {
    return failed(
      journalProblem(
        'UNKNOWN_ID',
        `no entry with the id "${entry}" that could be corrected is recorded`,
        'Copy the id as it is shown beside the entry.',
        'entry',
      ),
    );
  }
  const read = readData(name, data);
  if (!read.ok) return read;
  const fault = name === 'job-opened' ? null : idFault(state, name, read.value);
  if (fault !== null) return failed(fault);
  return ok([draftEntry(stamp, fullKind(name), read.value, entry)]);
}

function signLook(state: State, c: Extract<Command, { kind: 'sign-look' }>, stamp: Stamp): Drafts {
  const look = state.rigLooks.get(c.look)?.name ?? c.look;
  const who = state.people.get(stamp.by)?.name ?? stamp.by;
  return one(state, stamp, 'look-signed', {
    ...without(c, 'kind'),
    says: c.says ?? `${who} was there, looked at "${look}" and answers for it.`,
  });
}

function mirror(state: State, c: Extract<Command, { kind: 'mirror' }>, stamp: Stamp): Drafts {
  if (!state.rigParts.has(c.assembly)) {
    return failed(
      journalProblem(
        'UNKNOWN_ID',
        `no part with the id "${c.assembly}" is recorded`,
        'Choose an assembly of the rig.',
        'assembly',
      ),
    );
  }
  const image = c.from === c.to ? null : mirrorRig(state, c.assembly, c.from, c.to);
  if (image === null)
    return failed(
      journalProblem('NOTHING_TO_MIRROR', `"${c.assembly}" has nothing on ${c.from} that could go to ${c.to}`),
    );
  const data: DataOf<'mirrored'> = {
    assembly: c.assembly,
    from: c.from,
    to: c.to,
    rig: image.rig,
    gains: image.gains as DataOf<'mirrored'>['gains'] & object,
    ...(image.leftOut.length > 0 && {
      note: `left out, since their other end has no image: ${image.leftOut.join(', ')}`,
    }),
  };
  return one(state, stamp, 'mirrored', data);
}
