import { describe, expect, it } from 'vitest';
import { bagCode } from '../../domain/bag-code.ts';
import { makeUlid } from '../../domain/ids.ts';
import { must } from '../../domain/result.ts';
import { type Command, recording } from '../../journal/commands.ts';
import { whereIs } from '../../journal/custody.ts';
import { decide } from '../../journal/decide.ts';
import { asPending } from '../../journal/entry.ts';
import { fold } from '../../journal/fold.ts';
import type { State } from '../../journal/state.ts';
import { viewOf } from '../state/view-of.ts';
import { stateAfter } from '../testing/make-job.ts';
import { tailRig } from '../testing/tail-rig.ts';
import { afterBag, choosePart, groupsOf, NOWHERE, partsIn, placeWords, readCarried, subjectOf } from './carried.ts';
import {
  bagIt,
  impliedSteps,
  newPart,
  nothingHere,
  photographs,
  type Shot,
  stoppedHere,
  takeBack,
} from './gestures.ts';

const BAG = bagCode(441);
const NEXT = bagCode(442);
const SHOTS: readonly Shot[] = ['a', 'b'].map((c) => ({
  hash: c.repeat(64),
  mime: 'image/jpeg',
  bytes: 1_000,
  width: 640,
  height: 480,
}));
const start = stateAfter([
  recording('job-opened', { job: 'test', name: 'Test', invented: true }),
  recording('person-noted', { person: 'nadia', name: 'Nadia Quist-Fairweather', role: 'apprentice' }),
  { kind: 'take-in-rig', rig: tailRig(), standing: 'ours' },
]);
const view = (state: State) => viewOf('test', state, 'nadia', 'tablet');

/** Each gesture a minute after the one before, as on the floor. */
function floor(gestures: readonly (readonly Command[])[], from: State = start): State {
  let state = from;
  for (const [minute, commands] of gestures.entries()) {
    for (const command of commands) {
      const chance = new Uint8Array(10);
      chance[9] = state.log.length % 256;
      const at = `2025-11-18T10:${String(minute).padStart(2, '0')}:00+00:00`;
      const stamp = { id: makeUlid(1_763_460_000_000, chance), at, by: 'nadia', device: 'tablet' };
      state = fold(must(decide(state, command, stamp)).map(asPending), state);
    }
  }
  return state;
}

describe('a bag in one gesture', () => {
  it('is complete with nothing known but its code', () => {
    const state = floor([bagIt(BAG, NOWHERE, [])]);
    expect(state.bags.get(BAG)?.of).toEqual([]);
  });

  it('holds what is known and its photographs', () => {
    const at = choosePart(view(start), NOWHERE, '10-03');
    const state = floor([bagIt(BAG, at, SHOTS)]);
    expect(state.bags.get(BAG)).toMatchObject({ of: ['10-03'], hand: 'C' });
    expect(state.photos.get(BAG)).toHaveLength(2);
    expect(state.photos.get('10-03')).toHaveLength(2);
    expect(whereIs(state, '10-03')?.bag).toBe(BAG);
  });

  it('comes back as one, photographs and all', () => {
    const state = floor([bagIt(BAG, NOWHERE, SHOTS)]);
    const back = takeBack(state, 'nadia', 'tablet');
    expect(back?.bag).toBe(BAG);
    expect(back?.shots.map((s) => s.hash).sort()).toEqual(SHOTS.map((s) => s.hash));
    const undone = floor([back?.commands ?? []], state);
    expect(undone.bags.has(BAG)).toBe(false);
    expect(undone.photos.get(BAG) ?? []).toEqual([]);
  });

  it('comes back last first: the answer, the added photograph, then the bag', () => {
    const [first, added] = SHOTS as [Shot, Shot];
    let state = floor([
      bagIt(BAG, NOWHERE, [first]),
      photographs([added], [BAG]),
      [recording('joint-noted', { subject: BAG, aspects: { shims: { is: 'not-looked' } } })],
    ]);
    const kinds: string[] = [];
    for (let i = 0; i < 3; i += 1) {
      const back = takeBack(state, 'nadia', 'tablet');
      kinds.push(`${back?.commands.length} ${back?.shots.length} ${back?.bag}`);
      state = floor([back?.commands ?? []], state);
    }
    expect(kinds).toEqual(['1 0 null', '1 1 null', `2 1 ${BAG}`]);
    expect(takeBack(state, 'nadia', 'tablet')).toBeNull();
  });

  it('leaves alone what somebody else or another device recorded', () => {
    const state = floor([bagIt(BAG, NOWHERE, SHOTS)]);
    expect(takeBack(state, 'pim', 'tablet')).toBeNull();
    expect(takeBack(state, 'nadia', 'phone')).toBeNull();
  });
});

describe('the rig grows', () => {
  it('by a new part and its joint, and the bag is of it', () => {
    const grown = newPart(
      BAG,
      { part: `part-${BAG}`, joint: `joint-${BAG}` },
      { name: 'Grease cap', on: '10-01', joint: 'threaded', hand: 'C' },
    );
    const state = floor([bagIt(BAG, NOWHERE, []), grown]);
    expect(state.rigParts.get(`part-${BAG}`)?.name).toBe('Grease cap');
    expect(state.rigAttachments.get(`joint-${BAG}`)?.joins).toEqual([`part-${BAG}`, '10-01']);
    expect(state.bags.get(BAG)?.of).toEqual([`part-${BAG}`]);
    const back = takeBack(state, 'nadia', 'tablet');
    const undone = floor([back?.commands ?? []], state);
    expect(undone.rigParts.has(`part-${BAG}`)).toBe(false);
    expect(undone.rigAttachments.has(`joint-${BAG}`)).toBe(false);
    expect(undone.bags.has(BAG)).toBe(true);
  });

  it('"it is off" means the joints it hung by and its removal, and no joint of what stays', () => {
    const job = view(start);
    expect(impliedSteps(job, ['10-20'])).toEqual(['shear-pin', 'remove:10-20']);
    expect(impliedSteps(job, ['10-14'])).toEqual(['axle', 'remove:10-14']);
    // The axle joins wheel and fork: the fork alone in the bag says that the wheel is free of it too.
    expect(impliedSteps(job, ['10-12'])).toContain('axle');
    expect(impliedSteps(job, ['10-12'])).not.toContain('shear-pin');
    const state = floor([[{ kind: 'step', action: 'shear-pin', planned: null }]]);
    expect(impliedSteps(view(state), ['10-20'])).toEqual(['remove:10-20']);
  });
});

describe('what is said besides', () => {
  it('nothing here, with the photograph that shows it', () => {
    const state = floor([nothingHere('behind frame C19', SHOTS)]);
    expect(state.nothingHere.has('behind frame C19')).toBe(true);
    expect(state.photos.get('behind frame C19')).toHaveLength(2);
  });
  it('stopped here heads the next shift', () => {
    const state = floor([stoppedHere('10-07', 'nut finger-tight', SHOTS)]);
    expect(state.openStops).toMatchObject([{ subject: '10-07', state: 'nut finger-tight', photo: 'a'.repeat(64) }]);
  });
});

describe('the place carried on', () => {
  const job = view(start);
  it('stays after a bag; the part goes, and is first in the list next time', () => {
    const at = choosePart(job, NOWHERE, '10-14');
    expect(placeWords(job, at)).toBe('Tail-wheel');
    const next = afterBag(at);
    expect(next).toMatchObject({ group: '10', parts: [], recent: ['10-14'] });
    const group = groupsOf(job).find((g) => g.id === '10');
    expect(group && partsIn(job, group, next.recent)[0]).toBe('10-14');
    expect(subjectOf(NOWHERE)).toBe('job');
  });
  it('puts what is off below what is still on', () => {
    const group = groupsOf(job).find((g) => g.id === '10');
    const off = view(floor([[{ kind: 'step', action: 'remove:10-01', planned: null }]]));
    expect(group && partsIn(off, group, []).at(-1)).toBe('10-01');
  });
  it('reads what was kept, and begins anew where that cannot be read', () => {
    const at = choosePart(job, NOWHERE, '10-03');
    expect(readCarried(JSON.stringify(at))).toEqual(at);
    for (const text of [null, '', '7', '{"parts":3}', 'null']) expect(readCarried(text)).toEqual(NOWHERE);
  });
  it('a second tap on a part takes it out again', () => {
    const once = choosePart(job, NOWHERE, '10-03');
    expect(choosePart(job, once, '10-03').parts).toEqual([]);
    expect(choosePart(job, once, '10-04').parts).toEqual(['10-03', '10-04']);
    expect(floor([bagIt(NEXT, choosePart(job, once, '10-04'), [])]).bags.get(NEXT)?.of).toEqual(['10-03', '10-04']);
  });
});
