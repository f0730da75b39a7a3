/** Marks of a sheet, on a job recorded through the journal's own `decide` and `fold`. */
import { expect, test } from 'vitest';
import { readStack } from '../../domain/as-found/washer-stack.ts';
import type { Command } from '../../journal/commands.ts';
import { recording } from '../../journal/commands.ts';
import type { SheetShown } from '../drawing/placing.ts';
import { viewOf } from '../state/view-of.ts';
import { stateAfter } from '../testing/make-job.ts';
import { sheetName } from './add-sheet.tsx';
import { lastOff, marksOn, placeOn } from './marks.ts';
import { layStack } from './stack-drawing.tsx';

const rig = {
  format: 'witnessmark-rig/1' as const,
  root: 'hull',
  parts: [
    { id: 'hull', name: 'Hull' },
    { id: '10-01', name: 'Leg tube' },
    { id: '10-02.1', name: 'Pin, 1 of 2' },
    { id: '10-02.2', name: 'Pin, 2 of 2' },
  ],
  attachments: [],
  operations: [],
  blocks: [],
  guards: [],
  setups: [],
  facts: [],
  looks: [],
};

function recordedJob(commands: readonly Command[]) {
  const state = stateAfter([
    recording('job-opened', { job: 'test', name: 'Test', invented: true }),
    { kind: 'take-in-rig', rig, standing: 'ours' },
    ...commands,
  ]);
  return { state, job: viewOf('test', state, 'nadia', 'tablet') };
}

const box = { x: 0, y: 0, width: 100, height: 100 };
const drawn: SheetShown = {
  whole: box,
  crop: box,
  places: new Map([
    ['10-01', [{ x: 0.1, y: 0.1 }]],
    [
      '10-02',
      [
        { x: 0.2, y: 0.2 },
        { x: 0.3, y: 0.3 },
      ],
    ],
  ]),
};

test('what is on and has nothing to say is not marked; off, bagged, nothing, stopped and damaged are, gravest first', () => {
  const { state, job } = recordedJob([
    { kind: 'step', action: 'remove:10-01' },
    { kind: 'step', action: 'remove:10-02.1' },
    recording('bagged', { bag: 'B289C', opens: true, of: ['10-02.1'] }),
    recording('nothing-here', { subject: '10-02.2', note: 'looked with a mirror' }),
  ]);
  const marks = marksOn(state, job, 'sheet', drawn);
  expect(marks.map((m) => [m.subject, m.kind])).toEqual([
    ['10-02.2', 'nothing'],
    ['10-02.1', 'bag'],
    ['10-01', 'off'],
  ]);
  expect(marks.find((m) => m.subject === '10-02.1')).toMatchObject({
    code: 'B289C',
    at: { x: 0.2, y: 0.2 },
    isLast: true,
  });
  expect(marks.find((m) => m.subject === '10-02.2')).toMatchObject({
    at: { x: 0.3, y: 0.3 },
    under: 'looked with a mirror',
  });
  expect(lastOff(state)).toBe('10-02.1');
});

test('a pin that somebody set goes before the drawing, and the last one holds', () => {
  const pin = (x: number) => recording('pin-set', { subject: '10-01', pin: { sheet: 'sheet', x, y: 0.5 } });
  const { state, job } = recordedJob([
    pin(0.4),
    pin(0.6),
    recording('stopped-here', { subject: '10-01', state: 'finger-tight' }),
  ]);
  expect(marksOn(state, job, 'sheet', drawn)).toMatchObject([
    { subject: '10-01', kind: 'stop', at: { x: 0.6, y: 0.5 }, under: 'finger-tight' },
  ]);
  expect(placeOn(state, job, 'another', drawn, '10-01')).toEqual({ x: 0.1, y: 0.1 });
  expect(placeOn(state, job, 'another', drawn, '99-01')).toBeNull();
});

test('a camera’s own number is no name for a sheet', () => {
  expect(sheetName('IMG_0042.JPG', 3)).toBe('Sheet 3');
  expect(sheetName('bow-port_side.jpg', 3)).toBe('bow port side');
});

test('a stack is laid out in order, no piece over another', () => {
  const { pieces, end } = layStack(readStack('washer 1.6 | shim 0.5 | lug | castle nut'));
  expect(pieces.map((p) => p.number)).toEqual([1, 2, 3, 4]);
  for (const [i, p] of pieces.entries()) expect(p.x + p.wide).toBeLessThanOrEqual(pieces[i + 1]?.x ?? end);
});
