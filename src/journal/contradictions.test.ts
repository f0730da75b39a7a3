import { describe, expect, it } from 'vitest';
import { contradictions, openContradictions } from './contradictions.ts';
import { openedRecorder } from './testing/recorder.ts';

describe('contradictions', () => {
  it('there are none when the order is one the rig allows', () => {
    const r = openedRecorder();
    r.note('fact-settled', { fact: 'spring-measured-r' });
    for (const action of ['clip-r', 'remove:cover-r', 'bolt-r-1', 'bolt-r-2', 'remove:leg-r'])
      r.do({ kind: 'step', action });
    expect(contradictions(r.state)).toEqual([]);
  });

  it('[J6] a removal that the rig forbids comes up with what hindered it, until it is settled', () => {
    const r = openedRecorder();
    const [step] = r.do({ kind: 'step', action: 'remove:cover-r' });
    expect(contradictions(r.state)).toMatchObject([
      {
        id: step?.id,
        action: 'remove:cover-r',
        settled: null,
        hindrances: [{ rule: 'attachment', need: { released: 'clip-r' } }],
      },
    ]);
    r.note('contradiction-settled', {
      contradiction: step?.id ?? '',
      end: 'rig-is-wrong',
      note: 'no clip on this side',
    });
    expect(openContradictions(r.state)).toEqual([]);
    expect(contradictions(r.state)[0]?.settled?.end).toBe('rig-is-wrong');
  });

  it('what was known then counts: a fact settled afterwards does not clear an earlier step', () => {
    const r = openedRecorder();
    r.do({ kind: 'step', action: 'bolt-r-2' });
    r.note('fact-settled', { fact: 'spring-measured-r' });
    expect(contradictions(r.state).map((c) => c.hindrances[0]?.rule)).toEqual(['hazard']);
  });

  it('putting back what was in the way does not blame what came off while it was off', () => {
    const r = openedRecorder();
    for (const action of ['clip-r', 'remove:cover-r', 'bolt-r-1']) r.do({ kind: 'step', action });
    r.do({ kind: 'refit', action: 'remove:cover-r', stage: 'final' });
    expect(contradictions(r.state)).toEqual([]);
    r.do({ kind: 'refit', action: 'bolt-r-1', stage: 'final' });
    expect(contradictions(r.state).map((c) => [c.action, c.what])).toEqual([['bolt-r-1', 'refitted']]);
  });

  it('a step taken back is no contradiction any more; step by step gives the same as all at once', () => {
    const r = openedRecorder();
    r.do({ kind: 'step', action: 'remove:leg-r' });
    expect(contradictions(r.state)).toHaveLength(1);
    r.do({ kind: 'undo-step', action: 'remove:leg-r' });
    expect(contradictions(r.state)).toEqual([]);
    r.do({ kind: 'step', action: 'bolt-r-1' });
    const stepwise = contradictions(r.state);
    const fresh = { ...r.state, rig: { ...r.state.rig } };
    expect(contradictions(fresh)).toEqual(stepwise);
  });

  it('when the rig is mended the contradiction goes', () => {
    const r = openedRecorder();
    r.do({ kind: 'step', action: 'bolt-r-1' });
    expect(contradictions(r.state)).toHaveLength(1);
    r.note('rig-stated', { what: 'attachment', id: 'bolt-r-1', aspect: 'needs', value: null });
    expect(contradictions(r.state)).toEqual([]);
  });
});
