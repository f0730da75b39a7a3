import { describe, expect, it } from 'vitest';
import { must } from '../src/domain/result.ts';
import { RigMeaning } from '../src/domain/rig/rig-meaning.ts';
import { planOff } from '../src/planning/removal/plan-off.ts';
import { compile } from '../src/planning/rig-model/compile.ts';
import { Moment } from '../src/planning/rig-model/moment.ts';
import { byTreeAlone, GOALS } from './goals.ts';
import { demoRig } from './rig/index.ts';

const meaning = new RigMeaning(demoRig());
const model = compile(demoRig());

/** Does as much of the list as the rig allows, in any order. */
function asFarAsItGoes(support: string, actions: readonly string[]): readonly string[] {
  const moment = Moment.of(model, { done: [], setups: { support } });
  const done: string[] = [];
  for (let open = [...actions], before = -1; open.length !== before; ) {
    before = open.length;
    open = open.filter((a) => {
      if (!moment.allowed(a)) return true;
      moment.doAction(a);
      done.push(a);
      return false;
    });
  }
  return done;
}

describe('thirty goals that a parts tree misses', () => {
  it('are thirty, each named once', () => {
    expect(GOALS).toHaveLength(30);
    expect(new Set(GOALS.map((g) => g.id)).size).toBe(30);
    expect(new Set(GOALS.map((g) => g.name)).size).toBe(30);
  });

  it.each(GOALS.map((g) => [g.id, g] as const))('%s', (_id, g) => {
    const tree = byTreeAlone(demoRig(), g.part);
    expect(tree.length).toBeGreaterThan(0);
    for (const support of ['wheels', 'stands']) {
      const done = asFarAsItGoes(support, tree);
      expect(meaning.holds(g.goal, [demoRig().root], meaning.now({ done }))).toBe(false);
    }
    const plan = must(planOff(demoRig(), { done: [] }, g.goal));
    expect(plan.proven).toBe(true);
    expect(plan.cost).toBe(plan.lowerBound);
    const done = plan.steps.map((s) => s.action);
    expect(meaning.holds(g.goal, [demoRig().root], meaning.now({ done }))).toBe(true);
    // What the tree leaves out is not decoration: the proven least way needs it.
    expect(done.filter((a) => !tree.includes(a)).length).toBeGreaterThan(0);
  });
});
