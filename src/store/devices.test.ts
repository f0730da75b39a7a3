import * as fs from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it, onTestFinished } from 'vitest';
import { must } from '../domain/result.ts';
import { CODE_LETTERS, type PairingWish } from './devices.ts';
import { createShop, openShop, type ShopFolder } from './shop-folder.ts';
import { tempFolder } from './testing/temp.ts';

const T0 = '2026-03-02T09:00:00.000+01:00';
const minutesOn = (minutes: number): string => new Date(Date.parse(T0) + minutes * 60_000).toISOString();

function newShop(): { shop: ShopFolder; folder: string } {
  const folder = join(tempFolder(), 'shop');
  const shop = must(createShop(folder, 'Invented Works'));
  onTestFinished(() => shop.close());
  return { shop, folder };
}

const wish = (code: string, at = T0): PairingWish => ({ code, name: 'Floor tablet', over: 'tls', origin: null, at });

describe('pairing codes', () => {
  it('have letters that nobody mixes up, in two groups', () => {
    const { shop } = newShop();
    const { code, endsAt } = must(shop.register.makeCode(T0));
    expect(code).toMatch(new RegExp(`^[${CODE_LETTERS}]{4}-[${CODE_LETTERS}]{4}$`));
    expect(CODE_LETTERS).not.toMatch(/[IOLU01]/);
    expect(Date.parse(endsAt) - Date.parse(T0)).toBe(600_000);
  });

  it('work once, however they are typed', () => {
    const { shop } = newShop();
    const { code } = must(shop.register.makeCode(T0));
    const typed = ` ${code.toLowerCase().replace('-', ' ')}`;
    const paired = must(shop.register.pair(wish(typed, minutesOn(9))));
    expect(paired.device).toMatchObject({ name: 'Floor tablet', over: 'tls', revokedAt: null });
    expect(shop.devices()).toEqual([{ device: paired.device.id, name: 'Floor tablet' }]);
    expect(shop.register.pair(wish(code, minutesOn(9)))).toMatchObject({ problem: { code: 'PAIRING_CODE_UNKNOWN' } });
  });

  it('do not work when old, wrong or cut', () => {
    const { shop } = newShop();
    const { code } = must(shop.register.makeCode(T0));
    for (const other of ['', 'ABCD-EFGH', code.slice(0, -1)])
      expect(shop.register.pair(wish(other))).toMatchObject({ problem: { code: 'PAIRING_CODE_UNKNOWN' } });
    expect(shop.register.pair(wish(code, minutesOn(10)))).toMatchObject({ problem: { code: 'PAIRING_CODE_UNKNOWN' } });
    expect(shop.register.list()).toEqual([]);
  });

  it('are not used up by a name that cannot be taken', () => {
    const { shop } = newShop();
    const { code } = must(shop.register.makeCode(T0));
    for (const name of [' ', 'x'.repeat(61)])
      expect(shop.register.pair({ ...wish(code), name })).toMatchObject({ problem: { code: 'DEVICE_NAME' } });
    must(shop.register.pair(wish(code)));
  });
});

describe('tokens', () => {
  function paired(shop: ShopFolder) {
    return must(shop.register.pair(wish(must(shop.register.makeCode(T0)).code)));
  }

  it('open the door they were given at, and no other', () => {
    const { shop } = newShop();
    const { token, device } = paired(shop);
    expect(shop.register.find(token, 'tls', T0)?.id).toBe(device.id);
    expect(shop.register.find(token, 'plain', T0)).toBeNull();
    expect(shop.register.find(`${token}x`, 'tls', T0)).toBeNull();
  });

  it('and codes are in shop.db only as hashes', () => {
    const { shop, folder } = newShop();
    const { code } = must(shop.register.makeCode(T0));
    const { token } = paired(shop);
    const bytes = Buffer.concat(
      fs
        .readdirSync(folder, { withFileTypes: true })
        .filter((e) => e.isFile())
        .map((e) => fs.readFileSync(join(folder, e.name))),
    );
    expect(bytes.length).toBeGreaterThan(1_000);
    expect([token, code, code.replace('-', '')].some((secret) => bytes.includes(secret))).toBe(false);
  });

  it('when last seen is noted, once a minute at most', () => {
    const { shop } = newShop();
    const { token } = paired(shop);
    for (const m of [1, 1.5, 3]) shop.register.find(token, 'tls', minutesOn(m));
    expect(shop.register.list()[0]?.lastSeen).toBe(minutesOn(3));
    shop.register.find(token, 'tls', minutesOn(3.5));
    expect(shop.register.list()[0]?.lastSeen).toBe(minutesOn(3));
  });

  it('of a device shut out stay known as shut out, also to another program', () => {
    const { shop, folder } = newShop();
    const { token, device } = paired(shop);
    const other = must(openShop(folder));
    expect(must(other.register.revoke(device.id, minutesOn(5))).revokedAt).toBe(minutesOn(5));
    expect(must(other.register.revoke(device.id, minutesOn(6))).revokedAt).toBe(minutesOn(5));
    other.close();
    expect(shop.register.isAdmitted(device.id)).toBe(false);
    expect(shop.register.find(token, 'tls', minutesOn(5))?.revokedAt).toBe(minutesOn(5));
    expect(shop.register.revoke('device-none', T0)).toMatchObject({ problem: { code: 'DEVICE_NOT_FOUND' } });
  });

  it('bring the origin of their page with them until they are shut out', () => {
    const { shop } = newShop();
    const { code } = must(shop.register.makeCode(T0));
    const { device } = must(shop.register.pair({ ...wish(code), origin: 'https://witnessmark.local:4379' }));
    expect(shop.register.origins()).toEqual(['https://witnessmark.local:4379']);
    must(shop.register.revoke(device.id, T0));
    expect(shop.register.origins()).toEqual([]);
  });
});

describe('shop.db', () => {
  it('of format 1 still opens, with everything in it, and is then format 2', () => {
    const folder = tempFolder();
    fs.copyFileSync(join(import.meta.dirname, '../../fixtures/shop/format-1.db'), join(folder, 'shop.db'));
    const shop = must(openShop(folder));
    expect([shop.name, shop.people(), shop.devices()]).toEqual([
      'Invented Works',
      [{ person: 'ana', name: 'Ana', role: 'lead' }],
      [{ device: 'tablet', name: 'Floor tablet' }],
    ]);
    must(shop.register.pair(wish(must(shop.register.makeCode(T0)).code)));
    must(shop.noteServedAt({ name: 'a.local', addresses: ['10.0.0.2'], plainPort: 1, tlsPort: 2, at: T0 }));
    shop.close();
    const again = must(openShop(folder));
    expect([again.register.list().length, again.servedAt()?.tlsPort, again.vault.get('ca-key')]).toEqual([1, 2, null]);
    again.close();
    const db = new Database(join(folder, 'shop.db'));
    expect(db.pragma('user_version', { simple: true })).toBe(2);
    db.close();
  });

  it('brought up has the same tables as one made new', () => {
    const tables = (folder: string): unknown => {
      const db = new Database(join(folder, 'shop.db'), { readonly: true });
      const rows = db.prepare('SELECT type, name, sql FROM sqlite_master ORDER BY type, name').all();
      db.close();
      return rows;
    };
    const old = tempFolder();
    fs.copyFileSync(join(import.meta.dirname, '../../fixtures/shop/format-1.db'), join(old, 'shop.db'));
    must(openShop(old)).close();
    expect(tables(old)).toEqual(tables(newShop().folder));
  });

  it.skipIf(process.platform === 'win32')('is for its owner only, also one that others could read before', () => {
    const { shop, folder } = newShop();
    must(shop.register.makeCode(T0));
    const modes = (at: string): number[] =>
      fs
        .readdirSync(at)
        .filter((n) => n.startsWith('shop.db'))
        .map((n) => fs.statSync(join(at, n)).mode & 0o777);
    expect(modes(folder)).toEqual(modes(folder).map(() => 0o600));
    const old = tempFolder();
    fs.copyFileSync(join(import.meta.dirname, '../../fixtures/shop/format-1.db'), join(old, 'shop.db'));
    fs.chmodSync(join(old, 'shop.db'), 0o644);
    must(openShop(old)).close();
    expect(modes(old)[0]).toBe(0o600);
  });
});
