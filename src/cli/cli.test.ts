/** The commands as a person types them, on real files: exit codes, one Problem on stderr, JSON of the contract. */
import { once } from 'node:events';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { main } from './main.ts';

let dir: string;
let rigFile: string;

const rig = {
  format: 'witnessmark-rig/1',
  root: 'frame',
  name: 'A tail',
  invented: true,
  parts: [
    { id: 'leg', name: 'Leg', minutes: 10 },
    { id: 'spring', name: 'Spring', within: 'leg', minutes: 2 },
    { id: 'lid', name: 'Lid', minutes: 2 },
  ],
  attachments: [
    { id: 'j1', joins: ['leg', 'frame'], minutes: 5 },
    {
      id: 'nut',
      name: 'Back off the nut',
      joins: ['spring', 'leg'],
      minutes: 4,
      hazards: [{ kind: 'stored-energy', clearedBy: { done: 'press' } }],
    },
    { id: 'j2', joins: ['lid', 'frame'], minutes: 1 },
  ],
  operations: [{ id: 'press', name: 'Fit the press', on: 'leg', minutes: 15, needs: { off: 'lid' }, only: 'strip' }],
  looks: [{ id: 'look', name: 'Bore', on: 'leg', visible: { off: 'lid' } }],
};

async function run(...argv: string[]): Promise<{ code: number; out: string; err: string }> {
  let out = '';
  let err = '';
  const code = await main(argv, {
    out: (t) => (out += t),
    err: (t) => (err += t),
    isTerminal: false,
    stdin: () => '{"action":"j2"}',
  });
  return { code, out, err };
}

async function json(...argv: string[]): Promise<Record<string, unknown>> {
  const got = await run(...argv, '--json');
  expect([got.code, got.err]).toEqual([0, '']);
  return JSON.parse(got.out) as Record<string, unknown>;
}

beforeAll(() => {
  dir = mkdtempSync(join(tmpdir(), 'witnessmark-cli-'));
  rigFile = join(dir, 'tail.rig.json');
  writeFileSync(rigFile, JSON.stringify(rig));
});
afterAll(() => rmSync(dir, { recursive: true, force: true }));

describe('planning commands', () => {
  it('off gives the contract, in order, with the gate before the nut', async () => {
    const a = await json('off', rigFile, '--goal', '{"apart":"spring"}');
    expect(Object.keys(a).sort()).toEqual([
      'cost',
      'disturbed',
      'irreversible',
      'lowerBound',
      'nextWays',
      'proven',
      'steps',
      'tipsAt',
      'unavoidable',
      'waitsFor',
    ]);
    const steps = (a.steps as { action: string; kind: string }[]).map((s) => `${s.kind} ${s.action}`);
    expect(steps).toEqual([
      'release j2',
      'remove remove:lid',
      'operation press',
      'release nut',
      'remove remove:spring',
    ]);
    expect([a.cost, a.lowerBound, a.proven]).toEqual([24, 24, true]);
  });

  it('adds ms only when asked for', async () => {
    expect(await json('off', rigFile, '--goal', '{"apart":"spring"}', '--timing')).toHaveProperty('ms');
  });

  it('takes what is done from the options', async () => {
    expect(
      await json('off', rigFile, '--goal', '{"apart":"spring"}', '--done', '["j2","remove:lid","press"]'),
    ).toMatchObject({ cost: 6 });
    expect(await json('why-not', rigFile, '--action', 'nut', '--done', 'j2,remove:lid,press')).toMatchObject({
      allowed: true,
      unmet: [],
      cheapestWay: { cost: 0, actions: [] },
    });
  });

  it('why-not names the gate', async () => {
    const a = await json('why-not', rigFile, '--action', 'nut');
    expect(a).toMatchObject({
      allowed: false,
      unmet: [{ kind: 'hazard', need: { done: 'press' } }],
      cheapestWay: { cost: 18, actions: ['j2', 'remove:lid', 'press'] },
    });
  });

  it('fits names what would be hidden, and the order says when it is last seen', async () => {
    const done = '["j2","remove:lid"]';
    expect(await json('fits', rigFile, '--done', done)).toEqual({
      next: [{ action: 'remove:lid', fits: true, locksOut: [], roots: [], hides: ['look'] }],
      order: ['remove:lid', 'j2'],
      lastSeen: { look: 'remove:lid' },
    });
    const one = await json('fits', rigFile, '--done', done, '--action', 'j2');
    expect(one).toMatchObject({ next: [{ action: 'j2', fits: false, inTheWay: expect.any(Array) }] });
    expect(await json('fits', rigFile, '--done', done, '--signed', 'look')).toMatchObject({ next: [{ hides: [] }] });
  });

  it('tips says nothing about tipping where no points are known', async () => {
    expect((await run('tips', rigFile)).out).toMatch(/nothing is said about tipping/);
  });

  it('speaks plainly without --json', async () => {
    const got = await run('off', rigFile, '--goal', '{"apart":"spring"}');
    expect(got.out).toMatch(/5 steps, 24 min {2}the least there is, proved/);
    expect(got.out).toMatch(/GATE Stored energy/);
    expect(got.out).not.toMatch(/\b(safe|error|invalid|please)\b/i);
  });
});

describe('what the reader can mend', () => {
  it.each([
    ['NO_SUCH_FILE', ['off', 'nowhere.rig.json', '--goal', '{}']],
    ['NOT_JSON', ['off', 'RIG', '--goal', '{apart']],
    ['RIG_SHAPE', ['off', 'RIG', '--goal', '{}']],
    ['RIG_UNKNOWN_ID', ['off', 'RIG', '--goal', '{"apart":"wing"}']],
    ['NO_WAY_OFF', ['off', 'RIG', '--goal', '{"any":[]}']],
    ['RIG_ACTION', ['why-not', 'RIG', '--action', 'wing']],
    ['RIG_ACTION', ['fits', 'RIG', '--done', '["wing"]']],
    ['BAD_OPTION', ['off', 'RIG']],
    ['BAD_OPTION', ['fly', 'RIG']],
    ['BAD_OPTION', ['off', 'RIG', '--goal', '{"apart":"leg"}', '--budget', 'x']],
    ['NO_JOB_HERE', ['record', 'DIR', 'step']],
    ['JOB_NOT_FOUND', ['verify', 'DIR']],
  ])('%s: exit 1, one Problem on stderr, nothing on stdout', async (code, words) => {
    const argv = words.map((w) => (w === 'RIG' ? rigFile : w === 'DIR' ? dir : w));
    const got = await run(...argv, '--json');
    expect([got.code, got.out]).toEqual([1, '']);
    const problem = JSON.parse(got.err) as { code: string; remedy: string };
    expect(problem.code).toBe(code);
    expect(problem.remedy.length).toBeGreaterThan(11);
    const said = await run(...argv);
    expect([said.code, said.err.includes(problem.remedy)]).toEqual([1, true]);
  });
});

describe('a job from the first entry to the backup', () => {
  const job = () => join(dir, 'my.job');

  it('is made with knowledge told by others, recorded in, and answers from what is recorded', async () => {
    expect(
      await json('new', job(), '--name', 'A tail', '--rig', rigFile, '--source', 'study group', '--by', 'marit'),
    ).toMatchObject({ job: 'my' });
    expect(
      await json('record', job(), 'step', '--data', '-', '--by', 'nadia', '--at', '2025-11-18T09:14:00+00:00'),
    ).toMatchObject([{ seq: 3, entry: { kind: 'step-done.v2', by: 'nadia', at: '2025-11-18T09:14:00+00:00' } }]);
    expect(await json('off', job(), '--goal', '{"apart":"spring"}')).toMatchObject({ cost: 23 });
    await json('record', job(), 'stuck', '--data', '{"part":"spring","by":"lid","harm":"tears the seat"}');
    expect(await json('why-not', job(), '--action', 'remove:spring')).toMatchObject({ harm: ['tears the seat'] });
  });

  it('refuses what no kind has, and records nothing of it', async () => {
    expect((await run('record', job(), 'stuk')).err).toMatch(/no entry kind/);
    expect((await run('record', job(), 'stuck', '--data', '{"colour":1}', '--json')).err).toMatch(/ENTRY_DATA/);
    expect(await json('verify', job())).toMatchObject({ whole: true, entries: 4 });
  });

  it('goes out as rig, journal and list, and comes back', async () => {
    for (const file of ['type.rig.json', 'all.jsonl', 'parts.csv', 'steps.csv']) {
      await json('export', job(), join(dir, file), ...(file === 'steps.csv' ? ['--as', 'steps'] : []));
    }
    const told = JSON.parse(readFileSync(join(dir, 'type.rig.json'), 'utf8')) as {
      blocks: { harm: string; source: string }[];
    };
    expect(told.blocks).toMatchObject([{ harm: 'tears the seat', source: expect.stringMatching(/./) }]);
    expect(readFileSync(join(dir, 'steps.csv'), 'utf8')).toMatch(/nadia,done,j2/);
    expect((await run('export', job(), join(dir, 'parts.csv'), '--json')).err).toMatch(/FILE_THERE/);
    expect(await json('import', join(dir, 'again.job'), join(dir, 'all.jsonl'))).toMatchObject({
      added: 4,
      already: 0,
    });
    expect(await json('import', join(dir, 'again.job'), join(dir, 'all.jsonl'))).toMatchObject({
      added: 0,
      already: 4,
    });
  });

  it('takes in a parts list with a map of columns', async () => {
    writeFileSync(join(dir, 'list.csv'), 'Nr;Benennung;Stk\n1-01;Bolt;2\n1-02;Nut;1\n');
    const words = [
      'import',
      job(),
      join(dir, 'list.csv'),
      '--map',
      'id=Nr',
      '--map',
      'name=Benennung',
      '--map',
      'quantity=Stk',
    ];
    expect(await json(...words, '--dry')).toMatchObject({ preview: true, entries: 5, recorded: 0, counts: { new: 2 } });
    expect(await json(...words)).toMatchObject({ preview: false, entries: 5, recorded: 5 });
    expect(await json(...words.slice(0, 3))).toMatchObject({ entries: 0, recorded: 0, counts: { unchanged: 2 } });
    writeFileSync(join(dir, 'other.csv'), 'Ding,Sache\n1-01,Bolt\n');
    expect((await run('import', job(), join(dir, 'other.csv'), '--json')).err).toMatch(/CSV_COLUMN/);
  });

  it('says when its port is taken', async () => {
    const other = createServer().listen(0, '127.0.0.1');
    await once(other, 'listening');
    const address = other.address();
    const port = typeof address === 'object' && address ? address.port : 0;
    expect((await run('serve', job(), '--port', String(port))).err).toMatch(/PORT_TAKEN/);
    other.close();
  });

  it('mirrors, and says when there is nothing to mirror', async () => {
    expect((await run('mirror', job(), '--assembly', 'leg', '--from', 'L', '--to', 'L', '--json')).err).toMatch(
      /NOTHING_TO_MIRROR/,
    );
  });

  it('is backed up, checked, and restored to the same head', async () => {
    const file = join(dir, 'my.backup');
    await json('backup', job(), file);
    const head = (await json('verify', job())).head;
    expect(await json('restore', file, join(dir, 'back.job'))).toMatchObject({ whole: true, head });
    expect((await run('restore', file, join(dir, 'back.job'))).code).toBe(1);
    expect(existsSync(join(dir, 'back.job', 'READ-ME-FIRST.txt'))).toBe(true);
  });
});
