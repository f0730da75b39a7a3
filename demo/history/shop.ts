/**
 * The invented shop opens the job: people, devices, the parts list, the rig, and what is known before the first bolt.
 * INVENTED: no person here exists.
 */
import type { Command } from '../../src/journal/commands.ts';
import { recording } from '../../src/journal/commands.ts';
import type { DataOf } from '../../src/journal/kinds/kinds.ts';
import { ASSEMBLIES, LINES, lineOf, POSITIONS, positionName } from '../parts.ts';
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
