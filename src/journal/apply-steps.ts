/** What steps, refits, setups, facts and looks do to the state. `done` is S of the planner, in recorded order. */
import type { Entry } from './entry.ts';
import type { DataOf } from './kinds/kinds.ts';
import { applyLookSigned, lapseByAction, lapseLook, restoreLapsed } from './signing.ts';
import { refitStage, type StepRecord } from './state.ts';
import { saidOf, type Work } from './work.ts';

function more(d: { readonly note?: string; readonly minutes?: number }): { note?: string; minutes?: number } {
  return { ...(d.note !== undefined && { note: d.note }), ...(d.minutes !== undefined && { minutes: d.minutes }) };
}

function stepDone(w: Work, e: Entry, d: DataOf<'step-done'>): void {
  const said = saidOf(e);
  const back = refitStage(w.d, d.action);
  const already = w.d.done.has(d.action);
  w.list('steps').push({
    what: 'done',
    action: d.action,
    said,
    planned: d.planned,
    ...more(d),
    ...(d.trial === true && { trial: true as const }),
    ...(d.forced !== undefined && { forced: d.forced }),
    ...(already && back === null && { again: true as const }),
  });
  if (back !== null) w.push('refits', d.action, { stage: 'out', said });
  if (!already) w.map('done').set(d.action, { action: d.action, said });
  if (!already || back !== null) lapseByAction(w, d.action, said);
}

/** Marks the last record of the action as one that did not happen, and takes back what it did. */
function stepUndone(w: Work, e: Entry, d: DataOf<'step-undone'>): void {
  const steps = w.list('steps');
  const at = steps.findLastIndex((s) => s.what === 'done' && s.action === d.action && s.undone === undefined);
  const step = steps[at];
  if (step === undefined) return;
  steps[at] = { ...step, undone: saidOf(e) };
  if (w.d.done.get(d.action)?.said.entry === step.said.entry) w.map('done').delete(d.action);
  const refits = w.d.refits.get(d.action);
  if (refits?.at(-1)?.said.entry === step.said.entry) w.map('refits').set(d.action, refits.slice(0, -1));
  restoreLapsed(w, step.said);
}

function stepRefitted(w: Work, e: Entry, d: DataOf<'step-refitted'>): void {
  const said = saidOf(e);
  w.list('steps').push({ what: 'refitted', action: d.action, said, planned: null, stage: d.stage, ...more(d) });
  w.push('refits', d.action, { stage: d.stage, said, ...(d.note !== undefined && { note: d.note }) });
  if (d.stage !== 'trial' && w.d.done.has(d.action)) w.map('done').delete(d.action);
}

function plainStep(
  what: StepRecord['what'],
  action: string,
  e: Entry,
  d: { readonly note?: string; readonly minutes?: number },
): StepRecord {
  return { what, action, said: saidOf(e), planned: null, ...more(d) };
}

export const APPLY_STEPS = {
  'step-done': stepDone,
  'step-undone': stepUndone,
  'step-refitted': stepRefitted,
  'setup-changed': (w: Work, e: Entry, d: DataOf<'setup-changed'>) => {
    const action = `set:${d.setup}=${d.state}`;
    w.list('steps').push({ ...plainStep('set', action, e, d), planned: d.planned ?? null });
    w.map('done').set(`${action}#${e.id}`, { action, said: saidOf(e) });
    w.map('setupStates').set(d.setup, d.state);
  },
  made: (w: Work, e: Entry, d: DataOf<'made'>) => {
    w.list('steps').push(plainStep('made', d.operation, e, d));
    w.map('made').set(d.operation, saidOf(e));
  },
  'fact-settled': (w: Work, e: Entry, d: DataOf<'fact-settled'>) => {
    w.list('steps').push(plainStep('fact', d.fact, e, d));
    w.map('settled').set(d.fact, saidOf(e));
    if (w.d.factsWithdrawn.has(d.fact)) w.map('factsWithdrawn').delete(d.fact);
  },
  'fact-withdrawn': (w: Work, e: Entry, d: DataOf<'fact-withdrawn'>) => {
    w.list('steps').push(plainStep('fact-withdrawn', d.fact, e, d.why === undefined ? {} : { note: d.why }));
    if (w.d.settled.has(d.fact)) w.map('settled').delete(d.fact);
    w.map('factsWithdrawn').set(d.fact, saidOf(e));
  },
  'look-signed': applyLookSigned,
  'look-reopened': (w: Work, e: Entry, d: DataOf<'look-reopened'>) =>
    lapseLook(w, d.look, saidOf(e), d.why ?? 'to be looked at again'),
} as const;
