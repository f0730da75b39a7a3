/**
 * The traps of the invented scenario that concern order, hiding and energy: each is an answer of the planner, and goes
 * away when the one element it rests on is taken out of the rig. Tipping is in `support.test.ts`.
 */
import { describe, expect, it } from 'vitest';
import { must } from '../src/domain/result.ts';
import { readRig } from '../src/domain/rig/rig-check.ts';
import { RigMeaning } from '../src/domain/rig/rig-meaning.ts';
import type { ActionId, Need, Rig, Situation } from '../src/domain/rig/rig-types.ts';
import { signatureNow } from '../src/journal/state.ts';
import type { FitsEntry, OffAnswer, WhyNotAnswer } from '../src/planning/answers.ts';
import { planFits } from '../src/planning/refit/plan-fits.ts';
import { planOff } from '../src/planning/removal/plan-off.ts';
import { whyNot } from '../src/planning/removal/why-not.ts';
import { demoJob } from './history/index.ts';
import { NOTHING_HERE } from './parts.ts';
import { demoRig } from './rig/index.ts';
import {
  withoutBlock,
  withoutGuard,
  withoutHazards,
  withoutHold,
  withoutLook,
  withoutNeed,
} from './testing/one-less.ts';

const RIG = demoRig();
const NOTHING_DONE: Situation = { done: [] };

const off = (rig: Rig, situation: Situation, goal: Need): OffAnswer => must(planOff(rig, situation, goal));
const actions = (answer: OffAnswer): readonly ActionId[] => answer.steps.map((s) => s.action);
const why = (rig: Rig, situation: Situation, action: ActionId): WhyNotAnswer => must(whyNot(rig, situation, action));
function fitting(rig: Rig, situation: Situation, action: ActionId): FitsEntry {
  const entry = must(planFits(rig, situation, { action })).next[0];
  if (entry === undefined) throw new Error('internal: no entry for the action; report it');
  return entry;
}
/** What has been done once these are off, in the planner's own order. */
const after = (...goals: readonly Need[]): Situation => ({ done: actions(off(RIG, NOTHING_DONE, { all: goals })) });

describe('X-1 the trunnion pin slides only with the leg at 35°', () => {
  it.each([
    ['port', '07-j02', 'swing-leg-l-35', 'leg-l'],
    ['starboard', '08-j02', 'swing-leg-r-35', 'leg-r'],
  ] as const)('%s', (_side, pin, swing, leg) => {
    const need = { done: swing };
    expect(actions(off(RIG, NOTHING_DONE, { off: leg }))).toContain(swing);
    expect(why(RIG, NOTHING_DONE, pin).unavoidable).toContain(swing);
    const less = withoutNeed(RIG, pin, need);
    expect(actions(off(less, NOTHING_DONE, { off: leg }))).not.toContain(swing);
    expect(why(less, NOTHING_DONE, pin).unavoidable).not.toContain(swing);
    // Going back: swung down before the pin is in, the pin cannot go in any more.
    const legOff = after({ off: leg });
    expect(fitting(RIG, legOff, swing).locksOut).toContain(pin);
    expect(fitting(less, legOff, swing).locksOut).not.toContain(pin);
  });
});

describe('X-2 the release bolt is too short for the spring that was found', () => {
  const job = demoJob('2025-11-18').state.situation;
  const spring: Need = { apart: '10-03' };

  it('the story of 18 November: eight steps, 72 minutes, proven, the press before the nut', () => {
    const answer = off(RIG, job, spring);
    expect(actions(answer)).toEqual([
      'set:support=stands',
      '10-j13',
      'remove:10-14',
      '10-j20',
      'fit-captive-press',
      '10-j07',
      'let-spring-down',
      'remove:10-03',
    ]);
    expect(answer).toMatchObject({ cost: 72, lowerBound: 72, proven: true, irreversible: 0, tipsAt: null });
    expect(answer.waitsFor).toEqual(['bolt-travel-enough', 'spring-free-length-known']);
    expect(answer.nextWays.map((w) => w.cost)).toEqual([91, 100]);
  });

  it('one fact of the two is not enough; with both the bolt is the shorter way', () => {
    expect(actions(off(RIG, { ...job, facts: ['spring-free-length-known'] }, spring))).toContain('fit-captive-press');
    const both = off(RIG, { ...job, facts: ['spring-free-length-known', 'bolt-travel-enough'] }, spring);
    expect(actions(both)).toContain('let-spring-down-on-bolt');
    expect(actions(both)).not.toContain('fit-captive-press');
    expect(both.cost).toBeLessThan(72);
  });

  it('the nut is gated, and only by its hazard', () => {
    const ready = { ...job, done: [...job.done, 'set:support=stands', '10-j13', 'remove:10-14', '10-j20'] };
    const { setups: _setups, ...situation } = ready;
    const nut = why(RIG, situation, '10-j07');
    expect(nut.allowed).toBe(false);
    expect(nut.unmet.map((u) => u.kind)).toContain('hazard');
    expect(why(withoutHazards(RIG, '10-j07'), situation, '10-j07').allowed).toBe(true);
  });
});

describe('X-5 and X-6 threads of the two hands', () => {
  it('axle nuts and jack screws are mirror-threaded, gland nuts are not', () => {
    const hand = (id: string) => RIG.attachments.find((a) => a.id === id)?.threadHand;
    expect([hand('07-j19'), hand('08-j19')]).toEqual(['left', 'right']);
    expect([hand('09-j13'), hand('09-j14')]).toEqual(['left', 'right']);
    expect([hand('07-j06'), hand('08-j06')]).toEqual(['right', 'right']);
    const step = off(RIG, NOTHING_DONE, { apart: '07-19' }).steps.find((s) => s.action === '07-j19');
    expect(step?.name).toContain('LEFT-HAND');
  });
});

describe('X-8 bearings before tank, tank before roof', () => {
  const S = after(
    { apart: '09-09' },
    { apart: '09-10' },
    { done: 'open-cabin-floor' },
    { off: '02-22.3' },
    { off: '02-22.4' },
  );

  it('the tank shuts out each intermediate bearing, by one block', () => {
    for (const bearing of ['09-09', '09-10']) {
      const entry = fitting(RIG, S, 'remove:03-14');
      expect(entry.fits).toBe(true);
      expect(entry.roots).toContain(`remove:${bearing}`);
      expect(fitting(withoutBlock(RIG, bearing, '03-14'), S, 'remove:03-14').locksOut).not.toContain(
        `remove:${bearing}`,
      );
    }
  });

  it('the roof hatch shuts out the tank, by one block', () => {
    expect(fitting(RIG, S, 'remove:01-21').roots).toContain('remove:03-14');
    expect(fitting(withoutBlock(RIG, '03-14', '01-21'), S, 'remove:01-21').locksOut).not.toContain('remove:03-14');
  });
});

describe('X-9 the diaphragm shuts off the rivets of panel 9 and hides a lug that nobody has seen', () => {
  const { state } = demoJob('2026-04-14');
  const diaphragm = 'remove:02-12';

  it('on 14 April it hangs on skin pins: it fits, shuts off and hides', () => {
    const entry = fitting(state.rig, state.situation, diaphragm);
    expect(entry.fits).toBe(true);
    expect(entry.roots).toContain('02-j09f');
    expect(entry.hides).toContain('gate-6-inner-lug');
    expect(state.situation.done).toContain(diaphragm);
    expect(state.refits.get(diaphragm)?.at(-1)?.stage).toBe('trial');
  });

  it('the look gone, or signed: nothing is hidden there', () => {
    const less = fitting(withoutLook(state.rig, 'gate-6-inner-lug'), state.situation, diaphragm);
    expect(less.hides).not.toContain('gate-6-inner-lug');
    const signed = { ...state.situation, signed: [...(state.situation.signed ?? []), 'gate-6-inner-lug'] };
    expect(fitting(state.rig, signed, diaphragm).hides).not.toContain('gate-6-inner-lug');
  });

  it('the one need of the rivets gone: they are not shut off', () => {
    const less = withoutNeed(state.rig, '02-j09f', { off: '02-12' });
    expect(fitting(less, state.situation, diaphragm).locksOut).not.toContain('02-j09f');
  });

  it('an order that shuts nothing off and hides nothing puts rivets and looks first', () => {
    const answer = must(planFits(state.rig, state.situation));
    const order = answer.order ?? [];
    expect(order.indexOf('02-j09f')).toBeGreaterThanOrEqual(0);
    expect(order.indexOf('02-j09f')).toBeLessThan(order.indexOf(diaphragm));
    expect(answer.lastSeen['gate-6-inner-lug']).toBe(diaphragm);
  });
});

describe('X-12 "none fitted" is a record', () => {
  it('three shims to port, none to starboard, and that none is written down', () => {
    expect(RIG.parts.filter((p) => p.id.startsWith('03-18')).map((p) => p.hand)).toEqual(['L', 'L', 'L']);
    expect(RIG.parts.filter((p) => p.id.startsWith('03-19'))).toEqual([]);
    expect(NOTHING_HERE).toEqual(['03-19']);
    expect(demoJob('2025-11-18').state.nothingHere.get('03-19')?.note).toContain('No shim fitted');
  });
});

describe('X-20 gate 7, signed on 2 April and opened again on the 9th', () => {
  const { state } = demoJob('2026-04-14');

  it('the signature stays on record, but does not cover the present; the tank would hide the bay', () => {
    const [signature] = state.signatures.get('gate-7') ?? [];
    expect(signature?.said).toMatchObject({ by: 'callum', at: '2026-04-02T10:30:00+01:00' });
    expect(signature?.lapsed?.said).toMatchObject({ by: 'joss', at: '2026-04-09T15:10:00+01:00' });
    expect(signatureNow(state, 'gate-7')).toBeNull();
    expect(state.situation.signed).not.toContain('gate-7');
    expect(fitting(state.rig, state.situation, 'remove:03-14').hides).toContain('gate-7');
  });

  it('without the look the tank hides nothing there', () => {
    expect(fitting(withoutLook(state.rig, 'gate-7'), state.situation, 'remove:03-14').hides).not.toContain('gate-7');
  });
});

describe('what falls: guards and holds', () => {
  it('two opposite pylon struts, by one guard', () => {
    const one = after({ apart: '03-01' });
    // The second front strut with its own joints undone.
    const plan = off(withoutGuard(RIG, '03-01', '03-02'), one, { apart: '03-02' });
    const ready: Situation = { done: [...one.done, ...actions(plan).slice(0, -1)] };
    const answer = why(RIG, ready, 'remove:03-02');
    expect(answer.allowed).toBe(false);
    expect(answer.unmet.map((u) => u.kind)).toContain('guard');
    expect(answer.harm.join()).toContain('falls forward');
    expect(why(withoutGuard(RIG, '03-01', '03-02'), ready, 'remove:03-02').allowed).toBe(true);
  });

  it('the last lug of the engine mount waits for the sling, by one hold', () => {
    const order = actions(off(withoutHold(RIG, 'power-unit'), NOTHING_DONE, { off: 'power-unit' }));
    const last = order.findLast((a) => a.startsWith('11-j02')) ?? '';
    const ready: Situation = { done: order.filter((a) => a !== last && a !== 'remove:power-unit') };
    const answer = why(RIG, ready, last);
    expect(answer.allowed).toBe(false);
    expect(answer.unmet.map((u) => u.kind)).toEqual(['hold']);
    expect(why(withoutHold(RIG, 'power-unit'), ready, last).allowed).toBe(true);
  });
});

describe('stored energy: every item of the shop’s list is gated, and only by its own hazard', () => {
  const meaning = new RigMeaning(RIG);
  const start = meaning.start();
  it.each([
    ['tail-wheel spring', '10-j07', 'fit-captive-press'],
    ['oleo, port', '07-j06', 'let-gas-out-l'],
    ['oleo, starboard', '08-j06', 'let-gas-out-r'],
    ['tyre, port', '07-j19', 'deflate-tyre-l'],
    ['tyre, starboard', '08-j19', 'deflate-tyre-r'],
    ['tyre, tail', '10-j15', 'deflate-tail-tyre'],
    ['brake springs, port', '07-j17.1', 'spring-tool-on-brake-l'],
    ['brake springs, starboard', '08-j17.2', 'spring-tool-on-brake-r'],
    ['lock spring, port', '09-j27', 'ease-lock-spring-l'],
    ['lock spring, starboard', '09-j28', 'ease-lock-spring-r'],
    ['centring spring, port', '10-j16a', 'ease-centring-spring-l'],
    ['centring spring, starboard', '10-j17a', 'ease-centring-spring-r'],
    ['ratchet pawl', '09-j06', 'ease-ratchet-pawl'],
    ['trim', '06-j05t', 'run-trim-down-and-prop'],
    ['aileron cable', '12-j11.1a', 'slacken-aileron-cables'],
    ['the propeller may turn', '11-j13', 'make-engine-dead'],
  ])('%s', (_name, joint, clears) => {
    const rules = (rig: Rig, done: readonly string[]) =>
      new RigMeaning(rig).hindrances(joint, { ...start, done: new Set(done) }).map((h) => h.rule);
    expect(meaning.hindrances(joint, start).map((h) => h.rule)).toContain('hazard');
    expect(rules(RIG, [clears])).not.toContain('hazard');
    expect(rules(withoutHazards(RIG, joint), [])).not.toContain('hazard');
  });

  it('a gauge at zero is no proof: the starboard valve is cleared before its gas is let out', () => {
    const port = actions(off(RIG, NOTHING_DONE, { apart: '07-06' }));
    const starboard = actions(off(RIG, NOTHING_DONE, { apart: '08-06' }));
    expect(port).toContain('let-gas-out-l');
    expect(starboard.indexOf('clear-valve-bore-r')).toBeGreaterThanOrEqual(0);
    expect(starboard.indexOf('clear-valve-bore-r')).toBeLessThan(starboard.indexOf('let-gas-out-r'));
  });
});

it('the rig with one element less is still a rig', () => {
  expect(readRig(JSON.parse(JSON.stringify(withoutBlock(RIG, '09-09', '03-14')))).ok).toBe(true);
});
