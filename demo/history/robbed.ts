/**
 * Between QX-OLA and the wreck QD-07 of the same type, which lies in the shop as a donor. INVENTED. What was robbed is written
 * in both journals; the words of each half come from here, so that they agree.
 */
import { bagCode } from '../../src/domain/bag-code.ts';
import { recording } from '../../src/journal/commands.ts';
import type { DataOf } from '../../src/journal/kinds/kinds.ts';
import type { By, Recorder } from './act.ts';

export const HERE = 'qx-ola';
export const DONOR = 'wreck-qd-07';

export interface Robbery {
  readonly transfer: string;
  readonly from: typeof HERE | typeof DONOR;
  readonly thing: string;
  readonly name: string;
  readonly count?: number;
  readonly position?: string;
  readonly owed: boolean;
  readonly why: string;
  /** Into this bag in the taking job. */
  readonly bag: string;
}

/** A pulley comes from the wreck and is owed; two hub bolts went there to hang its hub, one is back. */
export const ROBBERIES: readonly Robbery[] = [
  {
    transfer: 'T-001',
    from: DONOR,
    thing: 'P-W-06-16',
    name: 'Water rudder lift cord pulley',
    position: 'w-06-16',
    owed: true,
    why: 'ours is cracked; this one to fit the cord by, until a new one is turned',
    bag: bagCode(453),
  },
  {
    transfer: 'T-002',
    from: HERE,
    thing: 'L-11-14',
    name: 'Hub bolt',
    count: 2,
    owed: true,
    why: 'to hang the hub of the wreck for measuring',
    bag: bagCode(454),
  },
];

export function rob(r: Recorder, by: By, job: typeof HERE | typeof DONOR): void {
  for (const t of ROBBERIES) {
    const way = t.from === job ? 'out' : 'in';
    const data: DataOf<'robbed'> = {
      transfer: t.transfer,
      way,
      thing: t.thing,
      job: job === HERE ? DONOR : HERE,
      name: t.name,
      owed: t.owed,
      why: t.why,
      ...(t.count !== undefined && { count: t.count }),
      ...(t.position !== undefined && way === 'out' && { position: t.position }),
      ...(way === 'in' && { bag: t.bag }),
    };
    if (way === 'in') {
      r.record(by, recording('bagged', { bag: t.bag, opens: true, place: 'bench', note: `robbed, ${t.transfer}` }), 0);
    }
    r.record(by, recording('robbed', data), 5);
  }
}

/** One of the two bolts goes back. */
export function oneBoltBack(r: Recorder, by: By, job: typeof HERE | typeof DONOR): void {
  const way = job === HERE ? 'in' : 'out';
  r.record(by, recording('robbed-returned', { transfer: 'T-002', way, count: 1, note: 'one of the two' }), 2);
}
