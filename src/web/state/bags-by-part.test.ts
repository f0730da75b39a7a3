/** Which bag a part is found by, as pieces are bagged, moved and fitted. */
import { describe, expect, it } from 'vitest';
import { demoJob } from '../../../demo/history/index.ts';
import { makeUlid } from '../../domain/ids.ts';
import { must } from '../../domain/result.ts';
import { type Command, recording } from '../../journal/commands.ts';
import { decide } from '../../journal/decide.ts';
import { asPending } from '../../journal/entry.ts';
import { fold } from '../../journal/fold.ts';
import { EMPTY_STATE } from '../../journal/make-state.ts';
import type { State } from '../../journal/state.ts';
import { bagsByPart } from './bags-by-part.ts';

let n = 0;
function told(state: State, ...commands: readonly Command[]): State {
  return commands.reduce((s, c) => {
    n += 1;
    const stamp = { id: makeUlid(n, new Uint8Array(10)), at: '2025-11-18T09:00:00+00:00', by: 'ann', device: 'd' };
    return fold(must(decide(s, c, stamp)).map(asPending), s);
  }, state);
}

const noted = told(
  EMPTY_STATE,
  recording('position-noted', { position: 'nut-place', rig: 'nut' }),
  recording('position-noted', { position: 'bolts.2', rig: 'bolt-2' }),
  recording('piece-noted', { piece: 'P-1', position: 'nut-place' }),
);

describe('the bag of a part', () => {
  it('is the one its piece lies in, whatever the bag is said to be of', () => {
    const state = told(noted, recording('bagged', { bag: 'B105C', things: ['P-1'] }));
    expect([...bagsByPart(state)]).toEqual([['nut', 'B105C']]);
  });

  it('is found for every position a bag came from, where nobody named pieces', () => {
    const state = told(noted, recording('bagged', { bag: 'B105C', of: ['bolts.2', 'nut-place'], things: ['P-1'] }));
    expect(Object.fromEntries(bagsByPart(state))).toEqual({ nut: 'B105C', 'bolt-2': 'B105C' });
  });

  it('follows the piece into another bag, and is gone once the piece is fitted', () => {
    const bagged = told(noted, recording('bagged', { bag: 'B105C', of: ['nut-place'], things: ['P-1'] }));
    const moved = told(bagged, recording('moved', { what: 'P-1', to: { bag: 'B106K' } }));
    expect(bagsByPart(moved).get('nut')).toBe('B106K');
    const fitted = told(moved, recording('moved', { what: 'P-1', to: { position: 'nut-place' } }));
    expect(bagsByPart(fitted).has('nut')).toBe(false);
  });

  it('in the invented job: the spring has none while it is fitted, then its own; a fitted cover has none again', () => {
    const november = bagsByPart(demoJob('2025-11-18').state);
    const april = bagsByPart(demoJob('2026-04-14').state);
    expect([november.get('10-03'), april.get('10-03')]).toEqual([undefined, 'B289C']);
    expect([april.get('02-07.4'), april.get('12-15')]).toEqual(['B132H', undefined]);
  });
});
