/** A small tail-wheel unit to draw against in tests of the graph; invented, and not the rig of the demo. */
import type { Rig } from '../../domain/rig/rig-types.ts';

export function tailRig(): Rig {
  return {
    format: 'witnessmark-rig/1',
    name: 'Tail-wheel unit',
    invented: true,
    root: 'hull',
    parts: [
      { id: 'hull', name: 'Hull', hand: 'C' },
      { id: 'frame-c19', name: 'Frame C19', hand: 'C' },
      { id: '10', name: 'Tail-wheel unit', hand: 'C', minutes: 12 },
      { id: '10-01', name: 'Leg tube', within: '10', hand: 'C', minutes: 5 },
      { id: '10-02', name: 'Sliding tube', within: '10', hand: 'C', minutes: 5 },
      {
        id: '10-03',
        name: 'Main spring',
        within: '10',
        hand: 'C',
        minutes: 2,
        note: 'measure its free length before it is bagged',
      },
      { id: '10-04', name: 'Spring seat, upper', within: '10', hand: 'C', minutes: 2 },
      { id: '10-07', name: 'Retaining nut', within: '10', hand: 'C', minutes: 2 },
      { id: '10-12', name: 'Fork', within: '10', hand: 'C', minutes: 4 },
      { id: '10-14', name: 'Tail-wheel', within: '10', hand: 'C', minutes: 4 },
      { id: '10-20', name: 'Steering shear pin', within: '10', hand: 'C', minutes: 1 },
    ],
    attachments: [
      { id: 'axle', name: 'Axle', joins: ['10-14', '10-12'], kind: 'bolted', minutes: 8 },
      {
        id: 'shear-pin',
        name: 'Steering shear pin',
        joins: ['10-20', '10-12', '10-02'],
        kind: 'pinned',
        minutes: 3,
        note: 'found: a steel nail, not the brass pin. Keep it, bag it, do not copy',
      },
      {
        id: 'nut',
        name: 'Retaining nut, M42 × 1.5',
        joins: ['10-07', '10-01', '10-04'],
        kind: 'threaded',
        minutes: 10,
        needs: { released: 'shear-pin' },
        hazards: [
          {
            kind: 'stored-energy',
            clearedBy: { any: [{ fact: 'free-length' }, { done: 'press' }] },
            note: 'Free length of the fitted spring is not known: the force at the end of the bolt cannot be computed. Bolt travel is 65 mm.',
          },
        ],
      },
      {
        id: 'spring-seat',
        name: 'Spring in its seats',
        joins: ['10-03', '10-04', '10-02'],
        kind: 'other',
        minutes: 0,
        needs: { done: 'let-down' },
      },
      { id: 'gland', name: 'Leg on its trunnion', joins: ['10-01', 'frame-c19'], kind: 'pinned', minutes: 20 },
      { id: 'frame', joins: ['frame-c19', 'hull'], kind: 'riveted', minutes: 300, loss: 'irreversible' },
      { id: 'slide', joins: ['10-02', '10-01'], kind: 'other', minutes: 2, needs: { apart: '10-03' } },
    ],
    operations: [
      {
        id: 'press',
        name: 'Fit the captive press',
        on: '10-01',
        minutes: 15,
        only: 'strip',
        needs: { setup: 'support', in: ['stand'] },
        note: 'travel at least 120 mm',
      },
      {
        id: 'let-down',
        name: 'Let the spring down in the press',
        on: '10-01',
        minutes: 10,
        only: 'strip',
        needs: { all: [{ released: 'nut' }, { done: 'press' }] },
        note: 'stay out of line with the leg',
      },
    ],
    blocks: [{ part: '10-03', by: '10-14', harm: 'the leg cannot drop clear while the wheel is on' }],
    guards: [],
    setups: [{ id: 'support', name: 'Support', states: ['jacks', 'stand'], initial: 'jacks', minutes: 20 }],
    facts: [{ id: 'free-length', name: 'Free length of the fitted spring measured', given: false }],
    looks: [],
  };
}
