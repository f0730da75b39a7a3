import { describe, expect, it } from 'vitest';
import { must } from '../domain/result.ts';
import { readPartsTable } from './parts-table.ts';

describe('a parts list from somebody else', () => {
  const text = 'Nr;Benennung;Seite;Stk\n7-01;"Bolt; long";links;2\n7-02;Nut;;\n7-03;Shim;R;0\n';
  const map = { id: 'Nr', name: 'Benennung', hand: 'Seite', quantity: 'Stk' };

  it('becomes lines and positions', () => {
    const read = must(readPartsTable(text.replace('links', 'port'), map));
    expect([read.lines, read.positions]).toEqual([3, 3]);
    expect(read.entries.map((e) => e.data.position ?? e.data.line)).toEqual([
      '7-01',
      '7-01.1',
      '7-01.2',
      '7-02',
      '7-02',
      '7-03',
    ]);
    expect(read.entries[0]?.data).toMatchObject({ name: 'Bolt; long', quantity: 2 });
  });

  it.each([
    ['CSV_ROW', text, map, 'row 2, Seite'],
    ['CSV_COLUMN', text, { id: 'Nr' }, 'name'],
    ['CSV_COLUMN', text, { ...map, note: 'Bemerkung' }, 'Bemerkung'],
    ['CSV_ROW', 'id,name\na,x\na,y\n', {}, 'row 3, id'],
    ['CSV_ROW', 'id,name,quantity\na,x,1.5\n', {}, 'row 2, quantity'],
    ['CSV_ROW', 'id,name\n,x\n', {}, 'row 2, id'],
    ['CSV_SHAPE', 'id,name\na,"x\n', {}, 'row 2'],
  ])('refuses with %s and the row', (code, csv, columns, where) => {
    expect(readPartsTable(csv, columns)).toMatchObject({ ok: false, problem: { code, where } });
  });
});
