import { describe, expect, it } from 'vitest';
import { checkRig } from '../domain/rig/rig-check.ts';
import { mirrorRig, swapHandInId } from './mirror-rig.ts';
import { openedRecorder, Recorder } from './testing/recorder.ts';

function mirrored(): Recorder {
  const r = openedRecorder();
  r.do({ kind: 'mirror', assembly: 'leg-r', from: 'R', to: 'L' });
  return r;
}

describe('mirror', () => {
  it('flips ids, hands, sides, names and marked thread hands, and never copies as-found details', () => {
    const r = mirrored();
    expect(r.state.rigParts.get('leg-l')).toEqual({
      id: 'leg-l',
      name: 'Leg, port',
      hand: 'L',
      massKg: 31,
      at: { x: 7, y: -1.2, z: 0 },
    });
    expect(r.state.rigParts.get('fork-l')).toMatchObject({ within: 'leg-l', hand: 'L' });
    expect(r.state.rigAttachments.get('bolt-l-1')).toEqual({
      id: 'bolt-l-1',
      joins: ['leg-l', 'airframe'],
      kind: 'bolted',
      minutes: 10,
      needs: { off: 'cover-r' },
      threadHand: 'right',
    });
  });

  it('is expected until seen on that side', () => {
    const r = mirrored();
    expect(r.state.standing.get('bolt-l-1')?.word).toBe('expected');
    r.note('seen-on-this-side', { subject: 'bolt-l-1' });
    expect(r.state.standing.get('bolt-l-1')?.word).toBe('ours');
    r.do({ kind: 'mirror', assembly: 'leg-r', from: 'R', to: 'L' });
    expect(r.state.standing.get('bolt-l-1')?.word).toBe('ours');
  });

  it('a fact that clears a hazard gets an image that nobody has settled', () => {
    const r = openedRecorder();
    r.note('fact-settled', { fact: 'spring-measured-r' });
    r.do({ kind: 'mirror', assembly: 'leg-r', from: 'R', to: 'L' });
    expect(r.state.rigAttachments.get('bolt-l-2')?.hazards).toEqual([
      { kind: 'stored-energy', clearedBy: { fact: 'spring-measured-l' } },
    ]);
    expect(r.state.situation.facts).toEqual(['spring-measured-r']);
  });

  it('a centre part whose need names this side gains the other side, once', () => {
    const r = mirrored();
    const both = { all: [{ released: 'bolt-r-1' }, { released: 'bolt-l-1' }] };
    expect(r.state.rig.parts.find((p) => p.id === 'door')?.needs).toEqual(both);
    const once = r.state.rig;
    r.do({ kind: 'mirror', assembly: 'leg-r', from: 'R', to: 'L' });
    expect(r.state.rig).toEqual(once);
  });

  it('names what the other side has already, and what it has not stays as it was', () => {
    const r = openedRecorder();
    r.do({ kind: 'mirror', assembly: 'cover-r', from: 'R', to: 'L' });
    r.do({ kind: 'mirror', assembly: 'leg-r', from: 'R', to: 'L' });
    expect(r.state.rigAttachments.get('bolt-l-1')?.needs).toEqual({ off: 'cover-l' });
    expect(r.state.rigLooks.get('look-l')?.visible).toEqual({ off: 'cover-l' });
    expect(r.state.rigAttachments.get('bolt-r-1')?.needs).toEqual({ off: 'cover-r' });
  });

  it('the rig still holds, and mirroring back adds nothing', () => {
    const r = mirrored();
    expect(checkRig(r.state.rig)).toMatchObject({ ok: true });
    const ids = [...r.state.rigParts.keys(), ...r.state.rigAttachments.keys()].sort();
    r.do({ kind: 'mirror', assembly: 'leg-l', from: 'L', to: 'R' });
    expect([...r.state.rigParts.keys(), ...r.state.rigAttachments.keys()].sort()).toEqual(ids);
    expect(r.state.rigAttachments.get('bolt-r-1')?.asFound).toEqual({ head: 'up' });
  });

  it('a joint that is its own image is not copied; one whose other end has no image is left out and named', () => {
    const r = new Recorder();
    r.do({
      kind: 'take-in-rig',
      standing: 'ours',
      rig: {
        root: 'airframe',
        parts: [
          { id: 'gear' },
          { id: 'axle-l', within: 'gear', hand: 'L' },
          { id: 'axle-r', within: 'gear', hand: 'R' },
          { id: 'wing-l', hand: 'L' },
        ],
        attachments: [
          { id: 'collar', joins: ['axle-l', 'axle-r'] },
          { id: 'strut-l', joins: ['axle-l', 'wing-l'] },
          { id: 'nut-l', joins: ['axle-l', 'airframe'] },
        ],
      },
    });
    const image = mirrorRig(r.state, 'gear', 'L', 'R');
    expect(image?.rig.attachments?.map((a) => a.id)).toEqual(['nut-r']);
    expect(image?.leftOut).toEqual(['strut-l']);
    r.do({ kind: 'mirror', assembly: 'gear', from: 'L', to: 'R' });
    expect(r.state.rig.attachments.map((a) => a.id)).toEqual(['collar', 'strut-l', 'nut-l', 'nut-r']);
    expect(checkRig(r.state.rig)).toMatchObject({ ok: true });
  });

  it('blocks and guards that touch this side get their image, their own image none', () => {
    const r = openedRecorder();
    r.note('rig-stated', {
      what: 'block',
      id: 'block:leg-r<door',
      value: { part: 'leg-r', by: 'door', harm: 'bends' },
    });
    r.do({ kind: 'mirror', assembly: 'leg-r', from: 'R', to: 'L' });
    expect(r.state.rig.blocks).toEqual([
      { part: 'leg-r', by: 'door', harm: 'bends' },
      { part: 'leg-l', by: 'door', harm: 'bends' },
    ]);
  });

  it.each([
    ['leg-r', 'leg-l'],
    ['bolt-r-1', 'bolt-l-1'],
    ['R', 'L'],
    ['left.tip', 'right.tip'],
    ['Port-light', 'Starboard-light'],
    ['rudder', 'rudder'],
  ])('%s becomes %s and back', (a, b) => {
    expect(swapHandInId(a)).toBe(b);
    expect(swapHandInId(b)).toBe(a);
  });
});
