/** The complete invented aircraft as a rig: all twelve assemblies and how it stands. INVENTED. */
import type { Rig } from '../../src/domain/rig/rig-types.ts';
import { hullFore } from './01-hull-fore.ts';
import { hullCentreAft } from './02-hull-centre-aft.ts';
import { centreSectionPylon } from './03-centre-section-pylon.ts';
import { wingPanels } from './04-wing-panels.ts';
import { tipFloats } from './05-tip-floats.ts';
import { tailUnit } from './06-tail-unit.ts';
import { mainLegPort } from './07-main-leg-port.ts';
import { mainLegStarboard } from './08-main-leg-starboard.ts';
import { gearDrive } from './09-gear-drive.ts';
import { tailWheel } from './10-tail-wheel.ts';
import { engineAndPropeller } from './11-engine.ts';
import { controlsFuelElectrics } from './12-controls-fuel-electrics.ts';
import { supports } from './support.ts';
import { wholeRig } from './whole.ts';

const RIG = wholeRig(
  hullFore,
  hullCentreAft,
  centreSectionPylon,
  wingPanels,
  tipFloats,
  tailUnit,
  mainLegPort,
  mainLegStarboard,
  gearDrive,
  tailWheel,
  engineAndPropeller,
  controlsFuelElectrics,
  supports,
);

export function demoRig(): Rig {
  return RIG;
}
