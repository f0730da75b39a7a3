/**
 * Thirty things somebody in the invented shop wants off, whose least way a parts tree cannot give. INVENTED.
 *
 * "A parts tree" is taken at its word in `byTreeAlone`: undo every joint that crosses the skin of the wanted part (or of
 * the assemblies it sits within), then lift it, with no regard to what stands in the way, hangs on it, must be let down,
 * or is asked for by a joint. `goals.test.ts` shows that on the complete aircraft none of the thirty comes off that way.
 */

import { RigStructure } from '../src/domain/rig/rig-structure.ts';
import type { ActionId, Need, Rig } from '../src/domain/rig/rig-types.ts';

export interface DemoGoal {
  readonly id: string;
  /** What the person says. */
  readonly name: string;
  readonly goal: Need;
  readonly part: string;
}

const itself = (id: string, name: string, part: string): DemoGoal => ({ id, name, part, goal: { apart: part } });
const away = (id: string, name: string, part: string): DemoGoal => ({ id, name, part, goal: { off: part } });

export const GOALS: readonly DemoGoal[] = [
  itself('tail-spring', 'The tail-wheel spring, by itself', '10-03'),
  away('tail-wheel', 'The tail-wheel unit off the aircraft', 'tail-wheel'),
  itself('tail-nut', 'The retaining nut of the tail-wheel leg', '10-07'),
  itself('tail-cam', 'The centring cam, to measure its wear', '10-18'),
  itself('tail-slide', 'The sliding tube, for the grinder', '10-02'),
  away('leg-port', 'The port leg, whole', 'leg-l'),
  itself('forging-port', 'The port leg forging, bare, for the crack test', '07-01'),
  itself('forging-starboard', 'The starboard leg forging, bare', '08-01'),
  itself('rod-port', 'The port piston rod, for the grinder', '07-05'),
  itself('packing-port', 'The port gland packing, to soak a new one to size', '07-07'),
  itself('valve-starboard', 'The starboard air valve with the varnish in it', '08-09'),
  itself('shaft-starboard', 'The twisted torque shaft', '09-08'),
  itself('bearing-port', 'The port intermediate bearing', '09-09'),
  itself('worm', 'The worm shaft', '09-03'),
  itself('worm-wheel', 'The worm wheel', '09-04'),
  away('jack-starboard', 'The starboard screw-jack, whole', 'jack-r'),
  itself('jack-nut-starboard', 'The remade jack nut', '09-16'),
  itself('inner-lug', 'The cracked inner lug plate', '02-06'),
  itself('panel-nine', 'The torn side panel 9', '02-09'),
  itself('lug-bolt', 'The inmost lug bolt, starboard', '02-08.6'),
  away('engine', 'The engine off the aircraft', '11-01'),
  itself('mount-ring', 'The mount ring, to weld lug 4', '11-02'),
  itself('propeller', 'The propeller blades, as a pattern', '11-12'),
  itself('magneto', 'The port magneto', '11-10'),
  itself('tank', 'The fuel tank', '03-14'),
  itself('pylon-pipe', 'The water pipe in the pylon', '03-04'),
  itself('wing-pin', 'The rear wing pin, starboard', '03-17.2'),
  itself('fin', 'The fin', '06-01'),
  itself('rudder-post', 'The water-rudder post', '06-15'),
  itself('plank', 'The dished plank, starboard', '01-09'),
];

/** What a parts tree would do: the joints across the skin of the part and of each assembly around it, then the lift. */
export function byTreeAlone(rig: Rig, part: string): readonly ActionId[] {
  const structure = new RigStructure(rig);
  const outermost = structure.chain(part).at(-1) ?? part;
  const order = outermost === part ? [part] : [outermost, part];
  return [...new Set(order.flatMap((p) => [...structure.crossing(p).map((a) => a.id), `remove:${p}`]))];
}
