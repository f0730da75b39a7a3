/**
 * Words that the hull, wing and systems files of the invented rig share: riveted rows, seals, what reaches where, and
 * the caution near the tank. INVENTED.
 *
 * Rows of rivets are one joint each (a row is drilled or left, nobody stops half-way along a frame). A riveted row of
 * the first skin is lost for good when drilled; a screw, a pin or a wire is not. Where a row can be reached from two
 * sides the need says so with `any`, since that choice is what saves an opening.
 */
import type { AttachmentKind, Hazard, Need } from '../../src/domain/rig/rig-types.ts';
import { any, caution, done, type Fragment, type JointExtra, joint, off } from './author.ts';
import { BATTERY_OFF, DEFUEL_NOTE, OPEN_CABIN_FLOOR } from './names.ts';

/** The bay and the tank blown through and tested for vapour; written in 12. */
export const VENT_TANK_BAY = 'vent-tank-bay';
/** Centre section carried by the hoist, or on two trestles under its spars; written in 03. */
export const SLING_CENTRE = 'sling-centre';
export const TRESTLE_CENTRE = 'trestle-centre';
/** The wing centre section as one thing that can be lifted; written in 03. */
export const CENTRE = 'centre-section';
export const CENTRE_COVER = 'centre-cover';
export const OPEN_MOORING_HATCH = 'open-mooring-hatch'; // written in 01

export interface Side {
  readonly hand: 'L' | 'R';
  readonly end: 'l' | 'r';
  readonly word: 'port' | 'starboard';
  /** -1 to port, 1 to starboard. */
  readonly y: -1 | 1;
}
export const PORT: Side = { hand: 'L', end: 'l', word: 'port', y: -1 };
export const STARBOARD: Side = { hand: 'R', end: 'r', word: 'starboard', y: 1 };

/** A row of rivets of the first skin: drilled once, never the same again. */
export function rivets(
  id: string,
  name: string,
  joins: readonly string[],
  minutes: number,
  extra: JointExtra = {},
): Fragment {
  return joint(id, name, joins, 'riveted', minutes, { loss: 'irreversible', ...extra });
}

/** Sealing compound that is cut and laid again. */
export function seal(
  id: string,
  name: string,
  joins: readonly string[],
  minutes: number,
  extra: JointExtra = {},
): Fragment {
  return joint(id, name, joins, 'bonded', minutes, { loss: 'consumable', ...extra });
}

/** Several joints of the same kind and time between the same two things, one for each `tail`. */
export function eachJoint(
  tails: readonly string[],
  make: (tail: string) => readonly [id: string, name: string, joins: readonly string[]],
  kind: AttachmentKind,
  minutes: number,
  extra: JointExtra = {},
): readonly Fragment[] {
  return tails.map((tail) => joint(...make(tail), kind, minutes, extra));
}

/** Inspection cover by number, 1 to 9. */
export const cover = (n: number): string => `02-22.${n}`;

/**
 * Where a hand can reach. Covers: 1 and 2 low at C10, 3 and 4 on the deck over the tank bay at C9, 5 and 6 at C13,
 * 7 and 8 at C17 (odd to port, even to starboard, but 3 is starboard and 4 port), 9 at the stern.
 */
export const reach = {
  bilgeFore: done(OPEN_CABIN_FLOOR),
  bilgeC10L: any(done(OPEN_CABIN_FLOOR), off(cover(1))),
  bilgeC10R: any(done(OPEN_CABIN_FLOOR), off(cover(2))),
  bilgeC10: any(done(OPEN_CABIN_FLOOR), off(cover(1)), off(cover(2))),
  c13: any(off(cover(5)), off(cover(6))),
  c17: any(off(cover(7)), off(cover(8))),
  stern: any(off(cover(9)), off('06-02')),
  tankBayL: any(off('01-21'), off(cover(4))),
  tankBayR: any(off('01-21'), off(cover(3))),
  centre: any(off(CENTRE_COVER), done('open-centre-hand-hole')),
} as const satisfies Readonly<Record<string, Need>>;

/** Drilling, grinding or heat near the tank waits until the bay has been blown through and tested. */
export const nearTank: Hazard = {
  kind: 'fuel-vapour',
  clearedBy: done(VENT_TANK_BAY),
  note: `An emptied tank still holds vapour that burns: ${DEFUEL_NOTE}`,
};
export const live: Hazard = {
  kind: 'electric',
  clearedBy: done(BATTERY_OFF),
  note: 'Earth lead off first, taped back; the old loom has bare places',
};
export const cadmium = caution('cadmium', 'Old cadmium plate: no dry sanding, no heat, gloves; local rules decide');
