import * as fs from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { must } from '../domain/result.ts';
import { createShop, isShopFolder, openShop } from './shop-folder.ts';
import { STORE_PROBLEMS } from './store-problems.ts';
import { tempFolder } from './testing/temp.ts';

describe('shop folder', () => {
  it('keeps people and devices; noting again replaces', () => {
    const folder = join(tempFolder(), 'shop');
    const shop = must(createShop(folder, 'Invented Works'));
    must(shop.notePerson({ person: 'ana', name: 'Ana', role: 'apprentice' }));
    must(shop.notePerson({ person: 'ana', name: 'Ana', role: 'lead' }));
    must(shop.noteDevice({ device: 'tablet', name: 'Floor tablet' }));
    shop.close();
    const again = must(openShop(folder));
    expect(again.name).toBe('Invented Works');
    expect(again.people()).toEqual([{ person: 'ana', name: 'Ana', role: 'lead' }]);
    expect(again.devices()).toEqual([{ device: 'tablet', name: 'Floor tablet' }]);
    expect(again.notePerson({ person: 'ben', name: '' })).toMatchObject({ ok: false, problem: { code: 'ENTRY_DATA' } });
    again.close();
  });

  it('makes, lists and opens jobs as folders that can be handed over', () => {
    const folder = join(tempFolder(), 'shop');
    const shop = must(createShop(folder, 'Invented Works'));
    must(shop.createJob('qx-ola')).close();
    must(shop.createJob('donor')).close();
    expect(shop.jobs()).toEqual(['donor', 'qx-ola']);
    expect(fs.existsSync(join(folder, 'jobs', 'qx-ola.job', 'journal.db'))).toBe(true);
    must(shop.openJob('qx-ola')).close();
    expect(shop.createJob('qx-ola')).toMatchObject({ ok: false, problem: { code: 'JOB_EXISTS' } });
    expect(shop.createJob('../elsewhere')).toMatchObject({ ok: false, problem: { where: 'name' } });
    expect(shop.openJob('nowhere')).toMatchObject({ ok: false, problem: { code: 'JOB_NOT_FOUND' } });
    shop.close();
  });

  it('is not made twice, and a newer one is said to be newer', () => {
    const folder = join(tempFolder(), 'shop');
    expect(openShop(folder)).toMatchObject({ ok: false, problem: { code: 'SHOP_NOT_FOUND' } });
    must(createShop(folder, 'A')).close();
    expect(isShopFolder(folder)).toBe(true);
    expect(createShop(folder, 'B')).toMatchObject({ ok: false, problem: { code: 'JOB_EXISTS' } });
    const db = new Database(join(folder, 'shop.db'));
    db.pragma('user_version = 9');
    db.close();
    expect(openShop(folder)).toMatchObject({ ok: false, problem: { message: expect.stringContaining('newer') } });
  });

  it('every code of the disk has a remedy', () => {
    for (const [code, kind] of Object.entries(STORE_PROBLEMS)) expect(kind.remedy.length, code).toBeGreaterThan(10);
  });
});
