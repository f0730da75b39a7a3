/** What the story picks out: positions of lines, and the actions that take a part off. INVENTED. */
import type { ActionId } from '../../src/domain/rig/rig-types.ts';
import type { FoundValue } from '../../src/journal/kinds/shared-shapes.ts';
import type { RigModel } from '../../src/planning/rig-model/compile.ts';
import { lineOf, POSITIONS } from '../parts.ts';

/** Everything crossing the part's skin, then the part itself. */
export function takingOff(model: RigModel, part: string): readonly ActionId[] {
  const index = model.places.index.get(part);
  if (index === undefined)
    throw new Error(`internal: the history names a part "${part}" that the rig has not; report it`);
  return [...model.crossing(index).map((j) => model.id(j)), `remove:${part}`];
}

export function foundValue(value: unknown): FoundValue {
  return value === false ? { is: 'none' } : { is: 'value', text: String(value) };
}

/** All positions of these lines, in order. */
export function lines(...ids: readonly string[]): readonly string[] {
  const wanted = new Set(ids);
  return POSITIONS.filter((p) => wanted.has(lineOf(p).id));
}

export function assembly(id: string): readonly string[] {
  return POSITIONS.filter((p) => lineOf(p).assembly === id);
}
