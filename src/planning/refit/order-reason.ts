/** Why there is no full refit order, in words: what waits, and for what. */
import { inTheWay } from './fit-check.ts';
import type { Moment } from './moment.ts';
import { REFIT } from './refit-model.ts';
import type { StripOrder } from './strip-order.ts';
import { list, refitWords } from './words.ts';

const NAMED = 3;

export function whyNoOrder(moment: Moment, strip: StripOrder): string {
  return withdrawn(moment) ?? unseen(moment) ?? stuck(moment, strip);
}

/** Something done rests on a fact that is not given, or no longer. */
function withdrawn(moment: Moment): string | null {
  const { recorded, model, world } = moment;
  const words = refitWords(model.rig);
  for (const [a, conditions] of recorded.onFacts) {
    if (recorded.stays[a] === 1 || world.done[a] === 0) continue;
    const c = conditions.find((x) => (x.reading & REFIT) !== 0 && !world.holds(x.node));
    if (c)
      return `No full order: ${words.action(model.ids[a]!)} wants ${words.need(c.need)}, which does not hold (or no longer).`;
  }
  return null;
}

/** A look that can never be signed with its joints made. */
function unseen(moment: Moment): string | null {
  const { model, world, closure } = moment;
  const words = refitWords(model.rig);
  for (const look of model.looks) {
    const open = look.joints.filter((j) => world.done[j] === 1);
    if (open.length === 0 || !moment.isOpen(look)) continue;
    for (const j of open) closure.remove(j);
    const gone = closure.truth[look.visible] === 0;
    for (const j of open) closure.add(j);
    if (gone) {
      const joints = list(
        open.map((j) => words.thing(model.ids[j]!)),
        'and',
      );
      return `No order lets "${words.thing(look.look.id)}" be seen with ${joints} made: what must be off to see it cannot be off then.`;
    }
  }
  return null;
}

function stuck(moment: Moment, strip: StripOrder): string {
  const { model, recorded } = moment;
  const words = refitWords(model.rig);
  if (strip.left.length === 0)
    return 'Every order was tried: each one locks something out, hides an unsigned look, or cannot change how it stands.';
  const world = moment.copy().world;
  for (const a of strip.left) world.done[a] = 0;
  const x = strip.left[0]!;
  world.done[x] = 1;
  const ways = inTheWay(world, x, recorded.forced[x] === 1).map((way) => words.unmet(model, world, x, way).text);
  const shown = ways.slice(0, NAMED).join(' ');
  const others = strip.left.length - 1;
  const more = others > 0 ? ` ${others} more ${others === 1 ? 'waits' : 'wait'} with it.` : '';
  return `Every order locks something out. It ends at ${words.action(model.ids[x]!)}: ${shown || 'it waits for what waits for it.'}${more}`;
}
