/** `serve --lan`, `shop`, `pair`, `devices` as a person types them, on a real shop that is being served meanwhile. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type ServeOptions, startServing } from './commands/serve.ts';
import { type Io, Told } from './io.ts';
import { main } from './main.ts';

let dir: string;
let shop: string;

function recordingIo(): { io: Io; said: { out: string; err: string } } {
  const said = { out: '', err: '' };
  const io = {
    out: (t: string) => (said.out += t),
    err: (t: string) => (said.err += t),
    isTerminal: false,
    stdin: () => '',
  };
  return { io, said };
}

async function run(...argv: string[]): Promise<{ code: number; out: string; err: string }> {
  const { io, said } = recordingIo();
  return { code: await main(argv, io), ...said };
}

async function json(...argv: string[]): Promise<unknown> {
  const got = await run(...argv, '--json');
  expect([got.code, got.err]).toEqual([0, '']);
  return JSON.parse(got.out) as unknown;
}

const lan: ServeOptions = { port: '0', lan: true, lanPort: '0', tlsPort: '0' };
const near = () => [{ address: '127.0.0.1', cidr: '127.0.0.1/8' }];

async function toldBy(o: ServeOptions, path: string, addresses = near): Promise<string> {
  try {
    await (await startServing(recordingIo().io, path, o, addresses)).close();
    return 'served';
  } catch (e) {
    return e instanceof Told ? `${e.problem.code} ${e.problem.where}` : String(e);
  }
}

beforeAll(async () => {
  dir = mkdtempSync(join(tmpdir(), 'witnessmark-lan-cli-'));
  shop = join(dir, 'shop');
  expect(await json('shop', shop, '--name', 'Invented Works')).toEqual({ folder: shop, jobs: join(shop, 'jobs') });
  await json('new', join(shop, 'jobs', 'try.job'), '--name', 'A try');
});
afterAll(() => rmSync(dir, { recursive: true, force: true }));

describe('before the shop was served', () => {
  it('pair says so: LAN_NEVER_SERVED', async () => {
    expect((await run('pair', shop)).err).toMatch(/LAN_NEVER_SERVED/);
  });

  it('a job alone has no network: LAN_NEEDS_SHOP', async () => {
    const alone = join(shop, 'jobs', 'try.job');
    const got = await run('serve', alone, '--lan');
    expect([got.code, got.out]).toEqual([1, '']);
    expect(got.err).toMatch(/LAN_NEEDS_SHOP/);
    expect((await run('devices', alone)).err).toMatch(/witnessmark shop FOLDER/);
  });

  it.each([
    ['LAN_NAME --name', { ...lan, name: 'shop.example.com' }, near],
    ['LAN_NO_ADDRESS --lan', lan, () => []],
    ['BAD_OPTION --lan-port', { ...lan, lanPort: 'x' }, near],
    ['BAD_OPTION --lan-port, --tls-port', { ...lan, tlsPort: '70000' }, near],
  ])('%s, and nothing is left open', async (told, o, addresses) => {
    expect(await toldBy(o, shop, addresses)).toBe(told);
    expect(await toldBy({ port: '0' }, shop)).toBe('served');
  });
});

describe('while the shop is served', () => {
  it('links, fingerprint, a picture of the link and a code are printed; the code lets one device in', async () => {
    const { io, said } = recordingIo();
    const serving = await startServing(io, shop, lan, near);
    try {
      const link = /Begin at {3}(http:\/\/127\.0\.0\.1:\d+)\/pair#(\S+)/.exec(said.out);
      expect(said.out).toMatch(/Locked {5}https:\/\/witnessmark\.local:\d+\/pair#/);
      expect(said.out).toMatch(/^([0-9A-F]{2}:){31}[0-9A-F]{2}$/m);
      expect(said.out).toMatch(/█/);
      expect(said.out).not.toMatch(/\b(safe|error|invalid|please)\b/i);
      const told = await pairAt(link?.[1] ?? '', link?.[2] ?? '', 'Floor tablet');
      expect(await json('devices', shop)).toMatchObject([{ id: told.device.id, over: 'plain', revokedAt: null }]);

      const code = (await json('pair', shop)) as { code: string; links: { plain: string[] }; fingerprint: string };
      expect(code.links.plain[0]).toBe(`${link?.[1]}/pair#${code.code}`);
      expect(said.out).toContain(code.fingerprint);
      await pairAt(link?.[1] ?? '', code.code, 'Old phone');

      const jobs = () => fetch(`${link?.[1]}/api/jobs`, { headers: { authorization: `Bearer ${told.token}` } });
      expect(await (await jobs()).json()).toMatchObject([{ id: 'try' }]);
      expect((await run('devices', shop, '--revoke', told.device.id)).out).toBe('Floor tablet is shut out.\n');
      expect((await jobs()).status).toBe(401);
      const listed = (await run('devices', shop)).out;
      expect(listed).toMatch(/Floor tablet.*shut out/);
      expect(listed).toMatch(/Old phone.*seen not yet/);
      expect((await run('devices', shop, '--revoke', 'device-none', '--json')).err).toMatch(/DEVICE_NOT_FOUND/);

      const hello = await (await fetch(`${serving.address}/api/shop/hello`)).json();
      expect(hello).toMatchObject({ shop: 'Invented Works', door: 'this-machine', device: null });
      expect((hello as { version: string }).version).toMatch(/^\d+\.\d+\.\d+$/);
    } finally {
      await serving.close();
    }
  });

  it('says when a port of the network is taken', async () => {
    const { io, said } = recordingIo();
    const serving = await startServing(io, shop, lan, near);
    const port = /Begin at {3}http:\/\/127\.0\.0\.1:(\d+)/.exec(said.out)?.[1] ?? '';
    expect(await toldBy({ ...lan, lanPort: port }, shop)).toBe('PORT_TAKEN --lan-port, --tls-port');
    await serving.close();
  });
});

async function pairAt(address: string, code: string, name: string): Promise<{ device: { id: string }; token: string }> {
  const reply = await fetch(`${address}/pair`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ code, name }),
  });
  expect(reply.status).toBe(201);
  return (await reply.json()) as { device: { id: string }; token: string };
}
