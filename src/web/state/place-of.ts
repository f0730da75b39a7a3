/** Where something belongs: the two digits its part number begins with, for units too. */
import type { ActionId } from '../../domain/rig/rig-types.ts';
import { assemblyOf } from '../words/names.ts';
import type { JobView } from './job-view.ts';

/** The assembly of a part, of the unit it sits in, or of what sits in it; null when none has a number. */
export function assemblyOfPart(job: JobView, part: string): string | null {
  const inside = job.rig.parts.find((p) => p.within === part && assemblyOf(p.id) !== null);
  return assemblyOf(part) ?? assemblyOf(job.names.find(part)?.within ?? '') ?? assemblyOf(inside?.id ?? '');
}

/** The assembly of an action; empty when its parts have no numbers. */
export function placeOf(job: JobView, action: ActionId): string {
  for (const part of job.names.partsOf(action)) {
    const assembly = assemblyOfPart(job, part);
    if (assembly !== null) return assembly;
  }
  return '';
}
