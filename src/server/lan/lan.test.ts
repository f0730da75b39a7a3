/** The doors to the shop's network on a real shop folder, over real sockets where it matters: pairing, shutting out, TLS. */
import { X509Certificate } from 'node:crypto';
import { once } from 'node:events';
import * as fs from 'node:fs';
import * as http from 'node:http';
import * as https from 'node:https';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import * as tls from 'node:tls';
import type { FastifyInstance } from 'fastify';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { must } from '../../domain/result.ts';
import { decide, EMPTY_STATE, recording } from '../../journal/index.ts';
import { createShop, type JobFolder, openShop, type ShopFolder, systemIds } from '../../store/index.ts';
import { HostedJob } from '../hosted-job.ts';
import { deskInPlace } from '../plan-desk.ts';
import { createServer } from '../server.ts';
import { LanDesk } from './lan-desk.ts';
import { isNear } from './near.ts';
import { OPEN_PATHS } from './network-gate.ts';
import { type OpenDoors, openDoors } from './open-doors.ts';
import { WRONG_IN_ALL, WRONG_PER_ADDRESS } from './pairing-limits.ts';
import { DAY_COLOURS, NIGHT_COLOURS } from './pairing-page.ts';

const ids = systemIds();
let ms = Date.now();
const clock = { now: () => new Date(ms).toISOString() };
let folder: string;
let shop: ShopFolder;
let job: JobFolder;
let hosted: HostedJob;
let desk: LanDesk;
let doors: OpenDoors;
let here: FastifyInstance;
let addresses = [{ address: '192.168.7.20', cidr: '192.168.7.20/24' }];

beforeEach(async () => {
  ms = Date.now();
  addresses = [{ address: '192.168.7.20', cidr: '192.168.7.20/24' }];
  folder = fs.mkdtempSync(join(tmpdir(), 'witnessmark-lan-'));
  shop = must(createShop(join(folder, 'shop'), 'Invented <Works>'));
  job = must(shop.createJob('try'));
  hosted = must(await HostedJob.open({ id: 'try', journal: job.journal, photographs: job.photographs }));
  const page = join(folder, 'page');
  fs.mkdirSync(join(page, 'assets'), { recursive: true });
  for (const f of ['index.html', 'assets/main-12345678.js', 'manifest.webmanifest', 'sw.js'])
    fs.writeFileSync(join(page, f), `the page itself ${f}`);
  const setup = { jobs: [hosted], clock, ids, plans: deskInPlace(), page };
  desk = new LanDesk(shop, '9.9.9');
  here = await createServer({ ...setup, door: { kind: 'this-machine', desk } });
  doors = await openDoors(setup, desk, {
    name: 'witnessmark.local',
    plainPort: 0,
    tlsPort: 0,
    addresses: () => addresses,
  });
});

afterEach(async () => {
  await doors.close();
  await here.close();
  job.close();
  shop.close();
  fs.rmSync(folder, { recursive: true, force: true });
});

type Over = 'plain' | 'tls';
const hostOf = (over: Over): string =>
  `witnessmark.local:${over === 'tls' ? desk.place?.tlsPort : desk.place?.plainPort}`;
const originOf = (over: Over): string => `${over === 'tls' ? 'https' : 'http'}://${hostOf(over)}`;

interface Asking {
  readonly method?: 'GET' | 'POST' | 'OPTIONS' | 'HEAD' | 'PUT';
  readonly headers?: Record<string, string>;
  readonly body?: unknown;
  readonly remote?: string;
}

function ask(over: Over, url: string, a: Asking = {}) {
  return doors[over].inject({
    method: a.method ?? 'GET',
    url,
    remoteAddress: a.remote ?? '192.168.7.31',
    headers: { host: hostOf(over), ...(a.body !== undefined && { 'content-type': 'application/json' }), ...a.headers },
    ...(a.body !== undefined && { payload: JSON.stringify(a.body) }),
  });
}

const askHere = (method: 'GET' | 'POST', url: string) =>
  here.inject({ method, url, headers: { host: 'localhost:4377' } });

const code = (): string => must(shop.register.makeCode(clock.now())).code;

async function pair(over: Over, a: Asking = {}): Promise<{ id: string; token: string; cookie: string }> {
  const reply = await ask(over, '/pair', { method: 'POST', body: { code: code(), name: 'Floor tablet' }, ...a });
  expect(reply.statusCode).toBe(201);
  const told = reply.json() as { device: { id: string }; token: string };
  return { id: told.device.id, token: told.token, cookie: String(reply.headers['set-cookie']) };
}

const bearer = (token: string) => ({ authorization: `Bearer ${token}` });

function openingOf(device: string) {
  const drafts = must(
    decide(EMPTY_STATE, recording('job-opened', { job: 'try', name: 'A try' }), {
      id: ids.next(),
      at: clock.now(),
      by: 'nadia',
      device,
    }),
  );
  return drafts.map((d) => ({ body: d.body, digest: d.digest }));
}

describe('before pairing', () => {
  it('every route and file there is answers NOT_PAIRED, but the open three', async () => {
    const routes = routesOf(doors.tls);
    expect(routes.map((r) => r.url)).toEqual(
      expect.arrayContaining([
        '/api/jobs/try/follow',
        '/api/jobs/try/photos/x/x',
        '/assets/main-12345678.js',
        '/sw.js',
      ]),
    );
    for (const over of ['plain', 'tls'] as const)
      for (const { method, url } of routes) {
        if (OPEN_PATHS.includes(url)) continue;
        const reply = await ask(over, url, { method, ...(method === 'POST' && { body: {} }) });
        expect([method, url, reply.statusCode]).toEqual([method, url, 401]);
        expect(reply.body).not.toContain('the page itself');
        if (method !== 'HEAD') expect(reply.json()).toMatchObject({ code: 'NOT_PAIRED', remedy: expect.any(String) });
      }
    expect((await ask('tls', '/anything/else')).statusCode).toBe(401);
    expect((await ask('tls', '/pair', { method: 'PUT', body: {} })).statusCode).toBe(401);
    expect((await ask('tls', '/api/../pair/../api/jobs')).statusCode).toBe(401);
  });

  it('the open paths are the page, its script, the certificate and taking a code', () => {
    const open = routesOf(doors.plain).filter((r) => OPEN_PATHS.includes(r.url));
    expect(open.map((r) => `${r.method} ${r.url}`).sort()).toEqual([
      'GET /ca.crt',
      'GET /pair',
      'GET /pair.js',
      'HEAD /ca.crt',
      'HEAD /pair',
      'HEAD /pair.js',
      'POST /pair',
    ]);
  });

  it('a browser is led to the pairing page; a request of a program is not', async () => {
    const reply = await ask('plain', '/jobs/try', { headers: { accept: 'text/html' } });
    expect([reply.statusCode, reply.headers.location]).toEqual([302, '/pair']);
    expect((await ask('plain', '/api/jobs', { headers: { accept: 'text/html' } })).statusCode).toBe(401);
  });

  it('the page carries the fingerprint, the caution and no name unescaped', async () => {
    const reply = await ask('plain', '/pair');
    expect(reply.body).toContain('Invented &lt;Works&gt;');
    expect(reply.body.replaceAll('<wbr>', '')).toContain(
      new X509Certificate(desk.place?.certificate.authority ?? '').fingerprint256,
    );
    expect(reply.body).toContain('Do this only in the shop');
    expect(reply.body).toContain(`https://witnessmark.local:${desk.place?.tlsPort}/pair`);
    expect(reply.body.replace(/<style>.*<\/style>/s, '')).not.toMatch(/\b(safe|error|invalid|please)\b/i);
    expect(reply.headers['content-security-policy']).toContain("script-src 'self'");
    // Otherwise browsers send the form with `Origin: null`, which is refused.
    expect(reply.headers['referrer-policy']).toBe('same-origin');
  });

  it('the page has the colours of the program', () => {
    const tokens = fs.readFileSync(join(import.meta.dirname, '../../web/look/tokens.css'), 'utf8');
    const [day = '', night = ''] = tokens.slice(tokens.indexOf(':root {')).split(':root[data-theme="night"]');
    for (const [name, value] of Object.entries(DAY_COLOURS)) expect(day).toContain(`--${name}: ${value};`);
    for (const [name, value] of Object.entries(NIGHT_COLOURS)) expect(night).toContain(`--${name}: ${value};`);
  });

  it('asking on and on is answered shortly: PAIRING_TOO_OFTEN', async () => {
    let last = 0;
    for (let n = 0; n < 301; n += 1) last = (await ask('plain', '/api/jobs')).statusCode;
    expect(last).toBe(429);
    expect((await ask('plain', '/api/jobs', { remote: '192.168.7.99' })).statusCode).toBe(401);
  });
});

describe('pairing', () => {
  it('gives a token once and a cookie; over TLS a Secure one bound to the host, plainly none', async () => {
    const locked = await pair('tls');
    expect(locked.cookie).toMatch(
      /^__Host-witnessmark=[\w-]{43}; Max-Age=\d+; Path=\/; HttpOnly; Secure; SameSite=Strict$/,
    );
    const plain = await pair('plain');
    expect(plain.cookie).toMatch(/^witnessmark=[\w-]{43}; Max-Age=\d+; Path=\/; HttpOnly; SameSite=Strict$/);
    for (const [over, c] of [
      ['tls', locked.cookie],
      ['plain', plain.cookie],
    ] as const) {
      const cookie = c.split(';')[0] ?? '';
      expect((await ask(over, '/api/jobs', { headers: { cookie } })).statusCode).toBe(200);
      expect((await ask(over, '/jobs/try', { headers: { cookie } })).body).toContain('the page itself');
    }
    expect((await ask('tls', '/api/jobs', { headers: bearer(locked.token) })).statusCode).toBe(200);
    expect((await ask('tls', '/api/jobs', { headers: bearer(plain.token) })).json()).toMatchObject({
      code: 'NOT_PAIRED',
    });
    expect(
      (await ask('tls', '/api/jobs', { headers: { 'strict-transport-security': '' } })).headers,
    ).not.toHaveProperty('strict-transport-security');
  });

  it('a code works once; an old one and a wrong one do not', async () => {
    const one = code();
    const old = code();
    const post = (c: string) => ask('tls', '/pair', { method: 'POST', body: { code: c, name: 'Phone' } });
    expect((await post(one)).statusCode).toBe(201);
    expect((await post(one)).json()).toMatchObject({ code: 'PAIRING_CODE_UNKNOWN', status: 403 });
    ms += 10 * 60_000;
    expect((await post(old)).json()).toMatchObject({ code: 'PAIRING_CODE_UNKNOWN' });
    expect((await post('AAAA-AAAA')).json()).toMatchObject({ code: 'PAIRING_CODE_UNKNOWN' });
  });

  it('five wrong codes hold an address for ten minutes, at both doors, also with the right one', async () => {
    const post = (over: Over, c: string, remote: string) =>
      ask(over, '/pair', { method: 'POST', body: { code: c, name: 'Phone' }, remote });
    for (let n = 0; n < WRONG_PER_ADDRESS; n += 1) await post(n % 2 ? 'tls' : 'plain', 'AAAA-AAAA', '192.168.7.66');
    expect((await post('tls', code(), '192.168.7.66')).json()).toMatchObject({
      code: 'PAIRING_TOO_OFTEN',
      status: 429,
    });
    expect((await post('tls', code(), '192.168.7.67')).statusCode).toBe(201);
    ms += 10 * 60_000;
    expect((await post('tls', code(), '192.168.7.66')).statusCode).toBe(201);
  });

  it('forty wrong codes from anywhere hold everybody', async () => {
    const post = (c: string, remote: string) =>
      ask('plain', '/pair', { method: 'POST', body: { code: c, name: 'Phone' }, remote });
    for (let n = 0; n < WRONG_IN_ALL; n += 1) await post('AAAA-AAAA', `192.168.8.${n}`);
    expect((await post(code(), '192.168.7.5')).json()).toMatchObject({ code: 'PAIRING_TOO_OFTEN' });
  });

  it('works as a bare form, and says on the page what does not fit', async () => {
    const post = (c: string) =>
      doors.plain.inject({
        method: 'POST',
        url: '/pair',
        headers: { host: hostOf('plain'), 'content-type': 'application/x-www-form-urlencoded' },
        payload: new URLSearchParams({ code: c, name: 'Old phone' }).toString(),
      });
    const wrong = await post('AAAA-AAAA');
    expect([wrong.statusCode, wrong.body.includes('role="alert"')]).toEqual([403, true]);
    const right = await post(code());
    expect([right.statusCode, right.headers.location]).toEqual([303, '/']);
    expect(right.headers['set-cookie']).toBeDefined();
  });

  it('from another site is refused', async () => {
    for (const headers of [{ origin: 'https://evil.example' }, { 'sec-fetch-site': 'cross-site' }] as const) {
      const reply = await ask('tls', '/pair', { method: 'POST', body: { code: code(), name: 'x' }, headers });
      expect(reply.json()).toMatchObject({ code: 'OTHER_ORIGIN' });
    }
    expect((await ask('tls', '/pair', { headers: { host: 'evil.example' } })).statusCode).toBe(403);
  });
});

describe('a paired device', () => {
  it('is noted in a job when it first records there, once, and what it sent is what it gets back', async () => {
    const { token, id } = await pair('tls');
    const sent = openingOf(id);
    const reply = await ask('tls', '/api/jobs/try/entries', { method: 'POST', body: sent, headers: bearer(token) });
    expect((reply.json() as { digest: string }[]).map((e) => e.digest)).toEqual(sent.map((d) => d.digest));
    const command = {
      command: { kind: 'record', entry: 'note', data: { text: 'seen' } },
      by: 'nadia',
      device: 'made-up',
    };
    const noted = await ask('tls', '/api/jobs/try/commands', { method: 'POST', body: command, headers: bearer(token) });
    expect(noted.json()).toMatchObject([{ seq: 3 }]);
    expect(JSON.parse((noted.json() as { body: string }[])[0]?.body ?? '')).toMatchObject({ device: id });
    expect(hosted.state.devices.get(id)).toMatchObject({ device: id, name: 'Floor tablet' });
    expect(hosted.state.head.seq).toBe(3);
  });

  it('learns the shop’s time, addresses and version', async () => {
    const { token, id } = await pair('tls');
    expect((await ask('tls', '/api/shop/hello', { headers: bearer(token) })).json()).toEqual({
      shop: 'Invented <Works>',
      time: clock.now(),
      addresses: {
        tls: [`https://witnessmark.local:${desk.place?.tlsPort}`, `https://192.168.7.20:${desk.place?.tlsPort}`],
        plain: [`http://192.168.7.20:${desk.place?.plainPort}`, `http://witnessmark.local:${desk.place?.plainPort}`],
      },
      version: '9.9.9',
      device: { id, name: 'Floor tablet' },
      door: 'tls',
    });
  });

  it('can neither list devices, nor make codes, nor shut others out', async () => {
    const { token, id } = await pair('tls');
    const tries = [
      ['GET', '/api/shop/devices'],
      ['POST', '/api/shop/pairing-codes'],
      ['POST', `/api/shop/devices/${id}/revoke`],
    ] as const;
    for (const [method, url] of tries)
      expect((await ask('tls', url, { method, headers: bearer(token) })).json()).toMatchObject({
        code: 'NO_SUCH_PLACE',
      });
  });
});

describe('another address of the same shop', () => {
  const post = (origin: string, headers: Record<string, string>) =>
    ask('tls', '/api/jobs/try/entries', {
      method: 'POST',
      body: openingOf('phone'),
      headers: { host: `192.168.7.20:${desk.place?.tlsPort}`, origin, 'sec-fetch-site': 'cross-site', ...headers },
    });
  const preflight = (origin: string) =>
    ask('tls', '/api/jobs/try/entries', {
      method: 'OPTIONS',
      headers: {
        host: `192.168.7.20:${desk.place?.tlsPort}`,
        origin,
        'access-control-request-method': 'POST',
        'access-control-request-headers': 'authorization,content-type',
      },
    });

  it('may be synced with, with the token and never with the cookie', async () => {
    const { token, cookie } = await pair('tls');
    const ours = originOf('tls');
    const before = await preflight(ours);
    expect([before.statusCode, before.headers['access-control-allow-origin']]).toEqual([204, ours]);
    expect(before.headers['access-control-allow-headers']).toContain('authorization');
    expect(before.headers).not.toHaveProperty('access-control-allow-credentials');
    const sent = await post(ours, bearer(token));
    expect([sent.statusCode, sent.headers['access-control-allow-origin']]).toEqual([201, ours]);
    expect(sent.headers).not.toHaveProperty('access-control-allow-credentials');
    expect((await post(ours, { cookie: cookie.split(';')[0] ?? '' })).json()).toMatchObject({ code: 'NOT_PAIRED' });
  });

  it('also from the address at which the page was paired once and the shop is no longer', async () => {
    const old = `https://192.168.7.20:${desk.place?.tlsPort}`;
    const { token, id } = await pair('tls', {
      headers: { host: `192.168.7.20:${desk.place?.tlsPort}`, origin: old },
    });
    addresses = [{ address: '10.0.0.9', cidr: '10.0.0.9/24' }];
    await doors.lookAgain();
    expect(desk.hostNames()).not.toContain('192.168.7.20');
    const host = { host: `10.0.0.9:${desk.place?.tlsPort}`, origin: old };
    expect((await ask('tls', '/api/jobs', { method: 'OPTIONS', headers: host })).statusCode).toBe(204);
    expect((await ask('tls', '/api/jobs', { headers: { ...host, ...bearer(token) } })).statusCode).toBe(200);
    must(shop.register.revoke(id, clock.now()));
    expect((await ask('tls', '/api/jobs', { method: 'OPTIONS', headers: host })).statusCode).toBe(403);
  });

  it('a stranger’s page gets no preflight, and nothing outside /api', async () => {
    expect((await preflight('https://evil.example')).json()).toMatchObject({ code: 'OTHER_ORIGIN' });
    const { token } = await pair('tls');
    const page = await ask('tls', '/', { headers: { origin: 'https://evil.example', ...bearer(token) } });
    expect(page.json()).toMatchObject({ code: 'OTHER_ORIGIN' });
  });

  it('the page of the network may connect to any https address, that of this machine only to itself', async () => {
    const { token } = await pair('tls');
    const csp = (await ask('tls', '/', { headers: bearer(token) })).headers['content-security-policy'];
    expect(csp).toContain("connect-src 'self' https:");
    expect((await askHere('GET', '/')).headers['content-security-policy']).not.toContain('connect-src');
  });
});

describe('shutting out', () => {
  it.each(['at this machine', 'by another program'])('acts at once, also on an open stream: %s', async (how) => {
    const { token, id } = await pair('plain');
    const stream = await openStream(token);
    if (how === 'at this machine')
      expect((await askHere('POST', `/api/shop/devices/${id}/revoke`)).statusCode).toBe(200);
    else {
      const other = must(openShop(join(folder, 'shop')));
      must(other.register.revoke(id, clock.now()));
      other.close();
    }
    await stream.ended;
    expect((await ask('plain', '/api/jobs', { headers: bearer(token) })).json()).toMatchObject({
      code: 'DEVICE_REVOKED',
      status: 401,
    });
  });

  it('leaves the streams of others open', async () => {
    const mine = await openStream((await pair('plain')).token);
    const { token, id } = await pair('plain');
    const theirs = await openStream(token);
    await askHere('POST', `/api/shop/devices/${id}/revoke`);
    await theirs.ended;
    expect(mine.response.destroyed).toBe(false);
    mine.response.destroy();
  });

  it('names an unknown device: DEVICE_NOT_FOUND', async () => {
    expect((await askHere('POST', '/api/shop/devices/device-none/revoke')).json()).toMatchObject({
      code: 'DEVICE_NOT_FOUND',
      status: 404,
    });
  });
});

describe('this machine', () => {
  it('makes a code with links and a picture of the link, and lists devices', async () => {
    const made = (await askHere('POST', '/api/shop/pairing-codes')).json() as {
      code: string;
      links: { tls: string[]; plain: string[] };
      qr: string;
      fingerprint: string;
    };
    expect(made.links.plain[0]).toBe(`http://192.168.7.20:${desk.place?.plainPort}/pair#${made.code}`);
    expect(made.links.tls[0]).toBe(`https://witnessmark.local:${desk.place?.tlsPort}/pair#${made.code}`);
    expect(made.qr).toMatch(/^<svg /);
    expect(made.fingerprint).toBe(desk.place?.certificate.fingerprint);
    await ask('tls', '/pair', { method: 'POST', body: { code: made.code, name: 'Phone' } });
    expect((await askHere('GET', '/api/shop/devices')).json()).toMatchObject([
      { name: 'Phone', over: 'tls', revokedAt: null },
    ]);
  });

  it('needs no pairing, and says LAN_CLOSED when the network’s doors are shut', async () => {
    expect((await askHere('GET', '/api/jobs')).statusCode).toBe(200);
    desk.place = null;
    expect((await askHere('POST', '/api/shop/pairing-codes')).json()).toMatchObject({
      code: 'LAN_CLOSED',
      status: 409,
    });
  });
});

describe('on the wire', () => {
  it('the TLS door is trusted by the authority alone, as fetched from the plain door, and carries name and address', async () => {
    const got = await ask('plain', '/ca.crt');
    expect(got.headers['content-type']).toBe('application/x-x509-ca-cert');
    const ca = new X509Certificate(got.rawPayload).toString();
    const request = https.get({
      host: '127.0.0.1',
      port: desk.place?.tlsPort,
      path: '/pair',
      servername: 'witnessmark.local',
      headers: { host: hostOf('tls') },
      ca,
    });
    const [response] = (await once(request, 'response')) as [http.IncomingMessage];
    const socket = response.socket as tls.TLSSocket;
    expect([response.statusCode, socket.authorized]).toEqual([200, true]);
    expect(socket.getPeerCertificate().subjectaltname).toContain('DNS:witnessmark.local');
    expect(socket.getPeerCertificate().subjectaltname).toContain('IP Address:192.168.7.20');
    response.destroy();
  });

  it('nothing older than TLS 1.2 is spoken', async () => {
    const socket = tls.connect({
      host: '127.0.0.1',
      port: desk.place?.tlsPort ?? 0,
      maxVersion: 'TLSv1.1',
      minVersion: 'TLSv1',
      ciphers: 'DEFAULT@SECLEVEL=0',
      rejectUnauthorized: false,
    });
    const [e] = (await once(socket, 'error')) as [Error];
    expect(e.message).toMatch(/version|alert/i);
  });

  it('a new address brings a new certificate without closing the door', async () => {
    const ca = desk.place?.certificate.authority ?? '';
    addresses = [{ address: '10.0.0.9', cidr: '10.0.0.9/24' }];
    await doors.lookAgain();
    const socket = tls.connect({
      host: '127.0.0.1',
      port: desk.place?.tlsPort ?? 0,
      servername: 'witnessmark.local',
      ca,
    });
    await once(socket, 'secureConnect');
    expect(socket.getPeerCertificate().subjectaltname).toContain('IP Address:10.0.0.9');
    socket.destroy();
    expect(shop.servedAt()?.addresses).toEqual(['10.0.0.9']);
  });

  it.each([
    ['192.168.3.4', true], // RFC 1918
    ['172.31.255.1', true], // RFC 1918
    ['169.254.9.9', true], // RFC 3927
    ['::ffff:10.1.1.1', true],
    ['198.51.100.7', true], // on the same network as the machine; documentation range, RFC 5737
    ['203.0.113.7', false], // documentation range, RFC 5737
    ['172.32.0.1', false],
    ['2001:db8::1', false],
    [undefined, false],
  ])('%s is near: %s', (remote, near) => {
    expect(isNear(remote, [{ address: '198.51.100.1', cidr: '198.51.100.1/24' }])).toBe(near);
  });
});

function routesOf(
  app: FastifyInstance,
): readonly { readonly method: NonNullable<Asking['method']>; readonly url: string }[] {
  const stack: string[] = [];
  return app
    .printRoutes({ commonPrefix: false })
    .split('\n')
    .flatMap((line) => {
      const read = /^([│ ]*)[├└]── (\S*?) \(([A-Z, ]+)\)/.exec(line) ?? /^([│ ]*)[├└]── (\S*)()$/.exec(line);
      if (!read) return [];
      const depth = (read[1] ?? '').length / 4;
      stack.length = depth;
      stack.push(read[2] ?? '');
      const url = stack.join('').replace(':job', 'try').replace(/:\w+/g, 'x');
      const methods = (read[3] ?? '').split(', ').filter((m) => m !== '') as NonNullable<Asking['method']>[];
      return methods.map((method) => ({ method, url }));
    });
}

async function openStream(token: string): Promise<{ response: http.IncomingMessage; ended: Promise<unknown> }> {
  const request = http.get({
    host: '127.0.0.1',
    port: desk.place?.plainPort,
    path: '/api/jobs/try/follow',
    headers: { host: hostOf('plain'), ...bearer(token) },
  });
  const [response] = (await once(request, 'response')) as [http.IncomingMessage];
  const ended = new Promise((done) => response.once('close', done));
  response.on('error', () => undefined);
  await once(response, 'data');
  return { response, ended };
}
