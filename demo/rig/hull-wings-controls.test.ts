import { describe, expect, it } from 'vitest';
import { readRig } from '../../src/domain/rig/rig-check.ts';
import { RigMeaning } from '../../src/domain/rig/rig-meaning.ts';
import type { Look, Need, Rig } from '../../src/domain/rig/rig-types.ts';
import { lineOf, POSITIONS } from '../parts.ts';
import { hullFore } from './01-hull-fore.ts';
import { hullCentreAft } from './02-hull-centre-aft.ts';
import { centreSectionPylon } from './03-centre-section-pylon.ts';
import { wingPanels } from './04-wing-panels.ts';
import { tipFloats } from './05-tip-floats.ts';
import { controlsFuelElectrics } from './12-controls-fuel-electrics.ts';
import { join, rigOf } from './author.ts';
import { demoRig } from './index.ts';
import { ROOT } from './names.ts';
import { StripAll } from './testing/strip-all.ts';

const FILES = {
  '01': hullFore,
  '02': hullCentreAft,
  '03': centreSectionPylon,
  '04': wingPanels,
  '05': tipFloats,
  '12': controlsFuelElectrics,
};
const own = join(...Object.values(FILES));
const ownPositions = POSITIONS.filter((p) => Object.keys(FILES).includes(lineOf(p).assembly));
const rig = demoRig();
const strip = new StripAll(rig);
const look = (id: string): Look | undefined => rig.looks.find((l) => l.id === id);
const seen = (id: string, done: readonly string[]) => {
  const l = look(id);
  const m = new RigMeaning(rig);
  return l !== undefined && m.holds(l.visible, [l.on ?? ROOT], m.now({ done }));
};

/** Everything of other files that these speak of, as bare things screwed to the root. */
function withBareRest(): Rig {
  const here = new Set([...own.parts, ...own.attachments, ...own.operations, ...own.facts].map((x) => x.id));
  const sort = new Map<string, 'part' | 'attachment' | 'operation'>();
  const add = (id: string, s: 'part' | 'attachment' | 'operation') => {
    if (!here.has(id) && id !== ROOT) sort.set(id, s);
  };
  const need = (n: Need | undefined): void => {
    if (n === undefined) return;
    if ('all' in n) for (const x of n.all) need(x);
    else if ('any' in n) for (const x of n.any) need(x);
    else if ('off' in n) add(n.off, 'part');
    else if ('released' in n) add(n.released, 'attachment');
    else if ('done' in n) add(n.done, 'operation');
  };
  for (const a of own.attachments) {
    for (const end of a.joins) add(end, 'part');
    for (const n of [a.needs, a.refit, ...(a.hazards ?? []).map((h) => h.clearedBy)]) need(n);
  }
  for (const p of own.parts) for (const n of [p.needs, p.hold]) need(n);
  for (const o of own.operations) need(o.needs);
  for (const l of own.looks) {
    need(l.visible);
    for (const id of l.whenFitted ?? []) add(id, 'attachment');
  }
  for (const b of own.blocks) {
    for (const id of [b.part, b.by]) add(id, 'part');
    need(b.unless);
  }
  for (const g of own.guards) need(g.unless);
  const of = (s: string) => [...sort].filter(([, x]) => x === s).map(([id]) => id);
  return rigOf('own files', ROOT, own, {
    parts: [{ id: ROOT }, { id: 'rest' }, ...of('part').map((id) => ({ id }))],
    attachments: of('attachment').map((id) => ({ id, joins: ['rest', ROOT] })),
    operations: of('operation').map((id) => ({ id })),
    setups: [{ id: 'support', states: ['wheels', 'cradle', 'stands', 'jacks'], initial: 'wheels' }],
  });
}

describe('hull, wings, floats and controls of the invented aircraft', () => {
  it('is accepted as a rig with a bare root for everything else', () => {
    const read = readRig(JSON.parse(JSON.stringify(withBareRest())));
    expect(read.ok ? 'ok' : read.problem).toBe('ok');
  });

  it('has every position of its assemblies once, and no part where nothing is fitted', () => {
    const ids = own.parts.map((p) => p.id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ownPositions.filter((p) => !ids.includes(p))).toEqual([]);
    expect(ids.filter((id) => id.startsWith('03-19'))).toEqual([]);
    expect(ids.filter((id) => id.startsWith('03-18'))).toHaveLength(3);
  });

  it('holds every position, and more than half of them in two or more independent ways', () => {
    const ways = (p: string) =>
      rig.attachments.filter((a) => a.joins.includes(p)).length + rig.blocks.filter((b) => b.part === p).length;
    const counts = ownPositions.map(ways);
    expect(Math.min(...counts)).toBeGreaterThan(0);
    expect(counts.filter((n) => n >= 2).length * 2).toBeGreaterThan(ownPositions.length);
  });

  it('names every joint and operation by what is done, each name once', () => {
    const names = [...own.attachments, ...own.operations].map((x) => x.name ?? '');
    expect(names.filter((n) => !/^[A-Z][a-z]+ \S/.test(n))).toEqual([]);
    expect(names.filter((n, i) => names.indexOf(n) !== i)).toEqual([]);
  });

  it('says what force does so that it reads after "forced, it ..."', () => {
    const harms = own.blocks.map((b) => b.harm ?? '');
    expect(harms.filter((h) => !/^(?!this\b)[a-z]+s\b/.test(h))).toEqual([]);
  });

  it('can be taken apart to the last screw', () => {
    const reached = strip.reach();
    expect(strip.actions.filter((a) => !reached.has(a))).toEqual([]);
  });

  it('carries at least one look for each of its gates', () => {
    const gates = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 13, 16, 18];
    expect(gates.filter((n) => look(`gate-${n}`) === undefined)).toEqual([]);
    expect(rig.looks.filter((l) => l.id.startsWith('gate-13') && l.people === 2).length).toBe(3);
  });
});

describe('frame C9, starboard', () => {
  const opened = ['02-j12f', '02-j12s', '02-j12e', 'remove:02-12'];

  it('locks out the panel 9 rivets and the inner lug bolts once the diaphragm is in', () => {
    const locked = strip.lockedOut('remove:02-12');
    for (const id of ['02-j09f', '02-j08.5', '02-j08.6', '02-j06', 'repair-c9-r']) expect(locked).toContain(id);
    expect(locked).not.toContain('02-j08.1');
    expect(locked).not.toContain('02-j10f');
  });

  it('hides the inner lug and gate 6 behind the diaphragm', () => {
    for (const id of ['gate-6', 'gate-6-inner-lug']) {
      expect(seen(id, opened)).toBe(true);
      expect(seen(id, opened.slice(0, 3))).toBe(false);
    }
    expect(look('gate-6')?.whenFitted).toContain('02-j09f');
  });

  it('rebuilds lug plates, frame, panel in this order: each step waits for the one before', () => {
    const m = new RigMeaning(rig);
    const off = [...opened, '02-j09f', 'remove:02-09'];
    const w = (made: readonly string[]) => m.now({ done: off, made });
    expect(m.hindrances('repair-c9-r', w([])).map((h) => h.need)).toEqual([
      { all: [{ done: 'line-up-lugs-r' }, { off: '02-12' }, { off: '02-09' }] },
    ]);
    expect(m.hindrances('repair-c9-r', w(['line-up-lugs-r']))).toEqual([]);
    const refit = (made: readonly string[]) =>
      m.hindrances('02-j09f', { ...w(made), done: new Set([...off, ...made, 'vent-tank-bay']) }, true).length;
    expect(refit(['line-up-lugs-r'])).toBe(1);
    expect(refit(['line-up-lugs-r', 'repair-c9-r'])).toBe(0);
  });
});

describe('tank, pylon and wings', () => {
  it('waits with tank for the bearings, with the roof hatch for the tank (X-8)', () => {
    expect(strip.lockedOut('remove:03-14')).toEqual(
      expect.arrayContaining(['remove:09-09', 'remove:09-10', '03-j15.1b']),
    );
    expect(strip.lockedOut('remove:01-21')).toContain('remove:03-14');
  });

  it('gives two ways to the tank straps and to the bilge', () => {
    const locked = [...strip.lockedOut('remove:02-22.4'), ...strip.lockedOut('remove:01-21')];
    expect(locked).not.toContain('03-j15.1a');
    expect(strip.lockedOut('open-cabin-floor')).not.toContain('12-j24');
    expect(strip.lockedOut('remove:02-22.1')).not.toContain('12-j24');
  });

  it('refuses two opposite pylon struts at once unless trestles stand under the spars', () => {
    const m = new RigMeaning(rig);
    const one = m.now({ done: ['remove:03-01', 'sling-centre'] });
    const guards = (w: typeof one) => m.hindrances('remove:03-02', w).filter((h) => h.rule === 'guard').length;
    expect(guards(one)).toBe(1);
    expect(guards(m.after(one, 'trestle-centre'))).toBe(0);
    expect(guards(m.after(one, 'remove:centre-section'))).toBe(0);
  });

  it('draws the front wing pin first, the rear one only folded or slung, and counts the port shims (X-12)', () => {
    const m = new RigMeaning(rig);
    const drawn = ['04-j01f', '04-j03f', '03-j16.1s', '03-j16.2s', 'trestle-wing-l', '03-j16.1'];
    const rear = (more: readonly string[]) => m.hindrances('03-j16.2', m.now({ done: [...drawn, ...more] })).length;
    expect(rear([])).toBe(1);
    expect(rear(['fold-wing-l'])).toBe(0);
    expect(rear(['sling-wing-l'])).toBe(0);
    expect(m.hindrances('remove:03-18.1', m.now({ done: drawn })).map((h) => h.need)).toContainEqual({
      done: 'count-shims-l',
    });
    const pin = rig.attachments.find((a) => a.id === '03-j17.1');
    expect(pin?.asFound?.shims).toMatch(/none fitted/);
  });

  it('keeps drilling away from tank vapour until the bay is blown through', () => {
    const m = new RigMeaning(rig);
    const hot = rig.attachments.filter((a) => a.hazards?.some((h) => h.kind === 'fuel-vapour'));
    expect(hot.length).toBeGreaterThan(15);
    expect(m.hindrances('02-j10e', m.start()).map((h) => h.need)).toEqual([{ done: 'vent-tank-bay' }]);
    expect(m.hindrances('vent-tank-bay', m.start()).map((h) => h.need)).toEqual([{ done: 'drain-fuel' }]);
  });
});

describe("the shop's order of rebuilding, left before right (section of the same name in the scenario)", () => {
  // Fitting the right one while the left one is still off must lock the left one out.
  it.each([
    ['remove:02-02', '02-j09f', 'frame C9 before the panel rivets'],
    ['02-j09f', 'remove:02-12', 'panel 9 before the diaphragm'],
    ['remove:09-09', 'remove:03-14', 'port intermediate bearing before the tank'],
    ['remove:09-10', 'remove:03-14', 'starboard intermediate bearing before the tank'],
    ['remove:03-14', 'remove:01-21', 'tank before the roof hatch'],
    ['remove:centre-section', 'remove:wing-l', 'centre section before the port panel'],
    ['remove:centre-section', 'remove:wing-r', 'centre section before the starboard panel'],
    ['remove:03-18.1', '03-j16.1', 'shims before the front pin'],
    ['remove:03-18.3', '03-j16.2', 'shim before the rear pin'],
    ['remove:01-11', 'remove:01-08', 'frame C4 before plank 1, port'],
    ['remove:01-12', 'remove:01-09', 'frame C5 before plank 1, starboard'],
    ['remove:01-08', 'remove:01-14', 'plank 1 before the chine angle, port'],
    ['remove:01-09', 'remove:01-15', 'plank 1 before the chine angle, starboard'],
    ['remove:02-19', '10-j09', 'frame C19 before the trunnion block'],
    ['remove:float-l', 'slacken-float-wires-l', 'float before its wires are in tension'],
    ['remove:02-15.2', '02-j15.1k', 'plank 6 before the keel row of plank 5'],
  ])('%s before %s: %s', (left, right) => {
    expect(strip.lockedOut(right)).toContain(left);
  });

  it('puts the pylon up before the centre section: without both front struts it would fall', () => {
    const m = new RigMeaning(rig);
    const gone = m.now({ done: ['remove:03-01', 'remove:03-02'] });
    expect(rig.guards.some((g) => m.isBroken(g, gone))).toBe(true);
    expect(rig.guards.some((g) => m.isBroken(g, m.after(gone, 'remove:centre-section')))).toBe(false);
  });
});

describe('controls', () => {
  it('lets a pulley bracket go only when its cables are off the pulleys', () => {
    const m = new RigMeaning(rig);
    const needs = m.hindrances('remove:12-13.6', m.start()).map((h) => h.need);
    expect(needs).toContainEqual({ released: '12-j12.11k' });
    expect(needs).toContainEqual({ released: '12-j12.12k' });
  });

  it('has 14 turnbuckles, each with a right-hand and a left-hand end', () => {
    for (let n = 1; n <= 14; n++) {
      const hands = ['a', 'b'].map((end) => rig.attachments.find((a) => a.id === `12-j11.${n}${end}`)?.threadHand);
      expect(hands).toEqual(['right', 'left']);
    }
  });

  it('asks for the control sense before the floor is closed, when every cable end is made', () => {
    expect(seen('gate-13', ['open-cabin-floor'])).toBe(true);
    expect(seen('gate-13', [])).toBe(false);
    expect(look('gate-13')?.whenFitted).toEqual(expect.arrayContaining(['12-j11.4b', '06-j11a', '06-j04b']));
  });
});
