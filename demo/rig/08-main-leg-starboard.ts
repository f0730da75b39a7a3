/**
 * Main leg, starboard, assembly 08. INVENTED.
 *
 * Forced out about 2004 with the jack screw still engaged: the pin was sawn through, the lug bent, skin panel 9 torn.
 * The gauge reads zero, but the valve bore is full of varnish (E-21): a zero reading proves nothing until it is clear.
 */
import { caution, factOf, join, operation } from './author.ts';
import { mainLeg } from './main-leg.ts';

const CLEAR_VALVE = 'clear-valve-bore-r';

export const mainLegStarboard = mainLeg({
  line: '08',
  hand: 'R',
  end: 'r',
  word: 'starboard',
  outerLug: '02-04',
  innerLug: '02-06',
  jackJoint: '09-j18',
  jackTube: '09-18',
  lockHook: '09-26',
  axleNutThread: 'right',
  valveProved: join(
    operation(CLEAR_VALVE, 'Clear the varnished valve bore by hand, behind the shield', 35, {
      on: '08-09',
      only: 'strip',
      hazards: [
        caution('compressed gas', 'The bore is blocked, the strut may still be charged: shield, nobody in line'),
      ],
    }),
    factOf('damping-orifice-known', 'Which orifice is original, 1.60 or 2.10 (Q-15)'),
  ),
  gasNeeds: [CLEAR_VALVE],
  pin: {
    loss: 'none',
    asFound: { note: 'seized, sawn through about 2004; lug bent 6 mm outward' },
  },
});
