/** DEV ONLY: replaced by the real planner. */
import { RigMeaning } from '../../domain/rig/rig-meaning.ts';
import type { Rig, Situation } from '../../domain/rig/rig-types.ts';
import { wiresBetween } from '../graph/graph-model.ts';
import { namesOf } from '../words/names.ts';
import type { Ask, FromPlanner } from './planner-talk.ts';
export function answerAsk(rig: Rig, situation: Situation, ask: Ask): FromPlanner['result'] {
  const m = new RigMeaning(rig); const names = namesOf(rig);
  if (ask.kind === 'off') {
    const now = m.now(situation);
    const all = [...rig.setups.flatMap((s) => s.states.filter((x) => x !== s.initial).map((x) => `set:${s.id}=${x}`)), ...rig.attachments.map((a) => a.id), ...rig.operations.filter((o) => o.only !== 'refit').map((o) => o.id), ...rig.parts.filter(p=>p.id!==rig.root).map((p) => `remove:${p.id}`)];
    const goal = (w: typeof now) => m.holds(ask.goal, [rig.root], w);
    let w = now; const seq: string[] = [];
    for (let i = 0; i < 400 && !goal(w); i++) { const a = all.find((x) => !seq.includes(x) && m.allowed(x, w)); if (!a) break; seq.push(a); w = m.after(w, a); }
    if (!goal(w)) return { ok: false, problem: { code: 'NO_WAY_OFF', message: 'No way leads there.', remedy: 'Settle a fact.' } };
    let plan = seq;
    for (const a of [...seq].reverse()) { const t = plan.filter((x) => x !== a); let v = now; let good = true; for (const x of t) { if (!m.allowed(x, v)) { good = false; break; } v = m.after(v, x); } if (good && goal(v)) plan = t; }
    const min = (a: string) => rig.attachments.find((x) => x.id === a)?.minutes ?? rig.operations.find((x) => x.id === a)?.minutes ?? rig.parts.find((x) => `remove:${x.id}` === a)?.minutes ?? (a.startsWith('set:') ? 20 : 0);
    const steps = plan.map((a) => ({ action: a, kind: 'release' as const, name: names.strip(a), minutes: min(a), why: ['so that the next step can follow'], hazards: [], loads: a.startsWith('set:') ? [{ point: 'stand', kg: 51, plusMinus: 9 }] : [] }));
    const cost = steps.reduce((s, x) => s + x.minutes, 0);
    const doneShown = situation.done.filter((a) => true).slice(-6);
    return { ok: true, value: { kind: 'off', answer: { cost, irreversible: 0, disturbed: 1, proven: true, lowerBound: cost, steps, unavoidable: plan, nextWays: [{ cost: cost + 19, actions: [...plan.slice(0, 2), 'gland', ...plan.slice(3)] }], waitsFor: ['free-length'], tipsAt: null }, wires: wiresBetween(rig, [...doneShown, ...plan]), doneShown } };
  }
  if (ask.kind === 'why-not') return { ok: true, value: { kind: 'why-not', answer: { action: ask.action, allowed: false, unmet: m.hindrances(ask.action, m.now(situation)).map((h) => ({ need: h.need, kind: 'part' as const, text: JSON.stringify(h.need) })), cheapestWay: null, nextWays: [], unavoidable: [], harm: ['tears the flange'] } } };
  const next = situation.done.map((a, i) => ({ action: a, fits: true, locksOut: i % 3 === 1 ? ['nut', 'axle', 'press'] : [], roots: i % 3 === 1 ? ['nut'] : [], hides: i % 3 === 1 ? ['look-1'] : [] }));
  return { ok: true, value: { kind: ask.kind, answer: { next, order: [...situation.done].reverse(), lastSeen: {} } } };
}
