/** A parts list over HTTP, as CSV and as a workbook. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { PartsAnswer } from '../app/parts-table-answer.ts';
import { tempFolder } from '../store/testing/temp.ts';
import { workbook } from '../store/testing/workbook.ts';
import { type ServedJob, serveJob } from './testing/served-job.ts';

let served: ServedJob;
beforeEach(async () => {
  served = await serveJob(tempFolder());
});
afterEach(async () => served.close());

type Answer = PartsAnswer & { readonly preview: boolean };
const send = (query: string, body: string | Uint8Array, type = 'text/csv') =>
  served.send(`/api/jobs/try/import/parts?${query}`, body, type);

const list = 'Nr;Benennung;Stk\n1-01;Bolt;2\n1-02;Nut;1\n';
const map = (m: object): string => `map=${encodeURIComponent(JSON.stringify(m))}`;

describe('a parts list', () => {
  it('is told in the preview, recorded as told, and the same again changes nothing', async () => {
    const head = served.hosted.state.head.seq;
    const before = (await send('preview=true', list)).json() as Answer;
    expect(before).toMatchObject({
      preview: true,
      kind: 'csv',
      recorded: 0,
      entries: 5,
      positions: 3,
      headers: ['Nr', 'Benennung', 'Stk'],
      columns: [
        { ours: 'id', theirs: 'Nr', how: 'guessed' },
        { ours: 'name', theirs: 'Benennung', how: 'guessed' },
        { ours: 'quantity', theirs: 'Stk', how: 'guessed' },
      ],
      counts: { new: 2, changed: 0, unchanged: 0, refused: 0 },
    });
    expect(served.hosted.state.head.seq).toBe(head);
    const done = await send('by=nadia', list);
    expect([done.statusCode, (done.json() as Answer).recorded]).toEqual([201, 5]);
    expect([...served.hosted.state.positions.keys()]).toEqual(['1-01.1', '1-01.2', '1-02']);
    expect(served.hosted.state.lines.get('1-01')?.said.by).toBe('nadia');
    const again = (await send('by=nadia', list)).json() as Answer;
    expect([again.recorded, again.counts.unchanged, served.hosted.state.head.seq]).toEqual([0, 2, head + 5]);
  });

  it('as a workbook is the same, whatever type is claimed; the sheet must be named where there are several', async () => {
    const rows = [
      ['Nr', 'Benennung', 'Stk'],
      ['1-01', 'Bolt', 2],
    ];
    const bytes = workbook({ Cover: [['x']], List: rows });
    const first = (await send('preview=true', bytes)).json() as Answer;
    expect([first.sheet, first.sheets, first.problem?.code]).toEqual(['Cover', ['Cover', 'List'], 'CSV_COLUMN']);
    expect((await send('by=nadia', bytes)).json()).toMatchObject({ code: 'SHEET_WHICH' });
    const done = (await send('by=nadia&sheet=List', bytes, 'image/png')).json() as Answer;
    expect([done.kind, done.recorded, done.rows[0]?.positionsAdded]).toEqual(['xlsx', 3, ['1-01.1', '1-01.2']]);
  });

  it('with refused rows is told row by row, and taken in without them only when that is chosen', async () => {
    const bad = `${list}1-03;;1\n1-04;Pin;1,5\n1-01;Bolt;1\n`;
    const told = (await send('preview=true', bad)).json() as Answer;
    expect(told.rows.filter((r) => r.problem).map((r) => [r.row, r.problem?.where])).toEqual([
      [4, 'row 4, Benennung'],
      [5, 'row 5, Stk'],
      [6, 'row 6, Nr'],
    ]);
    expect((await send('by=nadia', bad)).json()).toMatchObject({ code: 'CSV_ROW', status: 422 });
    expect(served.hosted.state.lines.size).toBe(0);
    expect(((await send('by=nadia&skip=true', bad)).json() as Answer).recorded).toBe(5);
  });

  it('is read by the map that is sent; a strange map is refused', async () => {
    const text = 'Ding;Sache\n1;Bolt\n';
    const told = (await send('preview=true', text)).json() as Answer;
    expect([told.headers, told.problem?.code, told.rows]).toEqual([['Ding', 'Sache'], 'CSV_COLUMN', []]);
    const mapped = (await send(`preview=true&${map({ id: 'Ding', name: 'Sache' })}`, text)).json() as Answer;
    expect(mapped.counts.new).toBe(1);
    for (const strange of ['map=%7B', map({ colour: 'Ding' }), map({ id: 7 }), map({ __proto__: null, id: ['x'] })])
      expect((await send(`preview=true&${strange}`, text)).json()).toMatchObject({ code: 'BODY_UNREADABLE' });
  });

  it('that is something else gives one Problem', async () => {
    expect((await send('preview=true', Buffer.from([0, 1, 2]))).json()).toMatchObject({ code: 'TABLE_KIND' });
    expect((await send('preview=true', 'id,name\na,"x\n')).json()).toMatchObject({ code: 'CSV_SHAPE' });
    expect((await send('preview=true', Buffer.alloc(21 * 1024 * 1024))).json()).toMatchObject({
      code: 'UPLOAD_TOO_LARGE',
    });
  });
});
