/** Where a thing is, in words, and in which bag. Pure; asked of the state, never kept. */
import { thingsOf, whereIs } from '../../journal/custody.ts';
import type { State } from '../../journal/state.ts';
import type { JobView } from '../state/job-view.ts';
import { lineOfPart } from '../words/names.ts';
import { whereWords } from '../words/where-words.ts';

export interface Whereabouts {
  /** The code on the bag or tag, when there is one. */
  readonly code: string | null;
  /** `Rack 10, shelf 3`, `with the plater`; null: nothing was said. */
  readonly words: string | null;
}

export function placeName(state: State, place: string): string {
  return state.places.get(place)?.name ?? place;
}

/** The end of the chain for a part, joint, bag, piece or lot. */
export function whereaboutsOf(state: State, job: JobView, subject: string): Whereabouts {
  const isOff = job.done.has(`remove:${subject}`);
  const found = [subject, ...thingsOf(state, subject), ...bagsOf(state, subject)]
    .map((t) => whereIs(state, t))
    // Said to be on the aircraft before it came off: nothing was said of it since.
    .find((w) => w !== null && !(w.where.is === 'position' && isOff));
  const item = job.find.find((f) => f.id === subject) ?? job.find.find((f) => f.id === lineOfPart(subject));
  return {
    code: found?.bag ?? item?.bag ?? null,
    words: found === undefined || found === null ? null : whereWords(state, found.where),
  };
}

/** Bags that were opened for this part or joint, newest last. */
export function bagsOf(state: State, subject: string): readonly string[] {
  return [...state.bags.values()].filter((b) => b.of.includes(subject)).map((b) => b.code);
}
