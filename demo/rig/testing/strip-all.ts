/**
 * How far one can take apart with a given set of actions, every state of every setup taken as met: the closure of the
 * rig's rules, for the tests of the demo. Words and places come from `RigMeaning`; what is worked out once here (which
 * joints cross, what hangs, who holds) is only kept, not reinvented.
 *
 * Not chosen: asking `RigMeaning.hindrances` again and again, which works everything out anew (a minute and a half here).
 */
import { clear, RigMeaning, type World } from '../../../src/domain/rig/rig-meaning.ts';
import type { ActionId, Need, Rig } from '../../../src/domain/rig/rig-types.ts';

interface Wish {
  readonly need: Need;
  readonly places: readonly string[];
}

export class StripAll {
  readonly actions: readonly ActionId[];
  private readonly meaning: RigMeaning;
  private readonly wishes = new Map<ActionId, readonly Wish[]>();

  constructor(private readonly rig: Rig) {
    this.meaning = new RigMeaning(rig);
    const s = this.meaning.structure;
    const parts = rig.parts.map((p) => p.id).filter((p) => p !== rig.root);
    for (const p of parts) this.wishes.set(`remove:${p}`, this.ofRemoval(p));
    for (const a of rig.attachments) {
      this.wishes.set(a.id, [
        ...wish(a.needs, a.joins),
        ...(a.hazards ?? []).flatMap((h) => wish(h.clearedBy, a.joins)),
      ]);
    }
    for (const o of rig.operations) {
      const places = [o.on ?? rig.root];
      this.wishes.set(o.id, [...wish(o.needs, places), ...(o.hazards ?? []).flatMap((h) => wish(h.clearedBy, places))]);
    }
    // Asking the hold of every carrying joint, not only of the last, can only close doors: what opens here really opens.
    for (const p of parts) {
      const hold = s.holdRule(p);
      if (hold === null) continue;
      for (const a of s.carrying(p)) {
        const free: Need = { any: [hold.need, { off: p }] };
        this.wishes.set(a.id, [...(this.wishes.get(a.id) ?? []), { need: free, places: [rig.root] }]);
      }
    }
    this.actions = [...this.wishes.keys()];
  }

  private ofRemoval(p: string): readonly Wish[] {
    const s = this.meaning.structure;
    const blocks = this.rig.blocks.filter((b) => s.isInside(b.part, p) && !s.isInside(b.by, p));
    return [
      ...s.crossing(p).map((a) => ({ need: { released: a.id }, places: [p] })),
      ...blocks.map((b) => ({ need: clear(b.by, b.unless), places: [b.part] })),
      ...s.hanging(p).map((q) => ({ need: { off: q }, places: [p] })),
      ...wish(s.parts.get(p)?.needs, [p]),
    ];
  }

  /** What can be reached with the actions of `only`, facts taken as settled. */
  reach(only: ReadonlySet<ActionId> = new Set(this.actions)): ReadonlySet<ActionId> {
    const done = new Set<ActionId>();
    const w: World = { done, states: {}, facts: new Set(this.rig.facts.map((f) => f.id)) };
    let left = this.actions.filter((a) => only.has(a));
    for (let before = -1; before !== done.size; ) {
      before = done.size;
      left = left.filter((a) => {
        const open = (this.wishes.get(a) ?? []).every((x) => this.meaning.holds(statesMet(x.need), x.places, w));
        if (open) done.add(a);
        return !open;
      });
    }
    return done;
  }

  /** `x` fitted again while everything else stays off: what can then never be finished without taking `x` off again. */
  lockedOut(x: ActionId): readonly ActionId[] {
    const all = this.reach();
    const without = new Set([...all].filter((a) => a !== x));
    const still = this.reach(without);
    return [...without].filter((a) => !still.has(a));
  }
}

function wish(need: Need | undefined, places: readonly string[]): readonly Wish[] {
  return need === undefined ? [] : [{ need, places }];
}

function statesMet(need: Need): Need {
  if ('all' in need) return { all: need.all.map(statesMet) };
  if ('any' in need) return { any: need.any.map(statesMet) };
  return 'setup' in need ? { all: [] } : need;
}
