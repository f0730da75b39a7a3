/**
 * From what was photographed to files: one drawing for each shot, made two at a time. The caller keeps the files and tells the
 * history their hashes.
 */
import { join } from 'node:path';
import type { Picture, Shot } from '../history/shots.ts';
import { line } from '../parts.ts';
import { bagPicture, type Lying, type PartBox, partPicture, trayPicture } from './bench-picture.ts';
import { GROUNDS } from './grounds.ts';
import { G1_LOST } from './keel-grid.ts';
import { readSheets, type Sheet } from './read-sheets.ts';
import { boxOf, type Drawing, Grounds, jpegOf } from './render.ts';
import { inPlacePicture, keelPicture, roundPicture, tearPicture, wallPicture } from './shop-pictures.ts';
import { toneOf } from './tones.ts';

const AT_ONCE = 2;
const WALL_PIXELS = 960;
const GROUPS_LOOKED_AT = 4;

export class PictureMaker {
  private readonly sheets: readonly Sheet[];
  private readonly byId: ReadonlyMap<string, Sheet>;
  private readonly grounds = new Grounds();

  /** `top`: the folder of the program, with `demo/drawings` in it. */
  constructor(top: string) {
    this.sheets = readSheets(join(top, 'demo', 'drawings'));
    this.byId = new Map(this.sheets.map((s) => [s.id, s]));
  }

  async make(shot: Shot): Promise<Buffer> {
    return jpegOf(await this.draw(shot.picture, shot.id), shot, this.grounds);
  }

  private async draw(p: Picture, id: string): Promise<Drawing> {
    const ground = GROUNDS[[...id].reduce((sum, c) => sum + (c.codePointAt(0) ?? 0), 0) % GROUNDS.length] ?? 'oak';
    switch (p.show) {
      case 'part': {
        const it = await this.lying(p.line, p.count);
        return { body: it.sheet === null ? bagPicture(it.card) : partPicture(it), ground };
      }
      case 'tray':
        return { body: trayPicture(await Promise.all(p.lines.map(([l, count]) => this.lying(l, count)))), ground };
      case 'in-place': {
        const it = await this.lying(p.line, 1);
        if (it.sheet === null) throw new Error(`internal: no sheet draws ${p.line}; report it`);
        return { body: inPlacePicture(it.sheet, p.line, it.box), ground: null };
      }
      case 'wall':
        return { body: wallPicture(p.wall, p.bags), ground: null, pixels: WALL_PIXELS };
      case 'round':
        return { body: roundPicture(this.byId, p.side), ground: null };
      case 'keel':
        return { body: keelPicture(G1_LOST), ground: null };
      case 'tear':
        return { body: tearPicture(), ground: null };
      default:
        return p satisfies never;
    }
  }

  private async lying(id: string, count: number): Promise<Lying> {
    const l = line(id);
    const card = { code: l.bag, number: l.id, name: l.name, hand: l.hand, count };
    const tone = toneOf(l.material);
    for (const sheet of this.sheets) {
      const found = await largest(sheet, id);
      if (found !== null) return { line: id, sheet, ...found, tone, card };
    }
    return { line: id, sheet: null, marks: '', box: { x: 0, y: 0, w: 1, h: 1 }, tone, card };
  }
}

/** A part that is drawn more than once on a sheet (from the side, and large) is taken where it is largest. */
async function largest(sheet: Sheet, id: string): Promise<{ readonly marks: string; readonly box: PartBox } | null> {
  let best: { readonly marks: string; readonly box: PartBox } | null = null;
  for (const marks of (sheet.parts.get(id) ?? []).slice(0, GROUPS_LOOKED_AT)) {
    const box = await boxOf(sheet, marks);
    if (box !== null && (best === null || box.w * box.h > best.box.w * best.box.h * 1.2)) best = { marks, box };
  }
  return best;
}

/** Calls `take` with each shot's file, in no certain order. */
export async function makePictures(
  shots: readonly Shot[],
  maker: PictureMaker,
  take: (shot: Shot, file: Buffer) => Promise<void>,
): Promise<void> {
  const waiting = [...shots];
  const work = async (): Promise<void> => {
    for (let shot = waiting.shift(); shot !== undefined; shot = waiting.shift()) {
      await take(shot, await maker.make(shot));
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, work));
}
