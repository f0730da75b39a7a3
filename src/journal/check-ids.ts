/**
 * Does an entry speak of things that are recorded? Asked when an entry is made, never in the fold: what was recorded once
 * is admitted. Free places (`nothing-here`, notes, photographs, stops, our damage) take any words: save first, ask later.
 */
import type { Problem } from '../domain/problem.ts';
import { checkRig } from '../domain/rig/rig-check.ts';
import type { EntryDraft } from './entry.ts';
import { asPending } from './entry.ts';
import { fold } from './fold.ts';
import { journalProblem } from './journal-problems.ts';
import type { DataOf, KindName } from './kinds/kinds.ts';
import { blockMakesSense, needOfAction } from './make-state.ts';
import type { State } from './state.ts';

type Check<K extends KindName> = (s: State, d: DataOf<K>) => Problem | null;

function unknown(what: string, id: string, remedy: string, where: string): Problem {
  return journalProblem('UNKNOWN_ID', `no ${what} with the id "${id}" is recorded`, remedy, where);
}

/** Names close to a mistyped id, for the remedy. */
function near(id: string, known: Iterable<string>): string {
  const start = id.slice(0, 3).toLowerCase();
  const hits = [...known].filter((k) => k.toLowerCase().startsWith(start)).slice(0, 4);
  return hits.length === 0 ? '' : ` Near: ${hits.join(', ')}.`;
}

export function knowsAction(s: State, action: string): boolean {
  return needOfAction(s, action) !== null;
}

function actionUnknown(s: State, action: string, where: string): Problem | null {
  if (knowsAction(s, action)) return null;
  const ids = action.startsWith('remove:')
    ? [...s.rigParts.keys()].map((p) => `remove:${p}`)
    : [...s.rigAttachments.keys(), ...s.rigOperations.keys()];
  const close = near(action, action.startsWith('remove:') ? ids.filter((i) => i.startsWith(action.slice(0, 10))) : ids);
  return unknown(
    'joint, removal or operation',
    action,
    `Choose one that is recorded, or note it in the rig first.${close}`,
    where,
  );
}

function partUnknown(s: State, part: string | undefined, where: string): Problem | null {
  if (part === undefined || s.rigParts.has(part)) return null;
  return unknown('part', part, `Choose a part of the rig, or note it first.${near(part, s.rigParts.keys())}`, where);
}

export function knowsSubject(s: State, subject: string): boolean {
  return (
    subject === 'job' ||
    s.standing.has(subject) ||
    s.rigParts.has(subject) ||
    knowsAction(s, subject) ||
    s.lines.has(subject) ||
    s.positions.has(subject) ||
    s.pieces.has(subject) ||
    s.lots.has(subject) ||
    s.bags.has(subject) ||
    s.held.has(subject) ||
    subject === s.rigRoot
  );
}

function subjectUnknown(s: State, subject: string): Problem | null {
  if (knowsSubject(s, subject)) return null;
  return unknown(
    'part, joint, position, piece or bag',
    subject,
    `Choose one that is recorded, or note it first.${near(subject, s.standing.keys())}`,
    'subject',
  );
}

function entryUnknown(s: State, id: string, where: string): Problem | null {
  return s.log.some((e) => e.id === id)
    ? null
    : unknown('entry', id, 'Copy the id as it is shown beside the entry.', where);
}

function lineUnknown(s: State, line: string | undefined): Problem | null {
  return line === undefined || s.lines.has(line)
    ? null
    : unknown('part line', line, 'Note the line of the parts list first.', 'line');
}

function stuckFault(s: State, d: DataOf<'stuck'>): Problem | null {
  const fault =
    (d.action === undefined ? null : actionUnknown(s, d.action, 'action')) ??
    partUnknown(s, d.part, 'part') ??
    partUnknown(s, d.by, 'by');
  if (fault !== null || d.part === undefined || d.by === undefined) return fault;
  if (blockMakesSense(s, { part: d.part, by: d.by })) return null;
  return journalProblem(
    'RIG_DOES_NOT_HOLD',
    `"${d.by}" and "${d.part}" sit in each other, or one is the airframe itself, so one cannot be in the other's way`,
    'Name another part that is in the way, or record only that the step is stuck.',
    'by',
  );
}

const CHECKS: { readonly [K in KindName]?: Check<K> } = {
  'job-opened': (s, d) =>
    s.job === null
      ? null
      : journalProblem('ALREADY_OPEN', `the job is open as "${s.job.name}"; "${d.name}" cannot open it again`),
  'position-noted': (s, d) => lineUnknown(s, d.line),
  'piece-noted': (s, d) =>
    lineUnknown(s, d.line) ??
    (d.position === undefined || s.positions.has(d.position)
      ? null
      : unknown('position', d.position, 'Note the position first.', 'position')),
  'seen-on-this-side': (s, d) => (s.standing.has(d.subject) ? null : subjectUnknown(s, d.subject)),
  'contradiction-settled': (s, d) => entryUnknown(s, d.contradiction, 'contradiction'),
  'step-done': (s, d) => actionUnknown(s, d.action, 'action'),
  'step-undone': (s, d) =>
    s.steps.some((r) => r.what === 'done' && r.action === d.action && r.undone === undefined)
      ? null
      : journalProblem('NOT_DONE', `"${d.action}" is not recorded as done`, undefined, 'action'),
  'step-refitted': (s, d) => actionUnknown(s, d.action, 'action'),
  'setup-changed': (s, d) => {
    const setup = s.rigSetups.get(d.setup);
    if (setup === undefined)
      return unknown(
        'setup',
        d.setup,
        `Choose one of: ${[...s.rigSetups.keys()].join(', ') || 'none recorded yet'}.`,
        'setup',
      );
    if (setup.states.includes(d.state)) return null;
    return journalProblem(
      'UNKNOWN_STATE',
      `the setup "${d.setup}" has no state "${d.state}"`,
      `Choose one of: ${setup.states.join(', ')}.`,
      'state',
    );
  },
  made: (s, d) => (s.rigOperations.has(d.operation) ? null : actionUnknown(s, d.operation, 'operation')),
  'fact-settled': (s, d) => factUnknown(s, d.fact),
  'fact-withdrawn': (s, d) => factUnknown(s, d.fact),
  'look-signed': (s, d) =>
    lookUnknown(s, d.look) ??
    (d.second === undefined || s.people.has(d.second)
      ? null
      : journalProblem('UNKNOWN_PERSON', `nobody with the id "${d.second}" is recorded`, undefined, 'second')),
  'look-reopened': (s, d) => lookUnknown(s, d.look),
  stuck: stuckFault,
  'came-off-first': (s, d) => {
    const fault = actionUnknown(s, d.action, 'action') ?? actionUnknown(s, d.before, 'before');
    if (fault !== null || d.action !== d.before) return fault;
    return journalProblem(
      'RIG_DOES_NOT_HOLD',
      `"${d.action}" cannot come off before itself`,
      'Name what had to come off first.',
      'action',
    );
  },
  'stop-cleared': (s, d) => {
    const stop = s.stops.get(d.stop);
    if (stop === undefined) return unknown('stop', d.stop, 'Choose one of the open stops.', 'stop');
    return stop.cleared === undefined
      ? null
      : journalProblem('NOT_OPEN', `the stop at "${stop.subject}" was cleared ${stop.cleared.at}`, undefined, 'stop');
  },
  moved: (s, d) => thingUnknown(s, d.what, 'what'),
  'lot-split': (s, d) => lotUnknown(s, d.lot) ?? notThatMany(s, d.lot, d.count),
  'lots-joined': (s, d) => lotUnknown(s, d.lot) ?? lotUnknown(s, d.into),
  counted: (s, d) => lotUnknown(s, d.lot),
  'difference-explained': (s, d) =>
    s.differences.has(d.difference)
      ? null
      : unknown('difference', d.difference, 'Choose one of the open differences.', 'difference'),
  robbed: (s, d) => {
    if (s.transfers.has(d.transfer))
      return journalProblem('TRANSFER_TAKEN', `"${d.transfer}" is recorded already`, undefined, 'transfer');
    if (d.way === 'in') return null;
    return d.count === undefined
      ? thingUnknown(s, d.thing, 'thing')
      : (lotUnknown(s, d.thing) ?? notThatMany(s, d.thing, d.count));
  },
  'robbed-returned': (s, d) => {
    const t = s.transfers.get(d.transfer);
    if (t === undefined || t.way === d.way)
      return unknown('robbery', d.transfer, 'Choose one that is recorded here the other way round.', 'transfer');
    const open = (t.count ?? 1) - t.returned;
    return (d.count ?? open) <= open && open > 0
      ? null
      : journalProblem(
          'NOT_THAT_MANY',
          `of "${t.thing}" ${open} are still away, not ${d.count ?? 1}`,
          undefined,
          'count',
        );
  },
  'tag-taken-off': (s, d) =>
    s.tags.has(d.tag) ? null : unknown('tag', d.tag, 'Choose one of the tags that hang.', 'tag'),
  tried: (s, d) => entryUnknown(s, d.stuck, 'stuck'),
  freed: (s, d) => entryUnknown(s, d.stuck, 'stuck'),
  'joint-noted': (s, d) => subjectUnknown(s, d.subject),
  'reading-noted': (s, d) => subjectUnknown(s, d.subject),
  'entry-withdrawn': (s, d) => entryUnknown(s, d.entry, 'entry'),
};

function thingUnknown(s: State, id: string, where: string): Problem | null {
  const known = s.bags.has(id) || s.held.has(id) || s.pieces.has(id) || s.lots.has(id) || s.positions.has(id);
  if (known || s.rigParts.has(id)) return null;
  return unknown(
    'bag, piece or lot',
    id,
    `Choose one that is recorded, or bag it first.${near(id, s.bags.keys())}`,
    where,
  );
}

function lotUnknown(s: State, lot: string): Problem | null {
  return s.lotCounts.has(lot)
    ? null
    : unknown('counted lot', lot, `Note the lot first.${near(lot, s.lotCounts.keys())}`, 'lot');
}

function notThatMany(s: State, lot: string, count: number): Problem | null {
  const now = s.lotCounts.get(lot)?.count ?? null;
  if (now === null || now >= count) return null;
  return journalProblem('NOT_THAT_MANY', `"${lot}" has ${now}, not ${count}`, undefined, 'count');
}

function factUnknown(s: State, fact: string): Problem | null {
  if (s.rigFacts.has(fact)) return null;
  return unknown('fact', fact, `Choose a fact of the rig, or add it.${near(fact, s.rigFacts.keys())}`, 'fact');
}

function lookUnknown(s: State, look: string): Problem | null {
  if (s.rigLooks.has(look)) return null;
  return unknown('look', look, `Choose a look of the rig, or add it.${near(look, s.rigLooks.keys())}`, 'look');
}

export function idFault<K extends KindName>(s: State, name: K, data: DataOf<K>): Problem | null {
  return (CHECKS[name] as Check<K> | undefined)?.(s, data) ?? null;
}

const CHANGES_RIG: readonly KindName[] = ['rig-taken-in', 'rig-stated', 'mirrored', 'stuck', 'came-off-first'];

/** With this entry, would the rig contradict itself? Not asked where it did before: one repair at a time must be possible. */
export function rigFault(s: State, name: KindName, draft: EntryDraft): Problem | null {
  if (!CHANGES_RIG.includes(name)) return null;
  const then = fold([asPending(draft)], s);
  const after = checkRig(then.rig);
  if (after.ok) {
    const unread = then.unreadable.at(-1);
    return then.unreadable.length > s.unreadable.length && unread !== undefined
      ? journalProblem('RIG_DOES_NOT_HOLD', unread.why, undefined, 'value')
      : null;
  }
  if (!checkRig(s.rig).ok) return null;
  const p = after.problem;
  return journalProblem('RIG_DOES_NOT_HOLD', `${p.code}: ${p.message}`, p.remedy, p.where);
}
