import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { must } from '../domain/result.ts';
import { fold } from './fold.ts';
import { addPending, EMPTY_COPY, overlay, packCopy, reconcile, takeIn, unpackCopy } from './sync.ts';
import { anyDrafts } from './testing/random-entries.ts';
import { chain, draftOf, entriesOf, openedRecorder } from './testing/recorder.ts';

describe('the copy on a phone', () => {
  it('shows pending entries at once, and the same state once they are accepted', () => {
    fc.assert(
      fc.property(anyDrafts(30), fc.nat(), (drafts, at) => {
        const cut = drafts.length === 0 ? 0 : at % (drafts.length + 1);
        const accepted = chain(drafts.slice(0, cut));
        const offline = addPending(must(takeIn(EMPTY_COPY, accepted)), drafts.slice(cut));
        const rest = chain(drafts.slice(cut), offline.state.head);
        const online = must(takeIn(offline, rest));
        expect(online.pending).toEqual([]);
        expect({ ...online.shown }).toEqual({ ...fold(entriesOf(drafts)) });
        const shownOffline = offline.shown.situation;
        expect(shownOffline).toEqual(online.shown.situation);
      }),
      { numRuns: 60 },
    );
  });

  it('lays pending entries again when others came in between', () => {
    const mine = draftOf(10, 'note', { text: 'mine' });
    const copy = addPending(EMPTY_COPY, [mine]);
    const after = must(takeIn(copy, chain([draftOf(11, 'note', { text: 'theirs' })])));
    expect(after.pending).toEqual([mine]);
    expect(after.shown.notes.get('job')?.map((n) => [n.text, n.said.pending])).toEqual([
      ['theirs', undefined],
      ['mine', true],
    ]);
    expect(after.shown.head).toEqual(after.state.head);
  });

  it('keeps and shows an entry whose id the server knows with other content', () => {
    const mine = draftOf(10, 'note', { text: 'mine' });
    const theirs = draftOf(10, 'note', { text: 'theirs' });
    const after = must(takeIn(addPending(EMPTY_COPY, [mine]), chain([theirs])));
    expect(after.clashes).toEqual([mine]);
    expect(reconcile([mine], entriesOf([theirs])).still).toEqual([]);
  });

  it('passes over what it has, and refuses what does not follow', () => {
    const stored = chain([
      draftOf(1, 'note', { text: 'a' }),
      draftOf(2, 'note', { text: 'b' }),
      draftOf(3, 'note', { text: 'c' }),
    ]);
    const copy = must(takeIn(EMPTY_COPY, stored.slice(0, 2)));
    expect(must(takeIn(copy, stored)).state.log).toHaveLength(3);
    expect(takeIn(EMPTY_COPY, stored.slice(1))).toMatchObject({ ok: false, problem: { code: 'CHAIN_BROKEN' } });
  });

  it('comes back from its blob; pending entries survive a blob that does not hold', () => {
    const r = openedRecorder();
    const pending = [draftOf(800, 'note', { text: 'still here' })];
    const copy = addPending(must(takeIn(EMPTY_COPY, r.stored)), pending);
    const packed = structuredClone(packCopy(copy));
    const back = unpackCopy(packed);
    expect(back.refetch).toBe(false);
    expect({ ...back.copy.shown }).toEqual({ ...copy.shown });
    const bad = unpackCopy({ ...packed, stored: packed.stored.slice(1) });
    expect(bad.refetch).toBe(true);
    expect(bad.copy.pending).toEqual(pending);
  });

  it('an overlay of nothing is the state itself', () => {
    const r = openedRecorder();
    expect(overlay(r.state, [])).toBe(r.state);
  });
});
