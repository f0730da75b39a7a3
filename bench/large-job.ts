/**
 * A generated job as large as a shop's: 5,000 parts with positions and bags, 25,000 photographs with their three sizes on
 * disk. Each photograph is a real JPEG of its own: one of a few drawn pictures with its number in a comment segment, so
 * that the hash differs. Everything invented; the same on every machine.
 */
import { createHash } from 'node:crypto';
import * as fs from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { bagCode } from '../src/domain/bag-code.ts';
import { makeUlid } from '../src/domain/ids.ts';
import { must } from '../src/domain/result.ts';
import { type DataOf, draftEntry, type EntryDraft, fullKind, type KindName } from '../src/journal/index.ts';
import { createShop } from '../src/store/index.ts';
import { makeBenchRig } from './rig-instances.ts';

const NOUNS = [
  'bracket',
  'rib',
  'bolt',
  'hinge',
  'pulley',
  'fairlead',
  'clip',
  'stringer',
  'bush',
  'spar web',
  'cover',
];
const PLACES = ['forward', 'aft', 'upper', 'lower', 'inner', 'outer', 'port', 'starboard'];
const PHOTOS_EACH = 5;
const BATCH = 5_000;

/** A text that only the part of this number has, as somebody would look for it. */
export function nameOfPart(n: number): string {
  return `${PLACES[n % 8]} ${NOUNS[n % 11]} ${PLACES[(n >> 3) % 8]} ${n}`;
}

async function pictures(): Promise<readonly Buffer[]> {
  const kinds = Array.from({ length: 12 }, (_, k) => k);
  return Promise.all(
    kinds.map((k) =>
      sharp(
        Buffer.from(
          `<svg xmlns="http://www.w3.org/2000/svg" width="320" height="240"><rect width="320" height="240" fill="#d9d3c2"/><circle cx="${60 + k * 16}" cy="120" r="${30 + k * 4}" fill="none" stroke="#1b2430" stroke-width="5"/><path d="M20 ${40 + k * 12}H300" stroke="#555e69" stroke-width="3"/></svg>`,
        ),
      )
        .jpeg({ quality: 72 })
        .toBuffer(),
    ),
  );
}

/** The picture with a comment segment after its first marker: a JPEG of its own. */
function numbered(jpeg: Buffer, n: number): Buffer {
  const words = Buffer.from(`no. ${n}, invented`);
  const head = Buffer.from([0xff, 0xfe, (words.length + 2) >> 8, (words.length + 2) & 255]);
  return Buffer.concat([jpeg.subarray(0, 2), head, words, jpeg.subarray(2)]);
}

export interface LargeJob {
  readonly shop: string;
  readonly job: string;
  readonly parts: number;
  readonly photographs: number;
}

export async function makeLargeJob(folder: string, parts: number): Promise<LargeJob> {
  const shop = must(createShop(folder, 'A large shop (generated, invented)'));
  const job = must(shop.createJob('large'));
  const base = await pictures();
  let count = 0;
  const drafts: EntryDraft[] = [];
  const say = <K extends KindName>(kind: K, data: DataOf<K>): void => {
    const ms = Date.UTC(2026, 0, 5, 8) + count * 1_000;
    const chance = new Uint8Array(10);
    new DataView(chance.buffer).setUint32(6, count++);
    const stamp = { id: makeUlid(ms, chance), at: new Date(ms).toISOString(), by: 'ana', device: 'bench' };
    drafts.push(draftEntry(stamp, fullKind(kind), data));
  };
  say('job-opened', { job: 'large', name: 'Generated job', invented: true });
  say('person-noted', { person: 'ana', name: 'Ana', role: 'lead' });
  const rig = makeBenchRig({ parts, seed: 7 });
  const named = rig.parts.map((p) => ({ ...p, name: nameOfPart(Number(p.id.slice(1))) }));
  say('rig-taken-in', { rig: { ...rig, parts: named }, standing: 'ours' });
  for (let k = 0; k < 40; k++) say('place-noted', { place: `rack-${k}`, name: `Rack ${k + 1}`, kind: 'shelf' });
  const made = new Set<string>();
  for (let n = 0; n < parts; n++) {
    const bag = bagCode(n + 1);
    say('bagged', { bag, opens: true, of: [`p${n}`], place: `rack-${n % 40}` });
    for (let k = 0; k < PHOTOS_EACH; k++) {
      const bytes = numbered(base[(n + k) % base.length] as Buffer, n * PHOTOS_EACH + k);
      const hash = createHash('sha256').update(bytes).digest('hex');
      keep(join(shop.jobPath('large'), 'photos', hash.slice(0, 2), hash.slice(2, 4)), hash, bytes, made);
      say('photo-taken', {
        hash,
        mime: 'image/jpeg',
        bytes: bytes.length,
        width: 320,
        height: 240,
        of: [bag, `p${n}`],
      });
    }
  }
  for (let at = 0; at < drafts.length; at += BATCH) must(await job.journal.append(null, drafts.slice(at, at + BATCH)));
  job.close();
  shop.close();
  return { shop: folder, job: 'large', parts, photographs: parts * PHOTOS_EACH };
}

/** Laid where the store lays it: original, print and thumbnail, all of them small already. */
function keep(folder: string, hash: string, bytes: Buffer, made: Set<string>): void {
  if (!made.has(folder)) fs.mkdirSync(folder, { recursive: true });
  made.add(folder);
  for (const end of ['jpg', 'print.jpg', 'thumb.jpg']) fs.writeFileSync(join(folder, `${hash}.${end}`), bytes);
}
