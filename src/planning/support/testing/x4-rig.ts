/**
 * The invented scenario's trap X-4 as a small rig (invented example, no engineering data): QX-OLA on two stands, the
 * engine, the tail unit and the tail-wheel to come off, and a person who may step into the bow.
 */
import type { Figure, Need, Part, Rig } from '../../../domain/rig/rig-types.ts';

export interface X4Options {
  /** Doubt of the arm of the hull, metres. */
  readonly hullArmDoubt?: number;
  /** The engine can only come off after this. */
  readonly engineNeeds?: Need;
  readonly extraParts?: readonly Part[];
}

const [EMPTY, EMPTY_ARM] = [1080, 3.55];
const OFF = [
  { id: 'tail', name: 'Tail unit', kg: 42, x: 8.2 },
  { id: 'tail-wheel', name: 'Tail-wheel', kg: 31, x: 7.6 },
  { id: 'engine', name: 'Engine and propeller', kg: 245, x: 2.35 },
] as const;

export function x4Rig(options: X4Options = {}): Rig {
  const kg = OFF.reduce((s, p) => s - p.kg, EMPTY);
  const arm = OFF.reduce((s, p) => s - p.kg * p.x, EMPTY * EMPTY_ARM) / kg;
  const x: Figure = options.hullArmDoubt === undefined ? arm : { value: arm, plusMinus: options.hullArmDoubt };
  return {
    format: 'witnessmark-rig/1',
    name: 'QX-OLA on two stands (invented)',
    invented: true,
    root: 'hull',
    parts: [
      { id: 'hull', name: 'Hull', massKg: kg, at: { x } },
      ...OFF.map((p): Part => {
        const part: Part = { id: p.id, name: p.name, massKg: p.kg, at: { x: p.x }, minutes: 10 };
        return p.id === 'engine' && options.engineNeeds ? { ...part, needs: options.engineNeeds } : part;
      }),
      ...(options.extraParts ?? []),
    ],
    attachments: OFF.map((p) => ({ id: `bolts-${p.id}`, joins: [p.id, 'hull'], minutes: 5 })),
    operations: [],
    blocks: [],
    guards: [],
    setups: [
      {
        id: 'support',
        name: 'Support',
        states: ['stands', 'slings'],
        initial: 'stands',
        points: {
          stands: [
            { id: 'rear-stand', on: 'hull', at: { x: 7.9 } },
            { id: 'front-stand', on: 'hull', at: { x: 3.2 }, limitKg: 1200 },
          ],
        },
      },
      {
        id: 'bow',
        name: 'Bow',
        states: ['empty', 'person'],
        initial: 'empty',
        loads: { person: [{ name: 'a person', massKg: 85, at: { x: 1.2 } }] },
      },
    ],
    facts: [],
    looks: [],
  };
}
