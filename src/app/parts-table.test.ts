import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { must } from '../domain/result.ts';
import { EMPTY_STATE, overlay, type State } from '../journal/index.ts';
import { stampAt } from '../journal/testing/recorder.ts';
import { partsTable } from './parts-table.ts';
import { type ColumnMap, findColumns } from './parts-table-columns.ts';
import { type PartsPlan, partsDrafts, planParts } from './parts-table-plan.ts';
import { csvRows, readQuantity } from './parts-table-rows.ts';

const plan = (text: string, map: ColumnMap = {}, state: State = EMPTY_STATE): PartsPlan =>
  planParts(state, must(csvRows(text)), map);

let n = 0;
const stamp = () => stampAt((n += 1));
function imported(state: State, text: string, map: ColumnMap = {}, skipRefused = false): State {
  return overlay(state, must(partsDrafts(state, plan(text, map, state), { skipRefused, stamp })));
}

const german = 'Nr;Benennung;Seite;Stk\n7-01;"Bolt; long";links;2\n7-02;Nut;;\n7-03;Shim;R;0\n';

describe('columns of a parts list', () => {
  it('are guessed from the heading and stated; what was said goes first', () => {
    const c = findColumns(['Nr', 'Benennung', 'Stück', 'Lagerort', 'Werkstoff'], { note: 'Lagerort' });
    expect(c.mapped.map((m) => [m.ours, m.theirs, m.how])).toEqual([
      ['note', 'Lagerort', 'said'],
      ['id', 'Nr', 'guessed'],
      ['name', 'Benennung', 'guessed'],
      ['quantity', 'Stück', 'guessed'],
      ['material', 'Werkstoff', 'guessed'],
    ]);
    expect([c.leftOut, c.problem]).toEqual([[], null]);
  });

  it('are not guessed from a part of a heading, nor twice from one, nor where the person said none', () => {
    const c = findColumns(['Id', 'Name', 'Nr of bolts', 'Note', 'Note', 'Qty'], { quantity: '' });
    expect(c.mapped.map((m) => m.ours)).toEqual(['id', 'name']);
    expect(c.leftOut).toEqual(['Nr of bolts', 'Note', 'Note', 'Qty']);
  });

  it.each<[string[], ColumnMap, string]>([
    [['Ding', 'Sache'], {}, 'id'],
    [['Nr', 'Sache'], {}, 'name'],
    [['Nr', 'Name'], { note: 'Bemerkung' }, 'Bemerkung'],
    [['Nr', 'Name', 'X', 'X'], { note: 'X' }, 'X'],
    [[], {}, 'id'],
  ])('%j with %j gives CSV_COLUMN at %s', (headers, map, where) => {
    expect(findColumns(headers, map).problem).toMatchObject({ code: 'CSV_COLUMN', where });
  });
});

describe('a parts list from somebody else', () => {
  it('becomes lines and positions', () => {
    const read = plan(german);
    expect([read.counts, read.positions]).toEqual([{ new: 3, changed: 0, unchanged: 0, refused: 0 }, 3]);
    expect(read.entries.map((e) => e.data.position ?? e.data.line)).toEqual([
      '7-01',
      '7-01.1',
      '7-01.2',
      '7-02',
      '7-02',
      '7-03',
    ]);
    expect(read.entries[0]?.data).toMatchObject({ name: 'Bolt; long', quantity: 2, source: 'imported table' });
    expect(imported(EMPTY_STATE, german).positions.get('7-01.2')).toMatchObject({ line: '7-01', hand: 'L' });
  });

  it('a second time changes nothing', () => {
    const state = imported(EMPTY_STATE, german);
    const again = plan(german, {}, state);
    expect([again.counts.unchanged, again.entries]).toEqual([3, []]);
  });

  it('changed says before and after, adds what is missing, takes nothing away', () => {
    const state = imported(EMPTY_STATE, german);
    const next = plan(
      'Nr;Benennung;Seite;Stk;Material\n7-01;Bolt;R;3;steel\n7-02;Nut;;;\n7-03;Shim;;1;\n7-04;Pin;;1;\n',
      {},
      imported(state, 'Nr;Benennung;Stk\n7-02;Nut;2\n'),
    );
    expect(next.rows.map((r) => [r.row, r.what, r.changes, r.positionsAdded])).toEqual([
      [
        2,
        'changed',
        [
          { what: 'name', before: 'Bolt; long', after: 'Bolt' },
          { what: 'quantity', before: '2', after: '3' },
          { what: 'material', before: '', after: 'steel' },
          { what: 'hand of 7-01.1', before: 'L', after: 'R' },
          { what: 'hand of 7-01.2', before: 'L', after: 'R' },
        ],
        ['7-01.3'],
      ],
      [3, 'unchanged', [], []],
      [4, 'changed', [{ what: 'quantity', before: '0', after: '1' }], ['7-03']],
      [5, 'new', [], ['7-04']],
    ]);
    const fewer = plan(
      'Nr;Benennung;Stk\n7-01;Bolt; \n7-02;Nut;1\n',
      {},
      imported(state, 'Nr;Benennung;Stk\n7-02;Nut;2\n'),
    );
    expect(fewer.rows[1]?.notes).toEqual(['1 more position is recorded than the list says; none is taken away']);
  });

  it('what one program calls a formula, a page or a date stays text', () => {
    const text = 'id,name,note\n=1+1,<b>Bolt</b>,"=HYPERLINK(""http://x"")"\n7-02,2025-09-15,@SUM(A1)\n';
    const state = imported(EMPTY_STATE, text);
    expect([...state.lines.values()].map((l) => [l.line, l.name, l.note])).toEqual([
      ['=1+1', '<b>Bolt</b>', '=HYPERLINK("http://x")'],
      ['7-02', '2025-09-15', '@SUM(A1)'],
    ]);
    // Our own export marks such cells, and reads its own marks back.
    expect(partsTable(state)).toMatch(/'=1\+1/);
    expect(plan(partsTable(state), {}, state).counts.unchanged).toBe(2);
  });

  it.each([
    ['CSV_ROW', german.replace('links', 'oben'), 'row 2, Seite'],
    ['CSV_ROW', 'id,name\na,x\na,y\n', 'row 3, id'],
    ['CSV_ROW', 'id,name,quantity\na,x,1.5\n', 'row 2, quantity'],
    ['CSV_ROW', 'id;name;quantity\na;x;1,5\n', 'row 2, quantity'],
    ['CSV_ROW', 'id;name;quantity\na;x;1.000\n', 'row 2, quantity'],
    ['CSV_ROW', 'id,name,quantity\na,x,1,5\n', 'row 2'],
    ['CSV_ROW', 'id,name\n,x\n', 'row 2, id'],
    ['CSV_ROW', '\n\nid,name\nb,y\n\na,\n', 'row 6, name'],
    ['CSV_ROW', 'id,name,qty\na.1,x,1\na,y,2\n', 'row 3, id'],
    ['CSV_ROW', 'id,name\n"a\nb",x\n', 'row 2, id'],
    ['CSV_ROW', `id,name\n${'a'.repeat(121)},x\n`, 'row 2, id'],
    ['CSV_COLUMN', 'a,b\n1,2\n', 'id'],
  ])('refuses with %s the row of %j', (code, csv, where) => {
    const got = partsDrafts(EMPTY_STATE, plan(csv), { skipRefused: false, stamp });
    expect(got).toMatchObject({ ok: false, problem: { code, where } });
  });

  it('that is no CSV gives CSV_SHAPE and the row', () => {
    expect(csvRows('id,name\na,"x\n')).toMatchObject({ ok: false, problem: { code: 'CSV_SHAPE' } });
  });

  it('with refused rows is taken in when the person leaves those out', () => {
    const text = 'id,name,qty\na,x,1\nb,,1\nc,z,half\n';
    expect(plan(text).counts).toEqual({ new: 1, changed: 0, unchanged: 0, refused: 2 });
    expect([...imported(EMPTY_STATE, text, {}, true).lines.keys()]).toEqual(['a']);
    const whole = partsDrafts(EMPTY_STATE, plan(text), { skipRefused: false, stamp });
    expect(whole).toMatchObject({ problem: { message: '"b" has no name (and 1 more row is refused)' } });
  });

  it('with a line that names the separator counts its rows as the person does', () => {
    expect(plan('sep=|\nid|name\na|x\n').rows).toMatchObject([{ row: 3, id: 'a', what: 'new' }]);
  });

  it.each<[string, number | null | RegExp]>([
    ['', null],
    ['2', 2],
    ['2,0', 2],
    ['2.00', 2],
    ['2,5', /not a whole number/],
    ['2,000', /read as 2 or as 2000/],
    ['-1', /no number/],
    ['2x', /no number/],
    ['1e3', /no number/],
    ['10001', /more than 10000/],
  ])('a quantity of %j', (text, expected) => {
    const got = readQuantity(text);
    if (expected instanceof RegExp) expect(got).toMatch(expected);
    else expect(got).toBe(expected);
  });

  it('any list, imported twice, changes nothing the second time; and so does our own export of it', () => {
    const word = fc
      .string({ minLength: 1, maxLength: 12 })
      .filter((s) => s.trim() !== '' && !/[\p{Cc}\p{Cf}]/u.test(s));
    const row = fc.record({
      id: word,
      name: word,
      qty: fc.integer({ min: 0, max: 4 }),
      hand: fc.constantFrom('', 'L', 'R'),
      note: fc.oneof(fc.constant(''), word),
    });
    fc.assert(
      fc.property(fc.uniqueArray(row, { selector: (r) => r.id.trim(), maxLength: 8 }), (list) => {
        const rows = [
          ['id', 'name', 'qty', 'hand', 'note'],
          ...list.map((r) => [r.id, r.name, String(r.qty), r.hand, r.note]),
        ];
        const first = planParts(EMPTY_STATE, rows);
        const state = overlay(EMPTY_STATE, must(partsDrafts(EMPTY_STATE, first, { skipRefused: true, stamp })));
        expect(planParts(state, rows).entries).toEqual([]);
        expect(planParts(state, must(csvRows(partsTable(state)))).entries).toEqual([]);
      }),
      { numRuns: 100 },
    );
  });
});
