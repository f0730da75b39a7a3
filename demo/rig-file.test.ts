/** The rig file that is handed over, and what must be so of the rig itself. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { must } from '../src/domain/result.ts';
import { readRig } from '../src/domain/rig/rig-check.ts';
import { compile } from '../src/planning/rig-model/compile.ts';
import { Moment } from '../src/planning/rig-model/moment.ts';
import { POSITIONS } from './parts.ts';
import { demoRig } from './rig/index.ts';
import { ROOT, UNITS } from './rig/names.ts';
import { rigText } from './rig-text.ts';

const RIG = demoRig();
const FILE = new URL('./qx-ola.rig.json', import.meta.url);

describe('demo/qx-ola.rig.json', () => {
  it('is what the source gives; if not, run: npx tsx tools/demo-rig.ts', () => {
    expect(readFileSync(FILE, 'utf8')).toBe(rigText(RIG));
  });

  it('reads as a rig, is marked invented, and reads back as the same rig', () => {
    const read = must(readRig(JSON.parse(readFileSync(FILE, 'utf8'))));
    expect(read.invented).toBe(true);
    expect(read.name).toContain('invented');
    expect(JSON.parse(rigText(read))).toEqual(JSON.parse(rigText(RIG)));
  });
});

describe('the rig of the invented aircraft', () => {
  it('has every position of the parts list as a part, and besides them only units and the root', () => {
    const ids = new Set(RIG.parts.map((p) => p.id));
    expect(POSITIONS.filter((p) => !ids.has(p))).toEqual([]);
    const others = RIG.parts.map((p) => p.id).filter((id) => !POSITIONS.includes(id));
    expect(others).toEqual(expect.arrayContaining([ROOT, ...Object.values(UNITS)]));
    expect(others.length).toBeLessThan(25);
  });

  it('is no tree: at least half of all parts are held or hindered by two things or more', () => {
    const count = new Map<string, number>();
    const add = (id: string) => count.set(id, (count.get(id) ?? 0) + 1);
    for (const a of RIG.attachments) a.joins.forEach(add);
    for (const b of RIG.blocks) add(b.part);
    const several = RIG.parts.filter((p) => (count.get(p.id) ?? 0) >= 2).length;
    expect(several * 2).toBeGreaterThan(RIG.parts.length);
  });

  it('gives real choices: needs with alternatives in every second assembly at least', () => {
    const withChoice = new Set<string>();
    for (const list of [RIG.parts, RIG.attachments, RIG.operations]) {
      for (const x of list) if (JSON.stringify(x).includes('"any":[{')) withChoice.add(x.id.slice(0, 2));
    }
    const assemblies = [...withChoice].filter((id) => /^\d\d$/.test(id));
    expect(assemblies.length).toBeGreaterThanOrEqual(6);
  });

  it('comes apart to the last position once the facts are settled, with nothing waiting for itself', () => {
    const facts = RIG.facts.map((f) => f.id);
    const model = compile(RIG);
    const moment = Moment.of(model, { done: [], setups: { support: 'stands' }, facts });
    const refitOnly = new Set(RIG.operations.filter((o) => o.only === 'refit').map((o) => o.id));
    const all = Array.from({ length: model.actionCount }, (_, i) => i).filter((i) => !refitOnly.has(model.id(i)));
    for (let open = all, before = -1; open.length !== before; ) {
      before = open.length;
      open = open.filter((i) => {
        if (!moment.may(i)) return true;
        moment.done[i] = 1;
        return false;
      });
    }
    expect(all.filter((i) => moment.done[i] === 0).map((i) => model.id(i))).toEqual([`remove:${ROOT}`]);
  });

  it('names every action by what is done, and every part by what it is', () => {
    for (const x of [...RIG.attachments, ...RIG.operations]) expect(x.name, x.id).toMatch(/^[A-Z]\p{L}+ /u);
    for (const p of RIG.parts) expect(p.name ?? '', p.id).not.toBe('');
    const names = RIG.attachments.map((a) => a.name);
    expect(names.filter((n, i) => names.indexOf(n) !== i)).toEqual([]);
  });
});
