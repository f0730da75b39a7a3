/**
 * The certificates, read back by another implementation than the one that made them: OpenSSL as built into node. What a
 * certificate must hold: RFC 5280, sections named at each check.
 */
import { createPrivateKey, X509Certificate } from 'node:crypto';
import { once } from 'node:events';
import * as fs from 'node:fs';
import * as https from 'node:https';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import * as tls from 'node:tls';
import { beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { must } from '../../domain/result.ts';
import { backup } from '../backup.ts';
import { createShop, openShop, type ShopFolder } from '../shop-folder.ts';
import { tempFolder } from '../testing/temp.ts';
import { keptFingerprint, type ShopCertificate, shopCertificate } from './authority.ts';
import { type Issued, issueAuthority, issueLeaf, LEAF_DAYS } from './issue.ts';
import { DEFAULT_LAN_NAME, lanAddresses, readLanName } from './lan-names.ts';

const DAY = 86_400_000;
const now = new Date();
const wish = { shop: 'Invented Works', name: DEFAULT_LAN_NAME, addresses: ['192.168.7.20', '10.1.2.3'], now };

function newShop(): { shop: ShopFolder; folder: string } {
  const folder = join(tempFolder(), 'shop');
  const shop = must(createShop(folder, 'Invented Works'));
  onTestFinished(() => shop.close());
  return { shop, folder };
}

async function shake(leaf: Issued, ca: string, servername: string): Promise<string> {
  const server = https.createServer({ cert: leaf.certificate, key: leaf.key }).listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  try {
    return await new Promise<string>((done) => {
      const socket = tls.connect({ port, host: '127.0.0.1', servername, ca }, () => {
        done('trusted');
        socket.end();
      });
      socket.once('error', (e: NodeJS.ErrnoException) => done(e.message));
    });
  } finally {
    server.close();
  }
}

describe('the two certificates', () => {
  let made: ShopCertificate;
  let ca: X509Certificate;
  let leaf: X509Certificate;
  beforeAll(async () => {
    const folder = fs.mkdtempSync(join(tmpdir(), 'witnessmark-ca-'));
    const shop = must(createShop(join(folder, 'shop'), 'Invented Works'));
    made = await shopCertificate(shop.vault, wish);
    shop.close();
    fs.rmSync(folder, { recursive: true });
    ca = new X509Certificate(made.authority);
    leaf = new X509Certificate(made.certificate);
  });

  it('the authority is one, for ten years, and signs the server’s certificate', () => {
    expect(ca.ca).toBe(true); // RFC 5280 4.2.1.9
    expect(ca.verify(ca.publicKey)).toBe(true);
    expect(leaf.verify(ca.publicKey)).toBe(true);
    expect(leaf.checkIssued(ca)).toBe(true);
    expect(leaf.ca).toBe(false);
    const years = (Date.parse(ca.validTo) - now.getTime()) / (365.25 * DAY);
    expect(Math.round(years)).toBe(10);
    expect(ca.publicKey.asymmetricKeyDetails?.namedCurve).toBe('prime256v1'); // P-256 by its X9.62 name, RFC 5480 2.1.1.1
  });

  it('the server’s certificate names the shop and its addresses, and lasts 397 days at most', () => {
    expect(leaf.checkHost(DEFAULT_LAN_NAME)).toBe(DEFAULT_LAN_NAME);
    expect(['192.168.7.20', '10.1.2.3', '127.0.0.1'].map((a) => leaf.checkIP(a))).toEqual([
      '192.168.7.20',
      '10.1.2.3',
      '127.0.0.1',
    ]);
    expect(leaf.checkHost('elsewhere.local')).toBeUndefined();
    const days = (Date.parse(leaf.validTo) - Date.parse(leaf.validFrom)) / DAY;
    expect(days).toBeLessThanOrEqual(LEAF_DAYS);
    expect(days).toBeGreaterThan(LEAF_DAYS - 1);
    expect(leaf.keyUsage).toEqual(['1.3.6.1.5.5.7.3.1']); // serverAuth, RFC 5280 4.2.1.12
    expect(leaf.checkPrivateKey(createPrivateKey(made.key))).toBe(true);
    expect(made.fingerprint).toBe(ca.fingerprint256);
  });

  it('OpenSSL trusts it by the authority alone', async () => {
    expect(await shake(made, made.authority, DEFAULT_LAN_NAME)).toBe('trusted');
    const other = await issueAuthority('Another shop', now);
    expect(await shake(made, other.certificate, DEFAULT_LAN_NAME)).not.toBe('trusted');
  });
});

describe('what a stolen authority cannot do', () => {
  it('vouch for a public name (name constraints, RFC 5280 4.2.1.10)', async () => {
    const ca = await issueAuthority('Invented Works', now);
    expect(await shake(await issueLeaf(ca, ['witnessmark.local'], now), ca.certificate, 'witnessmark.local')).toBe(
      'trusted',
    );
    expect(await shake(await issueLeaf(ca, ['www.example.com'], now), ca.certificate, 'www.example.com')).toBe(
      'permitted subtree violation',
    );
  });

  it('says pathlen 0, name constraints and serverAuth in its own bytes', async () => {
    const der = new X509Certificate((await issueAuthority('Invented Works', now)).certificate).raw.toString('hex');
    expect(der).toContain('30060101ff020100'); // BasicConstraints { cA TRUE, pathLen 0 } in DER, RFC 5280 4.2.1.9
    expect(der).toContain('0603551d1e0101ff'); // id-ce-nameConstraints 2.5.29.30, critical
  });
});

describe('keeping and renewing', () => {
  it('the same authority and certificate stand until something changes', async () => {
    const { shop, folder } = newShop();
    expect(keptFingerprint(shop.vault)).toBeNull();
    const first = await shopCertificate(shop.vault, wish);
    const again = must(openShop(folder));
    expect(await shopCertificate(again.vault, wish)).toEqual(first);
    expect(keptFingerprint(again.vault)).toBe(first.fingerprint);
    again.close();
  });

  it('another address, another name or a near end give a new certificate by the same authority', async () => {
    const { shop } = newShop();
    const first = await shopCertificate(shop.vault, wish);
    const seen = [first.certificate];
    const later = new Date(now.getTime() + (LEAF_DAYS - 1 - 29) * DAY);
    for (const change of [{ addresses: ['192.168.7.21'] }, { name: 'hangar.home.arpa' }, { now: later }]) {
      const next = await shopCertificate(shop.vault, { ...wish, ...change });
      expect(next.fingerprint).toBe(first.fingerprint);
      expect(seen).not.toContain(next.certificate);
      seen.push(next.certificate);
    }
    const moved = new X509Certificate(seen[1] ?? '');
    expect([moved.checkIP('192.168.7.21'), moved.checkIP('192.168.7.20')]).toEqual(['192.168.7.21', undefined]);
  });

  it('an authority that has ended is made anew', async () => {
    const { shop } = newShop();
    const first = await shopCertificate(shop.vault, wish);
    const late = await shopCertificate(shop.vault, { ...wish, now: new Date(now.getTime() + 3_700 * DAY) });
    expect(late.fingerprint).not.toBe(first.fingerprint);
  });
});

describe('secrets stay in shop.db', () => {
  it('no key is in a job folder or in a backup of a job', async () => {
    const { shop, folder } = newShop();
    must(shop.createJob('qx-ola')).close();
    const made = await shopCertificate(shop.vault, wish);
    const file = join(folder, '..', 'qx.backup');
    must(await backup(shop.jobPath('qx-ola'), file));
    const secrets = [made.key, shop.vault.get('ca-key') ?? ''].map((pem) => pem.split('\n')[1] ?? '');
    expect(secrets.every((s) => s.length === 64)).toBe(true);
    const held = (path: string): boolean => secrets.some((s) => fs.readFileSync(path).includes(s));
    const inJobs = fs
      .readdirSync(join(folder, 'jobs'), { recursive: true, withFileTypes: true })
      .filter((e) => e.isFile())
      .map((e) => join(e.parentPath, e.name));
    expect(inJobs.length).toBeGreaterThan(2);
    expect([...inJobs, file].filter(held)).toEqual([]);
    const inShop = fs.readdirSync(folder).filter((n) => n.startsWith('shop.db') && held(join(folder, n)));
    expect(inShop.length).toBeGreaterThan(0);
  });
});

describe('names and addresses', () => {
  it.each(['witnessmark.local', 'Hangar-7.home.arpa', 'a.b.internal'])('%s is a name of a shop', (name) => {
    expect(readLanName(name)).toEqual({ ok: true, value: name.toLowerCase() });
  });

  it.each(['local', 'example.com', 'a_b.local', '.local', '-a.local', `${'a'.repeat(100)}.local`, '192.168.1.5'])(
    '%s is none: LAN_NAME',
    (name) => expect(readLanName(name)).toMatchObject({ ok: false, problem: { code: 'LAN_NAME' } }),
  );

  it('addresses of containers and of the machine itself are left out', () => {
    const one = (address: string, internal = false) => [
      { address, cidr: `${address}/24`, family: 'IPv4' as const, internal, mac: '', netmask: '' },
    ];
    expect(
      lanAddresses({ lo: one('127.0.0.1', true), docker0: one('172.17.0.1'), wlan0: one('192.168.7.20') }),
    ).toEqual([{ address: '192.168.7.20', cidr: '192.168.7.20/24' }]);
  });
});
