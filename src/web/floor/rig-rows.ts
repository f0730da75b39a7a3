/** What the rig says of the floor: gates that are shut, and what is free to be done where work goes on. Pure. */
import { RigMeaning } from '../../domain/rig/rig-meaning.ts';
import type { ActionId, Rig } from '../../domain/rig/rig-types.ts';
import type { State } from '../../journal/state.ts';
import type { JobView } from '../state/job-view.ts';
import { placeOf } from '../state/place-of.ts';
import { type FloorRow, partOf, photoOf } from './floor-row.ts';

const NEXT = 3;

interface Known {
  readonly meaning: RigMeaning;
  readonly armed: readonly string[];
}
const kept = new WeakMap<Rig, Known>();

/** Actions with a hazard in them, found once for a rig. */
function knownOf(rig: Rig): Known {
  let known = kept.get(rig);
  if (known === undefined) {
    const armed = [...rig.attachments, ...rig.operations].filter((a) => (a.hazards ?? []).length > 0).map((a) => a.id);
    known = { meaning: new RigMeaning(rig), armed };
    kept.set(rig, known);
  }
  return known;
}

function worldOf(meaning: RigMeaning, state: State): Parameters<RigMeaning['hindrances']>[1] {
  const start = meaning.start();
  const { situation } = state;
  return {
    done: new Set([...start.done, ...situation.done, ...(situation.made ?? [])]),
    states: { ...start.states, ...situation.setups },
    facts: new Set([...start.facts, ...(situation.facts ?? [])]),
  };
}

/** Joints whose energy nobody has let out yet: the gate is shut until then. */
export function energy(state: State, job: JobView): FloorRow[] {
  const { meaning, armed } = knownOf(job.rig);
  const world = worldOf(meaning, state);
  const rows = armed.flatMap((action): FloorRow[] => {
    if (world.done.has(action) || !meaning.hindrances(action, world).some((h) => h.rule === 'hazard')) return [];
    const element = job.names.attachment(action) ?? job.rig.operations.find((o) => o.id === action);
    const part = partOf(job, action);
    const note = element?.hazards?.map((h) => h.note ?? h.kind.replaceAll('-', ' ')).join('; ');
    return [
      {
        id: `energy ${action}`,
        shape: 'hazard',
        word: 'GATE SHUT',
        title: job.names.strip(action),
        why: note ?? 'holds energy',
        href: `/off?goal=${encodeURIComponent(part ?? action)}`,
        photo: null,
        part,
      },
    ];
  });
  // One row for each danger: forty rivets beside one tank are one danger.
  const byDanger = new Map<string, FloorRow[]>();
  for (const r of rows) byDanger.set(r.why, [...(byDanger.get(r.why) ?? []), r]);
  return [...byDanger.values()].map((same): FloorRow => {
    const first = same[0] as FloorRow;
    return same.length === 1 ? first : { ...first, title: `${first.title}, and ${same.length - 1} more` };
  });
}

/** The next things free to be done where work was last going on. */
export function next(state: State, job: JobView): FloorRow[] {
  if (job.lastDone === null) return [];
  const { meaning } = knownOf(job.rig);
  const world = worldOf(meaning, state);
  const here = placeOf(job, job.lastDone);
  const free = (action: ActionId) =>
    placeOf(job, action) === here && !world.done.has(action) && meaning.hindrances(action, world).length === 0;
  const actions = [...job.rig.parts.map((p) => `remove:${p.id}`), ...job.rig.attachments.map((a) => a.id)];
  const found: ActionId[] = [];
  for (const action of actions) {
    if (found.length === NEXT) break;
    if (free(action)) found.push(action);
  }
  return found.map((action): FloorRow => {
    const part = partOf(job, action);
    return {
      id: `next ${action}`,
      shape: 'next',
      word: 'FREE',
      title: job.names.strip(action),
      why: part === null ? '' : `${job.names.part(part)} · ${part}`,
      href: `/off?goal=${encodeURIComponent(part ?? action)}`,
      photo: photoOf(state, [action, part]),
      part,
    };
  });
}
