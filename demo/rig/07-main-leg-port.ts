/** Main leg, port, assembly 07: sound; still 0.3 MPa in the strut when it came. INVENTED. */
import { join } from './author.ts';
import { mainLeg } from './main-leg.ts';

export const mainLegPort = mainLeg({
  line: '07',
  hand: 'L',
  end: 'l',
  word: 'port',
  outerLug: '02-03',
  innerLug: '02-05',
  jackJoint: '09-j17',
  jackTube: '09-17',
  lockHook: '09-25',
  axleNutThread: 'left',
  valveProved: join(),
  gasNeeds: [],
  pin: { asFound: { note: 'sound; slides at 35° only, flat on the pin clears the frame flange' } },
});
