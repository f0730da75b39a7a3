/**
 * The two days of the invented job, as entries. INVENTED.
 *
 *   2025-11-18  strip under way, 148 positions off, the tail-wheel spring still fitted; the demo opens here
 *   2026-04-14  strip complete for what comes off, 61 positions in, the bay at C9 starboard open
 *
 * The second is the first carried on: its entries begin with all entries of the first.
 */
import type { EntryDraft } from '../../src/journal/entry.ts';
import type { State } from '../../src/journal/state.ts';
import { demoRig } from '../rig/index.ts';
import { Recorder, type Sound } from './act.ts';
import { Bagging } from './bagging.ts';
import { refitSpring } from './refit-spring.ts';
import { openJob } from './shop.ts';
import { NO_PICTURES, type Pictures, type Shot } from './shots.ts';
import { stripAutumn } from './strip-autumn.ts';
import { stripWinter } from './strip-winter.ts';

export { donorJob } from './donor.ts';
export { DEVICES, PEOPLE } from './shop.ts';

export const DEMO_DAYS = ['2025-11-18', '2026-04-14'] as const;
export type DemoDay = (typeof DEMO_DAYS)[number];

export interface DemoJob {
  readonly day: DemoDay;
  readonly phase: 'strip' | 'refit';
  /** Name of the job's folder. */
  readonly name: string;
  /** Entries in recorded order, ready to be appended; each carries its own time. */
  readonly drafts: readonly EntryDraft[];
  /** Photographs of the story; those whose picture was given are among the entries. */
  readonly shots: readonly Shot[];
  readonly sounds: readonly Sound[];
  /** What the fold of these entries gives (still pending: no journal has taken them yet). */
  readonly state: State;
}

export function demoJob(day: DemoDay, pictures: Pictures = NO_PICTURES): DemoJob {
  const r = new Recorder(demoRig(), pictures);
  const bags = new Bagging(r);
  openJob(r);
  stripAutumn(r, bags);
  if (day === '2026-04-14') {
    stripWinter(r, bags);
    refitSpring(r, bags);
  }
  return { day, phase: day === '2025-11-18' ? 'strip' : 'refit', name: NAMES[day], ...whatIsTold(r), state: r.now };
}

export type Told = Pick<DemoJob, 'name' | 'drafts' | 'shots' | 'sounds'>;

/** Both days from one telling: the first is where the second was on 18 November. */
export function bothDays(pictures: Pictures = NO_PICTURES): readonly [november: Told, april: Told] {
  const r = new Recorder(demoRig(), pictures);
  const bags = new Bagging(r);
  openJob(r);
  stripAutumn(r, bags);
  const then = whatIsTold(r);
  stripWinter(r, bags);
  refitSpring(r, bags);
  return [
    { name: NAMES['2025-11-18'], ...then },
    { name: NAMES['2026-04-14'], ...whatIsTold(r) },
  ];
}

/** Names of the folders. */
const NAMES: Readonly<Record<DemoDay, string>> = { '2025-11-18': 'qx-ola', '2026-04-14': 'qx-ola-2026-04-14' };

function whatIsTold(r: Recorder): Pick<DemoJob, 'drafts' | 'shots' | 'sounds'> {
  return { drafts: [...r.drafts], shots: [...r.shots], sounds: [...r.sounds] };
}
