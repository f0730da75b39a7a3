/** `RigMeaning` against the second meaning in random worlds of tiny rigs, reachable or not. */
import { expect, it } from 'vitest';
import { RigMeaning } from '../../src/domain/rig/rig-meaning.ts';
import { allowed, allowedChange, brokenGuards, type Here, moved, understand } from './second-meaning.ts';
import { rolls, tinyRig } from './tiny-rigs.ts';

it('[R1] two readings of the rules agree on allowed, off, broken guards and what hangs', () => {
  let rigs = 0;
  let yes = 0;
  for (let number = 0; number < 20000; number++) {
    const tiny = tinyRig(number, number % 3 ? 'full' : 'plain');
    if (!tiny) continue;
    rigs++;
    const { rig } = tiny;
    const m = understand(rig);
    const meaning = new RigMeaning(rig);
    const roll = rolls(number + 5);
    for (const p of m.names.slice(1)) {
      const hanging = m.hanging[m.part(p)]!.map((q) => m.names[q]!);
      expect([...meaning.structure.hanging(p)].sort(), `rig ${number}`).toEqual(hanging.sort());
    }
    for (let round = 0; round < 6; round++) {
      const done = new Set([...m.bitOf.keys()].filter(() => roll(2) > 0));
      const mask = [...done].reduce((b, id) => b | m.bit(id), 0);
      let w: Here = { mask, states: m.start };
      if (m.changes.length > 0) w = moved(w, m.changes[roll(m.changes.length)]!);
      const states = Object.fromEntries(rig.setups.map((s, i) => [s.id, s.states[31 - Math.clz32(w.states[i]!)]!]));
      const world = { ...meaning.start(), done, states };
      for (const a of m.acts) {
        const may = allowed(m, a, w);
        yes += may ? 1 : 0;
        expect(meaning.allowed(a.id, world), `rig ${number}, ${a.id} after ${[...done]}`).toBe(may);
      }
      for (const c of m.changes)
        expect(meaning.allowed(c.id, world), `rig ${number}, ${c.id}`).toBe(allowedChange(m, c, w) !== undefined);
      const broken = rig.guards.flatMap((g, i) => (meaning.isBroken(g, world) ? [i] : []));
      expect(broken, `rig ${number}`).toEqual(brokenGuards(m, w));
      for (const p of m.names)
        for (const q of m.names)
          expect(meaning.isOff(p, q, world), `rig ${number}: ${p} from ${q}`).toBe(
            (m.offBits(m.part(p), m.part(q)) & mask) !== 0,
          );
    }
  }
  expect(rigs).toBeGreaterThan(2000);
  expect(yes).toBeGreaterThan(1000);
});
