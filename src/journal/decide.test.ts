import { describe, expect, it } from 'vitest';
import type { Problem } from '../domain/problem.ts';
import { type Command, readCommand, recording } from './commands.ts';
import { decide, lastUndoable } from './decide.ts';
import { draftEntry } from './entry.ts';
import { JOURNAL_PROBLEMS } from './journal-problems.ts';
import { openedRecorder, stampAt } from './testing/recorder.ts';

function refusal(command: Command, r = openedRecorder()): Problem {
  const before = r.state;
  const answer = r.try(command);
  expect(r.state).toBe(before);
  if (answer.ok) throw new Error(`was not refused: ${JSON.stringify(answer.value[0]?.data)}`);
  expect(answer.problem.remedy).not.toBe('');
  return answer.problem;
}

describe('decide: what makes no sense to anybody is one Problem with a remedy', () => {
  it.each<[string, Command, string]>([
    ['a joint nobody noted', { kind: 'step', action: 'bolt-x' }, 'UNKNOWN_ID'],
    ['a part nobody noted', { kind: 'step', action: 'remove:wing' }, 'UNKNOWN_ID'],
    ['a setup nobody noted', { kind: 'step', action: 'set:tail=stand' }, 'UNKNOWN_ID'],
    ['a state the setup has not', { kind: 'step', action: 'set:support=stand' }, 'UNKNOWN_STATE'],
    ['undoing what was not done', { kind: 'undo-step', action: 'hinge' }, 'NOT_DONE'],
    ['a refit of nothing', { kind: 'refit', action: 'bolt-x', stage: 'final' }, 'UNKNOWN_ID'],
    ['a look nobody noted', { kind: 'sign-look', look: 'look-x' }, 'UNKNOWN_ID'],
    ['a second person nobody knows', { kind: 'sign-look', look: 'look-r', second: 'zoe' }, 'UNKNOWN_PERSON'],
    ['a fact nobody noted', recording('fact-settled', { fact: 'moon-full' }), 'UNKNOWN_ID'],
    ['a stop that is none', recording('stop-cleared', { stop: '01ARYZ6S41TSV4RRFFQ69G5FAV' }), 'UNKNOWN_ID'],
    ['opening twice', recording('job-opened', { job: 'again', name: 'Again' }), 'ALREADY_OPEN'],
    ['stuck by what it sits in', recording('stuck', { part: 'fork-r', by: 'leg-r' }), 'RIG_DOES_NOT_HOLD'],
    ['off before itself', recording('came-off-first', { action: 'hinge', before: 'hinge' }), 'RIG_DOES_NOT_HOLD'],
    [
      'a statement that leaves others hanging',
      recording('rig-stated', { what: 'part', id: 'cover-r', value: null }),
      'RIG_DOES_NOT_HOLD',
    ],
    [
      'a statement of a wrong shape',
      recording('rig-stated', { what: 'part', id: 'leg-r', aspect: 'minutes', value: -4 }),
      'RIG_DOES_NOT_HOLD',
    ],
    ['a rig that is none', { kind: 'take-in-rig', rig: { parts: 'many' } }, 'ENTRY_DATA'],
    ['mirroring what is nowhere', { kind: 'mirror', assembly: 'wing', from: 'R', to: 'L' }, 'UNKNOWN_ID'],
    ['mirroring from the empty side', { kind: 'mirror', assembly: 'leg-r', from: 'L', to: 'R' }, 'NOTHING_TO_MIRROR'],
    ['data that do not fit', { kind: 'record', entry: 'note', data: { text: 'a', colour: 'red' } }, 'ENTRY_DATA'],
    ['withdrawing nothing', { kind: 'withdraw', entry: '01ARYZ6S41TSV4RRFFQ69G5FAV' }, 'UNKNOWN_ID'],
    [
      'a reading of nothing',
      recording('reading-noted', { subject: 'nowhere', aspect: 'length', text: '3 mm' }),
      'UNKNOWN_ID',
    ],
    ['a piece of a line nobody noted', recording('piece-noted', { piece: 'p1', line: 'l9' }), 'UNKNOWN_ID'],
  ])('%s', (_what, command, code) => {
    expect(refusal(command).code).toBe(code);
  });

  it('names ids close to a mistyped one', () => {
    expect(refusal({ kind: 'step', action: 'bolt-r-9' }).remedy).toContain('bolt-r-1, bolt-r-2');
  });

  it('clearing a stop twice', () => {
    const r = openedRecorder();
    const stop = r.note('stopped-here', { subject: 'behind the seat', state: 'wire not tied' });
    r.note('stop-cleared', { stop: stop.id });
    expect(refusal(recording('stop-cleared', { stop: stop.id }), r).code).toBe('NOT_OPEN');
  });

  it('a journal that a newer version wrote is read, not added to', () => {
    const r = openedRecorder();
    r.record([draftEntry(stampAt(900), 'step-done.v9', { action: 'hinge' })]);
    expect(refusal({ kind: 'step', action: 'hinge' }, r).code).toBe('JOURNAL_NEWER');
  });

  it('every code of the list has a remedy', () => {
    for (const [code, kind] of Object.entries(JOURNAL_PROBLEMS)) expect(kind.remedy.length, code).toBeGreaterThan(10);
  });
});

describe('decide: facts are always admitted', () => {
  it('[J6] a removal that the rig forbids is recorded', () => {
    const r = openedRecorder();
    r.do({ kind: 'step', action: 'remove:leg-r' });
    expect(r.state.situation.done).toEqual(['remove:leg-r']);
  });

  it('[J6] a forced removal is recorded with its harm, and our damage beside it', () => {
    const r = openedRecorder();
    const entries = r.do({
      kind: 'force',
      action: 'remove:leg-r',
      harm: 'tore the flange',
      damage: 'flange torn, 40 mm',
    });
    expect(entries.map((e) => e.kind)).toEqual(['step-done.v2', 'our-damage.v1']);
    expect(entries[0]?.id).not.toBe(entries[1]?.id);
    expect(r.state.damages[0]).toMatchObject({ subject: 'leg-r', step: 'remove:leg-r' });
    expect(r.state.steps.at(-1)?.forced).toEqual({ harm: 'tore the flange' });
  });

  it('something else than planned says so', () => {
    const r = openedRecorder();
    r.do({ kind: 'something-else', action: 'hinge' });
    expect(r.state.steps.at(-1)?.planned).toBe(false);
  });

  it('a place, a note, a stop and a picture take any words as their subject', () => {
    const r = openedRecorder();
    r.note('nothing-here', { subject: 'C9, behind the tank' });
    r.note('note', { subject: 'the smell in the tail', text: 'mice' });
    expect(r.state.nothingHere.has('C9, behind the tank')).toBe(true);
  });

  it('one repair at a time is possible where the rig contradicts itself already', () => {
    const r = openedRecorder();
    const broken = { what: 'attachment', id: 'clip-r', value: { id: 'clip-r', joins: ['cover-r', 'gone'] } } as const;
    r.record([draftEntry(stampAt(700), 'rig-stated.v1', broken)]);
    r.note('rig-stated', { what: 'part', id: 'leg-r', aspect: 'minutes', value: 3 });
    r.note('rig-stated', { what: 'part', id: 'gone', value: { id: 'gone' } });
    expect(refusal(recording('rig-stated', { what: 'part', id: 'gone', value: null }), r).code).toBe(
      'RIG_DOES_NOT_HOLD',
    );
  });
});

describe('undo', () => {
  it('takes back the last thing of this person, then the one before, and never the withdrawal itself', () => {
    const r = openedRecorder();
    r.do({ kind: 'step', action: 'clip-r' });
    r.do({ kind: 'step', action: 'hinge' }, 'ben');
    r.note('stopped-here', { subject: 'hinge', state: 'pin out' });
    expect(lastUndoable(r.state, 'ana')?.kind).toBe('stopped-here.v1');
    r.do({ kind: 'undo-last' });
    expect(r.state.openStops).toEqual([]);
    r.do({ kind: 'undo-last' });
    expect(r.state.situation.done).toEqual(['hinge']);
    r.do({ kind: 'undo-last' });
    expect(r.state.rigParts.size).toBe(0);
    expect(refusal({ kind: 'undo-last' }, r).code).toBe('NOTHING_TO_UNDO');
    expect(r.state.log).toHaveLength(10);
  });

  it('a changed setup is withdrawn as an entry', () => {
    const r = openedRecorder();
    r.do({ kind: 'step', action: 'set:support=jacks' });
    r.do({ kind: 'undo-last' });
    expect(r.state.situation).toMatchObject({ done: [], setups: {} });
  });
});

describe('correct', () => {
  it('puts other data in the place of the old entry', () => {
    const r = openedRecorder();
    const wrong = r.note('lot-noted', { lot: 'B1', what: 'bolts', count: 12 });
    r.note('lot-noted', { lot: 'B2', what: 'nuts', count: null });
    r.do({ kind: 'correct', entry: wrong.id, data: { lot: 'B1', what: 'bolts', count: 11 } });
    expect(r.state.lots.get('B1')?.count).toBe(11);
    expect([...r.state.lots.keys()]).toEqual(['B1', 'B2']);
    expect(r.state.log.map((e) => e.id)).toContain(wrong.id);
    expect(refusal({ kind: 'correct', entry: wrong.id, data: { lot: 'B1' } }, r).code).toBe('ENTRY_DATA');
  });
});

describe('commands from the wire', () => {
  it('are read, or one Problem with its place', () => {
    expect(readCommand({ kind: 'step', action: 'j3' })).toEqual({ ok: true, value: { kind: 'step', action: 'j3' } });
    expect(readCommand({ kind: 'fly' })).toMatchObject({ ok: false, problem: { code: 'COMMAND_UNREADABLE' } });
    expect(readCommand({ kind: 'step', action: 7 })).toMatchObject({ ok: false, problem: { where: 'action' } });
    expect(readCommand('step')).toMatchObject({ ok: false, problem: { code: 'COMMAND_UNREADABLE' } });
  });

  it('the same command, state and stamp give the same entries', () => {
    const r = openedRecorder();
    const command: Command = { kind: 'force', action: 'hinge', harm: null, damage: 'bent' };
    expect(decide(r.state, command, stampAt(5))).toEqual(decide(r.state, command, stampAt(5)));
  });
});
