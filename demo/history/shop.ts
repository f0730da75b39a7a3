/**
 * The invented shop opens the job: people, devices, the parts list, the rig, and what is known before the first bolt.
 * INVENTED: no person here exists.
 */
import type { Command } from '../../src/journal/commands.ts';
import { recording } from '../../src/journal/commands.ts';
import type { DataOf } from '../../src/journal/kinds/kinds.ts';
import { ASSEMBLIES, LINES, line, lineOf, POSITIONS, positionName, positionsOf } from '../parts.ts';
import { demoRig } from '../rig/index.ts';
import type { By, Recorder } from './act.ts';

type Person = DataOf<'person-noted'>;

export const PEOPLE: readonly Person[] = [
  { person: 'marit', name: 'Marit Oduya', initials: 'MO', role: 'lead', rights: ['sign', 'decide', 'discard', 'ship'] },
  { person: 'joss', name: 'Joss Penhallick', initials: 'JP', role: 'metal', note: 'left-handed, voice notes' },
  { person: 'benedikt', name: 'Benedikt Aram', initials: 'BA', role: 'wood-and-fabric', note: 'two days a week' },
  { person: 'rosalind', name: 'Rosalind Teague', initials: 'RT', role: 'engine', note: 'keeps sets together' },
  {
    person: 'callum',
    name: 'Callum Esterhuy',
    initials: 'CE',
    role: 'inspector',
    rights: ['sign'],
    note: 'inspector with authorisation, stamp TQ-2; comes on Thursdays',
  },
  {
    person: 'nadia',
    name: 'Nadia Quist-Fairweather',
    initials: 'NQ',
    role: 'apprentice',
    note: 'second year; packs and counts',
  },
  { person: 'pim', name: 'Pim Verhoeckx', initials: 'PV', role: 'volunteer', note: 'knows lake boats' },
  { person: 'ilse', name: 'Ilse Brandauer-Noakes', initials: 'IB', role: 'owner', note: 'owner’s trust; monthly page' },
  { person: 'tomas', name: 'Tomás Urrieta', initials: 'TU', role: 'other', note: 'researcher and translator, remote' },
];

export const DEVICES: readonly DataOf<'device-noted'>[] = [
  { device: 'bench-laptop', name: 'Bench laptop' },
  { device: 'shared-tablet', name: 'Shared tablet' },
  { device: 'joss-tablet', name: 'Joss’s own tablet' },
  { device: 'rosalind-phone', name: 'Rosalind’s phone' },
];

const who = (by: string, device: string): By => ({ by, device });
export const MARIT = who('marit', 'bench-laptop');
export const JOSS = who('joss', 'joss-tablet');
export const BENEDIKT = who('benedikt', 'shared-tablet');
export const ROSALIND = who('rosalind', 'rosalind-phone');
export const CALLUM = who('callum', 'shared-tablet');
export const NADIA = who('nadia', 'shared-tablet');
export const PIM = who('pim', 'shared-tablet');
export const TOMAS = who('tomas', 'bench-laptop');

/** Pieces in the bag where that is not one for each position. */
const PIECES: Readonly<Record<string, readonly [count: number, note: string]>> = {
  '02-08': [5, 'one missing, two bent'],
  '02-22': [7, 'two missing; covers for C13 starboard and the stern to be made'],
  '02-23': [41, 'six different lengths, each hole bagged by itself'],
  '08-12': [1, 'three positions: one pin; a foreign bolt kept apart, one missing'],
  '08-17': [1, 'one missing'],
  '11-06': [9, 'three missing'],
  '12-27': [6, 'three missing; Spanish'],
};

export function openJob(r: Recorder): void {
  r.on('2025-09-01', 9, 0);
  const now = (command: Command) => r.record(MARIT, command, 0);
  now(
    recording('job-opened', {
      job: 'qx-ola',
      name: 'QX-OLA (invented example)',
      registration: 'QX-OLA',
      type: 'Ostrea Aeronaval O.7 "Correlimos", constructor’s no. 23 (Q-01)',
      invented: true,
      note: 'Invented for a demonstration. Nothing here is engineering data; no person, firm or aircraft is real.',
    }),
  );
  for (const p of PEOPLE) now(recording('person-noted', p));
  for (const d of DEVICES) now(recording('device-noted', d));
  now(recording('margin-set', { percent: 2, why: 'shop rule: two per cent of the weight stays on every support' }));
  now({
    kind: 'take-in-rig',
    rig: demoRig(),
    standing: 'ours',
    source: 'Walk-round and survey of QX-OLA, September 2025 (invented)',
  });
  for (const l of LINES) now(recording('part-line-noted', lineData(l)));
  for (const p of POSITIONS) now(recording('position-noted', positionData(p)));
  r.nothingHere(MARIT, '03-19', 'No shim fitted at the starboard wing pins; looked with mirror and lamp');
}

function lineData(l: (typeof LINES)[number]): DataOf<'part-line-noted'> {
  const group = ASSEMBLIES.find((a) => a.id === l.assembly)?.name ?? l.assembly;
  return {
    line: l.id,
    name: l.name,
    number: l.id,
    quantity: l.qty,
    material: l.material,
    group: `${l.assembly} ${group}`,
    ...(l.note !== '' && { note: l.note }),
  };
}

function positionData(p: string): DataOf<'position-noted'> {
  const l = lineOf(p);
  return { position: p, line: l.id, name: positionName(p), hand: l.hand, rig: p };
}

/** Bags what has come off since the last call: a piece where a line is one, a counted lot where it is several. */
export class Bagging {
  private readonly bagged = new Set<string>();

  constructor(private readonly r: Recorder) {}

  now(by: By): void {
    const off = new Set(this.r.positionsOff());
    for (const l of LINES) {
      const places = positionsOf(l);
      if (this.bagged.has(l.id) || places.length === 0 || !places.every((p) => off.has(p))) continue;
      this.bagged.add(l.id);
      const place = `Rack ${l.assembly}, shelf ${(Number(l.id.slice(3)) % 5) + 1}`;
      this.r.record(by, places.length === 1 ? piece(l, place) : lot(l, place), 0);
      if (l.asFound !== '') this.r.note(by, l.id, `As found: ${l.asFound}`);
    }
  }
}

/** A line's piece or lot is with somebody else now, or back. */
export function custody(
  r: Recorder,
  by: By,
  lineIds: readonly string[],
  custodian: string,
  place: string,
  note: string,
): void {
  for (const id of lineIds) {
    const l = line(id);
    const known = positionsOf(l).length === 1 ? piece(l, place) : lot(l, place);
    if (known.kind !== 'record') continue;
    const data = { ...(known.data as object), custodian, place, note };
    r.record(by, { kind: 'record', entry: known.entry, data }, 0);
  }
}

function piece(l: (typeof LINES)[number], place: string): Command {
  const gone = GONE.has(l.id);
  return recording('piece-noted', {
    piece: l.bag,
    name: l.name,
    line: l.id,
    position: l.id,
    hand: l.hand,
    number: l.bag,
    ...(gone ? { state: 'missing' } : { place, custodian: 'Tarn Quay' }),
    ...(l.note !== '' && { note: l.note }),
  });
}

function lot(l: (typeof LINES)[number], place: string): Command {
  const [count, note] = PIECES[l.id] ?? [l.qty, l.note];
  return recording('lot-noted', {
    lot: l.bag,
    what: l.name,
    count,
    of: positionsOf(l)[0] ?? l.id,
    place,
    custodian: 'Tarn Quay',
    ...(note !== '' && { note }),
  });
}

/** Lines of one position that were not there when the aircraft came. */
const GONE: ReadonlySet<string> = new Set(['02-25', '08-20', '10-06', '10-08', '10-21', '12-02', '12-26']);
