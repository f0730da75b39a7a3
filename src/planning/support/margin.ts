/**
 * The shop's margin on the lightest point, and the words for it.
 *
 * A point is under the margin when its load less its doubt is less than a share of the whole weight (2 % unless the
 * shop says otherwise: a house rule, common practice, no source). Which end to hold follows from where the point stands
 * among the others. Never a word that promises anything.
 */
import { decimalsFor, formatFigure } from '../../domain/quantity/quantity-print.ts';
import { parseRemove, parseSet } from '../../domain/rig/rig-meaning.ts';
import type { ActionId } from '../../domain/rig/rig-types.ts';
import type { Support } from '../../domain/statics-points.ts';
import type { PointLoad, Tipping } from '../answers.ts';
import type { SupportModel, WeightWalk } from './support-model.ts';

export const DEFAULT_MARGIN_PERCENT = 2;

export interface Margin {
  readonly loads: readonly PointLoad[];
  /** The point that goes light first; null where no point is in force. */
  readonly least: PointLoad | null;
  /** What the lightest point is to carry at least. */
  readonly wantedKg: number;
  readonly underMargin: boolean;
  /** Worst case over the doubt, less what is wanted; the larger the better. */
  readonly spareKg: number;
}

const worst = (l: PointLoad): number => l.kg - l.plusMinus;

export function marginOf(walk: WeightWalk, percent: number): Margin {
  const loads = walk.loads();
  const [first, ...rest] = loads;
  const least = first === undefined ? null : rest.reduce((a, b) => (worst(b) < worst(a) ? b : a), first);
  const wantedKg = (Math.max(0, walk.weight().kg) * percent) / 100;
  // Sums of many masses carry rounding of about 1e-13; a load that is just the margin is not under it.
  const spareKg = least === null ? Number.POSITIVE_INFINITY : worst(least) - wantedKg;
  return { loads, least, wantedKg, underMargin: spareKg < -1e-9, spareKg };
}

/** `14 ± 9 kg`, with the digits that the doubt allows and no more than tenths. */
export function kgText(kg: number, plusMinus: number): string {
  const decimals = plusMinus > 0 ? Math.min(1, decimalsFor(plusMinus)) : 1;
  const figure = formatFigure(kg, { decimals });
  return plusMinus > 0 ? `${figure} ± ${formatFigure(plusMinus, { decimals })} kg` : `${figure} kg`;
}

interface End {
  readonly here: string;
  readonly opposite: string;
}

/** More than a quarter of the spread from the middle counts as an end or a side. */
const AT_END = 0.25;

/** Where a point stands among the others: tail or nose, left or right side. Arms run aft and to the right. */
export function endOf(support: Support, point: string): End {
  const { spots, mean } = support.geometry;
  const at = spots[support.points.findIndex((p) => p.id === point)] ?? mean;
  const spread = (axis: 'x' | 'y'): number =>
    Math.max(...spots.map((s) => s[axis])) - Math.min(...spots.map((s) => s[axis]));
  const word = (axis: 'x' | 'y', plus: string, minus: string): readonly [string, string] | null => {
    const share = spread(axis) === 0 ? 0 : (at[axis] - mean[axis]) / spread(axis);
    if (Math.abs(share) < AT_END) return null;
    return share > 0 ? [plus, minus] : [minus, plus];
  };
  const found = [word('x', 'tail', 'nose'), word('y', 'right side', 'left side')].filter((w) => w !== null);
  if (found.length === 0) return { here: 'airframe', opposite: 'other side' };
  return { here: found.map((w) => w[0]).join(', '), opposite: found.map((w) => w[1]).join(', ') };
}

/** An action in words: as it is when done, and before it is begun. */
function wordsFor(model: SupportModel, action: ActionId): { readonly after: string; readonly before: string } {
  const { rig } = model;
  const named = (list: readonly { readonly id: string; readonly name?: string }[], id: string): string =>
    list.find((x) => x.id === id)?.name ?? id;
  const part = parseRemove(action);
  if (part !== null) {
    const name = named(rig.parts, part);
    return { after: `With ${name} off`, before: `Before ${name} comes off` };
  }
  const set = parseSet(action);
  if (set !== null) {
    const name = named(rig.setups, set.setup);
    return { after: `With ${name} at ${set.state}`, before: `Before ${name} goes to ${set.state}` };
  }
  const name = named([...rig.attachments, ...rig.operations], action);
  return { after: `After ${name}`, before: `Before ${name}` };
}

/** `restrain the tail: margin 14 ± 9 kg at rear-stand`. */
export function restraintText(support: Support, names: ReadonlyMap<string, string>, least: PointLoad): string {
  return `restrain the ${endOf(support, least.point).here}: margin ${kgText(least.kg, least.plusMinus)} at ${names.get(least.point) ?? least.point}`;
}

/** What a step under the margin says; null where it is not under it. */
export function tippingOf(
  model: SupportModel,
  walk: WeightWalk,
  margin: Margin,
  step: ActionId | null,
): Tipping | null {
  const { support, names } = model.inForce(walk.states);
  if (!margin.underMargin || margin.least === null || support === null) return null;
  const { point, kg, plusMinus } = margin.least;
  const when = step === null ? 'As it stands' : wordsFor(model, step).after;
  const wanted = `${formatFigure(margin.wantedKg, { decimals: 1 })} kg wanted`;
  return {
    step,
    point,
    kg,
    plusMinus,
    marginKg: margin.wantedKg,
    text: `${when}: ${restraintText(support, names, margin.least)} (${wanted})`,
  };
}

/** A stand, a restraint or another way: proposed, never taken. */
export function proposalFor(model: SupportModel, walk: WeightWalk, tipping: Tipping, percent: number): string {
  const { support, names } = model.inForce(walk.states);
  if (support === null) return '';
  const end = endOf(support, tipping.point);
  const share = percent / 100;
  // The held weight raises the load on its own point by itself, and the wanted margin by its share.
  const hold = Math.ceil((tipping.marginKg - (tipping.kg - tipping.plusMinus)) / Math.max(1e-6, 1 - share));
  const before = tipping.step === null ? 'Before anything more is taken off' : wordsFor(model, tipping.step).before;
  return (
    `${before}: restrain the ${end.here} (about ${hold} kg held down at ${names.get(tipping.point) ?? tipping.point} restores the margin), ` +
    `or put a further stand under the ${end.opposite}, or take weight off the ${end.opposite} first at more cost. ` +
    'Local codes, the maker\u2019s data and licensed people decide how it is held.'
  );
}
