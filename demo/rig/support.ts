/**
 * How the invented aircraft stands, and what is laid on it. INVENTED.
 *
 * Stands at 3.20 m and 7.90 m aft of datum, as in the shop's support plan; the front is a pair, so that a wing or a leg
 * missing on one side shows too. `cradle` is how it came: hull on a padded cradle at the step, tail on its own wheel.
 */
import { at, join, setup } from './author.ts';
import { ROOT, SUPPORT } from './names.ts';

/** Metres aft of datum. */
export const FRONT_STAND = 3.2;
export const REAR_STAND = 7.9;

const TAIL_WHEEL_JOINTS = ['10-j13', '10-j12', '10-j12p', '10-j09', '10-j10', '10-j11'];
const front = (what: string) => [
  { id: `${what}-front-l`, name: `front ${what}, port`, on: ROOT, at: at(FRONT_STAND, -0.8) },
  { id: `${what}-front-r`, name: `front ${what}, starboard`, on: ROOT, at: at(FRONT_STAND, 0.8) },
];
const tailWheelPoint = {
  id: 'tail-wheel-ground',
  name: 'tail-wheel on the ground',
  on: '10-14',
  through: TAIL_WHEEL_JOINTS,
  at: at(7.6),
  limitKg: 320,
};

const support = setup({
  id: SUPPORT,
  name: 'Support',
  states: ['wheels', 'cradle', 'stands', 'jacks'],
  initial: 'wheels',
  minutes: {
    'wheels>cradle': 60,
    'wheels>stands': 20,
    'cradle>stands': 20,
    'cradle>wheels': 60,
    'stands>cradle': 40,
    'stands>wheels': 25,
    'stands>jacks': 25,
    'jacks>stands': 25,
    'jacks>wheels': 20,
  },
  points: {
    wheels: [
      {
        id: 'wheel-l',
        name: 'port wheel',
        on: '07-14',
        through: ['07-j02', '07-j19'],
        at: at(3.3, -1.15),
        limitKg: 800,
      },
      {
        id: 'wheel-r',
        name: 'starboard wheel',
        on: '08-14',
        through: ['08-j02', '08-j19'],
        at: at(3.3, 1.15),
        limitKg: 800,
      },
      tailWheelPoint,
    ],
    cradle: [...front('cradle'), tailWheelPoint],
    stands: [
      ...front('stand'),
      { id: 'stand-rear', name: 'rear stand under C19', on: ROOT, at: at(REAR_STAND), limitKg: 300 },
    ],
    jacks: [
      ...front('jack'),
      { id: 'jack-rear', name: 'rear jack under C19, tail tied', on: ROOT, at: at(REAR_STAND), limitKg: 300 },
    ],
  },
  note: 'Two people, chocks, nobody under the hull while it moves; local rules decide',
});

const aboard = setup({
  id: 'aboard',
  name: 'Somebody in the bow',
  states: ['nobody', 'person-in-bow'],
  initial: 'nobody',
  minutes: 1,
  loads: { 'person-in-bow': [{ name: 'a person in the bow', massKg: 85, at: at(1.2) }] },
});

const ballast = setup({
  id: 'tail-ballast',
  name: 'Tail restraint',
  states: ['none', 'ballast'],
  initial: 'none',
  minutes: 10,
  loads: { ballast: [{ name: 'ballast bags strapped at C19', massKg: 60, at: at(7.7) }] },
});

export const supports = join(support, aboard, ballast);
