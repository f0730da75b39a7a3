import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { draftEntry } from './entry.ts';
import { fold } from './fold.ts';
import { EMPTY_STATE } from './make-state.ts';
import { factNow, factsOf, refitStage, type State, type StateData } from './state.ts';
import { anyEntries } from './testing/random-entries.ts';
import { draftOf, entriesOf, idAt, openedRecorder, Recorder, SMALL_RIG, stampAt } from './testing/recorder.ts';

/** Everything a reader can see of a state, the made parts included. */
function seen(s: State): StateData {
  return { ...s };
}

describe('fold', () => {
  it('[J1] fold(a ++ b) = fold(b, fold(a))', () => {
    fc.assert(
      fc.property(anyEntries(), fc.nat(), (entries, at) => {
        const cut = entries.length === 0 ? 0 : at % (entries.length + 1);
        const two = fold(entries.slice(cut), fold(entries.slice(0, cut)));
        expect(seen(two)).toEqual(seen(fold(entries)));
      }),
      { numRuns: 300 },
    );
  });

  it('[J1] entry by entry is the same as all at once', () => {
    fc.assert(
      fc.property(anyEntries(40), (entries) => {
        let state = EMPTY_STATE;
        for (const e of entries) state = fold([e], state);
        expect(seen(state)).toEqual(seen(fold(entries)));
      }),
      { numRuns: 60 },
    );
  });

  it('[J2] leaves the state it starts from as it was', () => {
    fc.assert(
      fc.property(anyEntries(40), anyEntries(20), (a, b) => {
        const before = fold(a);
        const copy = structuredClone(seen(before));
        fold(b, before);
        expect(seen(before)).toEqual(copy);
      }),
      { numRuns: 60 },
    );
  });

  it('[J3] an unknown entry is kept, shown and counted', () => {
    const s = fold(
      entriesOf([draftEntry(stampAt(1), 'weather-noted.v1', { text: 'frost' }), draftOf(2, 'note', { text: 'x' })]),
    );
    expect(s.unknown.map((e) => e.data)).toEqual([{ text: 'frost' }]);
    expect(s.log).toHaveLength(2);
    expect(s.notes.get('job')).toHaveLength(1);
  });

  it('[J3] a newer version of a kind and data that do not fit are told apart', () => {
    const s = fold(
      entriesOf([
        draftEntry(stampAt(1), 'step-done.v9', { action: 'j' }),
        draftEntry(stampAt(2), 'note.v1', { text: 5 }),
      ]),
    );
    expect(s.newer.map((e) => e.kind)).toEqual(['step-done.v9']);
    expect(s.unreadable.map((u) => u.why)).toEqual([expect.stringContaining('text')]);
  });

  it('keeps the rig and the situation as the same objects while nothing in them changed', () => {
    const r = openedRecorder();
    const { rig, situation } = r.state;
    r.note('note', { text: 'nothing to do with the rig' });
    expect(r.state.rig).toBe(rig);
    expect(r.state.situation).toBe(situation);
    r.do({ kind: 'step', action: 'clip-r' });
    expect(r.state.rig).toBe(rig);
    expect(r.state.situation.done).toEqual(['clip-r']);
  });
});

describe('steps', () => {
  it('keeps the recorded order, setups included', () => {
    const r = openedRecorder();
    for (const action of ['clip-r', 'set:support=jacks', 'remove:cover-r', 'set:support=wheels', 'set:support=jacks'])
      r.do({ kind: 'step', action });
    expect(r.state.situation.done).toEqual([
      'clip-r',
      'set:support=jacks',
      'remove:cover-r',
      'set:support=wheels',
      'set:support=jacks',
    ]);
    expect(r.state.situation.setups).toEqual({ support: 'jacks' });
  });

  it('a step that did not happen goes, the record of it stays', () => {
    const r = openedRecorder();
    r.do({ kind: 'step', action: 'clip-r' });
    r.do({ kind: 'step', action: 'hinge', planned: false, note: 'wrong joint' });
    r.do({ kind: 'undo-step', action: 'hinge' });
    expect(r.state.situation.done).toEqual(['clip-r']);
    expect(r.state.steps.map((s) => [s.action, s.planned, s.undone?.by])).toEqual([
      ['clip-r', null, undefined],
      ['hinge', false, 'ana'],
    ]);
  });

  it('a trial fit stays among what is off, a final one goes back on, and out again is out again', () => {
    const r = openedRecorder();
    r.do({ kind: 'step', action: 'clip-r' });
    r.do({ kind: 'trial-fit', action: 'clip-r' });
    expect(r.state.situation.done).toEqual(['clip-r']);
    expect(refitStage(r.state, 'clip-r')).toBe('trial');
    r.do({ kind: 'step', action: 'clip-r', trial: true });
    expect(refitStage(r.state, 'clip-r')).toBeNull();
    expect(r.state.steps.some((s) => s.again)).toBe(false);
    for (const stage of ['final', 'torqued', 'safetied'] as const) r.do({ kind: 'refit', action: 'clip-r', stage });
    expect(r.state.situation.done).toEqual([]);
    expect(refitStage(r.state, 'clip-r')).toBe('safetied');
    r.do({ kind: 'step', action: 'clip-r' });
    r.do({ kind: 'undo-step', action: 'clip-r' });
    expect(refitStage(r.state, 'clip-r')).toBe('safetied');
  });

  it('a refit-only operation is made, not done', () => {
    const r = openedRecorder();
    r.do({ kind: 'step', action: 'ream' });
    expect(r.state.situation).toMatchObject({ done: [], made: ['ream'] });
  });
});

describe('the rig as it grows', () => {
  it('stuck adds a block, came-off-first a need, and both go when withdrawn', () => {
    const r = openedRecorder();
    const stuck = r.note('stuck', { part: 'leg-r', by: 'door', harm: 'bends the door' });
    r.note('came-off-first', { action: 'remove:cover-r', before: 'hinge' });
    expect(r.state.rig.blocks).toEqual([{ part: 'leg-r', by: 'door', harm: 'bends the door', source: 'stuck (ana)' }]);
    expect(r.state.rig.attachments.find((a) => a.id === 'hinge')?.needs).toEqual({ off: 'cover-r' });
    r.do({ kind: 'withdraw', entry: stuck.id });
    expect(r.state.rig.blocks).toEqual([]);
  });

  it('what was told does not displace what was seen here, and is shown as set aside', () => {
    const r = openedRecorder();
    const told = { parts: [{ id: 'leg-r', minutes: 99 }, { id: 'wheel-r' }] };
    r.do({ kind: 'take-in-rig', rig: told, source: 'a letter' });
    expect(r.state.rig.parts.find((p) => p.id === 'leg-r')?.minutes).toBeUndefined();
    expect(r.state.setAside.map((x) => x.key)).toEqual(['leg-r']);
    expect(r.state.standing.get('wheel-r')).toMatchObject({ word: 'told', source: 'a letter' });
    r.note('seen-on-this-side', { subject: 'wheel-r' });
    expect(r.state.standing.get('wheel-r')?.word).toBe('ours');
  });

  it('one statement changes one field, null takes it away, nonsense is kept and not obeyed', () => {
    const r = openedRecorder();
    r.note('rig-stated', { what: 'part', id: 'leg-r', aspect: 'minutes', value: 20 });
    expect(r.state.rigParts.get('leg-r')).toMatchObject({ minutes: 20, massKg: 31 });
    r.note('rig-stated', { what: 'part', id: 'leg-r', aspect: 'minutes', value: null });
    expect(r.state.rigParts.get('leg-r')).not.toHaveProperty('minutes');
    r.record([draftOf(500, 'rig-stated', { what: 'part', id: 'leg-r', aspect: 'minutes', value: 'many' })]);
    expect(r.state.rigParts.get('leg-r')).not.toHaveProperty('minutes');
    expect(r.state.unreadable).toHaveLength(1);
  });

  it('a given fact that was withdrawn is not given any more', () => {
    const r = openedRecorder();
    r.note('fact-withdrawn', { fact: 'inspector-here', why: 'he left' });
    expect(r.state.rig.facts.find((f) => f.id === 'inspector-here')?.given).toBe(false);
    r.note('fact-settled', { fact: 'inspector-here' });
    expect(r.state.rig.facts.find((f) => f.id === 'inspector-here')?.given).toBe(true);
    expect(r.state.situation.facts).toEqual(['inspector-here']);
  });
});

describe('what is known of a joint', () => {
  it('tells none, not looked, not noted and unknown apart; the last one holds, earlier ones are seen', () => {
    const r = openedRecorder();
    r.note('joint-noted', {
      subject: 'bolt-r-1',
      aspects: {
        shims: { is: 'none' },
        thread: { is: 'not-looked' },
        clocking: { is: 'not-noted' },
        'thread-hand': { is: 'unknown' },
      },
    });
    r.note('reading-noted', {
      subject: 'bolt-r-1',
      aspect: 'thread',
      text: '3/8 in',
      si: { value: 0.009525, unit: 'm' },
    });
    const facts = factsOf(r.state, 'bolt-r-1');
    expect([...facts].map(([a, list]) => [a, list.at(-1)?.value.is])).toEqual([
      ['clocking', 'not-noted'],
      ['shims', 'none'],
      ['thread', 'value'],
      ['thread-hand', 'unknown'],
    ]);
    expect(facts.get('thread')?.map((f) => f.value.is)).toEqual(['not-looked', 'value']);
    expect(factNow(r.state, 'bolt-r-1', 'thread')?.value).toEqual({
      is: 'value',
      text: '3/8 in',
      si: { value: 0.009525, unit: 'm' },
    });
  });
});

describe('signing a look', () => {
  it('counts from a person with the right; otherwise waits until the right is recorded', () => {
    const r = openedRecorder();
    r.do({ kind: 'sign-look', look: 'look-r' }, 'ben');
    expect(r.state.situation.signed).toEqual([]);
    expect(r.state.signatures.get('look-r')).toHaveLength(1);
    r.note('person-noted', { person: 'ben', name: 'Ben', role: 'apprentice', rights: ['sign'] });
    expect(r.state.situation.signed).toEqual(['look-r']);
  });

  it.each(['remove:cover-r', 'bolt-r-2', 'remove:leg-r'])(
    'asks again after %s, and not when that did not happen',
    (action) => {
      const r = openedRecorder();
      r.do({ kind: 'sign-look', look: 'look-r' });
      expect(r.state.situation.signed).toEqual(['look-r']);
      r.do({ kind: 'step', action });
      expect(r.state.situation.signed).toEqual([]);
      expect(r.state.signatures.get('look-r')?.[0]?.lapsed?.why).toContain(action);
      r.do({ kind: 'undo-step', action });
      expect(r.state.situation.signed).toEqual(['look-r']);
    },
  );

  it('does not ask again after something elsewhere', () => {
    const r = openedRecorder();
    r.do({ kind: 'sign-look', look: 'look-r' });
    r.do({ kind: 'step', action: 'hinge' });
    expect(r.state.situation.signed).toEqual(['look-r']);
  });
});

describe('stops', () => {
  it('stay on top until cleared', () => {
    const r = openedRecorder();
    const stop = r.note('stopped-here', { subject: 'bolt-r-1', state: 'nut finger-tight' });
    r.do({ kind: 'refit', action: 'bolt-r-1', stage: 'final' });
    expect(r.state.openStops.map((s) => s.state)).toEqual(['nut finger-tight']);
    r.note('stop-cleared', { stop: stop.id });
    expect(r.state.openStops).toEqual([]);
  });
});

describe('taking back', () => {
  const note = (n: number, text: string, corrects?: number): ReturnType<typeof draftOf> =>
    draftOf(n, 'note', { text }, 'ana', corrects === undefined ? undefined : idAt(corrects));
  const back = (n: number, entry: number): ReturnType<typeof draftOf> =>
    draftOf(n, 'entry-withdrawn', { entry: idAt(entry) });
  const texts = (...drafts: ReturnType<typeof draftOf>[]): string[] =>
    fold(entriesOf(drafts))
      .notes.get('job')
      ?.map((x) => x.text) ?? [];

  it('a withdrawal of a withdrawal has no effect, nor has what it withdrew', () => {
    expect(texts(note(1, 'a'), back(2, 1))).toEqual([]);
    expect(texts(note(1, 'a'), back(2, 1), back(3, 2))).toEqual(['a']);
    expect(texts(note(1, 'a'), back(2, 1), back(3, 2), back(4, 3))).toEqual([]);
  });

  it('a correction stands in the place of the old entry, also a correction of a correction', () => {
    expect(texts(note(1, 'a'), note(2, 'b'), note(3, 'A', 1))).toEqual(['A', 'b']);
    expect(texts(note(1, 'a'), note(2, 'b'), note(3, 'A', 1), note(4, 'AA', 3))).toEqual(['AA', 'b']);
    expect(texts(note(1, 'a'), note(2, 'b'), note(3, 'A', 1), note(4, 'AA', 1))).toEqual(['AA', 'b']);
  });

  it('withdrawing a correction brings the old one back; withdrawing the old one takes both', () => {
    expect(texts(note(1, 'a'), note(2, 'b'), note(3, 'A', 1), back(4, 3))).toEqual(['a', 'b']);
    expect(texts(note(1, 'a'), note(2, 'b'), note(3, 'A', 1), back(4, 1))).toEqual(['b']);
  });

  it('names what was taken back, by what and why', () => {
    const s = fold(entriesOf([note(1, 'a'), draftOf(2, 'entry-withdrawn', { entry: idAt(1), why: 'wrong bag' })]));
    expect(s.withdrawn.get(idAt(1))).toEqual({ by: idAt(2), how: 'withdrawn', why: 'wrong bag' });
  });

  it('an entry cannot take back a later one or itself', () => {
    expect(texts(back(1, 2), note(2, 'a'))).toEqual(['a']);
    expect(texts(draftOf(1, 'note', { text: 'a' }, 'ana', idAt(1)))).toEqual(['a']);
  });
});

describe('taking in the same rig twice', () => {
  it('gives the same rig', () => {
    const r = new Recorder();
    r.do({ kind: 'take-in-rig', rig: SMALL_RIG, standing: 'ours' });
    const once = r.state.rig;
    r.do({ kind: 'take-in-rig', rig: SMALL_RIG, standing: 'ours' });
    expect(r.state.rig).toEqual(once);
  });
});
