/**
 * Ids that several assembly files of the invented rig share, and who writes what. INVENTED.
 *
 * An assembly of the parts list is only a part of the rig where it can really be lifted whole (`UNITS`); hull, wing
 * centre, tail unit, gear drive as a whole and systems cannot, so their parts sit directly on the root (no `within`).
 * A joint between two assemblies is written in the file of the part that comes off first (the leg's pin in 07, the
 * mount bolts in 11, the cable at the rudder horn in 06).
 *
 * Masses: every part that weighs something says so; the root takes what is left of 1,080 kg with CG 3.55 m
 * (`index.ts`), so the files together must stay under about 900 kg. Guide in kilograms at metres aft: 01 45 @ 1.9,
 * 02 50 @ 5.2, 03 95 @ 3.3, 04 85 each side @ 3.5 (y 3.2), 05 12 each @ 3.5 (y 4.6), 06 42 @ 8.2, 07 and 08 44 each
 * @ 3.4 (y 1.0), 09 30 @ 3.4, 10 31 @ 7.6, 11 245 @ 2.35, 12 60 @ 2.6.
 */
export const ROOT = 'airframe';

export const UNITS = {
  floatL: 'float-l',
  floatR: 'float-r',
  wingL: 'wing-l',
  wingR: 'wing-r',
  legL: 'leg-l',
  legR: 'leg-r',
  jackL: 'jack-l',
  jackR: 'jack-r',
  gearbox: 'gearbox',
  tailWheel: 'tail-wheel',
  powerUnit: 'power-unit',
} as const;

/** Setups, all written in `support.ts`. */
export const SUPPORT = 'support';
export const SUPPORT_STATES = ['wheels', 'cradle', 'stands', 'jacks'] as const;

/** Operations more than one file asks for. */
export const OPEN_CABIN_FLOOR = 'open-cabin-floor'; // written in 09: boards over the torque shaft unscrewed and lifted
export const DRAIN_FUEL = 'drain-fuel'; // written in 12: tank drained and vented
export const BATTERY_OFF = 'battery-off'; // written in 12: earth lead off first
export const SLACKEN_RUDDER = 'slacken-rudder-cables'; // written in 12: at the turnbuckles, clips on the cables
export const SLACKEN_ELEVATOR = 'slacken-elevator-cables'; // written in 12
export const SLACKEN_AILERON = 'slacken-aileron-cables'; // written in 12
export const DEFUEL_NOTE = 'no spark, no lamp that is not sealed; local fire rules decide';

/** Settings that a release disturbs (to be set again and signed). */
export const RIGGING = {
  aileron: 'rigging:aileron',
  rudder: 'rigging:rudder',
  elevator: 'rigging:elevator',
  trim: 'rigging:trim',
  wing: 'rigging:wing',
  float: 'rigging:float',
  gear: 'rigging:gear-timing',
  waterRudder: 'rigging:water-rudder',
  engine: 'rigging:engine-controls',
} as const;

/** Gates before closing are looks: `gate-6` is C9 R inside. Numbers as in the shop's list of 18. */
export const gate = (n: number): string => `gate-${n}`;
