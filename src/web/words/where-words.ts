/** Where a thing is, in words: the shelf, the person, the shop outside, the aircraft. */
import type { Where } from '../../journal/custody-state.ts';
import { nameOf, type State } from '../../journal/state.ts';

export function whereWords(state: State, where: Where): string {
  switch (where.is) {
    case 'bag':
      return `in ${where.bag}`;
    case 'position':
      return 'on the aircraft';
    case 'job':
      return `with ${where.job}`;
    case 'held': {
      const place = where.place === undefined ? undefined : (state.places.get(where.place)?.name ?? where.place);
      const who = where.custodian === undefined ? undefined : nameOf(state, where.custodian);
      if (place !== undefined) return who === undefined ? place : `${place}, ${who}`;
      return who === undefined ? 'not put away yet' : `with ${who}`;
    }
    default:
      return where satisfies never;
  }
}
